/** Builds a link, channel or ring: its places, its path, what is wanted of it, and what its structure lacks. */
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import { buildCable } from './cable.ts';
import type { Declaration } from './declaration.ts';
import type { Built, ModelFinding } from './finding.ts';
import { keeping } from './kept.ts';
import { buildSplitter, typeOf } from './parts.ts';
import { elementsOf } from './path.ts';
import { type Layout, layOut, type PathLine } from './placing.ts';
import { inheritedRepairs, linkRepairs, treeRepairs } from './repair.ts';
import { resolve, unknownName, unknownNames } from './resolve.ts';
import { closeRing } from './ring.ts';
import type { PlacedEntry, Scope } from './scope.ts';
import { checkStructure } from './structure.ts';
import { buildTerms, type Layers, silencesOf } from './terms.ts';
import { branches, growTree, type Stretch } from './tree.ts';
import type { FibreType, LinkModel, Mode, PathElement, RingNode, Split, Way } from './types.ts';
import { isUnread } from './unread.ts';
import { nameOf, namesOf, placeOf, wavelengthOf, wholesOf } from './values.ts';
import { elementsIn } from './ways.ts';

/** A link, channel or ring, or a row of `links` or `channels`. */
export const buildLink = keeping((declaration: Declaration, scope: Scope): Built<LinkModel> => {
  const layout = layOut(declaration, scope);
  const crosses = declaration.kind === W.channel || declaration.kind === W.ring;
  const laidOut = lay(declaration, layout, scope);
  const { path, ways, n } = layout.broken ? withUnknown(laidOut, declaration) : laidOut;
  const fibreTypes = fibreTypesOf(elementsIn({ path, ways }));
  const mode = modeOf(path, fibreTypes);
  const layers = layout.layers;
  const own = layers.flat();
  const misread = isMisread(declaration, layers);
  const unjudged = laidOut.unjudged === true || layout.broken;
  const dead = nearestOf(layers, W.dead);
  const deadBecause = nameOf(dead?.entry.slots[K.because]) ?? '';
  const isAssembly = path[0]?.kind === 'plug' && path.at(-1)?.kind === 'plug';
  const { splits, nodes } = laidOut;
  const terms = buildTerms(layers, crosses, { mode, fibres: fibreTypes, isAssembly }, scope);
  const unread =
    misread || unjudged || terms.unread || [...elementsIn({ path, ways })].some(isUnread);
  const numbers = wholesOf(nearestOf(layers, W.fibres)?.entry.slots.fibres);
  const fibres = numbers ?? upTo(splits ? ways.length : (n ?? 0));
  const laid: LinkModel = {
    kind: kindOf(declaration),
    name: declaration.name,
    title: declaration.title,
    was: declaration.was,
    place: declaration.place,
    namePlace: declaration.namePlace,
    from: namesOf(nearestOf(layers, W.from)?.entry.slots.port),
    to: namesOf(nearestOf(layers, W.to)?.entry.slots.port),
    fibres,
    spare: wholesOf(nearestOf(layers, W.spare)?.entry.slots.fibres) ?? [],
    dead: (wholesOf(dead?.entry.slots.fibres) ?? []).map((fibre) => ({
      fibre,
      because: deadBecause,
    })),
    path,
    ways: numbered(ways, fibres),
    ...(splits && { splits }),
    ...(nodes && { nodes }),
    repairs: [],
    wavelength: wavelengthOf(nearestOf(layers, W.wavelength)?.entry.slots.wavelength),
    terms,
    silence: silencesOf(own),
    notes: own.flatMap(({ entry }) =>
      entry.word === W.note ? (nameOf(entry.slots.text) ?? []) : [],
    ),
    mode,
    ...(unread && { unread: true as const }),
    ...(declaration.table && { row: declaration.place }),
    pattern: declaration.table?.pattern?.name,
  };
  const mended = linkRepairs(laid, own, scope);
  const inherited = splits ? treeRepairs(laid.ways) : inheritedRepairs(path, fibres);
  const repairs = [...inherited, ...mended.repairs];
  const model = { ...laid, repairs: repairs.sort((a, b) => a.on.from - b.on.from) };
  const findings: ModelFinding[] = [
    ...namesUnknown(declaration, scope),
    ...layout.findings,
    ...laidOut.findings,
    ...mended.findings,
    ...checkStructure({
      model,
      n,
      open: declaration.open || misread,
      unjudged,
      layers,
      stretches: laidOut.stretches,
    }),
  ];
  if (misread || unjudged || linksUnread(path)) {
    return { model, findings: findings.filter(({ name }) => !needsAllLines.has(name)) };
  }
  return { model, findings };
});

/** Said of what a link has, which is not known where a line or a link that gives it is not read. */
const needsAllLines: ReadonlySet<string> = new Set([
  'fibre-out-of-range',
  'fibres-missing',
  'count-mismatch',
  'array-not-filled',
  'span-missing',
  'node-missing',
]);

const linksUnread = (path: readonly PathElement[]): boolean =>
  path.some((element) => element.kind === 'link' && isUnread(element));

interface LaidOut {
  readonly path: readonly PathElement[];
  readonly ways: readonly Way[];
  readonly splits?: readonly Split[];
  readonly nodes?: readonly RingNode[];
  readonly stretches: readonly Stretch[];
  readonly findings: readonly ModelFinding[];
  readonly unjudged?: boolean;
  /** Places of it; of a tree those that feed its first splitter. */
  readonly n: number | undefined;
}

/** The elements of a path: in one run, from split to split, or round a ring. */
function lay(declaration: Declaration, layout: Layout, scope: Scope): LaidOut {
  const { layers, path: lines } = layout;
  const { name, namePlace } = declaration;
  if (declaration.kind !== W.ring && branches(lines)) {
    const first = lines.find(({ entry }) => entry.word === W.split);
    const inputs = first && typeOf(W.splitter, buildSplitter, first, scope)?.inputs;
    const feeds = namesOf(nearestOf(layers, W.from)?.entry.slots.port).length;
    const n = Math.max(1, Math.min(feeds, inputs ?? 1));
    const line = nearestOf(layers, W.to);
    const to = line && { values: line.entry.slots.port ?? [], place: placeOf(line) };
    return { ...growTree(lines, { link: name, place: namePlace, n, to }, scope, buildLink), n };
  }
  const crosses = declaration.kind === W.channel || declaration.kind === W.ring;
  const n = placesOf(layers, lines, crosses, scope);
  if (declaration.kind === W.ring) {
    return { ...closeRing(lines, { name, place: namePlace, n }, scope, buildLink), n };
  }
  const made = elementsOf(lines, n, name, scope, buildLink);
  return { ...made, ways: [], stretches: [{ elements: made.path, n }], n };
}

function kindOf({ kind }: Declaration): LinkModel['kind'] {
  return kind === W.channel || kind === W.ring ? kind : 'link';
}

/** Ends of a tree under the numbers that the link gives them. */
function numbered(ways: readonly Way[], fibres: readonly number[]): readonly Way[] {
  const given = ways.every(({ fibre }, index) => fibre === undefined || fibre === fibres[index]);
  if (given || ways.length !== fibres.length) return ways;
  return ways.map((way, index) => ({ ...way, fibre: fibres[index]! }));
}

function withUnknown(laidOut: LaidOut, declaration: Declaration): LaidOut {
  const unknown = unknownPart(declaration);
  return {
    ...laidOut,
    path: [...laidOut.path, unknown],
    ways: laidOut.ways.map((way) => ({ ...way, path: [...way.path, unknown] })),
  };
}

/** Stands for what a missing pattern would hold: of unknown length, so that no sum over the path comes out. */
function unknownPart({ place }: Declaration): PathElement {
  return { kind: 'segment', deliberate: false, fibreName: '', place };
}

/** Some line could not be read, so that what seems to be missing may stand there. */
function isMisread(declaration: Declaration, layers: Layers): boolean {
  const misread = [...declaration.misread, ...(declaration.table?.misread ?? [])];
  if (misread.some(({ word }) => word !== W.note)) return true;
  return layers.some((layer) => layer.some(({ entry }) => entry.word === ''));
}

/** Of the declaration's own text; that of its table is judged with the first row. */
function namesUnknown(declaration: Declaration, scope: Scope): readonly ModelFinding[] {
  const { table, block, misread } = declaration;
  const context = kindOf(declaration) as typeof W.link | typeof W.channel | typeof W.ring;
  const own = unknownNames(declaration.entries, context, block, scope, misread);
  if (!table || !declaration.first) return own;
  const shared = unknownNames(
    table.entries,
    context === W.channel ? W.channels : W.links,
    block,
    scope,
    table.misread,
  );
  const pattern = table.pattern;
  const unknown =
    pattern &&
    unknownName(
      [W.pattern],
      { kind: 'name', span: pattern.place.span, text: pattern.name },
      pattern.place,
      scope,
    );
  return [...(unknown ? [unknown] : []), ...shared, ...own];
}

function nearestOf(layers: Layers, word: string): PlacedEntry | undefined {
  for (const layer of layers) {
    const line = layer.find(({ entry }) => entry.word === word);
    if (line) return line;
  }
  return undefined;
}

const upTo = (n: number): number[] => Array.from({ length: n }, (_, index) => index + 1);

/**
 * How many places a link has: the count of `fibres`, else of the ports of
 * `from`. Where neither is said, of `to`, then of the first fibres that its
 * path takes from a cable. A channel has those it takes of its links.
 */
function placesOf(
  layers: Layers,
  path: readonly PathLine[],
  isChannel: boolean,
  scope: Scope,
): number | undefined {
  if (isChannel) {
    for (const line of path) {
      const taken = line.entry.word === W.link ? placesTaken(line, scope) : undefined;
      if (taken !== undefined) return taken;
    }
  }
  const fibres = wholesOf(nearestOf(layers, W.fibres)?.entry.slots.fibres);
  if (fibres && fibres.length > 0) return fibres.length;
  for (const word of [W.from, W.to]) {
    const ports = namesOf(nearestOf(layers, word)?.entry.slots.port);
    if (ports.length > 0) return ports.length;
  }
  for (const line of path) {
    const taken = line.entry.word === W.segment ? cablePlaces(line, scope) : undefined;
    if (taken !== undefined) return taken;
  }
  return undefined;
}

function placesTaken(line: PathLine, scope: Scope): number | undefined {
  const listed = wholesOf(line.entry.slots[K.fibres]);
  if (listed) return listed.length;
  const link = resolve(W.link, line.entry.slots.link?.[0], scope);
  const n = link && buildLink(link, scope).model.fibres.length;
  return n === 0 ? undefined : n;
}

function cablePlaces(line: PathLine, scope: Scope): number | undefined {
  const { slots } = line.entry;
  if (nameOf(slots.cable) === undefined) return undefined;
  const listed = wholesOf(slots[K.fibres]);
  if (listed) return listed.length;
  const declaration = resolve(W.cable, slots.cable?.[0], scope);
  if (!declaration || slots[K.tube]) return undefined;
  return buildCable(declaration, scope).model.count || undefined;
}

function fibreTypesOf(path: Iterable<PathElement>): readonly FibreType[] {
  const types: FibreType[] = [];
  for (const element of path) {
    if (element.kind === 'segment' || element.kind === 'cord') {
      if (element.fibre) types.push(element.fibre);
    } else if (element.kind === 'link' && element.link) {
      types.push(...fibreTypesOf(elementsIn(element.link)));
    }
  }
  return types;
}

function modeOf(path: readonly PathElement[], fibres: readonly FibreType[]): Mode | undefined {
  const modes = new Set(fibres.map(({ mode }) => mode));
  const [mode] = modes;
  return modes.size === 1 && path.length > 0 ? mode : undefined;
}
