/**
 * What holds of any comparison: a plan beside itself says nothing, layout and
 * order are no engineering change, what is told of effects adds up, each of them
 * has a cause in the text, and looking from the other side tells the same.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { splitBlocks } from '../../grammar/src/blocks.ts';
import { formatText } from '../../grammar/src/format.ts';
import {
  type Comparison,
  compare,
  compareTexts,
  type Effect,
  stateOf,
  type Texts,
} from '../../server/src/compare/index.ts';
import { LiveProject } from '../../server/src/project/index.ts';
import { blocks, planBlock, slips } from '../project/plans.ts';
import { cleanPlan, randomFrom } from '../support/clean-plans.ts';
import { oneIn } from './runs.ts';
import { brokenText } from './texts.ts';

const asOf = Date.UTC(2026, 3, 1) / 60_000;

type Files = Texts['files'];

const oneFile = (text: string): Files => [{ path: 'plan.lwl', text }];

/** Every law asks the same cases, in the same order: each is worked out once. */
const known = new Map<string, Comparison>();

/** The plan of `plan.lwl`, on both sides. */
function comparison(before: Files, after: Files): Comparison {
  const key = JSON.stringify([before, after]);
  const told = known.get(key) ?? comparedNow(before, after);
  known.set(key, told);
  return told;
}

function comparedNow(before: Files, after: Files): Comparison {
  const all = compareTexts({
    before: { label: 'before', files: before },
    after: { label: 'after', files: after },
    asOf,
  });
  const found = all.find(({ root }) => root === 'plan.lwl');
  if (!found) throw new Error('the plan was not compared');
  return found.comparison;
}

/** The same, each side judged in a project of its own. */
function separately(before: Files, after: Files): Comparison {
  const [old, now] = [before, after].map((files, index) => {
    const project = new LiveProject({ asOf });
    project.folders = ['file:///compared'];
    project.putAll(files.map(({ path, text }) => [`file:///compared/${path}`, { text }]));
    return stateOf(
      project.planOf('file:///compared/plan.lwl')!,
      project,
      index === 0 ? 'before' : 'after',
    );
  });
  return compare(old!, now!);
}

// ---- plans and what hands do to them

/** Some of every kind of declaration, in two files. */
const files: fc.Arbitrary<Files> = fc
  .subarray(blocks.slice(1), { minLength: 8, maxLength: 16 })
  .map((some) => {
    const half = Math.ceil(some.length / 2);
    const first = [planBlock, ...some.slice(0, half)].join('\n');
    return [
      { path: 'plan.lwl', text: `${first}\ninclude "more.lwl"\n` },
      { path: 'more.lwl', text: some.slice(half).join('\n') },
    ];
  });

const slip = fc.record({ slip: fc.nat(slips.length - 1), nth: fc.nat(40) });

/** Each slip at one of the places that it finds in the files together. */
function slipped(files: Files, hand: readonly { slip: number; nth: number }[]): Files {
  return hand.reduce((now, { slip: which, nth }) => {
    const [pattern, replacement] = slips[which]!;
    const places = now.flatMap(({ path, text }) =>
      [...text.matchAll(new RegExp(pattern, 'gu'))].map((match) => ({ path, match })),
    );
    const found = places[nth % Math.max(places.length, 1)];
    if (!found) return now;
    const { index, 0: old } = found.match;
    return now.map((file) => {
      if (file.path !== found.path) return file;
      const inner = old.replace(new RegExp(pattern, 'u'), replacement);
      return {
        ...file,
        text: file.text.slice(0, index) + inner + file.text.slice(index + old.length),
      };
    });
  }, files);
}

/** What is done to the files themselves, now and then. */
const filings: Readonly<Record<string, (files: Files) => Files>> = {
  nothing: (files) => files,
  'a block moved to the other file': ([plan, more]) => {
    const parts = splitBlocks(plan!.text);
    const moved = parts.at(-2) ?? '';
    return [
      { ...plan!, text: parts.filter((part) => part !== moved).join('') },
      { ...more!, text: `${moved}\n${more!.text}` },
    ];
  },
  'a file let go': ([plan, more]) => [
    { ...plan!, text: plan!.text.replace('include "more.lwl"', '') },
    more!,
  ],
  'a file gone': ([plan]) => [plan!],
};

const twoStates = fc
  .record({
    plan: files,
    first: fc.array(slip, { maxLength: 2 }),
    second: fc.array(slip, { minLength: 1, maxLength: 4 }),
    filing: fc.oneof(
      { weight: 6, arbitrary: fc.constant('nothing') },
      { weight: 2, arbitrary: fc.constantFrom(...Object.keys(filings)) },
    ),
  })
  .map(({ plan, first, second, filing }) => {
    const before = slipped(plan, first);
    return { before, after: filings[filing]!(slipped(before, second)) };
  });

const shuffled = <Item>(items: readonly Item[], seed: number): Item[] => {
  const random = randomFrom(seed);
  const keyed = items.map((item) => ({ item, key: random() }));
  return keyed.sort((a, b) => a.key - b.key).map(({ item }) => item);
};

/** Ways to write the same plan otherwise. */
const restylings: Readonly<Record<string, (text: string, seed: number) => string>> = {
  'laid out anew': (text) => formatText(text).text,
  'with wider gaps': (text) => text.replaceAll(/(?<=\S) {2,}(?=\S)/gu, '        '),
  'with other line ends': (text) => text.replaceAll('\n', '\r\n'),
  'with remarks': (text, seed) => {
    const random = randomFrom(seed);
    return text
      .split('\n')
      .flatMap((line) => (random() < 0.2 ? ['  # a remark', line] : [line]))
      .join('\n');
  },
  'with empty lines': (text) => text.replaceAll('\n}', '\n\n}'),
  'in another order': (text, seed) => shuffled(splitBlocks(text), seed).join(''),
};

// ---- what is told, as plain data

const plain = (value: unknown): string =>
  JSON.stringify(value, (_, each) => (typeof each === 'bigint' ? `${each}n` : each));

/** What an effect says, without what another numbering of changes would say otherwise. */
function saidBy({ causes: _, ...effect }: Effect): string {
  return plain(effect);
}

type Sided = Record<'before' | 'after' | 'object' | 'formerly', unknown>;

/** The same with its sides exchanged; what is named as it is now is named as it was. */
function turned({ causes: _, ...effect }: Effect): object {
  const { before, after, object, formerly, ...rest } = effect as typeof effect & Sided;
  return {
    ...rest,
    object: formerly ?? object,
    ...(formerly === undefined ? {} : { formerly: object }),
    ...(after === undefined ? {} : { before: after }),
    ...(before === undefined ? {} : { after: before }),
  };
}

/** In one order of its fields, without the names that are said of one side: a method, a number of a tree's end. */
function ofBothSides(effect: object): string {
  const { reference: _, ...rest } = effect as { reference?: string };
  const { key, end, object } = rest as { key?: object; end?: string; object?: string };
  const named = key && { ...key, object, ...(end === undefined ? {} : { fibre: end }) };
  return plain(Object.entries({ ...rest, key: named }).sort());
}

const sorted = (lines: readonly string[]) => [...lines].sort();
describe('a comparison', () => {
  it('of a plan with itself says nothing', () => {
    fc.assert(
      fc.property(twoStates, ({ before }) => {
        for (const told of [comparison(before, before), separately(before, before)]) {
          expect(told.changes).toEqual([]);
          expect(told.effects).toEqual([]);
          expect(told.matrix.every(({ before, after }) => before === after)).toBe(true);
        }
      }),
      { numRuns: oneIn(3) },
    );
  });

  for (const [how, restyled] of Object.entries(restylings)) {
    it(`of a plan with itself ${how} finds no engineering change`, () => {
      fc.assert(
        fc.property(fc.nat(200), fc.nat(), (plan, seed) => {
          const text = cleanPlan(plan);
          const other = restyled(text, seed);
          const told = comparison(oneFile(text), oneFile(other));
          expect(told.changes.filter(({ kind }) => kind !== 'text')).toEqual([]);
          expect(told.engineering).toBe(0);
          expect(told.effects).toEqual([]);
          expect(told.changes.length).toBe(text === other ? 0 : 1);
        }),
        { numRuns: oneIn(3) },
      );
    });
  }

  it('tells all that moved: its effects make the old figures the new ones', () => {
    fc.assert(
      fc.property(twoStates, ({ before, after }) => {
        const told = comparison(before, after);
        const { summary } = told.before;
        const verdicts: Record<string, number> = { ...summary.verdicts };
        let { objects, expected, present } = summary;
        for (const effect of told.effects) {
          if (effect.kind === 'reading' && effect.key.quantity !== 'reflectance') {
            if (effect.before) verdicts[effect.before.verdict]! -= 1;
            if (effect.after) verdicts[effect.after.verdict]! += 1;
          }
          if (effect.kind === 'object') {
            objects += Number(effect.after !== undefined) - Number(effect.before !== undefined);
            expected += (effect.after?.expected ?? 0) - (effect.before?.expected ?? 0);
            present += (effect.after?.present ?? 0) - (effect.before?.present ?? 0);
          }
        }
        const { summary: now } = told.after;
        expect({ objects, expected, present, verdicts }).toEqual({
          objects: now.objects,
          expected: now.expected,
          present: now.present,
          verdicts: now.verdicts,
        });
        for (const verdict of Object.keys(now.verdicts)) {
          const sum = (side: 'before' | 'after') =>
            told.matrix.reduce((all, one) => all + (one[side] === verdict ? one.count : 0), 0);
          expect(sum('before')).toBe(summary.verdicts[verdict as keyof typeof now.verdicts]);
          expect(sum('after')).toBe(now.verdicts[verdict as keyof typeof now.verdicts]);
        }
      }),
      { numRuns: oneIn(3) },
    );
  });

  it('names a cause for each effect, and each effect once below its first cause', () => {
    fc.assert(
      fc.property(twoStates, ({ before, after }) => {
        const told = comparison(before, after);
        for (const { causes } of told.effects) {
          expect(causes.length).toBeGreaterThan(0);
          expect(new Set(causes).size).toBe(causes.length);
          for (const cause of causes) expect(told.changes[cause]!.kind).not.toBe('text');
        }
        const below = told.changes.flatMap(({ effects }, index) =>
          effects.map((effect) => [effect, index] as const),
        );
        expect(below.length).toBe(told.effects.length);
        for (const [effect, index] of below) expect(effect.causes[0]).toBe(index);
      }),
      { numRuns: oneIn(3) },
    );
  });

  it('tells each object and key once', () => {
    fc.assert(
      fc.property(twoStates, ({ before, after }) => {
        const keys = comparison(before, after).effects.map((effect) => {
          const { before: _before, after: _after, causes: _causes, formerly: _, ...key } = effect;
          return plain('reference' in key ? { ...key, reference: undefined } : key);
        });
        expect(new Set(keys).size).toBe(keys.length);
      }),
      { numRuns: oneIn(3) },
    );
  });

  it('tells the same of sides that were judged in one project and in two', () => {
    fc.assert(
      fc.property(twoStates, ({ before, after }) => {
        const [one, two] = [comparison(before, after), separately(before, after)];
        expect(one.effects.map(saidBy)).toEqual(two.effects.map(saidBy));
        const { before: was, after: is, matrix, retest } = one;
        expect({ was, is, matrix, retest }).toEqual({
          was: two.before,
          is: two.after,
          matrix: two.matrix,
          retest: two.retest,
        });
        const edits = ({ changes }: Comparison) =>
          changes.map(({ blocks: _blocks, effects: _effects, ...edit }) => plain(edit));
        expect(edits(one)).toEqual(edits(two));
      }),
      { numRuns: oneIn(3) },
    );
  });

  it('from the other side tells the same effects, with its sides exchanged', () => {
    fc.assert(
      fc.property(twoStates, ({ before, after }) => {
        const [there, back] = [comparison(before, after), comparison(after, before)];
        expect(sorted(back.effects.map(({ causes: _, ...effect }) => ofBothSides(effect)))).toEqual(
          sorted(there.effects.map((effect) => ofBothSides(turned(effect)))),
        );
        expect(back.engineering > 0).toBe(there.engineering > 0);
        expect(back.before.summary).toEqual(there.after.summary);
        expect(back.after.summary).toEqual(there.before.summary);
        const cells = (told: Comparison, was: 'before' | 'after', is: 'before' | 'after') =>
          sorted(told.matrix.map((cell) => `${cell[was]} to ${cell[is]}: ${cell.count}`));
        expect(cells(back, 'before', 'after')).toEqual(cells(there, 'after', 'before'));
      }),
      { numRuns: oneIn(3) },
    );
  });

  it('is made of any texts', () => {
    const broken = fc.record({ plan: brokenText(20), more: brokenText(10) }).map(
      ({ plan, more }): Files => [
        { path: 'plan.lwl', text: plan },
        { path: 'more.lwl', text: more },
      ],
    );
    fc.assert(
      fc.property(broken, broken, (before, after) => {
        const told = comparison(before, after);
        expect(told.matrix.reduce((sum, { count }) => sum + count, 0)).toBeGreaterThanOrEqual(0);
      }),
    );
  });
});
