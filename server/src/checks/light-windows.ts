/** What the checks of power ask: results by light path, and the ways that one attenuator would have to serve. */
import type { ExactDb, MicroDbm } from '../../../grammar/src/quantity/index.ts';
import { exactDb, microDb, printExactDb, subtractDb } from '../../../grammar/src/quantity/index.ts';
import { attenuatorOver } from '../evaluate/power.ts';
import type { LinkResult, PowerResult, Term } from '../evaluate/result.ts';
import { inDb, inNm } from './figures.ts';

/** One direction of one way of light. */
export interface Lit {
  readonly power: PowerResult;
  /** Name of the way; undefined where the object has one. */
  readonly way?: string;
  /** What the two ends of this light have in common however it goes: a branch, or two neighbours of a ring. */
  readonly service: string;
}

export function litWays(result: LinkResult): readonly Lit[] {
  return [
    ...result.power.map((power) => ({ power, service: '' })),
    ...result.ways.flatMap(({ name, kind, way, power }) =>
      power.map((one) => ({
        power: one,
        way: name,
        service: kind === 'long-way' ? (way.cut ?? name) : name,
      })),
    ),
  ];
}

/** Light of one line that fails, the worst first; one finding tells of all its ways, and of both directions where the same is sent. */
export function failing(
  result: LinkResult,
  marginOf: (power: PowerResult) => ExactDb | number | undefined,
): readonly (readonly [Lit, ...Lit[]])[] {
  const groups = new Map<string, [Lit, ...Lit[]]>();
  for (const lit of litWays(result)) {
    const margin = marginOf(lit.power);
    if (margin === undefined || margin >= 0) continue;
    const { place, from, to } = lit.power;
    const key = `${place.block}|${place.span.start}|${from}|${to}`;
    const group = groups.get(key);
    if (group) group.push(lit);
    else groups.set(key, [lit]);
  }
  const by = (a: Lit, b: Lit) => (Number(marginOf(a.power)) < Number(marginOf(b.power)) ? -1 : 1);
  return [...groups.values()].map((group) => group.sort(by));
}

/** What one attenuator would have to take for all ways of a service; undefined where a margin is not known. */
export function attenuatorFor(result: LinkResult, lit: Lit) {
  const { place, direction } = lit.power;
  const shared = litWays(result).filter(
    (other) =>
      other.service === lit.service &&
      other.power.direction === direction &&
      other.power.place.block === place.block &&
      other.power.place.span.start === place.span.start,
  );
  const interval = attenuatorOver(shared.map(({ power }) => power));
  return interval && { ...interval, shared };
}

/** `A-1 to B-1 at 1310 nm A>B`, and the way where there are several. */
export function lightInWords(worst: Lit, others: readonly Lit[] = []): string {
  const { power, way } = worst;
  const both = others.some((other) => other.power.direction !== power.direction);
  const more = new Set(others.flatMap((other) => (other.way === way ? [] : (other.way ?? []))));
  const on = way === undefined ? '' : `, ${way}${more.size > 0 ? ` and ${more.size} more` : ''}`;
  return `${power.from} to ${power.to} at ${inNm(power.wavelength)} ${both ? 'both ways' : power.direction}${on}`;
}

/**
 * What an attenuator must take at least, rounded up to a hundredth, and at most,
 * rounded down: whoever buys by these words is never outside. All digits where a
 * hundredth would leave nothing between.
 */
export function boundsInDb(least: ExactDb, most: ExactDb): readonly [string, string] {
  const [up, down] = [-floorHundredth(-least as ExactDb) as ExactDb, floorHundredth(most)];
  const safe = up <= down || least > most;
  return safe ? [inDb(up), inDb(down)] : [`${printExactDb(least)} dB`, `${printExactDb(most)} dB`];
}

/** Towards less, also below zero. */
function floorHundredth(value: ExactDb): ExactDb {
  const step = exactDb(microDb(10_000));
  const rest = ((value % step) + step) % step;
  return (value - rest) as ExactDb;
}

/** What counts as nothing lost because its fibre states no least attenuation. */
export function uncountedInWords(uncounted: readonly string[]): string {
  if (uncounted.length === 0) return '';
  const [states, counts] = uncounted.length === 1 ? ['states', 'counts'] : ['state', 'count'];
  return ` ${uncounted.join(', ')} ${states} no least attenuation and ${counts} as nothing lost: a known \`min\` narrows this.`;
}

/** `-26.50 dBm`: a power less a loss, with all its digits. */
export function leftInDbm(power: MicroDbm, loss: ExactDb): string {
  return `${inDb(subtractDb(exactDb(microDb(power)), loss))}m`;
}

/** Terms by what they weigh: `fibre OS2 3.2 dB, penalty 2 dB`. */
export function heaviestInWords(terms: readonly Term[]): string {
  return [...terms]
    .sort((a, b) => (a.total < b.total ? 1 : a.total > b.total ? -1 : 0))
    .slice(0, 3)
    .map(({ what, total }) => `${what} ${printExactDb(total)} dB`)
    .join(', ');
}

/** Numbers of a window for scripts. */
export function windowDetails({ power, way }: Lit): Readonly<Record<string, string | number>> {
  const { application, direction, from, to, margin, overloadMargin } = power;
  return {
    application,
    direction,
    from,
    to,
    wavelength: power.wavelength / 1000,
    ...(way === undefined ? {} : { way }),
    ...(margin === undefined ? {} : { margin: Number(printExactDb(margin)) }),
    ...(overloadMargin === undefined
      ? {}
      : { overloadMargin: Number(printExactDb(overloadMargin)) }),
  };
}
