/**
 * The library: its texts, and its figures against published ones. The figures
 * stand in tests/published/figures.json, each with the text that states it; a
 * figure that is from memory says so there and in the library.
 */
import { globSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bindBlock } from '../../grammar/src/binding.ts';
import { splitBlocks } from '../../grammar/src/blocks.ts';
import type { BoundEntry, Value } from '../../grammar/src/bound.ts';
import { formatText } from '../../grammar/src/format.ts';
import { parseBlock } from '../../grammar/src/parser.ts';
import { findUnit } from '../../grammar/src/quantity/index.ts';
import { judge, told } from '../support/judge.ts';

interface Figure {
  /** `fibre OM4`. */
  readonly declaration: string;
  readonly word: string;
  /** What else stands on the line: a wavelength, a fibre, a grade, a reach. */
  readonly key: readonly string[];
  readonly figure: string;
  readonly value: string;
  readonly unit: string;
  /** `read`, or `recalled`: from memory. */
  readonly trust: string;
  readonly source: string;
}

const root = join(import.meta.dirname, '../..');
const published: { sources: Record<string, string>; figures: string[] } = JSON.parse(
  readFileSync(join(root, 'tests/published/figures.json'), 'utf8'),
);
const figures = published.figures.map(readFigure);
const files = globSync(join(root, 'grammar/library/*.lwl')).sort();
const texts = new Map(files.map((path) => [basename(path), readFileSync(path, 'utf8')]));

const declarations = new Map<string, BoundEntry>();
for (const text of texts.values()) {
  for (const block of splitBlocks(text)) {
    for (const entry of bindBlock(parseBlock(block), block).entries) {
      declarations.set(`${entry.word} ${textsOf(entry.slots.name)[0]}`, entry);
    }
  }
}

describe('its texts', () => {
  it.each([...texts])('%s is read without a finding', (_, text) => {
    for (const block of splitBlocks(text)) {
      expect(bindBlock(parseBlock(block), block).findings).toEqual([]);
    }
  });

  it.each([...texts])('%s is in canonical form', (_, text) => {
    expect(formatText(text)).toEqual({ text, refused: [] });
  });

  it('as files of a plan they say nothing wrong, but that they shadow themselves and are not used', () => {
    const includes = [...texts.keys()].map((name) => `include "${name}"\n`).join('');
    const { findings } = judge({
      'plan.lwl': `plan "The library as a plan" {\n}\n\n${includes}`,
      ...Object.fromEntries(texts),
    });
    expect(told(findings.filter(({ kind }) => kind !== 'note'))).toEqual([]);
    const shadowed = findings.filter(({ name }) => name === 'library-shadowed');
    expect(shadowed).toHaveLength(declarations.size);
    const others = findings.filter((finding) => !shadowed.includes(finding));
    expect(new Set(others.map(({ name }) => name))).toEqual(new Set(['unused-definition']));
  });
});

describe('its declarations', () => {
  it('are what a plan needs', () => {
    const words = [...declarations.values()].map(({ word }) => word);
    const count = (word: string) => words.filter((each) => each === word).length;
    expect(count('application')).toBeGreaterThanOrEqual(80);
    expect(count('limits')).toBeGreaterThanOrEqual(6);
    expect(count('transceiver')).toBeGreaterThanOrEqual(30);
    expect(count('splitter')).toBeGreaterThanOrEqual(10);
    expect(count('connector')).toBeGreaterThanOrEqual(20);
    expect(count('mandrel')).toBeGreaterThanOrEqual(3);
    expect(count('flux')).toBeGreaterThanOrEqual(2);
    expect(count('criterion')).toBeGreaterThanOrEqual(3);
    for (const name of [
      'OM1',
      'OM2',
      'OM3',
      'OM4',
      'OM5',
      'OS1a',
      'OS2',
      'G.652.D',
      'G.657.A1',
      'G.657.A2',
    ]) {
      expect(declarations.has(`fibre ${name}`), name).toBe(true);
    }
  });

  it('no last line with a figure stands without a basis below it', () => {
    for (const [name, entry] of declarations) {
      const marks = marksOf(entry);
      for (const line of entry.body?.entries ?? []) {
        if (line.word === 'basis' || line.word === 'note') continue;
        expect(marks.get(line), `${name}: ${line.word}`).toBeDefined();
      }
    }
  });

  it('what nothing read confirms has a name that says so, and is from memory throughout', () => {
    for (const [name, entry] of declarations) {
      if (!name.endsWith('-UNCONFIRMED')) continue;
      expect(new Set(marksOf(entry).values()), name).toEqual(new Set(['recalled']));
    }
  });

  it('a file keeps below four hundred lines', () => {
    for (const [name, text] of texts) expect(text.split('\n').length, name).toBeLessThan(400);
  });

  it.each([...declarations])('%s says its edition and how its figures are known', (name, entry) => {
    const entries = entry.body?.entries ?? [];
    const edition = entries.find(({ word }) => word === 'edition');
    expect(edition, `${name} has an edition`).toBeDefined();
    const basis = entries.filter(({ word }) => word === 'basis');
    expect(basis.length, `${name} has a basis`).toBeGreaterThan(0);
    if (
      edition &&
      Object.values(edition.slots)
        .flat()
        .some((value) => 'text' in value && value.text === 'contract')
    )
      return;
    for (const { slots } of basis) {
      expect(['read', 'recalled']).toContain(Object.values(slots).flat().map(textOf).at(-1));
    }
  });

  it.each([...declarations].filter(([name]) => name.startsWith('limits ')))(
    '%s says how pairs of test cords count',
    (_, entry) => {
      const like = entry.body?.entries.find(({ word }) => word === 'like');
      const base =
        like && declarations.get(`limits ${textsOf(Object.values(like.slots).flat())[0]}`);
      const entries = [...(entry.body?.entries ?? []), ...(base?.body?.entries ?? [])];
      expect(entries.some(({ word }) => word === 'policy')).toBe(true);
    },
  );
});

describe('its figures', () => {
  const groups = new Map<string, Figure[]>();
  for (const figure of figures) {
    groups.set(figure.declaration, [...(groups.get(figure.declaration) ?? []), figure]);
  }

  it.each([...groups])('%s agrees with published texts', (name, figures) => {
    const entry = declarations.get(name);
    expect(entry, `${name} is in the library`).toBeDefined();
    for (const figure of figures) {
      const line = entry?.body?.entries.filter((candidate) => isOf(candidate, figure));
      const about = `${name}: ${figure.word} ${figure.key.join(' ')} ${figure.figure} (${published.sources[figure.source]})`;
      expect(line, about).toHaveLength(1);
      expect(inBaseUnits(line?.[0]?.slots[figure.figure]?.[0]), about).toBe(
        base(figure.value, figure.unit),
      );
    }
  });

  it.each([...groups])('%s says line by line what is from memory', (name, figures) => {
    const marks = marksOf(declarations.get(name));
    const lines = new Map<BoundEntry, Figure[]>();
    for (const figure of figures) {
      const line = declarations.get(name)?.body?.entries.find((entry) => isOf(entry, figure));
      if (line) lines.set(line, [...(lines.get(line) ?? []), figure]);
    }
    for (const [line, figures] of lines) {
      const about = `${name}: ${line.word} ${figures.map(({ key }) => key.join(' ')).join('; ')}`;
      const known = new Set(figures.map(({ trust }) => trust));
      // A line is from memory as soon as one figure of it is.
      expect(marks.get(line), about).toBe(known.has('recalled') ? 'recalled' : 'read');
    }
  });

  it('every line that holds a figure of a standard or a maker has a published text beside it', () => {
    const compared = new Set(figures.map(({ declaration }) => declaration));
    const own = new Set(['limits CONTRACT-EXAMPLE']);
    const bare = [...declarations].filter(
      ([name, entry]) =>
        !compared.has(name) &&
        !own.has(name) &&
        !entry.body?.entries.some(({ word }) => word === 'like') &&
        (entry.body?.entries ?? []).some(({ word }) => figured.has(word)),
    );
    expect(bare.map(([name]) => name)).toEqual([]);
  });

  it('every source is told', () => {
    for (const { source } of figures) expect(published.sources[source]?.length).toBeGreaterThan(3);
  });
});

/** `fibre OM1 | attenuation | 850 nm | max 3.5 dB/km | read | s1` */
function readFigure(line: string): Figure {
  const [declaration = '', word = '', key = '', said = '', trust = '', source = ''] =
    line.split(' | ');
  const [figure = '', value = '', unit = ''] = said.split(' ');
  return {
    declaration,
    word,
    key: key === '' ? [] : key.split(', '),
    figure,
    value,
    unit,
    trust,
    source,
  };
}

/** Whether a line is the one that a published figure is about: all of its key, and no grade or mode beyond it. */
function isOf(entry: BoundEntry, { word, key, figure }: Figure): boolean {
  if (entry.word !== word || !entry.slots[figure]) return false;
  const values = Object.values(entry.slots).flat();
  const choices = values.filter(({ kind }) => kind === 'choice').map(textOf);
  return (
    key.every((wanted) => values.some((value) => says(value, wanted))) &&
    choices.every((text) => key.includes(text))
  );
}

function says(value: Value, wanted: string): boolean {
  const [digits = '', unit] = wanted.split(' ');
  return unit === undefined ? textOf(value) === wanted : inBaseUnits(value) === base(digits, unit);
}

function inBaseUnits(value: Value | undefined): number | undefined {
  if (value?.kind === 'quantity') return value.base;
  return value?.kind === 'decimal' ? Number(value.digits) : undefined;
}

function base(digits: string, name: string): number {
  const unit = findUnit(name);
  if (!unit) return Number(digits);
  const places = digits.split('.')[1]?.length ?? 0;
  const scaled = BigInt(digits.replace('.', '')) * unit.numerator;
  return Number(scaled / (unit.denominator * 10n ** BigInt(places)));
}

function textOf(value: Value): string {
  return 'text' in value ? value.text : '';
}

function textsOf(values: readonly Value[] | undefined): string[] {
  return (values ?? []).map(textOf);
}

const figured = new Set([
  'attenuation',
  'bandwidth',
  'loss',
  'return-loss',
  'output',
  'input',
  'connector',
  'splice',
  'diameter',
  'radius',
  'macrobend',
  'region',
  'defect',
]);

/** `read` or `recalled` of each line: a `basis` stands for the lines above it, back to the one before; alone for all. */
function marksOf(entry: BoundEntry | undefined): ReadonlyMap<BoundEntry, string> {
  const entries = entry?.body?.entries ?? [];
  const marks = new Map<BoundEntry, string>();
  const bases = entries.filter(({ word }) => word === 'basis');
  let open: BoundEntry[] = [];
  for (const line of entries) {
    if (line.word !== 'basis') {
      open.push(line);
      continue;
    }
    const mark = Object.values(line.slots).flat().map(textOf).at(-1) ?? '';
    for (const above of bases.length === 1 ? entries : open) marks.set(above, mark);
    open = [];
  }
  return marks;
}
