/**
 * Measured lengths against the declared ones. A trace reads the length of the
 * fibre, which lies in the cable as a helix and is a little longer than the
 * sheath. Up to the larger of 3 % and 15 m is that; beyond it the fibre, the
 * group index or the record is another, and the shorter of the two lengths is
 * what limits may count. Common practice, no source.
 */
import type { Micrometres } from '../../../grammar/src/quantity/index.ts';
import { micrometres, toMetres } from '../../../grammar/src/quantity/index.ts';
import type { LengthCell } from '../model/types.ts';
import { middleOf } from '../optics/index.ts';
import { type Bounds, boundsOf } from './bounds.ts';
import type { Context, EvaluationInput } from './context.ts';
import { numbersInWords } from './doubts.ts';
import { hasUnknownLength } from './living.ts';
import { agingWork, covers } from './measurement.ts';
import { lengthsOf } from './path.ts';
import { nm } from './reasons.ts';
import type { Doubt, LengthResult } from './result.ts';
import { lengthInWords } from './rows.ts';
import { indicesOf, inGlass, isAway, percentOver } from './stations.ts';

const known = new WeakMap<EvaluationInput, readonly LengthResult[]>();

/** The length that stands for each fibre: the last one measured and not withdrawn. */
export function lengthResults(context: Context): readonly LengthResult[] {
  const before = known.get(context.input);
  if (before) return before;
  const results = judgedLengths(context);
  known.set(context.input, results);
  return results;
}

/** Whether a length that still stands is further from the declared one than a helix takes it. */
export function differs(
  { length, declared, verdict }: LengthResult,
  bound: Bounds['length'],
): boolean {
  return verdict !== 'stale' && declared !== undefined && isAway(length, declared, bound);
}

function judgedLengths(context: Context): readonly LengthResult[] {
  const { lengths, withdrawals } = context.input.evidence;
  const last = new Map<number, LengthCell>();
  for (const cell of lengths) {
    if (withdrawals.some((one) => covers(one, cell))) continue;
    const before = last.get(cell.fibre);
    if (!before || cell.at.from >= before.at.from) last.set(cell.fibre, cell);
  }
  return [...last.values()]
    .map((cell) => judgeLength(cell, context))
    .sort((a, b) => a.fibre - b.fibre);
}

const noLengths: ReturnType<typeof lengthsOf> = {};

function judgeLength(cell: LengthCell, whole: Context): LengthResult {
  const context = whole.along(cell.fibre, cell.at.from);
  const setup = context.input.setup(cell.setup);
  const { pieces } = context.path;
  const indices = indicesOf(setup, pieces, cell.wavelength);
  const length = inGlass(cell.length, indices);
  const unknown = hasUnknownLength(context.link);
  const { cable, along } = unknown ? noLengths : lengthsOf(pieces);
  const base = {
    fibre: cell.fibre,
    end: cell.end,
    cell,
    length,
    declared: along,
    cable,
    ...(indices && indices.set !== indices.glass && { indices }),
  };
  const work = agingWork(context.work, cell, context.sharing);
  if (work) {
    const because = `${work.done} on ${work.on.text}, after it was measured`;
    return { ...base, verdict: 'stale', because };
  }
  if (cable === undefined || along === undefined) {
    return { ...base, verdict: 'not-judged', because: 'the plan does not say how long it is' };
  }
  const bound = boundsOf(whole.settings).length;
  const because = differenceInWords(length, cable, along, bound);
  if (isAway(length, along, bound)) return { ...base, verdict: 'not-judged', because };
  return { ...base, verdict: 'pass', because };
}

/** `14.35 km, 1.06 % over the 14.2 km of the cable: fibre lies in it as a helix`. */
function differenceInWords(
  length: Micrometres,
  cable: Micrometres,
  along: Micrometres,
  bound: Bounds['length'],
): string {
  const percent = percentOver(length, cable);
  const size = Math.abs(percent).toFixed(2);
  const difference =
    percent < 0 ? `${size} % under` : percent > 0 ? `${size} % over` : 'as long as';
  const said = `${lengthInWords(length)}, ${difference} the ${lengthInWords(cable)} declared`;
  if (percent <= 0 || isAway(length, along, bound)) return said;
  return `${said}: the fibre lies in its cable as a helix and is longer than the sheath`;
}

export function* doubtsOfLengths(
  context: Context,
  lengths: readonly LengthResult[],
): Iterable<Doubt> {
  const bound = boundsOf(context.settings).length;
  const converted = lengths.filter((one) => one.indices && one.verdict !== 'stale');
  const [first] = converted;
  if (first?.indices) {
    yield {
      name: 'index-converted',
      place: first.cell.place,
      details: {
        fibre: first.fibre,
        lengths: converted.length,
        set: first.indices.set,
        glass: Number(first.indices.glass.toFixed(6)),
        shown: toMetres(first.cell.length),
        length: toMetres(first.length),
        ...(first.cell.wavelength === undefined ? {} : { wavelength: nm(first.cell.wavelength) }),
      },
    };
  }
  for (const alike of differingAlike(lengths, bound)) {
    const [one] = alike;
    const { cell, cable } = one!;
    if (cable === undefined) continue;
    const length = micrometres(Math.round(middleOf(alike.map((each) => each.length))));
    yield {
      name: 'length-differs',
      place: cell.place,
      details: {
        fibre: cell.fibre,
        ...(alike.length > 1 && {
          measured: alike.length,
          fibres: numbersInWords(alike.map(({ fibre }) => fibre)),
        }),
        length: toMetres(length),
        declared: toMetres(cable),
        percent: percentOver(length, cable),
        shorter: Math.min(toMetres(length), toMetres(cable)),
      },
    };
  }
}

/** Where no fibre of a path has the length that is declared and all agree with each other, it is the record that differs: once for all. */
function differingAlike(
  lengths: readonly LengthResult[],
  bound: Bounds['length'],
): readonly (readonly LengthResult[])[] {
  const paths = new Map<Micrometres | undefined, LengthResult[]>();
  for (const one of lengths) {
    if (one.verdict === 'stale') continue;
    const { declared } = one;
    paths.set(declared, [...(paths.get(declared) ?? []), one]);
  }
  return [...paths.values()].flatMap((all) => {
    const apart = all.filter((one) => differs(one, bound));
    const middle = micrometres(Math.round(middleOf(all.map(({ length }) => length))));
    const alike =
      apart.length === all.length && all.every(({ length }) => !isAway(length, middle, bound));
    return alike ? [apart] : apart.map((one) => [one]);
  });
}
