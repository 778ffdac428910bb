/** Builds a link or channel: its places, its path, what is wanted of it, and what its structure lacks. */
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import { buildCable } from './cable.ts';
import type { Declaration } from './declaration.ts';
import type { Built, ModelFinding } from './finding.ts';
import { keeping } from './kept.ts';
import { elementsOf } from './path.ts';
import { layOut, type PathLine } from './placing.ts';
import { inheritedRepairs, linkRepairs } from './repair.ts';
import { resolve, unknownName, unknownNames } from './resolve.ts';
import type { PlacedEntry, Scope } from './scope.ts';
import { checkStructure } from './structure.ts';
import { buildTerms, type Layers, silencesOf } from './terms.ts';
import type { FibreType, LinkModel, Mode, PathElement } from './types.ts';
import { nameOf, namesOf, wavelengthOf, wholesOf } from './values.ts';

/** A link or channel, or a row of `links` or `channels`. */
export const buildLink = keeping((declaration: Declaration, scope: Scope): Built<LinkModel> => {
  const layout = layOut(declaration, scope);
  const isChannel = declaration.kind === W.channel;
  const n = placesOf(layout.layers, layout.path, isChannel, scope);
  const elements = elementsOf(layout.path, n, declaration.name, scope, buildLink);
  const path = layout.broken ? [...elements.path, unknownPart(declaration)] : elements.path;
  const fibreTypes = fibreTypesOf(path);
  const mode = modeOf(path, fibreTypes);
  const layers = layout.layers;
  const own = layers.flat();
  const dead = nearestOf(layers, W.dead);
  const deadBecause = nameOf(dead?.entry.slots[K.because]) ?? '';
  const fibres = wholesOf(nearestOf(layers, W.fibres)?.entry.slots.fibres) ?? upTo(n ?? 0);
  const laid: LinkModel = {
    kind: isChannel ? 'channel' : 'link',
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
    ways: [],
    repairs: [],
    wavelength: wavelengthOf(nearestOf(layers, W.wavelength)?.entry.slots.wavelength),
    terms: buildTerms(layers, isChannel, { mode, fibres: fibreTypes }, scope),
    silence: silencesOf(own),
    notes: own.flatMap(({ entry }) =>
      entry.word === W.note ? (nameOf(entry.slots.text) ?? []) : [],
    ),
    mode,
    ...(declaration.table && { row: declaration.place }),
    pattern: declaration.table?.pattern?.name,
  };
  const mended = linkRepairs(laid, own, scope);
  const repairs = [...inheritedRepairs(path, fibres), ...mended.repairs];
  const model = { ...laid, repairs: repairs.sort((a, b) => a.on.from - b.on.from) };
  const findings: ModelFinding[] = [
    ...namesUnknown(declaration, scope),
    ...layout.findings,
    ...elements.findings,
    ...mended.findings,
    ...checkStructure({
      model,
      n,
      open: declaration.open || isMisread(declaration, layout.layers),
      unjudged: elements.unjudged || layout.broken,
      layers,
      lines: layout.path,
    }),
  ];
  return { model, findings };
});

/** Stands for what a missing pattern would hold: of unknown length, so that no sum over the path comes out. */
function unknownPart({ place }: Declaration): PathElement {
  return { kind: 'segment', deliberate: false, fibreName: '', place };
}

/** Some line could not be read, so that what seems to be missing may stand there. */
function isMisread(declaration: Declaration, layers: Layers): boolean {
  if (declaration.misread.length > 0 || declaration.table?.misread.length) return true;
  return layers.some((layer) => layer.some(({ entry }) => entry.word === ''));
}

/** Of the declaration's own text; that of its table is judged with the first row. */
function namesUnknown(declaration: Declaration, scope: Scope): readonly ModelFinding[] {
  const { table, block, misread } = declaration;
  const context = declaration.kind === W.channel ? W.channel : W.link;
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

function fibreTypesOf(path: readonly PathElement[]): readonly FibreType[] {
  return path.flatMap((element) => {
    if (element.kind === 'segment' || element.kind === 'cord') return element.fibre ?? [];
    return element.kind === 'link' && element.link ? fibreTypesOf(element.link.path) : [];
  });
}

function modeOf(path: readonly PathElement[], fibres: readonly FibreType[]): Mode | undefined {
  const modes = new Set(fibres.map(({ mode }) => mode));
  const [mode] = modes;
  return modes.size === 1 && path.length > 0 ? mode : undefined;
}
