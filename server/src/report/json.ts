/** A judged plan as plain data, in the order of the text. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import {
  compareDb,
  type ExactDb,
  microToNumber,
  toMetres,
  toNanometres,
  toNumberDb,
} from '../../../grammar/src/quantity/index.ts';
import type {
  ApplicationResult,
  Limit,
  LinkResult,
  PlanResult,
  PlanTotals,
  ReadingResult,
  Term,
  WavelengthResult,
  WayResult,
} from '../evaluate/result.ts';
import { eventJson, inspectionJson, lengthJson } from './evidence-json.ts';
import type {
  FindingJson,
  LinkJson,
  ReadingJson,
  ResultJson,
  VerdictCountsJson,
} from './schema.ts';
import { signalJson } from './signal-json.ts';

export interface JsonInput {
  readonly tool: string;
  readonly result: PlanResult;
  /** Files of the plan as a person writes them, with their texts, in order. */
  readonly files: readonly { readonly path: string; readonly text: string }[];
  /** Where `files` are named from elsewhere than the plan, which its fingerprint must not depend on. */
  readonly fingerprint?: string;
  readonly findings: readonly FindingJson[];
}

export function toJson({
  tool,
  result,
  files,
  findings,
  fingerprint = fingerprintOf(files),
}: JsonInput): ResultJson {
  const { totals } = result;
  const { counts } = totals;
  const links = result.order.flatMap((name) => result.link(name) ?? []);
  return {
    version: 1,
    tool,
    plan: {
      title: result.title ?? null,
      files: files.map(({ path }) => path),
      fingerprint,
    },
    totals: {
      links: totals.links,
      expected_readings: totals.expected,
      present_readings: totals.present,
      verdicts: verdictCountsJson(counts),
      accepted: totals.accepted,
      worst_margin_db: exact(totals.worst?.margin),
    },
    links: links.filter(({ link }) => link.kind === 'link').map(linkJson),
    channels: links.filter(({ link }) => link.kind === 'channel').map(linkJson),
    rings: links.filter(({ link }) => link.kind === 'ring').map(linkJson),
    sections: links.filter(({ link }) => link.kind === 'section').map(linkJson),
    findings: [...findings],
  };
}

export function verdictCountsJson(counts: PlanTotals['counts']): VerdictCountsJson {
  return {
    pass: counts.pass,
    marginal_pass: counts['marginal-pass'],
    marginal_fail: counts['marginal-fail'],
    fail: counts.fail,
    invalid: counts.invalid,
    stale: counts.stale,
    untested: counts.untested,
    not_judged: counts['not-judged'],
    conceded: counts.conceded,
  };
}

/** SHA-256 (FIPS 180-4) over the names and texts of a plan's files; a mark at the beginning and line ends do not count. */
export function fingerprintOf(files: JsonInput['files']): string {
  const whole = files
    .map(({ path, text }) => `${path}\n${text.replace(/^\uFEFF/u, '').replace(/\r\n?/gu, '\n')}`)
    .join('\u0000');
  return bytesToHex(sha256(utf8ToBytes(whole)));
}

function linkJson(result: LinkResult): LinkJson {
  const { link } = result;
  return {
    name: link.name,
    title: link.title ?? null,
    from: [...link.from],
    to: [...link.to],
    length_m: result.length === undefined ? null : toMetres(result.length),
    fibres: [...link.fibres],
    wavelengths: result.wavelengths.map(wavelengthJson),
    applications: result.applications.map((application) =>
      applicationJson(application, [result, ...result.ways]),
    ),
    verdict: result.verdict,
    readings: [...result.readings, ...result.reflectances].map((reading) =>
      readingJson(link.name, reading),
    ),
    events: result.events.map(eventJson),
    inspections: result.inspections.map(inspectionJson),
    lengths: result.lengths.map(lengthJson),
    arrivals: result.arrivals.map(({ fibre, place, port, wanted }) => ({
      fibre,
      place: place ?? null,
      port: port ?? null,
      wanted_place: wanted ?? null,
    })),
    ways: result.ways.map(wayJson),
    worst_way: result.worstWay ?? null,
    signal: signalJson(result),
  };
}

function wayJson(way: WayResult): LinkJson['ways'][number] {
  return {
    name: way.name,
    kind: way.kind,
    fibre: way.way.fibre ?? null,
    cut: way.way.cut ?? null,
    length_m: way.length === undefined ? null : toMetres(way.length),
    wavelengths: way.wavelengths.map(wavelengthJson),
    applications: way.applications.map((application) => applicationJson(application, [way])),
  };
}

function wavelengthJson(at: WavelengthResult): LinkJson['wavelengths'][number] {
  return {
    wavelength_nm: toNanometres(at.wavelength),
    direction: at.direction ?? null,
    reference: at.reference ?? null,
    receive_cord: at.receiveCord,
    expected_db: exact(at.expected),
    mean_and_3_sigma_db: exact(at.statistical),
    percentile: at.percentile
      ? {
          share_percent: at.percentile.share / 10_000,
          loss_db: exact(at.percentile.loss),
          fixed_db: exact(at.percentile.kept),
          parts: [...at.percentile.parts],
        }
      : null,
    worst_db: exact(at.worst),
    limits: at.limits.map((limit) => ({
      kind: limit.kind,
      name: limit.name,
      limit_db: exact(limit.value),
      terms: limit.terms.map(termJson),
      trust: trustOf(limit),
      beside: limit.beside,
      because: limit.because ?? null,
    })),
    governing: at.governing?.kind ?? null,
    limit_db: exact(at.governing?.value),
    design_margin_db: exact(at.designMargin),
  };
}

function termJson({ what, count, length, each, total, source, trust }: Term) {
  return {
    what,
    count: length === undefined ? count : toMetres(length) / 1000,
    each_db: microToNumber(each),
    total_db: toNumberDb(total),
    source,
    trust: trust ?? null,
  };
}

function applicationJson(
  application: ApplicationResult,
  sources: readonly Pick<WayResult, 'power'>[],
): LinkJson['applications'][number] {
  const { lengthLimit, lossLimit } = application;
  const power = sources
    .flatMap((light) => light.power)
    .filter((light) => light.application === application.name);
  return {
    name: application.name,
    support: application.support,
    row: application.row ?? null,
    because: application.because,
    length_limit_m: lengthLimit === undefined ? null : toMetres(lengthLimit),
    loss_limit_db: micro(lossLimit),
    power_margin_db: exact(leastOf(power.map(({ margin }) => margin))),
    overload_margin_db: exact(leastOf(power.map(({ overloadMargin }) => overloadMargin))),
    trust: application.recalled ? 'recalled' : null,
  };
}

/** The weakest of the figures it is made of. */
function trustOf({ recalled, terms }: Limit): 'read' | 'recalled' | null {
  if (recalled) return 'recalled';
  const figures = terms.filter(({ role }) => role !== 'rounding');
  return figures.length > 0 && figures.every(({ trust }) => trust === 'read') ? 'read' : null;
}

export function readingJson(object: string, reading: ReadingResult): ReadingJson {
  return {
    object,
    fibre: reading.fibre,
    wavelength_nm: toNanometres(reading.wavelength),
    direction: reading.direction ?? null,
    attempt: reading.attempt,
    setup: reading.setup || null,
    time: reading.reading?.at.text ?? null,
    reference_dbm: micro(reading.reference),
    power_dbm: micro(reading.power),
    loss_db: micro(reading.loss),
    limit_db: exact(reading.limit?.value),
    margin_db: exact(reading.margin),
    uncertainty_db: microToNumber(reading.uncertainty),
    verdict: reading.verdict,
    current: reading.current,
    limit_kind: reading.limit?.kind ?? null,
    limit_name: reading.limit?.name ?? null,
    limit_trust: reading.limit ? trustOf(reading.limit) : null,
    reason: reading.reason ?? null,
    because: reading.because || null,
    quantity: reading.reading?.quantity ?? 'loss',
    reflectance_db: micro(reading.reading?.reflectance),
    residual_db: exact(reading.residual),
    mates_deviation: reading.matesDeviation ?? null,
  };
}

/** The smallest of margins; unknown as soon as one of them is. */
function leastOf(margins: readonly (ExactDb | undefined)[]): ExactDb | undefined {
  const known = margins.flatMap((margin) => margin ?? []);
  if (known.length < margins.length) return undefined;
  return known.sort(compareDb)[0];
}

function exact(value: ExactDb | undefined): number | null {
  return value === undefined ? null : toNumberDb(value);
}

function micro(value: number | undefined): number | null {
  return value === undefined ? null : microToNumber(value);
}
