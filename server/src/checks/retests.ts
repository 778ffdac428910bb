/** What several attempts of one reading say together; how each of them counts was decided before. */
import type { ReadingResult } from '../evaluate/result.ts';
import type { LinkContext } from './check.ts';

/** The reading that stands, with the good ones before it of the same fibre, wavelength and direction, in order of time. */
export interface Retested {
  readonly current: ReadingResult;
  readonly earlier: readonly ReadingResult[];
}

const kept = new WeakMap<readonly ReadingResult[], readonly Retested[]>();

/** Only what was read more than once; void and withdrawn attempts are left out. */
export function retestedIn({ result: { readings } }: LinkContext): readonly Retested[] {
  const known = kept.get(readings);
  if (known) return known;
  const byKey = new Map<string, ReadingResult[]>();
  for (const reading of readings) {
    if (reading.attempt === null || reading.verdict === 'invalid') continue;
    const key = `${reading.fibre} ${reading.wavelength} ${reading.direction}`;
    const there = byKey.get(key);
    if (there) there.push(reading);
    else byKey.set(key, [reading]);
  }
  const found = [...byKey.values()].flatMap((attempts): Retested[] => {
    if (attempts.length < 2) return [];
    const current = attempts.find((attempt) => attempt.current);
    if (!current || current.verdict === 'stale') return [];
    const earlier = attempts
      .filter(({ attempt }) => attempt! < current.attempt!)
      .sort((a, b) => a.attempt! - b.attempt!);
    return earlier.length > 0 ? [{ current, earlier }] : [];
  });
  kept.set(readings, found);
  return found;
}

/** Work on a fibre, and repairs of it, after one reading and not after another. */
export function workBetween(
  { evidence, link }: LinkContext,
  before: ReadingResult,
  after: ReadingResult,
): readonly string[] {
  const [from, to] = [before.reading?.at.to ?? 0, after.reading?.at.from ?? 0];
  const touches = (fibres: readonly number[] | undefined) =>
    fibres === undefined || fibres.includes(after.fibre);
  return [
    ...evidence.work.flatMap(({ done, on, fibres }) =>
      on.to >= from && on.from <= to && touches(fibres) ? [done] : [],
    ),
    ...link.repairs.flatMap(({ name, on, fibres }) =>
      on.to >= from && on.from <= to && touches(fibres) ? [`repair ${name}`] : [],
    ),
  ];
}
