/**
 * Which change of the text an effect comes from. A reading's own change comes
 * first. Else it is one that reaches the object, narrowed by what moved: of a
 * limit, changes where a figure of it stands that is another now; of a length or
 * a count, changes of what is laid or joined; of a verdict without either, what
 * voids, ages or concedes readings. Nothing is judged again to find out, so that
 * several causes may be named where the text alone does not tell them apart.
 */
import type { Picometres } from '../../../grammar/src/quantity/index.ts';
import type { ReadingResult, Verdict } from '../evaluate/result.ts';
import type { Place } from '../model/types.ts';
import type { Movement } from './movements.ts';
import type { ObjectPair } from './objects.ts';
import { type TermMove, termMoves } from './terms.ts';
import {
  type ChangeKind,
  changeKinds,
  type Edit,
  type EditedPlace,
  type PlanState,
  type ReadingKey,
  type StatePlace,
} from './types.ts';

type Side = 'before' | 'after';

/** Kinds that can move something, nearest first. */
const kindsThat = {
  setFigures: ['basis', 'shared', 'medium', 'application', 'joints', 'method', 'connection'],
  setLengths: ['medium', 'connection', 'shared', 'joints', 'application'],
  setReferencePairs: ['method', 'connection', 'joints', 'shared', 'basis', 'instrument'],
  setCounts: ['joints', 'connection', 'medium', 'shared', 'method', 'application'],
  setFibres: ['medium', 'connection', 'shared', 'joints', 'basis', 'application', 'method'],
  setParts: ['joints', 'connection', 'medium', 'shared', 'basis', 'application', 'method'],
  setOthers: ['application', 'basis', 'method', 'connection', 'medium', 'joints', 'shared'],
  setLimits: ['basis', 'application', 'method', 'connection', 'medium', 'joints', 'shared'],
  measure: ['evidence', 'readings', 'method', 'instrument', 'coverage', 'connection', 'identity'],
  want: ['coverage', 'connection', 'application', 'medium', 'identity', 'shared', 'readings'],
  void: ['evidence', 'method', 'readings', 'instrument', 'medium', 'basis', 'shared', 'joints'],
  age: ['readings', 'evidence', 'connection', 'joints', 'medium', 'method'],
  concede: ['concession', 'evidence', 'readings', 'basis'],
  decide: ['basis', 'method', 'evidence', 'readings', 'instrument'],
  carry: ['application', 'basis', 'medium', 'connection', 'joints', 'shared'],
  layOut: ['medium', 'connection', 'shared', 'joints'],
} as const satisfies Readonly<Record<string, readonly ChangeKind[]>>;

/** Said to people, judged by nobody. */
const harmless: ReadonlySet<ChangeKind> = new Set(['words', 'text']);

export class Causes {
  readonly #edits: readonly Edit[];
  readonly #sides: Readonly<Record<Side, PlanState>>;
  readonly #reaching = new Map<string, number[]>();
  readonly #located = new Map<string, StatePlace | undefined>();

  constructor(edits: readonly Edit[], before: PlanState, after: PlanState) {
    this.#edits = edits;
    this.#sides = { before, after };
    for (const [index, edit] of edits.entries()) {
      if (harmless.has(edit.kind)) continue;
      for (const name of edit.reach) {
        const others = this.#reaching.get(name);
        if (others) others.push(index);
        else this.#reaching.set(name, [index]);
      }
    }
  }

  /**
   * Of each movement of one object: indices into the edits, the most important
   * first. Empty where no edit is there to explain it.
   */
  of(movements: readonly Movement[]): readonly (readonly number[])[] {
    const [first] = movements;
    if (!first) return [];
    const near = this.#near(first.pair);
    const ofReadings = new Set<number>();
    const one = (movement: Movement): readonly number[] => {
      const found = new Set([...this.#moved(movement, near, ofReadings)].flat());
      return found.size > 0 ? [...found] : near;
    };
    const causes = movements.map((movement) => {
      if (movement.kind === 'object') return [];
      const found = one(movement);
      if (movement.kind === 'reading' && affectsObject(movement)) {
        for (const index of found) ofReadings.add(index);
      }
      return found;
    });
    // An object is what its readings make it.
    return movements.map((movement, index) =>
      movement.kind === 'object' ? one(movement) : causes[index]!,
    );
  }

  /** Edits that reach an object; where none does, all that can move anything: then it is moved by its mates. */
  #near({ name, formerly }: ObjectPair): readonly number[] {
    const reaching = new Set(this.#reaching.get(name));
    if (formerly !== undefined) {
      for (const index of this.#reaching.get(formerly) ?? []) reaching.add(index);
    }
    const near =
      reaching.size > 0
        ? [...reaching]
        : [...this.#edits.keys()].filter((index) => !harmless.has(this.#edits[index]!.kind));
    return this.#inOrder(near);
  }

  #inOrder(edits: readonly number[]): readonly number[] {
    const rank = (index: number) => changeKinds.indexOf(this.#edits[index]!.kind);
    return [...edits].sort((a, b) => rank(a) - rank(b) || a - b);
  }

  *#moved(
    movement: Movement,
    near: readonly number[],
    ofReadings: ReadonlySet<number>,
  ): Iterable<readonly number[]> {
    switch (movement.kind) {
      case 'reading':
        yield* this.#ofReading(movement, near);
        return;
      case 'design':
        yield* this.#ofDesign(movement, near);
        return;
      case 'application':
        yield* this.#ofApplication(movement, near);
        return;
      case 'object':
        yield* this.#ofWhole(movement, near, ofReadings);
    }
  }

  // ---- readings

  *#ofReading(
    { before, after, key, pair }: Extract<Movement, { kind: 'reading' }>,
    near: readonly number[],
  ): Iterable<readonly number[]> {
    const names = [pair.name, pair.formerly];
    // An end of a tree may have another number on each side.
    const fibres = [before?.result.fibre, after?.result.fibre];
    const isOwn = ({ readings }: Edit) =>
      readings?.some((one) => sameKey(one, key, names, fibres)) ?? false;
    const own = near.filter((index) => isOwn(this.#edits[index]!));
    // What is of other readings alone moves this one only through what they raise together.
    const shared = near.filter((index) => !this.#edits[index]!.readings);
    const [was, is] = [before?.result, after?.result];
    if (!was || !is) {
      yield own;
      if (own.length === 0) yield this.#ofKinds(shared, kindsThat.want);
      return;
    }
    const measured =
      was.loss !== is.loss ||
      was.attempt !== is.attempt ||
      was.reading?.reflectance !== is.reading?.reflectance;
    const limited = was.limit?.value !== is.limit?.value || was.limit?.name !== is.limit?.name;
    if (measured) yield own.length > 0 ? own : this.#ofKinds(shared, kindsThat.measure);
    if (was.expectedSet !== is.expectedSet) yield this.#ofKinds(shared, kindsThat.want);
    if (was.verdict !== is.verdict) {
      const told = measured && own.length > 0;
      yield* this.#ofVerdict([was, is], near, { own, told, moved: measured || limited });
    }
    // A reading that is made or lost brings its limit with it.
    const brought = measured && (was.attempt === null || is.attempt === null);
    if (limited && !brought) {
      const moves = termMoves(was.limit?.terms ?? [], is.limit?.terms ?? []);
      yield this.#ofTerms(moves, shared, kindsThat.setLimits);
    }
  }

  /** What makes a reading count or not, beside its value and its limit. */
  *#ofVerdict(
    sides: readonly [ReadingResult, ReadingResult],
    near: readonly number[],
    { own, told, moved }: { own: readonly number[]; told: boolean; moved: boolean },
  ): Iterable<readonly number[]> {
    const either = (verdict: Verdict) => sides.some((side) => side.verdict === verdict);
    const ask = (kinds: readonly ChangeKind[]) => {
      const there = this.#ofKinds(
        near.filter((index) => own.includes(index) || !this.#edits[index]!.readings),
        kinds,
      );
      // Of other readings of the object: a reference that they make doubtful.
      return there.length > 0 || told ? there : this.#ofKinds(near, kinds);
    };
    if (either('conceded')) yield ask(kindsThat.concede);
    if (either('stale')) yield ask(kindsThat.age);
    if (either('invalid') && !told) {
      // An impossible reading, of whatever object, makes those with the same reference doubtful.
      const drawn = sides.some(({ reason }) => reason === 'reference-suspect')
        ? this.#ofReadingsAt(sides[0].wavelength)
        : [];
      yield drawn.length > 0 ? drawn : ask(kindsThat.void);
    }
    const setAside = either('conceded') || either('stale') || either('invalid');
    if (!setAside && !moved) yield ask(kindsThat.decide);
  }

  /** Edits of single readings at a wavelength, of any object. */
  #ofReadingsAt(wavelength: Picometres): readonly number[] {
    const all = [...this.#edits.keys()];
    return this.#inOrder(
      all.filter((index) =>
        this.#edits[index]!.readings?.some((one) => one.wavelength === wavelength),
      ),
    );
  }

  // ---- what the plan itself says

  *#ofDesign(
    { before, after }: Extract<Movement, { kind: 'design' }>,
    near: readonly number[],
  ): Iterable<readonly number[]> {
    const shared = near.filter((index) => !this.#edits[index]!.readings);
    if (!before || !after) {
      yield this.#ofKinds(shared, kindsThat.want);
      return;
    }
    if (
      before.governing?.value !== after.governing?.value ||
      before.governing?.name !== after.governing?.name
    ) {
      const moves = termMoves(before.governing?.terms ?? [], after.governing?.terms ?? []);
      yield this.#ofTerms(moves, shared, kindsThat.setLimits);
    }
    if (before.worst !== after.worst) {
      yield this.#ofTerms(
        termMoves(before.worstTerms, after.worstTerms),
        shared,
        kindsThat.setParts,
      );
    }
    if (before.expected !== after.expected) {
      const moves = termMoves(before.expectedTerms, after.expectedTerms);
      yield this.#ofTerms(moves, shared, kindsThat.setParts);
    }
  }

  *#ofApplication(
    { before, after }: Extract<Movement, { kind: 'application' }>,
    near: readonly number[],
  ): Iterable<readonly number[]> {
    const shared = near.filter((index) => !this.#edits[index]!.readings);
    if (!before || !after) {
      yield this.#ofKinds(shared, kindsThat.carry);
      return;
    }
    const moves = termMoves(
      before.power.flatMap(({ terms }) => terms),
      after.power.flatMap(({ terms }) => terms),
    );
    if (moves.length > 0) yield this.#ofTerms(moves, shared, kindsThat.carry);
    const measured = before.result.support !== after.result.support && moves.length === 0;
    const there = this.#ofKinds(shared, kindsThat.carry);
    yield there.length > 0 || !measured ? there : this.#ofKinds(near, kindsThat.measure);
  }

  // ---- the object

  *#ofWhole(
    { before, after }: Extract<Movement, { kind: 'object' }>,
    near: readonly number[],
    ofReadings: ReadonlySet<number>,
  ): Iterable<readonly number[]> {
    if (!before || !after) {
      const form = after ? 'new' : 'gone';
      const own = near.filter(
        (index) => this.#edits[index]!.form === form && !this.#edits[index]!.readings,
      );
      yield this.#ofKinds(own, kindsThat.want);
      return;
    }
    yield this.#inOrder([...ofReadings]);
    if (before.length !== after.length) yield this.#ofKinds(near, kindsThat.layOut);
  }

  // ---- narrowing

  /** Those of the kinds, in the order of the kinds. */
  #ofKinds(edits: readonly number[], kinds: readonly ChangeKind[]): readonly number[] {
    return kinds.flatMap((kind) => edits.filter((index) => this.#edits[index]!.kind === kind));
  }

  /** Each move of a term by the edit at its figure, or by the kinds that set it; the heaviest first. */
  #ofTerms(
    moves: readonly TermMove[],
    edits: readonly number[],
    otherwise: readonly ChangeKind[],
  ): readonly number[] {
    const weights = new Map<number, bigint>();
    for (const move of moves) {
      for (const index of this.#ofTerm(move, edits)) {
        weights.set(index, (weights.get(index) ?? 0n) + move.weight);
      }
    }
    if (weights.size === 0) return this.#ofKinds(edits, otherwise);
    const order = this.#inOrder([...weights.keys()]);
    return [...order].sort((a, b) => Number(weights.get(b)! - weights.get(a)!));
  }

  #ofTerm(move: TermMove, edits: readonly number[]): readonly number[] {
    // Where its figure stands says nothing of how much of it there is.
    const at = move.in === 'figure' ? this.#atFigure(move, edits) : [];
    if (at.length > 0) return at;
    const nearest = kindsOf(move).find((kind) => this.#ofKinds(edits, [kind]).length > 0);
    return nearest ? this.#ofKinds(edits, [nearest]) : this.#atFigure(move, edits);
  }

  /** Edits of the lines in which a figure stands, else of their blocks. */
  #atFigure(move: TermMove, edits: readonly number[]): readonly number[] {
    const within = (fits: (edited: EditedPlace, side: Side, place: Place) => boolean) =>
      edits.filter((index) => {
        const edit = this.#edits[index]!;
        return (['before', 'after'] as const).some((side) => {
          const place = move[side];
          return (
            place !== undefined &&
            [edit, ...(edit.elsewhere ?? [])].some((one) => fits(one, side, place))
          );
        });
      });
    const here = within((edited, side, place) => {
      const at = edited[side];
      return at !== undefined && meets(at, this.#locate(side, place));
    });
    return here.length > 0
      ? here
      : within(({ blocks }, side, place) => blocks[side] === place.block);
  }

  #locate(side: Side, { block, span }: Place): StatePlace | undefined {
    const key = `${side} ${block} ${span.start} ${span.end}`;
    if (!this.#located.has(key)) {
      this.#located.set(key, this.#sides[side].locate({ block, span }));
    }
    return this.#located.get(key);
  }
}

function kindsOf({ in: what, role }: TermMove): readonly ChangeKind[] {
  if (what === 'figure') return kindsThat.setFigures;
  if (what === 'length') return kindsThat.setLengths;
  if (role === 'reference-pair' || role === 'end-pair') return kindsThat.setReferencePairs;
  if (what === 'count') return kindsThat.setCounts;
  if (role === 'fibre') return kindsThat.setFibres;
  return parts.has(role) ? kindsThat.setParts : kindsThat.setOthers;
}

/** Terms of what is built into a path. */
const parts: ReadonlySet<TermMove['role']> = new Set([
  'pair',
  'splice',
  'part',
  'core-step',
  'cord',
]);

/** Its verdict or what is wanted and there: what an object's own standing is made of. */
function affectsObject({ before, after }: Extract<Movement, { kind: 'reading' }>): boolean {
  const [was, is] = [before?.result, after?.result];
  return (
    was?.verdict !== is?.verdict ||
    was?.expectedSet !== is?.expectedSet ||
    (was?.attempt ?? null) !== (is?.attempt ?? null)
  );
}

/** A power that was read is the loss of its key. */
function sameKey(
  one: ReadingKey,
  key: ReadingKey,
  names: readonly (string | undefined)[],
  fibres: readonly (number | undefined)[],
): boolean {
  const reflected = (quantity: ReadingKey['quantity']) => quantity === 'reflectance';
  return (
    names.includes(one.object) &&
    fibres.includes(one.fibre) &&
    one.wavelength === key.wavelength &&
    (one.direction ?? '') === (key.direction ?? '') &&
    reflected(one.quantity) === reflected(key.quantity)
  );
}

function meets(a: StatePlace, b: StatePlace | undefined): boolean {
  if (!b || a.path !== b.path) return false;
  return !isBefore(a.range.end, b.range.start) && !isBefore(b.range.end, a.range.start);
}

function isBefore(
  a: { readonly line: number; readonly character: number },
  b: { readonly line: number; readonly character: number },
): boolean {
  return a.line < b.line || (a.line === b.line && a.character < b.character);
}
