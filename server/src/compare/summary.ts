/** Figures of a plan for the head of a comparison, and how keys went from verdict to verdict. */
import { type Verdict, verdicts } from '../evaluate/result.ts';
import type { Comparison, Effect, PlanState, Summary } from './types.ts';

export function summaryOf({ result: { totals } }: PlanState): Summary {
  const { links, expected, present, counts, accepted, worst } = totals;
  return {
    objects: links,
    expected,
    present,
    verdicts: counts,
    accepted,
    ...(worst && {
      worst: {
        margin: worst.margin,
        object: worst.link,
        key: {
          object: worst.link,
          fibre: worst.reading.fibre,
          quantity: 'loss',
          wavelength: worst.reading.wavelength,
          ...(worst.reading.direction && { direction: worst.reading.direction }),
        },
      },
    }),
  };
}

/** Keys of losses by verdict on both sides, worst first: what moved by the effects, the rest where it was. */
export function matrixOf(before: Summary, effects: readonly Effect[]): Comparison['matrix'] {
  const stayed: Record<Verdict, number> = { ...before.verdicts };
  const counts = new Map<string, number>();
  for (const effect of effects) {
    if (effect.kind !== 'reading' || effect.key.quantity === 'reflectance') continue;
    const [was, is] = [effect.before?.verdict ?? 'none', effect.after?.verdict ?? 'none'] as const;
    if (was !== 'none') stayed[was] -= 1;
    counts.set(`${was} ${is}`, (counts.get(`${was} ${is}`) ?? 0) + 1);
  }
  for (const verdict of verdicts) {
    const both = `${verdict} ${verdict}`;
    counts.set(both, (counts.get(both) ?? 0) + stayed[verdict]);
  }
  const all = [...verdicts, 'none'] as const;
  return all.flatMap((was) =>
    all.flatMap((is) => {
      const count = counts.get(`${was} ${is}`) ?? 0;
      return count > 0 ? [{ before: was, after: is, count }] : [];
    }),
  );
}
