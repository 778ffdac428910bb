/** The record as plain data: units in names, unknown as null, the results in the form that the schema of results names. */
import { microToNumber, toMetres, toNanometres } from '../../../../grammar/src/quantity/index.ts';
import type { Setup, When } from '../../model/types.ts';
import { fingerprintOf, toJson } from '../json.ts';
import type { FindingJson } from '../schema.ts';
import {
  answeredIn,
  concessionsIn,
  exceptionsIn,
  retestsIn,
  untestedIn,
  withdrawalsIn,
  workIn,
} from './exceptions.ts';
import { judgedBy } from './judged.ts';
import { pathFrom, type Recorded, type RecordState } from './recorded.ts';
import type { RecordForm } from './schema.ts';
import { sealOf, writtenSeal } from './seal.ts';
import { setupsIn } from './setups.ts';

export function recordJson(recorded: Recorded, state: RecordState): string {
  return `${JSON.stringify(recordForm(recorded, state), null, 2)}\n`;
}

function recordForm(recorded: Recorded, state: RecordState): RecordForm {
  const { plan, tool, files, asOf } = recorded;
  const { client, site, revision, zone, adopt } = plan.settings;
  return {
    version: 1,
    document: 'acceptance record',
    state: state.state,
    date: asOf,
    seal: writtenSeal(sealOf(recorded, state)),
    missing: [...state.missing],
    job: {
      client: client ?? null,
      site: site ?? null,
      revision: revision?.text ?? null,
      revision_date: revision?.on ?? null,
      zone: zone ?? null,
      files: files.map((file) => ({ path: file.path, fingerprint: fingerprintOf([file]) })),
    },
    judged_by: judgedBy(recorded).flatMap(([what, value]) => (value ? [{ what, value }] : [])),
    adopted: adopt.map(({ name, by, on }) => ({ name, by, on: on ?? null })),
    exceptions: [...exceptionsIn(recorded)],
    concessions: [...concessionsIn(recorded)],
    withdrawn: [...withdrawalsIn(recorded)],
    read_again: retestsIn(recorded).map((each) => ({ ...each, attempts: [...each.attempts] })),
    not_tested: [...untestedIn(recorded)],
    doubts_answered: [...answeredIn(recorded)],
    work: [...workIn(recorded)],
    setups: setupsIn(recorded).map(setupJson),
    results: toJson({ tool, result: plan.result, files, findings: findingsOf(recorded) }),
  };
}

function findingsOf({ plan }: Recorded): readonly FindingJson[] {
  return [...plan.allFindings()].flatMap(([, findings]) =>
    findings.flatMap(({ name, severity, message, place, silenced }) => {
      const at = plan.locate(place);
      if (!at || silenced !== undefined) return [];
      const { start, end } = at.range;
      return [
        {
          name,
          severity,
          file: pathFrom(plan.root, at.uri),
          range: { start: { ...start }, end: { ...end } },
          message,
          page: `server/findings.md#${name}`,
        },
      ];
    }),
  );
}

function setupJson({
  name,
  reference,
  direct,
  source,
  meter,
  launch,
  cords,
  events,
  otdr,
}: Setup): RecordForm['setups'][number] {
  return {
    name,
    reflectometer: otdr ?? false,
    reference: reference ?? null,
    far_plug_in_meter: direct,
    source: instrumentJson(source),
    meter: instrumentJson(meter),
    launch: launch?.condition ?? null,
    cords: cords.map((cord) => ({
      name: cord.name,
      role: cord.role,
      connector: cord.connector,
      fibre: cord.fibre,
      grade: cord.grade ?? null,
      length_m: cord.length === undefined ? null : toMetres(cord.length),
      verified_db: cord.verified === undefined ? null : microToNumber(cord.verified),
      since: timeOf(cord.since),
    })),
    events: events.map((event) => ({
      kind: event.kind,
      time: event.at.text,
      wavelength_nm: 'wavelength' in event ? toNanometres(event.wavelength) : null,
      power_dbm: 'power' in event ? microToNumber(event.power) : null,
      cord: 'cord' in event ? event.cord : null,
      loss_db: 'loss' in event ? microToNumber(event.loss) : null,
      because: 'because' in event ? (event.because ?? null) : null,
    })),
  };
}

function instrumentJson(instrument: Setup['source']): RecordForm['setups'][number]['source'] {
  if (!instrument) return null;
  const { text, light, wavelengths, floor, calibrated, due } = instrument;
  return {
    name: text,
    light: light ?? null,
    wavelengths_nm: wavelengths.map(toNanometres),
    floor_dbm: floor === undefined ? null : microToNumber(floor),
    calibrated: timeOf(calibrated),
    due: timeOf(due),
  };
}

function timeOf(when: When | undefined): string | null {
  return when?.text ?? null;
}
