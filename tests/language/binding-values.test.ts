/** What binding makes of arguments: slots by name, values in their kinds and base units. */
import { describe, expect, test } from 'vitest';
import {
  entriesAt,
  entriesNamed,
  entryNamed,
  expandNames,
  holesFilled,
  namesOf,
  numbersOf,
} from '../../grammar/src/binding.ts';
import type { BoundEntry, Value } from '../../grammar/src/bound.ts';
import { W } from '../../grammar/src/vocabulary/index.ts';
import { bound, findingsOf } from './binding-marks.ts';

/** The first entry of a word in the block of a text. */
function line(text: string, word: string): BoundEntry {
  const entry = entryNamed(bound(text)[0]?.body, word);
  if (!entry) throw new Error(`no ${word} in ${text}`);
  return entry;
}

const bases = (values: readonly Value[] | undefined) =>
  values?.map((value) => (value.kind === 'quantity' ? value.base : value.kind));

describe('slots', () => {
  test('hold lists, keywords and their values by name', () => {
    const text = 'plan "x" {\n  measure     850 nm, 1300 nm for multimode\n}\n';
    const { slots } = line(text, W.measure);
    expect(bases(slots.wavelength)).toEqual([850_000, 1_300_000]);
    expect(slots.for).toMatchObject([{ kind: 'choice', text: 'multimode' }]);
  });

  test('keywords stand in any order, and alone are choices', () => {
    const text = 'plan "x" {\n  carries     10GBASE-SR beside cords 3 m, 200 cm with SR-T1\n}\n';
    const { slots } = line(text, W.carries);
    expect(bases(slots.cords)).toEqual([3_000_000, 2_000_000]);
    expect(slots.beside).toMatchObject([{ kind: 'choice', text: 'beside' }]);
    expect(namesOf(slots.with)).toEqual(['SR-T1']);
  });

  test('a word with two forms takes the one that its arguments fit', () => {
    const head = 'pattern p {\n  segment     ';
    expect(line(`${head}2 m OM4\n}\n`, W.segment).slots).toMatchObject({
      length: [{ base: 2_000_000 }],
      fibre: [{ text: 'OM4' }],
    });
    expect(line(`${head}unknown OM4\n}\n`, W.segment).slots.length).toMatchObject([
      { kind: 'choice', text: 'unknown' },
    ]);
    const taken = line(`${head}C-1 fibres 1..3, 7 length 40 m\n}\n`, W.segment).slots;
    expect(numbersOf(taken.fibres)).toEqual([1, 2, 3, 7]);
    expect(taken).toMatchObject({ cable: [{ text: 'C-1' }], length: [{ base: 40_000_000 }] });
    expect(line(`${head}<cable> fibres 1..2\n}\n`, W.segment).slots.cable).toMatchObject([
      { kind: 'hole', name: 'cable' },
    ]);
  });

  test('the slot of a hole has its name in points', () => {
    const entry = line('link L {\n  as          tail length 64 m turned\n}\n', W.as);
    expect(entry.slots['<length>']).toMatchObject([{ kind: 'quantity', base: 64_000_000 }]);
    expect(holesFilled(entry).get('length')).toMatchObject({ base: 64_000_000 });
    expect(entry.slots.turned).toBeDefined();
  });

  test('a quoted keyword is a name', () => {
    const entry = line('link L {\n  connector   LC at "at"\n  splice      "at"\n}\n', W.splice);
    expect(namesOf(entry.slots.splice)).toEqual(['at']);
  });

  test('a list of places is one map', () => {
    const entry = line('component C {\n  map         3..4, 1, 2\n}\n', W.map);
    expect(entry.slots.map).toMatchObject([{ kind: 'map', places: [3, 4, 1, 2] }]);
  });

  test('bare digits are a name where nothing but a name can stand', () => {
    const entry = line('link L {\n  component   MUX port 1531\n  from        01..03\n}\n', W.from);
    expect(namesOf(entry.slots.port)).toEqual(['01', '02', '03']);
    const mux = line('link L {\n  component   MUX port 1531\n}\n', W.component);
    expect(namesOf(mux.slots.port)).toEqual(['1531']);
  });

  test('other spellings are the same word', () => {
    const text = 'work L {\n  done        cleaned\n  fibers      3\n  on          2026-03-14\n}\n';
    expect(findingsOf(text)).toEqual([]);
    expect(numbersOf(line(text, W.fibres).slots.fibres)).toEqual([3]);
  });

  test('powers in watts are held as levels', () => {
    // 0.01 mW is -20 dBm by definition: 10·log10(0.01)
    const entry = line('setup S {\n  meter       "M" floor 0.01 mW\n}\n', W.meter);
    expect(bases(entry.slots.floor)).toEqual([-20_000_000]);
  });
});

describe('tables', () => {
  const head =
    'readings L {\n  setup       S\n  tested      2026-03-14 09:05\n  values      loss in dB\n  values      power in dBm\n';
  const [entry] = bound(
    `${head}  columns fibre, 850 nm A>B, 850 nm A>B power, length in ft, time, remark\n` +
      '  1              1.12         -20.3              10           09:31  "late"\n' +
      '  2              dark         -                  3 m          -\n}\n',
  );
  const table = entry?.body?.table;

  test('headings say wavelength, direction, what it is and its unit', () => {
    expect(table?.headings).toMatchObject([
      { kind: 'word', word: 'fibre' },
      { kind: 'reading', wavelength: 850_000, direction: 'A>B', quantity: 'loss' },
      { kind: 'reading', quantity: 'power', unit: { name: 'dBm' } },
      { kind: 'word', word: 'length', unit: { name: 'ft' } },
      { kind: 'word', word: 'time' },
      { kind: 'word', word: 'remark' },
    ]);
  });

  test('cells take the unit of their column or carry their own', () => {
    // a foot is 304,800 µm: international foot, NIST SP 811
    expect(table?.rows[0]?.cells).toMatchObject([
      { kind: 'whole', value: 1 },
      { kind: 'quantity', dimension: 'loss', base: 1_120_000, digits: '1.12' },
      { kind: 'quantity', dimension: 'power', base: -20_300_000 },
      { kind: 'quantity', base: 3_048_000 },
      { kind: 'time', minutes: 571 },
      { kind: 'text', text: 'late' },
    ]);
    expect(table?.rows[1]?.cells.map(({ kind }) => kind)).toEqual([
      'whole',
      'dark',
      'absent',
      'quantity',
      'absent',
      'absent',
    ]);
  });

  test('rows of links hold words of a link and holes', () => {
    const [links] = bound(
      'links as tail {\n  columns link, from,           length in m, slack in m\n  L-1           A:01..12        23           2.5\n}\n',
    );
    expect(links?.body?.table?.headings).toMatchObject([
      { kind: 'word', word: 'link' },
      { kind: 'word', word: 'from' },
      { kind: 'hole', name: 'length', unit: { name: 'm' } },
      { kind: 'hole', name: 'slack' },
    ]);
    expect(links?.body?.table?.rows[0]?.cells).toMatchObject([
      { kind: 'name', text: 'L-1' },
      { kind: 'names', prefix: 'A:', first: 1, last: 12, width: 2 },
      { kind: 'quantity', base: 23_000_000 },
      { kind: 'quantity', base: 2_500_000 },
    ]);
  });
});

test('names and numbers are expanded in order', () => {
  const span = { start: 0, end: 0 };
  const ports: Value = {
    kind: 'names',
    span,
    prefix: 'P:',
    first: 8,
    last: 12,
    step: 2,
    width: 2,
  };
  expect(expandNames(ports)).toEqual(['P:08', 'P:10', 'P:12']);
  const odd: Value = { kind: 'wholes', span, first: 49, last: 53, step: 2 };
  expect(numbersOf([odd, { kind: 'whole', span, value: 7 }])).toEqual([49, 51, 53, 7]);
});

test('entries are found by word and by offset', () => {
  const text = 'link L {\n  connector   LC\n  connector   SC\n}\n';
  const entries = bound(text);
  expect(entriesNamed(entries[0]?.body, W.connector)).toHaveLength(2);
  const words = entriesAt(entries, text.indexOf('SC')).map(({ word }) => word);
  expect(words).toEqual([W.link, W.connector]);
});
