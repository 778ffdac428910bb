/**
 * What an entry of the vocabulary is made of: the word, where it stands, its
 * forms and their slots; and the small vocabulary in which the table is written.
 */
import type { NameKind } from '../bound.ts';
import type { Dimension } from '../quantity/index.ts';
import type { Choice, Keyword, Word } from './spelling.ts';

/** Where entries stand: the file itself, or the block that a word opens. */
export type Context =
  | 'file'
  | 'plan'
  | 'doubts'
  | 'changes'
  | 'fibre'
  | 'connector'
  | 'splice'
  | 'splitter'
  | 'component'
  | 'cable'
  | 'colours'
  | 'mandrel'
  | 'flux'
  | 'criterion'
  | 'limits'
  | 'application'
  | 'transceiver'
  | 'setup'
  | 'link'
  | 'channel'
  | 'ring'
  | 'links'
  | 'channels'
  | 'pattern'
  | 'readings'
  | 'events'
  | 'inspection'
  | 'work'
  | 'withdraw'
  | 'concession'
  | 'split'
  | 'out'
  | 'repair';

/** What one argument may be. A slot takes any of its kinds. */
export type SlotKind =
  /** A name; `declares` one of `of[0]`, or refers to one of any of them. */
  | { readonly kind: 'name'; readonly of: readonly NameKind[]; readonly declares?: true }
  | { readonly kind: 'text' }
  | { readonly kind: 'whole'; readonly least?: 1 }
  /** Whole numbers and ranges. */
  | { readonly kind: 'wholes' }
  | { readonly kind: 'decimal' }
  | { readonly kind: 'ratio' }
  | { readonly kind: 'date' }
  | { readonly kind: 'time' }
  | { readonly kind: 'direction' }
  | { readonly kind: 'map' }
  | { readonly kind: 'unit' }
  | {
      readonly kind: 'quantity';
      readonly dimension: Dimension;
      readonly unit: string;
      /** Set where nothing below zero can be meant. */
      readonly least?: 0;
      /** In base units. */
      readonly most?: number;
    }
  | { readonly kind: 'choice'; readonly choices: readonly Choice[] }
  /** The value of a hole: read as it is written. */
  | { readonly kind: 'any' };

/** One argument of an entry, or a list of them. */
export interface Slot {
  /** Key in `BoundEntry.slots`. */
  readonly name: string;
  /** Keyword written before it. */
  readonly keyword?: Keyword;
  /** Empty: the keyword stands alone. */
  readonly kinds: readonly SlotKind[];
  /** A list, joined by commas. */
  readonly many?: true;
  readonly required?: true;
  /** Stands only where that slot does, behind it. */
  readonly after?: string;
  /** How a signature shows it: `LEN`, `FIBRE`. */
  readonly label: string;
}

/** One way to write an entry. Slots without keyword come in this order; those with one, in any. */
export interface Form {
  readonly slots: readonly Slot[];
  /** At least one of these slots has to be there; `block` counts if the entry has one. */
  readonly oneOf?: readonly string[];
  /** Takes pairs of hole and value: the slot of hole `length` is `<length>`. */
  readonly holes?: true;
}

/** 1 once and required, ? at most once, + one or more, * any number, k any number with different keys. */
export type Times = '1' | '?' | '+' | '*' | 'k';

export interface WordEntry {
  readonly word: Word;
  readonly contexts: readonly Context[];
  readonly forms: readonly [Form, ...Form[]];
  readonly times: Times;
  /** For `k`: the slots that make the key. */
  readonly key?: readonly string[];
  /** For `k`: at least one is required. */
  readonly needed?: true;
  /** The context of its block. */
  readonly block?: Context;
  /** True where the block may be left out. */
  readonly blockOptional?: true;
  /** What it says, in a paragraph: defaults and units with it. */
  readonly doc: string;
  /** One line, as it would stand in a plan. */
  readonly example: string;
}

/** A column of a table. */
export interface Column {
  readonly word: Word;
  readonly kinds: readonly SlotKind[];
  /** The heading says `in` a unit of that dimension. */
  readonly dimension?: Dimension;
  /** One of those that can head the first column. */
  readonly first?: true;
  readonly doc: string;
}

/** The table that a block may end in. */
export interface TableSpec {
  readonly context: Context;
  readonly required: boolean;
  readonly columns: readonly Column[];
  /** Headings may be readings: wavelength, direction, what it is. */
  readonly readings?: true;
  /** Headings may be holes of the pattern. */
  readonly holes?: true;
}

// ---- the vocabulary's own vocabulary

export const TEXT: SlotKind = { kind: 'text' };
export const N: SlotKind = { kind: 'whole' };
/** How many there are of what has at least one. */
export const COUNT: SlotKind = { kind: 'whole', least: 1 };
export const NS: SlotKind = { kind: 'wholes' };
export const NUM: SlotKind = { kind: 'decimal' };
export const RATIO: SlotKind = { kind: 'ratio' };
export const DATE: SlotKind = { kind: 'date' };
export const TIME: SlotKind = { kind: 'time' };
export const DIR: SlotKind = { kind: 'direction' };
export const MAP: SlotKind = { kind: 'map' };
export const UNIT: SlotKind = { kind: 'unit' };

export const LEN: SlotKind = { kind: 'quantity', dimension: 'length', unit: 'm' };
export const SIZE: SlotKind = { kind: 'quantity', dimension: 'size', unit: 'um' };
/** A size that a person reads off a rule. */
export const THICKNESS: SlotKind = { kind: 'quantity', dimension: 'size', unit: 'mm', least: 0 };
export const WL: SlotKind = { kind: 'quantity', dimension: 'wavelength', unit: 'nm' };
export const LOSS: SlotKind = { kind: 'quantity', dimension: 'loss', unit: 'dB', least: 0 };
/** A loss that was measured: the reference may have lost more. */
export const MEASURED: SlotKind = { kind: 'quantity', dimension: 'loss', unit: 'dB' };
export const RATE: SlotKind = { kind: 'quantity', dimension: 'rate', unit: 'dB/km', least: 0 };
export const POWER: SlotKind = { kind: 'quantity', dimension: 'power', unit: 'dBm' };
export const BW: SlotKind = { kind: 'quantity', dimension: 'bandwidth', unit: 'MHz.km' };
export const DISPERSION: SlotKind = { kind: 'quantity', dimension: 'dispersion', unit: 'ps/nm/km' };
export const TOTAL: SlotKind = { kind: 'quantity', dimension: 'total-dispersion', unit: 'ps/nm' };
export const SLOPE: SlotKind = { kind: 'quantity', dimension: 'slope', unit: 'ps/nm2/km' };
export const PMD: SlotKind = { kind: 'quantity', dimension: 'pmd', unit: 'ps/sqrt-km' };
export const SPAN: SlotKind = { kind: 'quantity', dimension: 'time', unit: 'h', least: 0 };
export const NANOSECONDS: SlotKind = { kind: 'quantity', dimension: 'time', unit: 'ns', least: 0 };
export const SECONDS: SlotKind = { kind: 'quantity', dimension: 'time', unit: 's', least: 0 };
/** At most the whole. */
export const SHARE: SlotKind = {
  kind: 'quantity',
  dimension: 'share',
  unit: '%',
  least: 0,
  most: 1_000_000,
};
export const DEGREES: SlotKind = { kind: 'quantity', dimension: 'temperature', unit: 'degC' };

/** A place: a text, the name of a closure, or a length along. */
export const PLACE: readonly SlotKind[] = [LEN, TEXT, { kind: 'name', of: ['closure'] }];

export const refers = (...of: NameKind[]): SlotKind => ({ kind: 'name', of });
export const declares = (of: NameKind): SlotKind => ({ kind: 'name', of: [of], declares: true });
export const choice = (...choices: Choice[]): SlotKind => ({ kind: 'choice', choices });

type Kinds = SlotKind | readonly SlotKind[];
const list = (kinds: Kinds): readonly SlotKind[] => ('kind' in kinds ? [kinds] : kinds);

/** A required argument. */
export const arg = (name: string, kinds: Kinds, label = labelOf(list(kinds))): Slot => ({
  name,
  kinds: list(kinds),
  required: true,
  label,
});

/** A required list of arguments. */
export const args = (name: string, kinds: Kinds, label = labelOf(list(kinds))): Slot => ({
  ...arg(name, kinds, label),
  many: true,
});

/** An argument that may be left out. */
export const maybe = (name: string, kinds: Kinds, label = labelOf(list(kinds))): Slot => ({
  name,
  kinds: list(kinds),
  label,
});

/** A keyword and its value, which may be left out. */
export const opt = (keyword: Keyword, kinds: Kinds, label = labelOf(list(kinds))): Slot => ({
  name: keyword,
  keyword,
  kinds: list(kinds),
  label,
});

/** A keyword and its list. */
export const opts = (keyword: Keyword, kinds: Kinds, label = labelOf(list(kinds))): Slot => ({
  ...opt(keyword, kinds, label),
  many: true,
});

/** A keyword alone. */
export const flag = (keyword: Keyword): Slot => ({ name: keyword, keyword, kinds: [], label: '' });

export const need = (slot: Slot): Slot => ({ ...slot, required: true });
export const behind = (after: string, slot: Slot): Slot => ({ ...slot, after });

/** `[min q] [typ q] [max q] [sigma q]`, at least one. */
const figures = (kind: SlotKind): Slot[] => figureNames.map((keyword) => opt(keyword, kind));

export const figureNames = ['min', 'typ', 'max', 'sigma'] as const satisfies readonly Keyword[];

export const form = (...slots: Slot[]): Form => ({ slots });
export const figureForm = (kind: SlotKind, ...slots: Slot[]): Form => ({
  slots: [...slots, ...figures(kind)],
  oneOf: figureNames,
});

type Extra = Partial<Pick<WordEntry, 'key' | 'needed' | 'block' | 'blockOptional'>>;

/** One row of the vocabulary. */
export function word(
  name: Word,
  contexts: Context | readonly Context[],
  times: Times,
  forms: Form | readonly [Form, ...Form[]],
  example: string,
  doc: string,
  extra: Extra = {},
): WordEntry {
  return {
    word: name,
    contexts: typeof contexts === 'string' ? [contexts] : contexts,
    times,
    forms: 'slots' in forms ? [forms] : forms,
    example,
    doc,
    ...extra,
  };
}

const kindLabels: Readonly<
  Record<Exclude<SlotKind['kind'], 'name' | 'quantity' | 'choice'>, string>
> = {
  text: 'TEXT',
  whole: 'N',
  wholes: 'NS',
  decimal: 'NUM',
  ratio: 'RATIO',
  date: 'DATE',
  time: 'TIME',
  direction: 'DIR',
  map: 'MAP',
  unit: 'UNIT',
  any: 'VALUE',
};

const dimensionLabels: Readonly<Record<Dimension, string>> = {
  length: 'LEN',
  size: 'SIZE',
  wavelength: 'WL',
  loss: 'LOSS',
  rate: 'RATE',
  power: 'POWER',
  bandwidth: 'BW',
  dispersion: 'DISPERSION',
  'total-dispersion': 'DISPERSION',
  slope: 'SLOPE',
  pmd: 'PMD',
  frequency: 'FREQUENCY',
  time: 'SPAN',
  share: 'SHARE',
  temperature: 'DEGREES',
};

function labelOf(kinds: readonly SlotKind[]): string {
  if (kinds === PLACE) return 'PLACE';
  return kinds
    .map((kind) => {
      if (kind.kind === 'choice') return kind.choices.join('|');
      if (kind.kind === 'quantity') return dimensionLabels[kind.dimension];
      if (kind.kind === 'name')
        return kind.declares ? 'NAME' : (kind.of[0] ?? 'name').toUpperCase();
      return kindLabels[kind.kind];
    })
    .join('|');
}
