/** Reads one argument in the kinds that its slot takes. */
import type { Value } from '../bound.ts';
import { findUnit, toBase, type Unit, units } from '../quantity/index.ts';
import type { Argument, Fix, Span } from '../tree.ts';
import { K, type SlotKind } from '../vocabulary/index.ts';
import { nearest } from './nearest.ts';
import { type BindingFindingName, type Details, oneOf, replace } from './sentences.ts';
import {
  argumentNames,
  article,
  describe,
  dimensionNames,
  maps,
  meantUnit,
  unitsOf,
} from './wording.ts';

/** What is wrong with an argument, before it is known on which line it is said. */
export interface Mistake {
  readonly name: BindingFindingName;
  readonly span: Span;
  readonly details: Details;
  readonly fix?: Fix | undefined;
  readonly related?: readonly { readonly span: Span; readonly message: string }[];
}

export type Reading = { readonly value: Value } | { readonly mistake: Mistake };

export interface Where {
  /** Text of the block. */
  readonly text: string;
  /** Holes may stand here. */
  readonly holes: boolean;
}

type Quantity = Extract<Argument, { kind: 'quantity' }>;
export type QuantityKind = Extract<SlotKind, { kind: 'quantity' }>;

/** The value of an argument in one of the kinds, or what is wrong with it. */
export function readValue(argument: Argument, kinds: readonly SlotKind[], where: Where): Reading {
  const { span } = argument;
  switch (argument.kind) {
    case 'spoilt':
      return { value: { kind: 'spoilt', span } };
    case 'hole':
      if (where.holes) return { value: { kind: 'hole', span, name: argument.name } };
      return mistake('hole-outside-pattern', span, { found: `<${argument.name}>` });
    case 'absent':
      return wrongKind(argument, kinds, where);
    case 'name':
      return readName(argument, kinds, where);
    case 'text':
      if (has(kinds, 'text') || has(kinds, 'any')) {
        return { value: { kind: 'text', span, text: argument.text } };
      }
      if (has(kinds, 'name')) return { value: { kind: 'name', span, text: argument.text } };
      return wrongKind(argument, kinds, where);
    case 'number':
      return readNumber(argument, kinds, where);
    case 'quantity':
      return readQuantity(argument, kinds, where);
    case 'range':
      return readRange(argument, kinds, where);
    case 'name-range':
      if (has(kinds, 'name') || has(kinds, 'any')) return names(argument);
      return wrongKind(argument, kinds, where);
    case 'pair':
      return readPair(argument, kinds, where);
    case 'date':
      if (has(kinds, 'date') || has(kinds, 'any')) {
        return { value: { kind: 'date', span, value: argument.value } };
      }
      return wrongKind(argument, kinds, where);
    case 'direction':
      if (has(kinds, 'direction') || has(kinds, 'any')) {
        return { value: { kind: 'direction', span, value: argument.value } };
      }
      return wrongKind(argument, kinds, where);
  }
}

/** What is not there at all where it is zero: light has a wavelength, a core a size. */
const neverZero: ReadonlySet<Unit['dimension']> = new Set(['wavelength', 'size', 'bandwidth']);

/** In base units: as much of it as sums over any path can hold, and far more than there is. */
const greatest: Readonly<Partial<Record<Unit['dimension'], readonly [number, string]>>> = {
  loss: [1e10, '10,000 dB'],
  rate: [1e10, '10,000 dB/km'],
  power: [1e10, '10,000 dBm'],
  length: [1e14, '100,000 km'],
};

/** A bare number in the unit of its column. */
export function readInUnit(
  argument: Extract<Argument, { kind: 'number' | 'quantity' }>,
  unit: Unit,
  where: Where,
): Reading {
  const base = toBase(argument.value, unit);
  const { span, digits } = argument;
  if (typeof base === 'number' && base <= 0 && neverZero.has(unit.dimension)) {
    const found = where.text.slice(span.start, span.end);
    return mistake('zero-or-below', span, { found, want: dimensionNames[unit.dimension] });
  }
  const [most, bound] = greatest[unit.dimension] ?? [];
  if (most !== undefined && bound !== undefined && typeof base === 'number') {
    const found = where.text.slice(span.start, span.end);
    if (Math.abs(base) > most) return mistake('too-large', span, { found, most: bound });
  }
  if (typeof base === 'number') {
    return {
      value: { kind: 'quantity', span, dimension: unit.dimension, base, digits, unit },
    };
  }
  return refused(base, span, where.text.slice(span.start, span.end), unit);
}

export const has = (kinds: readonly SlotKind[], kind: SlotKind['kind']): boolean =>
  kinds.some((k) => k.kind === kind);

export const choicesIn = (kinds: readonly SlotKind[]): readonly string[] =>
  kinds.flatMap((k) => (k.kind === 'choice' ? k.choices : []));

export const quantityIn = (kinds: readonly SlotKind[]): QuantityKind | undefined =>
  kinds.find((k): k is QuantityKind => k.kind === 'quantity');

/** A number and a name behind it that is no unit: `12 mtr`. */
export function unknownUnit(
  number: Extract<Argument, { kind: 'number' }>,
  unit: { readonly text: string; readonly span: Span },
  kind: QuantityKind,
): Mistake {
  const meant = meantUnit(unit.text, kind);
  return {
    name: 'unknown-unit',
    span: { start: number.span.start, end: unit.span.end },
    details: {
      unit: unit.text,
      dimension: dimensionNames[kind.dimension],
      units: unitsOf(kind.dimension),
      ...(meant ? { nearest: meant } : {}),
    },
    fix: meant ? replace(`Write \`${meant}\``, unit.span, meant) : undefined,
  };
}

function readName(
  argument: Extract<Argument, { kind: 'name' }>,
  kinds: readonly SlotKind[],
  where: Where,
): Reading {
  const { span, text } = argument;
  for (const kind of kinds) {
    if (kind.kind === 'choice' && (kind.choices as readonly string[]).includes(text)) {
      return { value: { kind: 'choice', span, text } };
    }
    if (kind.kind === 'map' && maps.includes(text)) {
      return { value: { kind: 'map', span, named: text } };
    }
    if (kind.kind === 'unit') return readUnit(argument);
  }
  const quantity = quantityIn(kinds);
  const glued = quantity ? /^([-+−]?(?:\d+\.?\d*|\.\d+))(\D.*)$/u.exec(text) : null;
  if (has(kinds, 'name') && !glued) return { value: { kind: 'name', span, text } };
  if (has(kinds, 'any')) return { value: { kind: 'name', span, text } };
  if (quantity && glued?.[1] !== undefined && glued[2] !== undefined) {
    const digits = glued[1];
    const unit = { start: span.start + digits.length, end: span.end };
    const meant = meantUnit(glued[2], quantity);
    if (!has(kinds, 'name') || meant) {
      return mistake(
        'unknown-unit',
        span,
        {
          unit: glued[2],
          dimension: dimensionNames[quantity.dimension],
          units: unitsOf(quantity.dimension),
          ...(meant ? { nearest: meant } : {}),
        },
        meant ? replace(`Write \`${meant}\``, unit, meant) : undefined,
      );
    }
    return { value: { kind: 'name', span, text } };
  }
  const choices = [...choicesIn(kinds), ...(has(kinds, 'map') ? maps : [])];
  if (choices.length > 0) return unknownChoice(argument, choices);
  if (has(kinds, 'text')) {
    return mistake('unquoted-text', span, {}, replace('Put it in quotes', span, quoted(text)));
  }
  return wrongKind(argument, kinds, where);
}

function readUnit(argument: Extract<Argument, { kind: 'name' }>): Reading {
  const unit = findUnit(argument.text);
  if (unit) return { value: { kind: 'choice', span: argument.span, text: unit.name } };
  const meant = nearest(
    argument.text,
    units.map((u) => u.name),
  );
  return mistake(
    'unknown-unit',
    argument.span,
    {
      unit: argument.text,
      dimension: 'readings',
      units: oneOf(['dB', 'dBm', 'mW', 'uW', 'nW']),
      ...(meant ? { nearest: meant } : {}),
    },
    meant ? replace(`Write \`${meant}\``, argument.span, meant) : undefined,
  );
}

function unknownChoice(
  argument: Extract<Argument, { kind: 'name' }>,
  choices: readonly string[],
): Reading {
  const meant = nearest(argument.text, choices);
  return mistake(
    'unknown-choice',
    argument.span,
    {
      found: argument.text,
      choices: oneOf(choices, 'and'),
      ...(meant ? { nearest: meant } : {}),
    },
    meant ? replace(`Write \`${meant}\``, argument.span, meant) : undefined,
  );
}

function readNumber(
  argument: Extract<Argument, { kind: 'number' }>,
  kinds: readonly SlotKind[],
  where: Where,
): Reading {
  const { span, digits, value } = argument;
  if (has(kinds, 'decimal')) {
    return {
      value: { kind: 'decimal', span, value: Number(value.scaled) / 10 ** value.places, digits },
    };
  }
  if (has(kinds, 'whole') || has(kinds, 'wholes') || has(kinds, 'map')) {
    return whole(argument, kinds);
  }
  if (has(kinds, 'any')) {
    return value.places === 0 && value.scaled >= 0n
      ? whole(argument, kinds)
      : {
          value: {
            kind: 'decimal',
            span,
            value: Number(value.scaled) / 10 ** value.places,
            digits,
          },
        };
  }
  const quantity = quantityIn(kinds);
  if (quantity) {
    return mistake(
      'missing-unit',
      span,
      { found: digits, unit: quantity.unit },
      replace(`Write \`${digits} ${quantity.unit}\``, span, `${digits} ${quantity.unit}`),
    );
  }
  if (onlyNames(kinds)) return { value: { kind: 'name', span, text: digits } };
  if (has(kinds, 'text')) {
    return mistake('unquoted-text', span, {}, replace('Put it in quotes', span, quoted(digits)));
  }
  return wrongKind(argument, kinds, where);
}

function whole(
  argument: Extract<Argument, { kind: 'number' }>,
  kinds: readonly SlotKind[],
): Reading {
  const { span, digits, value } = argument;
  if (value.places > 0 || value.scaled < 0n || digits.startsWith('+')) {
    return mistake('not-whole', span, { found: digits });
  }
  const number = Number(value.scaled);
  if (!Number.isSafeInteger(number)) return mistake('too-large', span, { found: digits });
  if (number === 0 && kinds.some((kind) => kind.kind === 'whole' && kind.least)) {
    return mistake('zero-or-below', span, { found: digits, want: 'count' });
  }
  // As many as a range names at most: each of them is written out somewhere.
  if (number > 100_000 && kinds.some((kind) => kind.kind === 'whole' && kind.least)) {
    return mistake('too-large', span, { found: digits, most: '100,000' });
  }
  return { value: { kind: 'whole', span, value: number } };
}

function readQuantity(argument: Quantity, kinds: readonly SlotKind[], where: Where): Reading {
  const { span, unit } = argument;
  if (has(kinds, 'any')) return readInUnit(argument, unit, where);
  const wanted = kinds.filter((kind) => kind.kind === 'quantity');
  const kind = wanted.find(({ dimension }) => dimension === unit.dimension);
  if (kind) {
    const reading = readInUnit(argument, unit, where);
    return 'value' in reading && reading.value.kind === 'quantity' && !within(reading.value, kind)
      ? mistake('out-of-bounds', span, {
          found: where.text.slice(span.start, span.end),
          bounds: kind.most === undefined ? 'zero or above' : 'between nothing and the whole',
        })
      : reading;
  }
  const first = wanted[0];
  const found = where.text.slice(span.start, span.end);
  if (first) {
    return mistake('wrong-dimension', span, {
      want: article(dimensionNames[first.dimension]),
      units: unitsOf(first.dimension),
      found,
      is: article(dimensionNames[unit.dimension]),
    });
  }
  if (has(kinds, 'name') || has(kinds, 'text')) {
    return mistake(
      'wrong-kind',
      span,
      {
        want: describe(kinds),
        found,
        is: `${article(dimensionNames[unit.dimension])}, unless it stands in quotes`,
      },
      replace('Put it in quotes', span, quoted(found)),
    );
  }
  return wrongKind(argument, kinds, where);
}

const within = ({ base }: { readonly base: number }, { least, most }: QuantityKind): boolean =>
  (least === undefined || base >= least) && (most === undefined || base <= most);

function refused(
  why: 'too-fine' | 'too-large' | 'not-positive',
  span: Span,
  found: string,
  unit: Unit,
): Reading {
  if (why === 'too-fine') {
    const size = unit.numerator.toString();
    // Of a foot or an hour no number of decimals says what can be held.
    const held: Details = /^10*$/u.test(size)
      ? { places: size.length - 1, unit: unit.name }
      : { base: unit.dimension === 'length' ? 'micrometres' : 'picoseconds' };
    return mistake('too-fine', span, { found, ...held });
  }
  return mistake(why, span, { found, dark: K.dark });
}

function readRange(
  argument: Extract<Argument, { kind: 'range' }>,
  kinds: readonly SlotKind[],
  where: Where,
): Reading {
  const { span, first, last, step } = argument;
  if (has(kinds, 'wholes') || has(kinds, 'map') || has(kinds, 'any')) {
    return { value: { kind: 'wholes', span, first, last, step } };
  }
  if (onlyNames(kinds)) {
    const digits = /^\d+/u.exec(where.text.slice(span.start, span.end))?.[0] ?? '';
    const width = digits.length > 1 && digits.startsWith('0') ? digits.length : 0;
    return names({ prefix: '', width, span, first, last, step });
  }
  return wrongKind(argument, kinds, where);
}

function names(
  range: Pick<
    Extract<Argument, { kind: 'name-range' }>,
    'span' | 'prefix' | 'first' | 'last' | 'step' | 'width'
  >,
): Reading {
  const { span, prefix, first, last, step, width } = range;
  return { value: { kind: 'names', span, prefix, first, last, step, width } };
}

function readPair(
  argument: Extract<Argument, { kind: 'pair' }>,
  kinds: readonly SlotKind[],
  where: Where,
): Reading {
  const { span, first, second } = argument;
  if (has(kinds, 'ratio')) {
    if (Number(first) === 0 || Number(second) === 0) {
      const found = where.text.slice(span.start, span.end);
      return mistake('zero-or-below', span, { found, want: 'ratio' });
    }
    return { value: { kind: 'ratio', span, first: Number(first), second: Number(second) } };
  }
  if (has(kinds, 'time') || has(kinds, 'any')) {
    const hours = Number(first);
    const minutes = Number(second);
    if (second.length === 2 && hours < 24 && minutes < 60) {
      return { value: { kind: 'time', span, minutes: hours * 60 + minutes } };
    }
    if (has(kinds, 'any')) return { value: { kind: 'ratio', span, first: hours, second: minutes } };
  }
  if (onlyNames(kinds)) return { value: { kind: 'name', span, text: `${first}:${second}` } };
  return wrongKind(argument, kinds, where);
}

const onlyNames = (kinds: readonly SlotKind[]): boolean =>
  has(kinds, 'name') && kinds.every((kind) => kind.kind === 'name' || kind.kind === 'choice');

function wrongKind(argument: Argument, kinds: readonly SlotKind[], where: Where): Reading {
  const { span } = argument;
  return mistake('wrong-kind', span, {
    want: describe(kinds),
    found: where.text.slice(span.start, span.end),
    is: argumentNames[argument.kind],
  });
}

function mistake(name: BindingFindingName, span: Span, details: Details, fix?: Fix): Reading {
  return { mistake: { name, span, details, fix } };
}

/** A text with its quotes. */
export const quoted = (text: string): string =>
  `"${text.replace(/\\/gu, '\\\\').replace(/"/gu, '\\"')}"`;
