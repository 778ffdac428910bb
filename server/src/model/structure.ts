/** What the structure of a link, channel or ring lacks or contradicts: counts, ranges, ends and joints. */
import { printMicro } from '../../../grammar/src/quantity/index.ts';
import { W } from '../../../grammar/src/vocabulary/index.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { numbersInWords } from './numbers.ts';
import type { PlacedEntry } from './scope.ts';
import type { Layers } from './terms.ts';
import type { Stretch } from './tree.ts';
import type { LinkModel, PathElement, Place } from './types.ts';
import { placeOf } from './values.ts';
import { isTree } from './ways.ts';

interface Structure {
  readonly model: LinkModel;
  /** Number of places; undefined if not known. */
  readonly n: number | undefined;
  /** Its brace stands open: what is missing is not asked for. */
  readonly open: boolean;
  /** Part of the path is left out: ends and joints cannot be told. */
  readonly unjudged: boolean;
  readonly layers: Layers;
  /** Runs of its path: one, but where light is divided or a ring has spans. */
  readonly stretches: readonly Stretch[];
}

export function checkStructure(structure: Structure): readonly ModelFinding[] {
  const { model, stretches } = structure;
  return [
    ...checkPlaces(structure),
    ...checkNumbers(structure),
    ...stretches.flatMap(({ elements, n }) =>
      elements
        .filter(beginsLine)
        .flatMap((element) => [
          ...checkLength(element, structure),
          ...(n === undefined ? [] : checkTaken(element, model, n)),
        ]),
    ),
    ...(structure.unjudged || structure.open ? [] : checkJoints(model, stretches)),
  ].map((found) => ({ about: model.name, ...found }));
}

/** Of several reels that one line takes, the first speaks for the line. */
function beginsLine(element: PathElement, index: number, path: readonly PathElement[]): boolean {
  if (element.kind !== 'segment' || element.reel === undefined) return true;
  return path.findIndex(({ place }) => place === element.place) === index;
}

// ---- counts

/** How many places there are, and whether the ports go into them. */
function* checkPlaces({ model, n, open, unjudged, layers }: Structure): Iterable<ModelFinding> {
  if (n === undefined) {
    if (model.kind === 'ring' && model.path.length === 0) return;
    if (!open && !unjudged) yield finding('fibres-missing', model.namePlace, { link: model.name });
    return;
  }
  for (const [ports, word] of [
    [model.from, W.from],
    [model.to, W.to],
  ] as const) {
    if (ports.length === 0 || n % ports.length === 0) continue;
    // In a tree it names an end, of which its outputs know.
    if (word === W.to && model.splits) continue;
    yield finding('count-mismatch', linePlace(layers, word) ?? model.namePlace, {
      list: word,
      given: ports.length,
      link: model.name,
      fibres: n,
      ports: 1,
    });
  }
}

/** Fibre numbers said of the link are its own, each once. */
function* checkNumbers({ model, n, layers }: Structure): Iterable<ModelFinding> {
  const own = linePlace(layers, W.fibres);
  const ends = model.ways.filter(({ kind }) => kind === 'branch').length;
  if (own && ends > 0 && ends !== model.fibres.length) {
    const given = model.fibres.length;
    yield finding('count-mismatch', own, { list: W.fibres, given, link: model.name, ends });
  }
  const twice = repeated(model.fibres);
  if (twice !== undefined && own) {
    yield finding('fibre-listed-twice', own, { fibre: twice, list: W.fibres });
  }
  if (n === undefined) return;
  const known = new Set(model.fibres);
  const lists: [readonly number[], Place | undefined][] = [
    [model.spare, linePlace(layers, W.spare)],
    [model.dead.map(({ fibre }) => fibre), linePlace(layers, W.dead)],
    ...model.terms.carries.map(({ fibres, place }): [readonly number[], Place] => [
      fibres ?? [],
      place,
    ]),
  ];
  for (const [fibres, place] of lists) {
    const strange = fibres.find((fibre) => !known.has(fibre));
    if (strange === undefined || !place) continue;
    yield finding('fibre-out-of-range', place, {
      of: model.name,
      fibre: strange,
      fibres: numbersInWords(model.fibres),
    });
  }
}

/** Fibres that an element takes of a cable or of a link. */
function* checkTaken(element: PathElement, model: LinkModel, n: number): Iterable<ModelFinding> {
  if (element.kind === 'segment' && element.cable && element.cableFibres) {
    const { cable, cableFibres: taken, place } = element;
    const beyond =
      cable.count > 0 ? taken.find((fibre) => fibre < 1 || fibre > cable.count) : undefined;
    if (beyond !== undefined) {
      yield finding('fibre-out-of-range', place, {
        of: cable.name,
        fibre: beyond,
        count: cable.count,
      });
    }
    yield* checkList(taken, `the list of fibres of ${cable.name}`, place, model, n);
  }
  if (element.kind === 'link' && element.link) {
    const { link, place } = element;
    const known = new Set(link.fibres);
    const taken = element.fibres ?? link.fibres;
    if (isTree(link) && taken.length > 1) {
      const ends = numbersInWords(link.fibres);
      yield finding('tree-crossed', place, { link: link.name, ends });
      return;
    }
    for (const list of [element.fibres, element.toFibres]) {
      const strange = list?.find((fibre) => !known.has(fibre));
      if (strange === undefined || link.fibres.length === 0) continue;
      yield finding('fibre-out-of-range', place, {
        of: link.name,
        fibre: strange,
        fibres: numbersInWords(link.fibres),
      });
    }
    yield* checkList(taken, `the list of fibres of ${link.name}`, place, model, n);
    if (element.toFibres) {
      yield* checkList(element.toFibres, `the list of places at its far end`, place, model, n);
    }
  }
}

function* checkList(
  taken: readonly number[],
  list: string,
  place: Place,
  model: LinkModel,
  n: number,
): Iterable<ModelFinding> {
  if (taken.length > 0 && taken.length !== n) {
    const starting = list.replace(/^the/u, 'The');
    yield finding('count-mismatch', place, {
      list: starting,
      given: taken.length,
      link: model.name,
      fibres: n,
      ports: 0,
    });
  }
  const twice = repeated(taken);
  if (twice !== undefined) yield finding('fibre-listed-twice', place, { fibre: twice, list });
}

function repeated(numbers: readonly number[]): number | undefined {
  const known = new Set<number>();
  return numbers.find((number) => {
    if (known.has(number)) return true;
    known.add(number);
    return false;
  });
}

// ---- lengths, ends and joints

/** A length that is missing is said where it is to be written: on the line, or where the cable is declared. */
function* checkLength(element: PathElement, { unjudged }: Structure): Iterable<ModelFinding> {
  if ((element.kind !== 'segment' && element.kind !== 'cord') || unjudged) return;
  const { length, place } = element;
  const own = element.kind === 'cord' || (!element.cable && !element.deliberate);
  if (length !== undefined && length <= 0 && own) {
    yield finding('length-not-positive', place, { length: `${printMicro(length)} m` });
  }
}

function* checkJoints(model: LinkModel, stretches: readonly Stretch[]): Iterable<ModelFinding> {
  if (model.path.length === 0) {
    // A ring without nodes is asked for those.
    if ((model.nodes?.length ?? 2) < 2) return;
    yield finding('path-missing', model.namePlace, { link: model.name, empty: 1 });
    return;
  }
  // Joints alone have no mode, and so no wavelength at which to measure: that would be silence.
  if (!model.path.some(({ kind }) => holdsFibre.has(kind))) {
    yield finding('path-missing', model.namePlace, { link: model.name });
    return;
  }
  for (const stretch of stretches) {
    if (model.kind === 'link') yield* checkEnds(model, stretch);
    yield* checkMeetings(model, stretch);
  }
}

const holdsFibre: ReadonlySet<PathElement['kind']> = new Set([
  'segment',
  'cord',
  'link',
  'component',
  'split',
]);

/** Where light enters and leaves: a stretch behind a split begins at its output. */
function* checkEnds(model: LinkModel, stretch: Stretch): Iterable<ModelFinding> {
  const { elements, before, after, end = 'B' } = stretch;
  const link = model.name;
  const [first = after] = elements;
  if (first && !before && !closes(first)) {
    yield finding('open-end', first.place, { link, end: 'A', what: first.kind });
  }
  const last = elements.at(-1) ?? before;
  if (last && !after && !closes(last)) {
    yield finding('open-end', last.place, { link, end, what: last.kind });
  }
}

function* checkMeetings(model: LinkModel, stretch: Stretch): Iterable<ModelFinding> {
  const { before, after } = stretch;
  const path = [...(before ? [before] : []), ...stretch.elements, ...(after ? [after] : [])];
  for (const [index, element] of path.entries()) {
    const next = path[index + 1];
    if (next && unjoined(element, next)) {
      yield finding(
        'joint-missing',
        next.place,
        { before: describe(element), after: describe(next) },
        { related: [{ place: element.place, message: `The ${element.kind} before it.` }] },
      );
    }
    if (element.kind === 'plug' && index > 0 && next) {
      yield finding('plug-inside-path', element.place, { link: model.name });
    }
  }
}

/** Fibre of a segment, or of a splitter's tail, that meets another with nothing between. */
function unjoined(element: PathElement, next: PathElement): boolean {
  const fibre = ({ kind }: PathElement) => kind === 'segment' || kind === 'split';
  if (!fibre(element) || !fibre(next)) return false;
  // Two reels of one segment: their cable says what is between them.
  return element.place !== next.place;
}

const closes = ({ kind }: PathElement): boolean =>
  kind === 'connector' || kind === 'plug' || kind === 'component';

function describe(element: PathElement): string {
  if (element.kind === 'split') return `splitter ${element.name}`;
  if (element.kind !== 'segment') return element.kind;
  if (element.cable) return `segment of ${element.cable.name}`;
  const length = element.length === undefined ? '' : `${printMicro(element.length)} m `;
  return `segment of ${length}${element.fibreName}`;
}

function linePlace(layers: Layers, word: string): Place | undefined {
  for (const layer of layers) {
    const line: PlacedEntry | undefined = layer.find(({ entry }) => entry.word === word);
    if (line) return placeOf(line);
  }
  return undefined;
}
