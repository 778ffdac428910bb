/**
 * The one formula of a limit, for every method:
 *
 *   Σ α·L + Σ inside joints + Σ splices + Σ other parts + nE·E − nR·R + F added − F away
 *
 * nE: link ends mated to a test cord; nR: cords in the reference less one;
 * F: fibre of cords that came after the reference, and of those that were in it
 * and went away. It follows from what a reading physically holds (the
 * configurations of IEC 61280-4-1 and -4-2 and of ISO/IEC 14763-3: one, two and
 * three test cords); with E = R it is the trade's n, n − 1, n − 2.
 */
import {
  addDb,
  type ExactDb,
  exactDb,
  fibreLoss,
  type MicroDb,
  micrometres,
  type Picometres,
  type RatePerKm,
  subtractDb,
  timesDb,
  toNanometres,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import type { ConnectorType, Direction, JointGrade, PairPolicy, TestCord } from '../model/types.ts';
import type { Arrangement } from './arrangement.ts';
import type { Figures, Found } from './figures.ts';
import type { FlatPath, Piece } from './path.ts';
import type { Term } from './result.ts';
import { cordFibreCounts } from './thresholds.ts';

export type Sum =
  | { readonly value: ExactDb; readonly terms: readonly Term[] }
  | { readonly because: string; readonly terms: readonly Term[] };

/** Terms by what they are, equal ones counted together. */
export class TermList {
  readonly #terms = new Map<string, Term>();
  #because: string | undefined;

  fibre(name: string, length: number, found: Found): void {
    this.#put(`fibre ${name}`, 'fibre', 1, found, length);
  }

  count(what: string, role: Term['role'], count: number, found: Found): void {
    if (count !== 0) this.#put(what, role, count, found);
  }

  /** A single amount with its sign. */
  amount(what: string, role: Term['role'], total: ExactDb, found: Found, length?: number): void {
    const key = `${role} ${what} ${found.source}`;
    const old = this.#terms.get(key);
    this.#terms.set(key, {
      what,
      role,
      count: 1,
      length: length === undefined ? undefined : micrometres((old?.length ?? 0) + length),
      each: found.each,
      total: addDb(old?.total ?? zeroDb, total),
      source: found.source,
      trust: found.trust,
      place: found.place,
    });
  }

  get empty(): boolean {
    return this.#terms.size === 0;
  }

  /** The sum cannot be built; the first reason is kept. */
  missing(because: string): void {
    this.#because ??= because;
  }

  sum(): Sum {
    const terms = [...this.#terms.values()];
    if (this.#because !== undefined) return { because: this.#because, terms };
    return { value: addDb(...terms.map((term) => term.total)), terms };
  }

  #put(what: string, role: Term['role'], count: number, found: Found, length?: number): void {
    const key = `${role} ${what} ${found.each} ${found.source}`;
    const old = this.#terms.get(key);
    const all = length === undefined ? undefined : (old?.length ?? 0) + length;
    const times = length === undefined ? (old?.count ?? 0) + count : count;
    this.#terms.set(key, {
      what,
      role,
      count: times,
      length: all === undefined ? undefined : micrometres(all),
      each: found.each,
      total:
        all === undefined
          ? timesDb(exactDb(found.each as MicroDb), times)
          : fibreLoss(found.each as RatePerKm, micrometres(all)),
      source: found.source,
      trust: found.trust,
      place: found.place,
    });
  }
}

/** What a reading may hold at most by some figures, under a policy for the pairs that test cords make. */
export function readingSum(
  path: FlatPath,
  arrangement: Arrangement,
  figures: Figures,
  policy: PairPolicy,
  direction: Direction,
  wavelength: Picometres,
): Sum {
  const terms = new TermList();
  if (path.unknown) terms.missing(`${path.unknown} is not known`);
  addPieces(terms, path.inside, figures, wavelength, outerOf(path));
  addEnds(terms, path, arrangement, figures, policy);
  addReferencePairs(terms, path, arrangement, figures, policy);
  addCoreSteps(terms, path.pieces, figures, direction);
  for (const cord of arrangement.added) addCord(terms, cord, figures, 1, wavelength);
  for (const cord of arrangement.away) addCord(terms, cord, figures, -1, wavelength);
  if (terms.empty) terms.missing('nothing that loses light lies in it');
  return terms.sum();
}

/** All that lies between the two ports, end pairs included and no test cord in sight: what equipment sees of it. */
export function wholeSum(
  pieces: readonly Piece[],
  figures: Figures,
  direction: Direction,
  wavelength: Picometres,
): Sum {
  const terms = new TermList();
  addPieces(terms, pieces, figures, wavelength, new Map());
  addCoreSteps(terms, pieces, figures, direction);
  return terms.sum();
}

/** Joints alone, for limits on what the connections of a channel may take. */
export function connectionsSum(pieces: readonly Piece[], figures: Figures): ExactDb | undefined {
  const terms = new TermList();
  for (const piece of pieces) {
    if (piece.kind === 'pair') addPair(terms, 'mated pairs', piece.name, piece.type, figures);
    if (piece.kind === 'part') addPart(terms, piece, figures);
  }
  const sum = terms.sum();
  return 'value' in sum ? sum.value : undefined;
}

/** Joining parts whose outer pair is an end pair, and so is added with the ends: each with the kind that is left. */
function outerOf(path: FlatPath): ReadonlyMap<Piece, string> {
  const inner = new Map<Piece, string>();
  const { A, B } = path.ends;
  if (A.kind === 'socket' && A.part?.joins) inner.set(A.part, A.part.joins[1]);
  if (B.kind === 'socket' && B.part?.joins) inner.set(B.part, B.part.joins[0]);
  return inner;
}

function addPieces(
  terms: TermList,
  pieces: readonly Piece[],
  figures: Figures,
  wavelength: Picometres,
  outer: ReadonlyMap<Piece, string>,
): void {
  for (const piece of pieces) {
    switch (piece.kind) {
      case 'fibre': {
        const rate = figures.rate(piece.name, piece.type);
        if (piece.length === undefined) terms.missing(`a length of ${piece.name} is missing`);
        else if (piece.length === 0) break;
        else if (rate) terms.fibre(piece.name, piece.length, rate);
        else terms.missing(noFigure(figures, `fibre ${piece.name}`, wavelength));
        break;
      }
      case 'pair':
        addPair(terms, 'mated pairs', piece.name, piece.type, figures);
        break;
      case 'splice': {
        const found = figures.splice(piece);
        if (found) terms.count('splices', 'splice', 1, found);
        else terms.missing(noFigure(figures, `splice ${piece.name}`));
        break;
      }
      case 'part':
        addPart(terms, piece, figures, outer.get(piece), wavelength);
        break;
      case 'split': {
        const found = piece.out === undefined ? undefined : figures.split(piece);
        if (found) terms.count(`splitter ${piece.name}`, 'part', 1, found);
        else if (piece.out === undefined) terms.missing(`light is divided at ${piece.name}`);
        else terms.missing(noFigure(figures, `output ${piece.out} of ${piece.name}`, wavelength));
        break;
      }
      case 'plug':
        break;
    }
  }
}

function addPair(
  terms: TermList,
  what: string,
  name: string,
  type: ConnectorType | undefined,
  figures: Figures,
): void {
  const found = figures.pair(name, type, 'installed');
  if (found) terms.count(what, 'pair', 1, found);
  else terms.missing(noFigure(figures, `pair ${name}`));
}

/** A part by its own figure, or by its two pairs; the outer pair is left to the ends where it is an end pair. */
function addPart(
  terms: TermList,
  piece: Extract<Piece, { kind: 'part' }>,
  figures: Figures,
  inner?: string,
  wavelength?: Picometres,
): void {
  const found = figures.part(piece);
  if (found) {
    terms.count(`part ${piece.name}`, 'part', 1, found);
    return;
  }
  if (!piece.joins) {
    const byWavelength = piece.type?.loss.some((loss) => loss.wavelength !== undefined);
    terms.missing(noFigure(figures, `part ${piece.name}`, byWavelength ? wavelength : undefined));
    return;
  }
  for (const name of inner === undefined ? piece.joins : [inner]) {
    addPair(terms, 'mated pairs', name, undefined, figures);
  }
}

const gradeOfEnd: Readonly<Record<PairPolicy, JointGrade>> = {
  counting: 'installed',
  'reference-grade': 'end',
  enhanced: 'end',
};

function addEnds(
  terms: TermList,
  path: FlatPath,
  arrangement: Arrangement,
  figures: Figures,
  policy: PairPolicy,
): void {
  for (const side of ['A', 'B'] as const) {
    const end = path.ends[side];
    if (end.kind === 'open' || end.kind === 'part') continue;
    // A part named by the figures holds its outer pair already.
    if (end.kind === 'socket' && end.part && figures.part(end.part)) continue;
    const cord = arrangement.connectors[side];
    const name = end.name ?? cord?.connector;
    const type = end.type ?? cord?.connectorType;
    if (!arrangement.mates[side]) continue;
    const found = figures.pair(name, type, gradeOfEnd[policy]);
    if (found) terms.count('end pairs', 'end-pair', 1, found);
    else terms.missing(noFigure(figures, `end pair ${name ?? ''}`.trim()));
  }
}

function addReferencePairs(
  terms: TermList,
  path: FlatPath,
  arrangement: Arrangement,
  figures: Figures,
  policy: PairPolicy,
): void {
  // The enhanced form keeps the pairs of the reference small by its cords and takes nothing away for them.
  if (policy === 'enhanced') return;
  const grade: JointGrade = policy === 'counting' ? 'installed' : 'reference';
  for (const side of (['A', 'B'] as const).slice(0, arrangement.referencePairs)) {
    const end = path.ends[side];
    // A bare end is joined to the cord for the test: that joint stands for the pair of the reference.
    if (end.kind === 'open') continue;
    const cord = arrangement.connectors[side];
    const known = end.kind === 'socket' || end.kind === 'plug' ? end : undefined;
    const name = known?.name ?? cord?.connector;
    const found = figures.pair(name, known?.type ?? cord?.connectorType, grade);
    if (found) terms.count('pairs in the reference', 'reference-pair', -1, found);
    else terms.missing(noFigure(figures, `pair in the reference ${name ?? ''}`.trim()));
  }
}

function addCoreSteps(
  terms: TermList,
  pieces: readonly Piece[],
  figures: Figures,
  direction: Direction,
): void {
  const fibres = pieces.filter((piece) => piece.kind === 'fibre');
  for (const [index, next] of fibres.entries()) {
    const before = fibres[index - 1];
    if (!before || next.apart || before.name === next.name) continue;
    const [from, to] = direction === 'A>B' ? [before, next] : [next, before];
    const found = figures.step(from.type, to.type);
    if (found) terms.count(`core step ${from.name} to ${to.name}`, 'core-step', 1, found);
  }
}

/** Fibre of a test cord; in glass it counts from a hundredth of a decibel on, in plastic always. */
function addCord(
  terms: TermList,
  cord: TestCord,
  figures: Figures,
  sign: 1 | -1,
  wavelength: Picometres,
): void {
  if (!cord.length) return;
  const rate = figures.rate(cord.fibre, cord.fibreType);
  const plastic = cord.fibreType?.mode === 'plastic';
  if (!rate) {
    if (plastic) terms.missing(noFigure(figures, `fibre ${cord.fibre}`, wavelength));
    return;
  }
  const loss = fibreLoss(rate.each as RatePerKm, cord.length);
  if (!plastic && loss < exactDb(cordFibreCounts)) return;
  const what = sign > 0 ? 'fibre of cords added' : 'fibre of cords taken away';
  terms.amount(what, 'cord', sign > 0 ? loss : subtractDb(zeroDb, loss), rate, cord.length);
}

function noFigure(figures: Figures, what: string, wavelength?: Picometres): string {
  const at = wavelength === undefined ? '' : ` at ${toNanometres(wavelength)} nm`;
  return `${figures.name}${lacking}${what}${at}`;
}

const lacking = ' has no figure for ';

/** What a sum lacks a figure for, in words; undefined where it fails for another reason. */
export function figureLacking(
  because: string,
  { name }: Pick<Figures, 'name'>,
): string | undefined {
  const head = `${name}${lacking}`;
  return because.startsWith(head) ? because.slice(head.length) : undefined;
}
