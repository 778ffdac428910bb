/**
 * Judges one link, channel or ring: pure, from its model, its evidence and an
 * explicit instant. Equal input gives equal results; nothing is read from a
 * clock or a locale, and nothing is judged by the order of the text.
 */
import {
  compareDb,
  type ExactDb,
  type Micrometres,
  microDb,
  micrometres,
} from '../../../grammar/src/quantity/index.ts';
import type { Absence, Instrument, LinkModel, ReadingCell } from '../model/types.ts';
import { isTree } from '../model/ways.ts';
import { doubtsOfBatch } from './batch.ts';
import {
  type Batch,
  type BatchDoubt,
  batchesOf,
  goodOf,
  unusualOf,
  withoutTold,
} from './batches.ts';
import { concede } from './concede.ts';
import { type Context, contextOf, type EvaluationInput } from './context.ts';
import { isAccepted } from './decide.ts';
import { arrangementsOf, designOf } from './design.ts';
import {
  doubtsOfDesign,
  doubtsOfLimits,
  doubtsOfSupport,
  withoutSameLoss,
} from './design-doubts.ts';
import { doubtsOfCoverage, doubtsOfReading, doubtsOfValidity } from './doubts.ts';
import { expectedKeys, type Key, keyText } from './expected.ts';
import { doubtsOfKeys } from './keys.ts';
import { hasUnknownLength } from './living.ts';
import { doubtsOfMating } from './mating.ts';
import { otherEvidence } from './other-evidence.ts';
import { lengthsOf } from './path.ts';
import { doubtsOfPatterns } from './patterns.ts';
import { fewReadingsOf } from './patterns-level.ts';
import { arrivalsOf, doubtsOfPolarity } from './polarity.ts';
import { portAt } from './ports.ts';
import { powerOf } from './power.ts';
import { doubtsOfReflectance, reflectancesOf } from './reflectance.ts';
import { riseJudged } from './repairs.ts';
import {
  type Doubt,
  type FibreResult,
  type LinkResult,
  type ReadingResult,
  type Verdict,
  verdicts,
  type WayResult,
} from './result.ts';
import { type Settled, settle } from './settle.ts';
import { doubtsOfPorts, doubtsOfSharing } from './shared-lines.ts';
import { signalOf } from './signal.ts';
import { applicationOf, supportOf } from './support.ts';
import { emptyCounts } from './totals.ts';
import { isLater, untilNow } from './until-now.ts';
import { judgeWays } from './ways.ts';

export function evaluateLink(all: EvaluationInput): LinkResult {
  const input = untilNow(all);
  const context = contextOf(input);
  const { link, settings } = context;
  const expected = expectedKeys(link);
  const wanted = new Set(expected.map((key) => keyText(key.fibre, key.wavelength, key.direction)));
  const noticed: BatchDoubt[] = [];
  const settled = conceded(context, riseJudged(context, settle(context), noticed), noticed);
  const good = goodOf(context, settled);
  const batches = batchesOf(context, good);
  const arrangements = arrangementsOf(context, settled);
  const ways = link.ways.length > 0 ? judgeWays(context, settled, arrangements) : undefined;
  const wavelengths = ways ? (ways.worst?.wavelengths ?? []) : designOf(context, arrangements);
  // Of a tree every end may lack a figure of its own.
  const designs = ways ? new Set(ways.ways.map((way) => way.wavelengths)) : [wavelengths];
  const supports = ways?.supports ?? supportOf(context, settled);
  const other = otherEvidence(context, settled);
  const arrivals = arrivalsOf(link);
  const reflectances = reflectancesOf(context);
  const missing = expected.flatMap((key) =>
    settled.get(keyText(key.fibre, key.wavelength, key.direction))?.current
      ? []
      : [untested(key, absenceOf(input.evidence.absences, key))],
  );
  noticed.push(
    ...doubtsOfMating(link),
    ...doubtsOfKeys(link),
    ...doubtsOfPolarity(link, arrivals),
    ...doubtsOfPorts(link),
    ...doubtsOfSharing(link, input.channels ?? []),
    ...doubtsOfValidity(settled),
    ...doubtsOfPatterns(context, settled, good, batches),
    ...doubtsOfBatch(context, settled),
    ...[...designs].flatMap((design) => [...doubtsOfLimits(context, design)]),
    ...withoutSameLoss(
      [
        ...doubtsOfDesign(context, wavelengths, ways?.worst?.name),
        ...doubtsOfSupport(ways?.told ?? supports),
      ],
      missing.length === 0 && expected.length > 0,
    ),
    ...doubtsOfCoverage(context, expected, settled),
    ...calibrations(context, settled),
    ...other.doubts,
    ...doubtsOfReflectance(reflectances),
  );

  const doubts = withoutTold(noticed);
  const results = resultsOf(context, settled, batches, wanted);
  const missingBy = byFibre(missing);
  const fibres = link.fibres.flatMap((fibre, place) => {
    const standing = results.current.get(fibre) ?? [];
    // Nothing is asked of a cable by itself: only what was read of it is shown.
    if (link.kind === 'section' && standing.length === 0) return [];
    const all = [...standing, ...(missingBy.get(fibre) ?? [])];
    return [fibreResult(link, fibre, place, all, other.verdicts.get(fibre))];
  });
  const judged = fibres.flatMap((fibre) => judgedOf(fibre.current));
  const counts = emptyCounts();
  for (const reading of fibres.flatMap((fibre) => fibre.current)) counts[reading.verdict]++;
  const verdict = worstOf([...judged, ...asVerdicts(other.verdicts)]) ?? 'not-judged';
  const readings = [...results.all, ...missing];
  return {
    link,
    length: lengthOf(context, ways?.ways),
    wavelengths,
    applications: supports.map(applicationOf),
    fibres,
    readings: input.readingLimit === undefined ? readings : readings.slice(0, input.readingLimit),
    reflectances,
    verdict,
    counts,
    expected: expected.length,
    present: expected.length - missing.length,
    accepted:
      // A channel or ring of which no reading is wanted has nothing to be accepted.
      (judged.length > 0 || link.kind === 'channel' || link.kind === 'ring') &&
      judged.every((reading) => isAccepted(reading.verdict, settings)) &&
      [...other.verdicts.values()].every((each) => isAccepted(each, settings)),
    waitsFor: [],
    worstMargin: worstMargin(judged),
    doubts: isTree(link) ? doubts.map((doubt) => withEnd(doubt, link)) : doubts,
    ways: ways?.ways ?? [],
    worstWay: ways?.worst?.name,
    power: powerOf(context),
    signal: signalOf(context, link.terms.measure),
    events: other.events,
    inspections: other.inspections,
    lengths: other.lengths,
    arrivals,
    few: fewReadingsOf(batches),
  };
}

const excess: ReadonlySet<string> = new Set(['over-limit', 'marginal-fail', 'rise-after-repair']);

/** Concessions applied, and what each standing reading gives to say. */
function conceded(
  context: Context,
  settled: ReadonlyMap<string, Settled>,
  doubts: Doubt[],
): ReadonlyMap<string, Settled> {
  const { evidence, asOf } = context.input;
  const result = new Map<string, Settled>();
  for (const [key, one] of settled) {
    const { settled: after, spent, short } = concede(one, evidence.concessions, asOf);
    result.set(key, after);
    const said = [...doubtsOfReading(context, one, spent, short)];
    // The excess behind a concession stays on the record, as what it is: accepted.
    const accepted =
      after.current?.result.verdict === 'conceded' ? after.current.result : undefined;
    doubts.push(
      ...(accepted
        ? said.map((doubt) =>
            excess.has(doubt.name)
              ? {
                  ...doubt,
                  name: 'excess-conceded',
                  details: { ...doubt.details, because: accepted.because },
                }
              : doubt,
          )
        : said),
    );
  }
  return result;
}

/** All attempts in order of the text, and those that stand, by fibre. */
function resultsOf(
  context: Context,
  settled: ReadonlyMap<string, Settled>,
  batches: readonly Batch[],
  wanted: ReadonlySet<string>,
): {
  readonly all: readonly ReadingResult[];
  readonly current: ReadonlyMap<number, readonly ReadingResult[]>;
} {
  const unusual = unusualOf(context, batches);
  const all: { readonly result: ReadingResult; readonly cell: ReadingCell }[] = [];
  const current = new Map<number, ReadingResult[]>();
  for (const one of settled.values()) {
    for (const attempt of one.attempts) {
      const { withdrawn } = attempt;
      const stands = attempt === one.current;
      const base: ReadingResult = {
        ...attempt.result,
        ...unusual.get(attempt),
        attempt: attempt.number,
        current: stands,
        expectedSet: wanted.has(one.key),
      };
      const result: ReadingResult = withdrawn
        ? {
            ...base,
            verdict: 'invalid',
            because: `withdrawn by ${withdrawn.by}: ${withdrawn.because}`,
            reason: 'withdrawn',
          }
        : base;
      all.push({ result, cell: attempt.measurement.cell });
      if (!stands) continue;
      const known = current.get(result.fibre);
      if (known) known.push(result);
      else current.set(result.fibre, [result]);
    }
  }
  all.sort((a, b) => a.cell.order - b.cell.order);
  return { all: all.map(({ result }) => result), current };
}

function fibreResult(
  link: LinkModel,
  fibre: number,
  place: number,
  standing: readonly ReadingResult[],
  beside: Verdict | undefined,
): FibreResult {
  const current = [...standing].sort(byKey);
  const way = link.ways[place];
  return {
    fibre,
    ...(way?.kind === 'branch' && { end: way.name }),
    fromPort: portAt(link, 'A', fibre, place),
    toPort: portAt(link, 'B', fibre, place),
    verdict:
      worstOf([...judgedOf(current), ...(beside ? [{ verdict: beside }] : [])]) ?? 'not-judged',
    current,
  };
}

/** An end of a tree is known by its port. */
function withEnd(doubt: Doubt, { fibres, ways }: LinkModel): Doubt {
  const { fibre } = doubt.details;
  const way = typeof fibre === 'number' ? ways[fibres.indexOf(fibre)] : undefined;
  return way ? { ...doubt, details: { ...doubt.details, end: way.name } } : doubt;
}

/** Of a tree that of its longest way; of a ring once round. */
function lengthOf(context: Context, ways: readonly WayResult[] = []): Micrometres | undefined {
  const { link, path } = context;
  if (!isTree(link)) return hasUnknownLength(link) ? undefined : lengthsOf(path.pieces).cable;
  const lengths = ways.map(({ length }) => length);
  const known = lengths.filter((length) => length !== undefined);
  return known.length < lengths.length ? undefined : micrometres(Math.max(...known));
}

function byFibre(readings: readonly ReadingResult[]): ReadonlyMap<number, ReadingResult[]> {
  const groups = new Map<number, ReadingResult[]>();
  for (const reading of readings) {
    const group = groups.get(reading.fibre);
    if (group) group.push(reading);
    else groups.set(reading.fibre, [reading]);
  }
  return groups;
}

/** What counts for the verdict: what is expected; where nothing is, whatever was read. */
function judgedOf(current: readonly ReadingResult[]): readonly ReadingResult[] {
  const expected = current.filter((reading) => reading.expectedSet);
  return expected.length > 0 ? expected : current;
}

const asVerdicts = (verdicts: ReadonlyMap<number, Verdict>) =>
  [...verdicts.values()].map((verdict) => ({ verdict }));

function worstOf(readings: readonly Pick<ReadingResult, 'verdict'>[]): Verdict | undefined {
  return verdicts.find((verdict) => readings.some((reading) => reading.verdict === verdict));
}

function byKey(a: ReadingResult, b: ReadingResult): number {
  if (a.wavelength !== b.wavelength) return a.wavelength - b.wavelength;
  const [first, second] = [a.direction ?? '', b.direction ?? ''];
  return first < second ? -1 : first > second ? 1 : 0;
}

function untested(key: Key, absence: Absence | undefined): ReadingResult {
  return {
    ...key,
    attempt: null,
    uncertainty: microDb(0),
    verdict: 'untested',
    current: true,
    because: absence?.remark ? `not read: ${absence.remark}` : '',
    reason: absence?.remark ? 'not-accessible' : undefined,
    expectedSet: true,
  };
}

function absenceOf(absences: readonly Absence[], key: Key): Absence | undefined {
  return absences.find(
    (absence) =>
      absence.fibre === key.fibre &&
      absence.wavelength === key.wavelength &&
      (absence.direction === undefined || absence.direction === key.direction),
  );
}

/** Readings that are void, aged, accepted by concession or judged by no limit do not stand for the link. */
const setAside: ReadonlySet<Verdict> = new Set(['invalid', 'stale', 'conceded', 'not-judged']);

function worstMargin(readings: readonly ReadingResult[]): LinkResult['worstMargin'] {
  let worst: { margin: ExactDb; reading: ReadingResult } | undefined;
  for (const reading of readings) {
    const { margin, verdict } = reading;
    if (margin === undefined || setAside.has(verdict)) continue;
    if (!worst || compareDb(margin, worst.margin) < 0) worst = { margin, reading };
  }
  return worst;
}

/** Instruments that were past due on the day they were used. */
function* calibrations(context: Context, settled: ReadonlyMap<string, Settled>): Iterable<Doubt> {
  const late = new Map<string, { instrument: Instrument; cell: ReadingCell; readings: number }>();
  for (const { current } of settled.values()) {
    const cell = current?.measurement.cell;
    // A reading of the future is told as that: its year is wrong, and no calibration for it.
    if (!cell || isLater(cell.at, context.input.asOf)) continue;
    const setup = context.input.setup(cell.setup);
    if (!setup) continue;
    for (const instrument of [setup.source, setup.meter]) {
      if (!instrument?.due || cell.at.to <= instrument.due.to) continue;
      const key = `${setup.name} ${instrument.text}`;
      const known = late.get(key) ?? { instrument, cell, readings: 0 };
      known.readings++;
      late.set(key, known);
    }
  }
  for (const { instrument, cell, readings } of late.values()) {
    yield {
      name: 'calibration-expired',
      place: cell.place,
      related: [
        { place: instrument.place, message: `${instrument.text}, due ${instrument.due?.text}` },
      ],
      details: {
        setup: cell.setup,
        instrument: instrument.text,
        due: instrument.due?.text ?? '',
        tested: cell.at.text,
        readings,
      },
    };
  }
}
