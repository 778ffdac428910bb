/**
 * A path that branches: its ends in order of the text, each with the way that
 * light takes to it. Elements before a split are the same objects for all ends
 * behind it; outputs that are written alike share what follows as well.
 */
import type { Value } from '../../../grammar/src/bound.ts';
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { numbersInWords } from './numbers.ts';
import { buildSplitter, typeOf } from './parts.ts';
import { type Elements, elementsOf, type LinkBuilder } from './path.ts';
import type { OutLine, PathLine } from './placing.ts';
import type { Scope } from './scope.ts';
import type { PathElement, Place, Split, SplitterType, Way } from './types.ts';
import { has, nameOf, namesOf, placeOf } from './values.ts';

export interface Tree {
  /** Up to the first split, and that split. */
  readonly path: readonly PathElement[];
  readonly ways: readonly Way[];
  readonly splits: readonly Split[];
  readonly stretches: readonly Stretch[];
  readonly findings: readonly ModelFinding[];
  /** Part of it is left out: what is missing is said already. */
  readonly unjudged: boolean;
}

/** A run of elements with nothing between that divides light. */
export interface Stretch {
  readonly elements: readonly PathElement[];
  /** How many take it alike: the members that its lists have. */
  readonly n: number | undefined;
  /** The split that it follows, and the one that it leads to. */
  readonly before?: PathElement;
  readonly after?: PathElement;
  /** Name of the end that it leads to, where it is not end B. */
  readonly end?: string;
}

export interface Trunk {
  readonly link: string;
  readonly place: Place;
  /** Feeds of the first splitter. */
  readonly n: number;
  /** The link's own `to`: the end that `onward` leads to. */
  readonly to?: EndNames;
}

/** Ports that name ends, and how many there are: a range may be longer than anything that is judged. */
export interface EndNames {
  readonly values: readonly Value[];
  readonly place: Place;
  /** Outputs that they are for are wrong, which is told already. */
  readonly cut?: boolean;
}

/** More is no network of fibre, but a slip in a number or patterns within patterns. */
const mostEnds = 4096;
const mostHeld = 1_000_000;

export function branches(lines: readonly PathLine[]): boolean {
  return lines.some(({ entry }) => entry.word === W.split);
}

export function growTree(
  lines: readonly PathLine[],
  trunk: Trunk,
  scope: Scope,
  linkOf: LinkBuilder,
): Tree {
  return new Growing(trunk, scope, linkOf).tree(lines);
}

/** One of several that take a stretch alike: what light has crossed so far. */
interface Stem {
  readonly path: readonly PathElement[];
  /** Splits and outputs on the way: `SP-1:1/SP-2:3`. */
  readonly outputs: string;
}

interface End {
  readonly stem: Stem;
  readonly port?: string;
  readonly place: Place;
}

class Growing {
  readonly #trunk: Trunk;
  readonly #scope: Scope;
  readonly #linkOf: LinkBuilder;
  readonly #ends: End[] = [];
  readonly #splits: Split[] = [];
  readonly #stretches: Stretch[] = [];
  readonly #findings: ModelFinding[] = [];
  #unjudged = false;
  #tooLarge = false;
  #held = 0;

  constructor(trunk: Trunk, scope: Scope, linkOf: LinkBuilder) {
    this.#trunk = trunk;
    this.#scope = scope;
    this.#linkOf = linkOf;
  }

  tree(lines: readonly PathLine[]): Tree {
    const { to, place, n } = this.#trunk;
    this.#grow(lines, [{ path: [], outputs: '' }], n, to, place);
    const [first] = this.#stretches;
    return {
      path: [...(first?.elements ?? []), ...(first?.after ? [first.after] : [])],
      ways: this.#tooLarge ? [] : this.#ways(),
      splits: this.#splits,
      stretches: this.#stretches,
      findings: this.#findings,
      unjudged: this.#unjudged,
    };
  }

  /** Follows a path from split to split; `feeds` light enters each stem by. */
  #grow(
    lines: readonly PathLine[],
    from: readonly Stem[],
    feeds: number,
    to: EndNames | undefined,
    place: Place,
  ): void {
    let stems = from;
    let rest = lines;
    let each = feeds;
    let names = to;
    for (;;) {
      const before = stems[0]?.path.at(-1);
      const at = rest.findIndex(({ entry }) => entry.word === W.split);
      const split = rest[at];
      const n = stems.length * each;
      const { path: elements } = this.#elements(split ? rest.slice(0, at) : rest, n);
      if (stems.length * ((stems[0]?.path.length ?? 0) + elements.length) > mostHeld) {
        this.#give(place);
        return;
      }
      stems = stems.map((stem) => lengthened(stem, elements));
      const here: SplitHere | undefined = split && this.#splitAt(split);
      this.#stretches.push({
        elements,
        n,
        before,
        after: here?.element,
        end: here ? undefined : this.#endsHere(stems, names, place),
      });
      if (!split || !here || this.#tooLarge) return;
      const onward = this.#divide(split, here, stems);
      rest = rest.slice(at + 1);
      if (!onward) {
        if (isWhole(split)) this.#nothingBelow(rest, here, names);
        return;
      }
      stems = onward.stems;
      each = 1;
      names = this.#oneOf(names, onward.to);
    }
  }

  /** The end that `onward` leads to is named where the path begins, or at the output. */
  #oneOf(outer: EndNames | undefined, inner: EndNames | undefined): EndNames | undefined {
    if (outer && inner) {
      const port = namesOf(inner.values.slice(0, 1))[0] ?? '';
      const other = namesOf(outer.values.slice(0, 1))[0] ?? '';
      this.#findings.push(finding('end-name-unused', inner.place, { port, other }));
    }
    return outer ?? inner;
  }

  #elements(lines: readonly PathLine[], n: number): Elements {
    const made = elementsOf(lines, n, this.#trunk.link, this.#scope, this.#linkOf);
    this.#findings.push(...made.findings);
    return made;
  }

  /** Gives up on a tree that nobody can have meant. */
  #give(place: Place): void {
    if (!this.#tooLarge) {
      const { link } = this.#trunk;
      this.#findings.push(finding('tree-too-large', place, { link, most: mostEnds }));
    }
    this.#tooLarge = true;
    this.#unjudged = true;
  }

  #splitAt(line: PathLine): SplitHere {
    const { slots } = line.entry;
    const type = typeOf(W.splitter, buildSplitter, line, this.#scope);
    const place = placeOf(line);
    const name = nameOf(slots.name) ?? '';
    const splitter = nameOf(slots.splitter) ?? '';
    return { element: { kind: 'split', name, splitter, type, place }, type, name, place };
  }

  /** Grows what stands behind each output; undefined if none of them goes on below. */
  #divide(line: PathLine, here: SplitHere, stems: readonly Stem[]): Onward | undefined {
    const said = new Set<number>();
    const lines = new Set<string>();
    const spare: number[] = [];
    // Reported where it is declared: of a splitter that divides nothing no output is wrong.
    const outputs = here.type && here.type.outputs > 1 ? here.type.outputs : undefined;
    if (outputs !== undefined && outputs > mostEnds) this.#give(here.place);
    let onward: Onward | undefined;
    const at = this.#splits.length;
    this.#splits.push(this.#standing(here, stems, spare));
    for (const out of line.outs ?? []) {
      if (this.#tooLarge) return undefined;
      const numbers = this.#numbersOf(out, here, outputs, said, lines);
      if (has(out.entry, K.spare)) {
        spare.push(...numbers);
        continue;
      }
      const children = this.#behind(here, stems, numbers, placeOf(out));
      if (has(out.entry, K.onward)) {
        if (onward || numbers.length > 1) {
          this.#findings.push(finding('onward-twice', placeOf(out), { split: here.name }));
        }
        const one =
          numbers.length > 1
            ? this.#behind(here, stems, numbers.slice(0, 1), here.place)
            : children;
        onward ??= { stems: one, to: endNamesOf(out) };
      } else if (out.path && children.length > 0) {
        const to = endNamesOf(out, numbers.length);
        this.#grow(out.path, children, 1, to, placeOf(out));
      } else if (!out.path) this.#unjudged = true;
    }
    this.#splits[at] = this.#standing(here, stems, spare);
    this.#missing(line, here, outputs, said);
    return onward;
  }

  #standing({ element, type }: SplitHere, stems: readonly Stem[], spare: readonly number[]): Split {
    const { name, splitter, place } = element;
    return { name, splitter, type, stands: stems.length, spare, place };
  }

  /** Stems behind some outputs: those of the first splitter that stands here, then of the next. */
  #behind(
    { element }: SplitHere,
    stems: readonly Stem[],
    numbers: readonly number[],
    place: Place,
  ): readonly Stem[] {
    if (stems.length * numbers.length > mostEnds) this.#give(place);
    if (this.#tooLarge) return [];
    const outs = numbers.map((out): PathElement => ({ ...element, out }));
    return stems.flatMap((stem) =>
      outs.map((out, index) => {
        const own = `${element.name}:${numbers[index]}`;
        return lengthened(stem, [out], stem.outputs ? `${stem.outputs}/${own}` : own);
      }),
    );
  }

  /** Outputs of a line that the splitter has and no line before it said. */
  #numbersOf(
    out: OutLine,
    here: SplitHere,
    outputs: number | undefined,
    said: Set<number>,
    lines: Set<string>,
  ): readonly number[] {
    const numbers: number[] = [];
    const place = placeOf(out);
    // The very same outputs again are a repeated line, which is told already.
    const line = (out.entry.slots.outputs ?? []).map(rangeOf).join();
    let told = lines.has(line);
    lines.add(line);
    const tell = (name: 'output-unknown' | 'output-twice', number: number) => {
      if (told) return;
      told = true;
      const details = { split: here.name, out: number };
      this.#findings.push(
        finding(
          name,
          place,
          name === 'output-unknown'
            ? { ...details, splitter: here.element.splitter, outputs: outputs ?? 0 }
            : details,
        ),
      );
    };
    for (const range of out.entry.slots.outputs ?? []) {
      const [first, last, step] = rangeOf(range) ?? [1, 0, 1];
      for (let number = first; number <= last; number += step) {
        if (number < 1 || (outputs !== undefined && number > outputs)) {
          tell('output-unknown', number);
          if (number >= 1) break;
        } else if (said.has(number)) tell('output-twice', number);
        else {
          said.add(number);
          numbers.push(number);
        }
        if (numbers.length > mostEnds) {
          this.#give(place);
          return [];
        }
      }
    }
    return numbers;
  }

  #missing(
    line: PathLine,
    here: SplitHere,
    outputs: number | undefined,
    said: ReadonlySet<number>,
  ): void {
    const { body } = line.entry;
    if (!isWhole(line)) this.#unjudged = true;
    if (outputs === undefined || !body || body.open || !isWhole(line)) return;
    const missing: number[] = [];
    for (let number = 1; number <= outputs; number++) if (!said.has(number)) missing.push(number);
    if (missing.length === 0) return;
    this.#unjudged = true;
    this.#findings.push(
      finding('output-missing', here.place, {
        split: here.name,
        outs: numbersInWords(missing),
        ...(missing.length > 1 && { many: 1 }),
      }),
    );
  }

  /** Below a split without `onward` nothing stands, and nothing is named. */
  #nothingBelow(rest: readonly PathLine[], here: SplitHere, to: EndNames | undefined): void {
    if (this.#tooLarge) return;
    const [first] = rest;
    if (first) {
      this.#unjudged = true;
      this.#findings.push(finding('onward-missing', placeOf(first), { split: here.name }));
    } else if (to) {
      const port = namesOf(to.values.slice(0, 1))[0] ?? '';
      this.#findings.push(finding('end-name-unused', to.place, { port, split: here.name }));
    }
  }

  /** Ends of a path that does not divide any more; the name of the first. */
  #endsHere(stems: readonly Stem[], to: EndNames | undefined, place: Place): string | undefined {
    if (this.#ends.length + stems.length > mostEnds || this.#held > mostHeld) this.#give(place);
    if (this.#tooLarge) return undefined;
    const given = to ? countOf(to.values) : 0;
    if (to && !to.cut && given !== stems.length) {
      // What its ends are called is not known then.
      this.#unjudged = true;
      const told = to.values.some(({ kind }) => kind === 'spoilt');
      const details = { given, ends: stems.length };
      if (!told) this.#findings.push(finding('end-count-mismatch', to.place, details));
    }
    const ports = to && given <= mostEnds ? namesOf(to.values) : [];
    for (const [index, stem] of stems.entries()) {
      this.#held += stem.path.length;
      this.#ends.push({ stem, port: ports[index], place: to?.place ?? place });
    }
    return ports[0] ?? stems[0]?.outputs;
  }

  /** An end without a port is called by the split and output that it hangs on, by all of them where that is not enough. */
  #ways(): readonly Way[] {
    const short = ({ outputs }: Stem) => outputs.slice(outputs.lastIndexOf('/') + 1);
    const known = new Map<string, number>();
    for (const { stem, port } of this.#ends) {
      if (port === undefined) known.set(short(stem), (known.get(short(stem)) ?? 0) + 1);
    }
    const named = new Set<string>();
    return this.#ends.map(({ stem, port, place }, index): Way => {
      const own = known.get(short(stem)) === 1 ? short(stem) : stem.outputs;
      const name = port ?? own;
      if (named.has(name)) {
        this.#findings.push(
          finding('end-named-twice', place, { link: this.#trunk.link, end: name }),
        );
      }
      named.add(name);
      return { name, kind: 'branch', path: stem.path, fibre: index + 1, place };
    });
  }
}

/** What goes on below a split. */
interface Onward {
  readonly stems: readonly Stem[];
  readonly to?: EndNames;
}

function lengthened(stem: Stem, elements: readonly PathElement[], outputs = stem.outputs): Stem {
  return { path: [...stem.path, ...elements], outputs };
}

function endNamesOf(out: OutLine, outputs?: number): EndNames | undefined {
  const { [K.to]: values, outputs: said } = out.entry.slots;
  const cut = outputs !== undefined && outputs < countOf(said ?? []);
  return values && { values, place: placeOf(out), cut };
}

interface SplitHere {
  readonly element: Extract<PathElement, { kind: 'split' }>;
  readonly type: SplitterType | undefined;
  readonly name: string;
  readonly place: Place;
}

/** Whether all that is written of a split could be read, and every output of it says what becomes of it. */
function isWhole({ entry, outs, turned }: PathLine): boolean {
  const misread = entry.body?.entries.some(
    ({ word, slots }) => word === '' || slots.outputs?.some(({ kind }) => kind === 'spoilt'),
  );
  const unsaid = outs?.some(
    (out) => !out.path && !has(out.entry, K.spare) && !has(out.entry, K.onward),
  );
  return !turned && !misread && !unsaid;
}

/** First, last and step of a number or a range of them. */
function rangeOf(value: Value): readonly [number, number, number] | undefined {
  if (value.kind === 'whole') return [value.value, value.value, 1];
  return value.kind === 'wholes' ? [value.first, value.last, value.step] : undefined;
}

/** How many names or numbers a list holds, without writing them out. */
function countOf(values: readonly Value[]): number {
  return values.reduce(
    (sum, value) =>
      sum +
      (value.kind === 'names' || value.kind === 'wholes'
        ? Math.floor((value.last - value.first) / value.step) + 1
        : 1),
    0,
  );
}
