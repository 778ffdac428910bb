/** The full table of a record: a row for every reading made, in every attempt, and every reading to make. */
import type { LinkResult, ReadingResult } from '../../evaluate/result.ts';
import { placeName } from '../../model/ways.ts';
import type { FieldValue } from '../fleet/table.ts';
import { readingJson } from '../json.ts';
import { liesIn } from '../sheet/task.ts';
import type { Recorded, RecordState } from './recorded.ts';

/** Names of columns with their units, in their order. */
export const recordColumns = [
  'object',
  'title',
  'fibre',
  'port_a',
  'port_b',
  'lies_in',
  'wavelength_nm',
  'direction',
  'attempt',
  'stands',
  'quantity',
  'power_dbm',
  'reference_dbm',
  'loss_db',
  'reflectance_db',
  'no_light',
  'limit_db',
  'limit_kind',
  'limit_name',
  'limit_trust',
  'margin_db',
  'uncertainty_db',
  'verdict',
  'because',
  'tested_at',
  'tested_by',
  'setup',
  'remark',
  'record_state',
  'record_date',
  'plan_revision',
  'plan_fingerprint',
] as const;

export type RecordRow = Readonly<Record<(typeof recordColumns)[number], FieldValue>>;

export function recordRows(recorded: Recorded, state: RecordState): readonly RecordRow[] {
  const { plan } = recorded;
  return plan.result.order.flatMap((name) => {
    const result = plan.result.link(name);
    if (!result) return [];
    return [...result.readings, ...result.reflectances].map((reading) =>
      rowOf(recorded, state, result, reading),
    );
  });
}

function rowOf(
  { plan, asOf }: Recorded,
  { state, fingerprint }: RecordState,
  result: LinkResult,
  reading: ReadingResult,
): RecordRow {
  const { link } = result;
  const json = readingJson(link.name, reading);
  const fibre = result.fibres.find((each) => each.fibre === reading.fibre);
  return {
    object: link.name,
    title: link.title ?? null,
    fibre: link.ways.length > 0 ? placeName(link, reading.fibre) : reading.fibre,
    port_a: fibre?.fromPort ?? null,
    port_b: fibre?.toPort ?? null,
    lies_in: liesIn(link, reading.fibre) || null,
    wavelength_nm: json.wavelength_nm,
    direction: json.direction,
    attempt: json.attempt,
    stands: json.current,
    quantity: json.quantity,
    power_dbm: json.power_dbm,
    reference_dbm: json.reference_dbm,
    loss_db: json.loss_db,
    reflectance_db: json.reflectance_db,
    no_light: reading.reading?.typed === 'dark',
    limit_db: json.limit_db,
    limit_kind: json.limit_kind,
    limit_name: json.limit_name,
    limit_trust: json.limit_trust,
    margin_db: json.margin_db,
    uncertainty_db: json.uncertainty_db,
    verdict: json.verdict,
    because: json.because,
    tested_at: json.time,
    tested_by: reading.reading?.by ?? null,
    setup: json.setup,
    remark: reading.reading?.remark ?? null,
    record_state: state,
    record_date: asOf,
    plan_revision: plan.settings.revision?.text ?? null,
    plan_fingerprint: fingerprint,
  };
}
