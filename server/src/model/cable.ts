/** Builds a cable: its fibre, its count, and the length that limits use. */
import { addLengths, micrometres } from '../../../grammar/src/quantity/index.ts';
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration } from './declaration.ts';
import type { Built } from './finding.ts';
import { finding } from './findings.ts';
import { keeping } from './kept.ts';
import { entriesOf } from './like.ts';
import { allOf, buildFibre, declaredOf, firstOf, typeOf } from './parts.ts';
import type { PlacedEntry, Scope } from './scope.ts';
import type { Cable } from './types.ts';
import { lengthOf, locationOf, nameOf, placeOf, shareOf, wholeOf } from './values.ts';

export const buildCable = keeping((declaration: Declaration, scope: Scope): Built<Cable> => {
  const { lines, findings: mistakes } = entriesOf(declaration, scope);
  const findings = [...mistakes];
  const fibreLine = firstOf(lines, W.fibre);
  const count = firstOf(lines, W.count)?.entry;
  const lengthLine = firstOf(lines, W.length);
  const sheath = lengthOf(lengthLine?.entry.slots.length);
  const slack = allOf(lines, W.slack).reduce(
    (sum, { entry }) => addLengths(sum, lengthOf(entry.slots.length) ?? micrometres(0)),
    micrometres(0),
  );
  if (lengthLine && sheath !== undefined && sheath <= 0) {
    findings.push(
      finding('length-not-positive', placeOf(lengthLine), { length: writtenLength(lengthLine) }),
    );
  }
  return {
    model: {
      kind: 'cable',
      ...declaredOf(declaration, lines),
      fibre: fibreLine && typeOf(W.fibre, buildFibre, fibreLine, scope),
      fibreName: nameOf(fibreLine?.entry.slots.fibre) ?? '',
      count: wholeOf(count?.slots.number) ?? 0,
      tubes: wholeOf(count?.slots[K.tubes]),
      length: sheath === undefined ? undefined : addLengths(sheath, slack),
      slack,
      excess: shareOf(firstOf(lines, W.excess)?.entry.slots.share),
      reels: [],
      joints: [],
      repairs: [],
    },
    findings,
  };
});

/** Whether its length is that of reels and the splices between them. */
export function hasReels(declaration: Declaration, scope: Scope): boolean {
  return entriesOf(declaration, scope).lines.some(({ entry }) => entry.word === W.reel);
}

/** Fibres that lie in a tube (fibre n lies in tube ⌈n ÷ per tube⌉); undefined where the cable has no such tube. */
export function fibresOfTube(cable: Cable, tube: number): readonly number[] | undefined {
  if (!cable.tubes || tube < 1 || tube > cable.tubes) return undefined;
  const perTube = Math.ceil(cable.count / cable.tubes);
  const first = (tube - 1) * perTube + 1;
  const last = Math.min(tube * perTube, cable.count);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => first + index);
}

/** A length as it was written: `0 m`. */
function writtenLength(line: PlacedEntry): string {
  return locationOf(line.entry.slots.length) ?? '';
}
