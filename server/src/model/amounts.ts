/** Numbers and lists of a declaration that cannot be as they stand, whatever the rest of the plan says. */
import type { BoundEntry, Value } from '../../../grammar/src/bound.ts';
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration } from './declaration.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { namesOf, placeIn, ratioOf, wholeOf } from './values.ts';

export function* amountsAstray(declaration: Declaration): Iterable<ModelFinding> {
  const { kind, entries } = declaration;
  for (const entry of entries) {
    if (kind === W.colours) yield* coloursTwice(entry, declaration);
    if (kind === W.cable && entry.word === W.count) yield* tubesUneven(entry, declaration);
    if (kind === W.splitter && entry.word === W.ports) yield* splitterReversed(entry, declaration);
    if (entry.word === W.fibres && (kind === W.link || kind === W.pattern)) {
      yield* fibreZero(entry, declaration);
    }
  }
}

/** Two fibres of one tube, or two tubes, that nobody tells apart by their colour. */
function* coloursTwice(
  { word, slots }: BoundEntry,
  { name, block }: Declaration,
): Iterable<ModelFinding> {
  if (word !== W.tubes && word !== W.fibres) return;
  const seen = new Map<string, number>();
  for (const [index, value] of (slots.colours ?? []).entries()) {
    for (const colour of namesOf([value])) {
      const key = colour.normalize('NFC').toLowerCase();
      const first = seen.get(key);
      if (first === undefined) {
        seen.set(key, index + 1);
        continue;
      }
      const details = { colour, of: name, first, second: index + 1, what: word };
      yield finding('colour-twice', placeIn(block, value.span), details);
    }
  }
}

function* tubesUneven({ slots }: BoundEntry, { name, block }: Declaration): Iterable<ModelFinding> {
  const [count, tubes] = [wholeOf(slots.number), wholeOf(slots[K.tubes])];
  const value = slots[K.tubes]?.[0];
  if (count === undefined || !tubes || !value || count % tubes === 0) return;
  const each = Math.ceil(count / tubes);
  const details = { cable: name, count, tubes, each, last: count - each * (tubes - 1) };
  yield finding('tubes-uneven', placeIn(block, value.span), details);
}

/** A splitter has fewer inputs than outputs, or as many of both, and at least two outputs. */
function* splitterReversed({ slots }: BoundEntry, { block }: Declaration): Iterable<ModelFinding> {
  const [inputs, outputs] = ratioOf(slots.ratio) ?? [];
  const value = slots.ratio?.[0];
  if (inputs === undefined || outputs === undefined || !value) return;
  if (outputs >= inputs && outputs > 1) return;
  const place = placeIn(block, value.span);
  const turned = `${outputs}:${inputs}`;
  yield finding(
    'splitter-reversed',
    place,
    { ratio: `${inputs}:${outputs}`, inputs, outputs, ...(inputs > 1 && { turned }) },
    inputs > 1 ? { fix: { title: `Change to ${turned}`, edits: [{ place, text: turned }] } } : {},
  );
}

/** Fibres are counted from 1; numbers below it are refused where they are read. */
function* fibreZero({ slots }: BoundEntry, { block }: Declaration): Iterable<ModelFinding> {
  const zero = (slots.fibres ?? []).find(isZero);
  if (zero) yield finding('fibre-zero', placeIn(block, zero.span), {});
}

function isZero(value: Value): boolean {
  return value.kind === 'whole' ? value.value === 0 : value.kind === 'wholes' && value.first === 0;
}
