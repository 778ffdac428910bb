/** How kinds, arguments and units are said in the sentences of findings and on the word pages. */
import type { NameKind } from '../bound.ts';
import { asciiUnit, type Dimension, units } from '../quantity/index.ts';
import type { Argument } from '../tree.ts';
import { C, type SlotKind } from '../vocabulary/index.ts';
import { nearest } from './nearest.ts';
import { oneOf } from './sentences.ts';
import type { QuantityKind } from './values.ts';

/** The kind as a reader would say it: `a length such as 142 m`. */
export function describe(kinds: readonly SlotKind[]): string {
  const parts = kinds.map(describeOne);
  return parts.length < 2
    ? (parts[0] ?? '')
    : `${parts.slice(0, -1).join(', ')} or ${parts.at(-1)}`;
}

/** The unit that was probably meant, by its usual other spellings or by its letters. */
export function meantUnit(text: string, kind: QuantityKind): string | undefined {
  const same = units.filter((unit) => unit.dimension === kind.dimension).map((unit) => unit.name);
  const plain = asciiUnit(text);
  const other = otherUnits[plain.toLowerCase()];
  if (other && same.includes(other)) return other;
  return same.find((name) => name.toLowerCase() === plain.toLowerCase()) ?? nearest(plain, same);
}

/** Words that people write for a unit; lower case. */
const otherUnits: Readonly<Record<string, string>> = {
  metre: 'm',
  metres: 'm',
  meter: 'm',
  meters: 'm',
  mtr: 'm',
  mtrs: 'm',
  kilometre: 'km',
  kilometres: 'km',
  kilometer: 'km',
  kilometers: 'km',
  kms: 'km',
  foot: 'ft',
  feet: 'ft',
  micron: 'um',
  microns: 'um',
  decibel: 'dB',
  decibels: 'dB',
  'db/kilometre': 'dB/km',
  nanometre: 'nm',
  nanometres: 'nm',
  nanometers: 'nm',
  'mhz-km': 'MHz.km',
  hour: 'h',
  hours: 'h',
  hrs: 'h',
  sec: 's',
  seconds: 's',
  percent: '%',
  c: 'degC',
};

/** Maps that have a name. */
export const maps: readonly string[] = [C.straight, C.reversed, C.pairsSwapped];

export const argumentNames: Readonly<Record<Argument['kind'], string>> = {
  name: 'a name',
  text: 'a text',
  number: 'a number',
  quantity: 'a quantity',
  range: 'a range',
  'name-range': 'a range of names',
  pair: 'a pair of numbers',
  date: 'a date',
  direction: 'a direction',
  hole: 'a hole',
  absent: 'for a cell of a table',
  spoilt: 'not readable',
};

const nameKinds: Readonly<Partial<Record<NameKind, string>>> = {
  setup: 'a set-up',
  object: 'a link, channel, ring or cable',
  limits: 'limits',
  colours: 'an order of colours',
  application: 'an application',
  finding: 'a finding',
};

export const dimensionNames: Readonly<Record<Dimension, string>> = {
  length: 'length',
  size: 'size',
  wavelength: 'wavelength',
  loss: 'loss',
  rate: 'loss per length',
  power: 'power',
  bandwidth: 'bandwidth',
  dispersion: 'dispersion per length',
  'total-dispersion': 'dispersion',
  slope: 'dispersion slope',
  pmd: 'polarisation mode dispersion',
  frequency: 'frequency',
  time: 'time',
  share: 'share',
  temperature: 'temperature',
};

export const article = (noun: string): string => (noun === 'loss per length' ? noun : `a ${noun}`);

export function unitsOf(dimension: Dimension): string {
  return oneOf(units.filter((unit) => unit.dimension === dimension).map((unit) => unit.name));
}

function describeOne(kind: SlotKind): string {
  switch (kind.kind) {
    case 'name': {
      const of = kind.of[0] ?? 'object';
      return kind.declares ? 'a name' : `the name of ${nameKinds[of] ?? `a ${of}`}`;
    }
    case 'text':
      return 'a text in quotes';
    case 'whole':
      return 'a whole number';
    case 'wholes':
      return 'numbers such as `1..12`';
    case 'decimal':
      return 'a number';
    case 'ratio':
      return 'a ratio such as `1:8`';
    case 'date':
      return 'a date such as `2026-03-14 09:05`';
    case 'time':
      return 'a time of day such as `09:05`';
    case 'direction':
      return 'a direction, `A>B` or `B>A`';
    case 'map':
      return `${oneOf(maps, 'or')} or a list of places`;
    case 'unit':
      return 'a unit';
    case 'quantity':
      return `${article(dimensionNames[kind.dimension])} in \`${kind.unit}\``;
    case 'choice':
      return oneOf(kind.choices);
    case 'any':
      return 'a value';
  }
}
