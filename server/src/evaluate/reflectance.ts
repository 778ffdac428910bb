/**
 * Reflectance read at a fibre's end, beside the losses. Light that goes A>B is
 * sent back at end A, so the direction names the connector. A reflectance is
 * negative, and without its sign it is the return loss, of which more is
 * better: −48 dB keeps a least return loss of 45 dB (the definitions of
 * IEC 61300-3-6). It is judged without uncertainty, which the plan states of
 * loss tests, and never enters a loss.
 */
import {
  type ExactDb,
  exactDb,
  type MicroDb,
  microDb,
} from '../../../grammar/src/quantity/index.ts';
import type { ReadingCell } from '../model/types.ts';
import type { Context } from './context.ts';
import { decideLower } from './decide.ts';
import { exact } from './doubts.ts';
import { returnLossLimit } from './event-limits.ts';
import { keyText } from './expected.ts';
import { agingWork, covers } from './measurement.ts';
import { db, inDb, nm } from './reasons.ts';
import type { Doubt, ReadingResult } from './result.ts';
import { type Joint, jointInWords } from './stations.ts';

type Judged = Pick<ReadingResult, 'verdict' | 'because'> &
  Partial<Pick<ReadingResult, 'limit' | 'margin' | 'reason'>>;

/** All attempts in order of the text; the last of a key that stands is its current one. */
export function reflectancesOf(context: Context): readonly ReadingResult[] {
  const { readings, withdrawals } = context.input.evidence;
  const cells = readings.filter(({ quantity }) => quantity === 'reflectance');
  if (cells.length === 0) return [];
  const byKey = new Map<string, ReadingCell[]>();
  for (const cell of cells) {
    const key = keyText(cell.fibre, cell.wavelength, cell.direction);
    byKey.set(key, [...(byKey.get(key) ?? []), cell]);
  }
  const results: ReadingResult[] = [];
  for (const attempts of byKey.values()) {
    attempts.sort((a, b) => a.at.from - b.at.from || a.at.to - b.at.to || a.order - b.order);
    const judged = attempts.map((cell, index): ReadingResult => {
      const withdrawn = withdrawals.find((one) => covers(one, cell));
      const verdict: Judged = withdrawn
        ? {
            verdict: 'invalid',
            because: `withdrawn by ${withdrawn.by}: ${withdrawn.because}`,
            reason: 'withdrawn',
          }
        : verdictOf(cell, context);
      return {
        fibre: cell.fibre,
        wavelength: cell.wavelength,
        direction: cell.direction,
        attempt: index + 1,
        reading: cell,
        setup: cell.setup,
        uncertainty: microDb(0),
        current: false,
        expectedSet: false,
        ...verdict,
      };
    });
    const stands =
      judged.findLast(({ verdict }) => verdict !== 'invalid') ??
      judged.findLast(({ reason }) => reason !== 'withdrawn');
    results.push(...judged.map((one) => (one === stands ? { ...one, current: true } : one)));
  }
  return results.sort((a, b) => (a.reading?.order ?? 0) - (b.reading?.order ?? 0));
}

function verdictOf(cell: ReadingCell, context: Context): Judged {
  const { fibre, at, direction, reflectance, setup } = cell;
  if (!context.input.setup(setup)) {
    const because = setup === '' ? 'no set-up is named' : `there is no set-up ${setup}`;
    return { verdict: 'invalid', because, reason: 'setup-unknown' };
  }
  if (reflectance === undefined) return notJudged('no value could be read', 'value-missing');
  if (reflectance > 0) {
    const because = `a reflectance is negative: ${inDb(reflectance)} is a return loss, and is written as ${inDb(-reflectance)}`;
    return { verdict: 'invalid', because, reason: 'reflectance-positive' };
  }
  const work = agingWork(context.work, cell, context.sharing);
  if (work) {
    const because = `${work.done} on ${work.on.text}, after it was measured`;
    return { verdict: 'stale', because, reason: 'work' };
  }
  if (direction === undefined) return notJudged('which end it is of is not said', 'no-direction');
  const end = direction === 'A>B' ? 'A' : 'B';
  const joint = jointAt(context.along(fibre, at.from), end);
  if (!joint) return notJudged(`no connector stands at end ${end}`, 'no-limit');
  const limit = returnLossLimit(joint, context.link, cell.wavelength);
  if (limit?.value === undefined || limit.floor === undefined) {
    return notJudged(`no return loss is asked of ${jointInWords(joint)} at end ${end}`, 'no-limit');
  }
  const returned = microDb(-reflectance);
  return {
    verdict: decideLower(returned, limit.floor, microDb(0), context.settings.decision.rule),
    because: `return loss ${inDb(returned, limit.floor)} of ${inDb(limit.floor, returned)} at least, at end ${end}`,
    limit,
    margin: (exactDb(returned) - limit.value) as ExactDb,
  };
}

const notJudged = (because: string, reason: string): Judged => ({
  verdict: 'not-judged',
  because,
  reason,
});

function jointAt({ path, link }: Context, side: 'A' | 'B'): Joint | undefined {
  const end = path.ends[side];
  if ((end.kind !== 'socket' && end.kind !== 'plug') || end.name === undefined) return undefined;
  const kind = end.kind === 'socket' ? 'pair' : 'plug';
  return { kind, name: end.name, type: end.type, place: link.namePlace };
}

/** What is said of those that stand: too much light sent back, a number with the wrong sign, no limit to judge by. */
export function* doubtsOfReflectance(results: readonly ReadingResult[]): Iterable<Doubt> {
  for (const result of results) {
    const { reading, verdict, limit, margin, because, reason } = result;
    if (!result.current || !reading) continue;
    const details = {
      fibre: result.fibre,
      wavelength: nm(result.wavelength),
      ...(result.direction ? { direction: result.direction } : {}),
      value: db(reading.reflectance ?? (0 as MicroDb)),
      because,
    };
    if (reason === 'reflectance-positive') {
      yield { name: 'reflectance-positive', place: reading.place, details };
    }
    if (verdict === 'not-judged') {
      yield { name: 'reflectance-not-judged', place: reading.place, details };
    }
    if (verdict !== 'fail' || limit?.value === undefined || margin === undefined) continue;
    yield {
      name: 'return-loss-low',
      place: reading.place,
      details: {
        ...details,
        part: `the connector at end ${result.direction === 'B>A' ? 'B' : 'A'}`,
        limit: exact(limit.value),
        limitName: limit.name,
        over: exact((margin < 0n ? -margin : margin) as ExactDb),
      },
    };
  }
}
