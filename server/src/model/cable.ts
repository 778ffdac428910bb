/** Builds a cable: its fibre, its count, its reels, and the length that limits use. */
import { addLengths, type Micrometres, micrometres } from '../../../grammar/src/quantity/index.ts';
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration } from './declaration.ts';
import type { Built, ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { keeping } from './kept.ts';
import { entriesOf } from './like.ts';
import { allOf, declaredOf, firstOf } from './lines.ts';
import { buildColours, buildFibre, typeOf } from './parts.ts';
import { reelsOf } from './reels.ts';
import { cableRepairs } from './repair.ts';
import type { PlacedEntry, Scope } from './scope.ts';
import type { Cable, Reel } from './types.ts';
import { lengthOf, locationOf, nameOf, placeOf, shareOf, wholeOf } from './values.ts';

/** A cable with its repairs. */
export const buildCable = keeping((declaration: Declaration, scope: Scope): Built<Cable> => {
  const body = buildBody(declaration, scope);
  const { lines } = entriesOf(declaration, scope);
  if (!lines.some(({ entry }) => entry.word === W.repair)) return body;
  const { repairs, findings } = cableRepairs(body.model, lines, scope, buildBody);
  return { model: { ...body.model, repairs }, findings: [...body.findings, ...findings] };
});

/** A cable as it was laid: what a repair puts in may be of another cable, so that repairs come after it. */
const buildBody = keeping((declaration: Declaration, scope: Scope): Built<Cable> => {
  const { lines, findings: mistakes } = entriesOf(declaration, scope);
  const fibreLine = firstOf(lines, W.fibre);
  const count = firstOf(lines, W.count)?.entry;
  const coloursLine = firstOf(lines, W.colours);
  const jacketLine = firstOf(lines, W.jacket);
  const slack = allOf(lines, W.slack).reduce(
    (sum, { entry }) => addLengths(sum, lengthOf(entry.slots.length) ?? micrometres(0)),
    micrometres(0),
  );
  const { reels, joints, findings } = reelsOf(declaration.name, lines, scope);
  // A length taken over by `like` is not this cable's, if it has reels of its own.
  const own = firstOf(lines, W.length);
  const said =
    reels.length > 0 && own && !declaration.entries.includes(own.entry) ? undefined : own;
  const sheath = reels.length > 0 ? sumOf(reels) : lengthOf(said?.entry.slots.length);
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
      reels,
      joints,
      colours: coloursLine && typeOf(W.colours, buildColours, coloursLine, scope),
      jacket: jacketLine && jacketOf(jacketLine),
      repairs: [],
      from: nameOf(firstOf(lines, W.from)?.entry.slots.place),
      to: nameOf(firstOf(lines, W.to)?.entry.slots.place),
      routes: allOf(lines, W.route).flatMap(({ entry }) => nameOf(entry.slots.place) ?? []),
    },
    findings: [...mistakes, ...findings, ...lengthFindings(declaration, said, reels)],
  };
});

function jacketOf(line: PlacedEntry): Cable['jacket'] {
  const colour = nameOf(line.entry.slots.colour);
  return colour === undefined ? undefined : { colour, place: placeOf(line) };
}

function* lengthFindings(
  declaration: Declaration,
  line: PlacedEntry | undefined,
  reels: readonly Reel[],
): Iterable<ModelFinding> {
  const { name: cable, namePlace, open, misread } = declaration;
  if (!line) {
    const missing = reels.length === 0 && !open && misread.length === 0;
    if (missing) yield finding('cable-length-missing', namePlace, { cable });
    return;
  }
  const length = lengthOf(line.entry.slots.length);
  const written = locationOf(line.entry.slots.length) ?? '';
  if (reels.length > 0) {
    yield finding('length-beside-reels', placeOf(line), { what: cable, reels: reels.length });
  } else if (length !== undefined && length <= 0) {
    yield finding('length-not-positive', placeOf(line), { length: written });
  }
}

/** Undefined where a reel has none. */
function sumOf(reels: readonly Reel[]): Micrometres | undefined {
  let sum = micrometres(0);
  for (const { length } of reels) {
    if (length === undefined) return undefined;
    sum = addLengths(sum, length);
  }
  return sum;
}

/** How many fibres lie in a tube of a cable; undefined where it does not say in how many they lie. */
export function fibresPerTube(cable: Pick<Cable, 'count' | 'tubes'>): number | undefined {
  return cable.tubes ? Math.ceil(cable.count / cable.tubes) : undefined;
}

/** Fibres that lie in a tube (fibre n lies in tube ⌈n ÷ per tube⌉); undefined where the cable has no such tube. */
export function fibresOfTube(cable: Cable, tube: number): readonly number[] | undefined {
  const perTube = fibresPerTube(cable);
  if (!perTube || tube < 1 || tube > (cable.tubes ?? 0)) return undefined;
  const first = (tube - 1) * perTube + 1;
  const last = Math.min(tube * perTube, cable.count);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => first + index);
}
