/** Traces, end faces and lengths of one link as plain data. */
import {
  microToNumber,
  toMetres,
  toNanometres,
  toNumberDb,
} from '../../../grammar/src/quantity/index.ts';
import type { EventResult, InspectionResult, LengthResult } from '../evaluate/result.ts';
import type { EventJson, InspectionJson, LengthJson } from './schema.ts';

export function eventJson(event: EventResult): EventJson {
  const { fibre, end, kind, distance, wavelength, quantity, forward, back, sum } = event;
  return {
    fibre,
    end: end ?? null,
    kind,
    at_m: toMetres(distance),
    wavelength_nm: toNanometres(wavelength),
    quantity,
    forward_db: micro(forward?.value),
    back_db: micro(back?.value),
    sum_db: micro(sum),
    part: event.part ?? null,
    limit_db: event.limit?.value === undefined ? null : toNumberDb(event.limit.value),
    margin_db: event.margin === undefined ? null : toNumberDb(event.margin),
    verdict: event.verdict,
    because: event.because,
  };
}

export function inspectionJson(face: InspectionResult): InspectionJson {
  const { fibre, end, side, seen, cell, verdict, because } = face;
  return {
    fibre,
    end: end ?? null,
    side,
    seen: seen ?? null,
    time: cell?.at.text ?? null,
    criterion: cell?.criterion ?? null,
    verdict,
    because,
  };
}

export function lengthJson(measured: LengthResult): LengthJson {
  const { fibre, end, cell, length, declared, verdict, because } = measured;
  return {
    fibre,
    end: end ?? null,
    length_m: toMetres(length),
    shown_m: toMetres(cell.length),
    declared_m: declared === undefined ? null : toMetres(declared),
    time: cell.at.text,
    verdict,
    because,
  };
}

function micro(value: number | undefined): number | null {
  return value === undefined ? null : microToNumber(value);
}
