/**
 * Where the figures of a sum come from: a limits set, or the parts themselves.
 * A limits set that does not name a part takes the part's own greatest figure;
 * a design takes the parts' own and falls back on the first set that has one.
 */
import type { MicroDb, Picometres, RatePerKm } from '../../../grammar/src/quantity/index.ts';
import { toNanometres } from '../../../grammar/src/quantity/index.ts';
import type {
  ConnectorType,
  Declared,
  FibreType,
  JointGrade,
  LimitsSet,
  LinkModel,
  Mode,
  PartLoss,
  Place,
  Sourced,
  Trust,
} from '../model/types.ts';
import type { Piece } from './path.ts';
import { sameWindow } from './thresholds.ts';

/** One figure with where it stands. */
export interface Found {
  /** Micro-decibel, or per kilometre for fibre. */
  readonly each: number;
  readonly source: string;
  readonly trust?: Trust;
  readonly place?: Place;
}

type Part = Extract<Piece, { kind: 'part' }>;
type Splice = Extract<Piece, { kind: 'splice' }>;
type SplitPiece = Extract<Piece, { kind: 'split' }>;

export interface Figures {
  /** Whose figures they are, for messages. */
  readonly name: string;
  rate(name: string, type: FibreType | undefined): Found | undefined;
  pair(
    name: string | undefined,
    type: ConnectorType | undefined,
    grade: JointGrade,
  ): Found | undefined;
  /** What a sum takes of a splice. */
  splice(piece: Splice): Found | undefined;
  /** What one splice may have by itself: the same, unless the sum is held to a tighter objective. */
  spliceAlone(piece: Splice): Found | undefined;
  /** Undefined for a joining part that is not named: its two pairs count instead. */
  part(piece: Part): Found | undefined;
  /** A splitter from its input to the output that light takes. */
  split(piece: SplitPiece): Found | undefined;
  /** Allowance for light that goes from one fibre into the other, in that direction only. */
  step(from: FibreType | undefined, to: FibreType | undefined): Found | undefined;
}

export function setFigures(
  set: LimitsSet,
  wavelength: Picometres,
  mode: Mode | undefined,
): Figures {
  const say = (what: string) => `${set.edition ?? set.name}, ${what}`;
  const found = (
    entry: (Sourced & { readonly place: Place }) | undefined,
    each: number,
    what: string,
  ) => entry && { each, source: say(what), trust: entry.trust, place: entry.place };
  const forMode = <T extends { readonly mode?: Mode }>(entries: readonly T[]): readonly T[] => [
    ...entries.filter((entry) => entry.mode !== undefined && entry.mode === mode),
    ...entries.filter((entry) => entry.mode === undefined),
  ];
  const named = <T extends { readonly mode?: Mode }>(
    entries: readonly T[],
    nameOf: (entry: T) => string,
    name: string | undefined,
  ): T | undefined => {
    const fitting = forMode(entries);
    return (
      fitting.find((entry) => nameOf(entry) === name) ??
      fitting.find((entry) => nameOf(entry) === 'any')
    );
  };
  return {
    name: set.name,
    rate(name, type) {
      for (const candidate of [name, ...(type?.meets ?? [])]) {
        const entry = set.fibre.find((e) => e.fibre === candidate && e.wavelength === wavelength);
        if (entry) {
          return found(entry, entry.rate, `fibre ${candidate} at ${toNanometres(wavelength)} nm`);
        }
      }
      return undefined;
    },
    pair(name, type, grade) {
      const entries = set.connector.filter((entry) => entry.grade === grade);
      const entry = named(entries, (e) => e.connector, name);
      if (entry) return found(entry, entry.loss, pairInWords(entry.connector, grade));
      return grade === 'installed' ? ownLoss(type, type?.loss, wavelength, 'max') : undefined;
    },
    splice(piece) {
      const entry = named(set.splice, (e) => e.splice, piece.name);
      if (!entry) return ownLoss(piece.type, piece.type?.loss, wavelength, 'max');
      // A set may hold one splice to a hard figure and a sum to a tighter objective.
      return found(entry, entry.objective ?? entry.loss, `splice ${entry.splice}`);
    },
    spliceAlone(piece) {
      const entry = named(set.splice, (e) => e.splice, piece.name);
      if (!entry) return ownLoss(piece.type, piece.type?.loss, wavelength, 'max');
      return found(entry, entry.loss, `splice ${entry.splice}`);
    },
    part(piece) {
      const fitting = forMode(set.part);
      const exact = fitting.find((e) => e.part === piece.name);
      if (exact) return found(exact, exact.loss, `part ${piece.name}`);
      if (piece.joins) return undefined;
      const any = fitting.find((e) => e.part === 'any');
      if (any) return found(any, any.loss, 'part any');
      return ownLoss(piece.type, piece.type?.loss, wavelength, 'max');
    },
    split(piece) {
      const entry = named(set.part, (e) => e.part, piece.name);
      return entry
        ? found(entry, entry.loss, `part ${entry.part}`)
        : splitLoss(piece, wavelength, 'max');
    },
    step(from, to) {
      const entry = set.coreStep.find((e) => meets(from, e.from) && meets(to, e.to));
      return found(entry, entry?.loss ?? 0, `core step ${entry?.from} to ${entry?.to}`);
    },
  };
}

/** Figures of the parts themselves; `max` falls back on the sets, `typ` never. */
export function ownFigures(
  sets: readonly LimitsSet[],
  wavelength: Picometres,
  mode: Mode | undefined,
  which: 'typ' | 'max' | 'min',
): Figures {
  const fallback = which === 'max' ? sets.map((set) => setFigures(set, wavelength, mode)) : [];
  const first = (find: (figures: Figures) => Found | undefined): Found | undefined => {
    for (const figures of fallback) {
      const hit = find(figures);
      if (hit) return hit;
    }
    return undefined;
  };
  return {
    name: 'the parts',
    rate: (name, type) =>
      ownRate(type, wavelength, which) ?? first((figures) => figures.rate(name, type)),
    pair(name, type, grade) {
      const own = ownLoss(type, type?.loss, wavelength, which);
      if (grade === 'installed') return own ?? first((figures) => figures.pair(name, type, grade));
      const granted = sets
        .map((set) => setFigures(set, wavelength, mode).pair(name, type, grade))
        .find((hit) => hit !== undefined);
      if (which !== 'typ') return granted;
      return own && granted && granted.each < own.each ? granted : own;
    },
    splice: (piece) =>
      ownLoss(piece.type, piece.type?.loss, wavelength, which) ??
      first((figures) => figures.splice(piece)),
    spliceAlone: (piece) =>
      ownLoss(piece.type, piece.type?.loss, wavelength, which) ??
      first((figures) => figures.spliceAlone(piece)),
    part: (piece) =>
      ownLoss(piece.type, piece.type?.loss, wavelength, which) ??
      first((figures) => figures.part(piece)),
    split: (piece) =>
      splitLoss(piece, wavelength, which) ?? first((figures) => figures.split(piece)),
    step: (from, to) => first((figures) => figures.step(from, to)),
  };
}

/** The wavelength that a channel uses on a shared line, where that is of the window asked about. */
export function onLine(
  { wavelength }: Pick<LinkModel, 'wavelength'>,
  light: Picometres,
): Picometres {
  return wavelength !== undefined && sameWindow(wavelength, light) ? wavelength : light;
}

/** Figures with those of parts at a wavelength of their own: what parts wavelengths has none for a whole window. */
export function withPartsAt(figures: Figures, parts: Figures): Figures {
  return { ...figures, part: parts.part };
}

/**
 * A fibre's own rate. `window` also takes the nearest wavelength of the same
 * nominal window: for what is planned or predicted, never for a limit.
 */
export function ownRate(
  type: FibreType | undefined,
  wavelength: Picometres,
  which: 'typ' | 'max' | 'min',
  window = false,
): Found | undefined {
  if (!type) return undefined;
  const fitting = type.attenuation
    .filter((entry) => entry[which] !== undefined)
    .filter((entry) =>
      window ? sameWindow(entry.wavelength, wavelength) : entry.wavelength === wavelength,
    )
    .sort((a, b) => Math.abs(a.wavelength - wavelength) - Math.abs(b.wavelength - wavelength));
  const nearest = fitting.filter((entry) => entry.wavelength === fitting[0]?.wavelength);
  if (nearest.length === 0) return undefined;
  // Light from LED and laser may have a figure each: the one that judges more strictly.
  const values = nearest.map((entry) => entry[which] as RatePerKm);
  const each = which === 'min' ? Math.min(...values) : Math.max(...values);
  const governs = nearest[values.indexOf(each as RatePerKm)];
  return {
    each,
    source: `fibre ${type.name} at ${toNanometres(wavelength)} nm, ${inWords[which]}`,
    trust: governs?.trust,
    place: type.place,
  };
}

/** A splitter's own figure for the output that light takes: that output's, else the one for all. None where light stops at it. */
export function splitLoss(
  piece: SplitPiece,
  wavelength: Picometres,
  which: 'typ' | 'max' | 'min',
): Found | undefined {
  const [own, all] = lossesOfOutput(piece);
  return ownLoss(piece.type, own, wavelength, which) ?? ownLoss(piece.type, all, wavelength, which);
}

/** What a splitter states of the output that light takes, and of all: whatever the first lacks stands in the second. */
export function lossesOfOutput({ type, out }: SplitPiece): readonly (readonly PartLoss[])[] {
  if (!type || out === undefined) return [];
  return [
    type.loss.filter((loss) => loss.out?.includes(out)),
    type.loss.filter((loss) => loss.out === undefined),
  ];
}

/** A part's own figure at a wavelength: that wavelength's, else the one for all. */
export function ownLoss(
  type: Declared | undefined,
  losses: readonly PartLoss[] | undefined,
  wavelength: Picometres,
  which: 'typ' | 'max' | 'min',
): Found | undefined {
  if (!type || !losses) return undefined;
  const entry =
    losses.find((loss) => loss.wavelength === wavelength && loss[which] !== undefined) ??
    losses.find((loss) => loss.wavelength === undefined && loss[which] !== undefined);
  const each: MicroDb | undefined = entry?.[which];
  if (each === undefined) return undefined;
  return {
    each,
    source: `${type.name}, ${inWords[which]}`,
    trust: entry?.trust,
    place: type.place,
  };
}

/** Whether a fibre is the named one or meets all that is asked of it. */
export function meets(type: FibreType | undefined, name: string): boolean {
  return type !== undefined && (type.name === name || type.meets.includes(name));
}

const inWords = { typ: 'typical', max: 'greatest', min: 'least' } as const;

function pairInWords(connector: string, grade: JointGrade): string {
  const which = connector === 'any' ? 'any pair' : `pair ${connector}`;
  if (grade === 'end') return `${which} with a reference-grade plug`;
  return grade === 'reference' ? `${which} of reference-grade plugs` : which;
}
