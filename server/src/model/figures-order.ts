/** Figures of one line that stand the wrong way round: a least above a greatest. */
import type { BoundEntry, Value } from '../../../grammar/src/bound.ts';
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import type { BlockId } from './types.ts';
import { placeIn } from './values.ts';

type Quantity = Extract<Value, { kind: 'quantity' }>;

/** Slots of an entry that rise in this order; of `fibre` in an application, `loss` is the greatest. */
function risingSlots({ word, slots }: BoundEntry): readonly string[] {
  if (word === W.fibre && slots[K.loss] && slots[K.min]) return [K.min, K.loss];
  if (word === W.wavelength && (slots[K.min] || slots[K.max])) return [K.min, W.wavelength, K.max];
  return [K.min, K.typ, K.max];
}

/** At most one finding an entry, those of its block included. */
export function* figuresOutOfOrder(
  entries: readonly BoundEntry[],
  block: BlockId,
): Iterable<ModelFinding> {
  for (const entry of entries) {
    const figures = risingSlots(entry).flatMap((slot) => {
      const value = entry.slots[slot]?.[0];
      return value?.kind === 'quantity' ? [{ slot, value }] : [];
    });
    const index = figures.findIndex(
      ({ value }, at) => at > 0 && value.base < figures[at - 1]!.value.base,
    );
    if (index > 0) yield outOfOrder(figures[index - 1]!, figures[index]!, block);
    if (entry.body) yield* figuresOutOfOrder(entry.body.entries, block);
  }
}

interface Named {
  readonly slot: string;
  readonly value: Quantity;
}

function outOfOrder(lower: Named, upper: Named, block: BlockId): ModelFinding {
  const written = ({ value }: Named) => `${value.digits} ${value.unit.name}`;
  const places = [lower, upper].map(({ value }) => placeIn(block, value.span));
  const [first, second] = places as [(typeof places)[number], (typeof places)[number]];
  return finding(
    'figures-out-of-order',
    first.span.start < second.span.start ? second : first,
    {
      lower: `${lower.slot} ${written(lower)}`,
      upper: `${upper.slot} ${written(upper)}`,
    },
    {
      fix: {
        title: `Exchange ${written(lower)} and ${written(upper)}`,
        edits: [
          { place: first, text: written(upper) },
          { place: second, text: written(lower) },
        ],
      },
    },
  );
}
