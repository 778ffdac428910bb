/**
 * Whatever two people do to one plan, putting their states together loses
 * nothing that either typed, is a plan again, and asks for a choice only where
 * both changed one thing.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { splitBlocks } from '../../grammar/src/blocks.ts';
import { parseBlock } from '../../grammar/src/parser.ts';
import { merge } from '../../server/src/merge/index.ts';
import { examples } from '../examples/corpus.ts';
import { brokenText } from './texts.ts';

/** Sound examples of a size at which a case is quick. */
const plans = examples.map(({ text }) => text).filter((text) => text.length < 40_000);

/** One thing that somebody does to a text, at a place drawn from the whole of it. */
interface Step {
  readonly what: keyof typeof steps;
  readonly at: number;
}

const pick = <Of>(list: readonly Of[], at: number): Of | undefined => list[at % list.length];
const placesOf = (lines: readonly string[], fits: (line: string) => boolean): number[] =>
  lines.flatMap((line, at) => (fits(line) ? [at] : []));
const isRow = (line: string): boolean => /^ {2}\d+ /u.test(line);

/** Each takes lines and a number that nobody else types, and gives the lines as they are then. */
const steps = {
  'fill a cell': (lines: readonly string[], at: number, own: string) =>
    change(
      lines,
      at,
      (line) => isRow(line) && / - /u.test(line),
      (line) => line.replace(/ - /u, ` ${own} `),
    ),
  'change a number': (lines: readonly string[], at: number, own: string) =>
    change(
      lines,
      at,
      (line) => /^ .* \d+\.\d+ /u.test(line),
      (line) => line.replace(/ \d+\.\d+ /u, ` ${own} `),
    ),
  'add a row': (lines: readonly string[], at: number, own: string) => {
    const place = pick(placesOf(lines, isRow), at);
    if (place === undefined) return lines;
    const row = lines[place]!.replace(/(\d+\.\d+|-)(?=\s|$)/u, own);
    return lines.toSpliced(place + 1, 0, row);
  },
  'add a column': (lines: readonly string[], at: number) =>
    change(
      lines,
      at,
      (line) => /^ {2}columns .*[^,]$/u.test(line) && !line.includes('remark'),
      (line) => `${line}, remark`,
    ),
  'take out a row': (lines: readonly string[], at: number) => {
    const place = pick(placesOf(lines, isRow), at);
    return place === undefined ? lines : lines.toSpliced(place, 1);
  },
  'write a comment': (lines: readonly string[], at: number, own: string) => {
    const place = pick(
      placesOf(lines, (line) => / {2}[a-z]/u.test(line)),
      at,
    );
    return place === undefined ? lines : lines.toSpliced(place, 0, `  # ${own}`);
  },
  'write a note': (lines: readonly string[], at: number, own: string) => {
    const place = pick(
      placesOf(lines, (line) => /^[a-z].*\{$/u.test(line)),
      at,
    );
    return place === undefined ? lines : lines.toSpliced(place + 1, 0, `  note        "${own}"`);
  },
  'add a declaration': (lines: readonly string[], at: number, own: string) => {
    const place =
      pick(
        placesOf(lines, (line) => line === '}'),
        at,
      ) ?? lines.length - 1;
    return lines.toSpliced(place + 1, 0, '', `cable C-${own} {`, `  length      ${own} m`, '}');
  },
  'take out a declaration': (lines: readonly string[], at: number) => {
    const blocks = splitBlocks(`${lines.join('\n')}\n`);
    if (blocks.length < 2) return lines;
    const text = blocks.toSpliced(at % blocks.length, 1).join('');
    return text.replace(/\n$/u, '').split('\n');
  },
  'move a declaration': (lines: readonly string[], at: number) => {
    const blocks = splitBlocks(`${lines.join('\n')}\n`);
    const from = at % blocks.length;
    const [block = ''] = blocks.splice(from, 1);
    blocks.splice((at * 7) % (blocks.length + 1), 0, block);
    return blocks.join('').replace(/\n$/u, '').split('\n');
  },
};

function change(
  lines: readonly string[],
  at: number,
  fits: (line: string) => boolean,
  to: (line: string) => string,
): readonly string[] {
  const place = pick(placesOf(lines, fits), at);
  return place === undefined ? lines : lines.toSpliced(place, 1, to(lines[place]!));
}

const step: fc.Arbitrary<Step> = fc.record({
  what: fc.constantFrom(...(Object.keys(steps) as (keyof typeof steps)[])),
  at: fc.nat(100_000),
});
const side = fc.array(step, { minLength: 1, maxLength: 5 });
const plan = fc.constantFrom(...plans);

/** A text after some steps; `hand` makes what one person types unlike what another does. */
function changed(text: string, done: readonly Step[], hand: string): string {
  let lines: readonly string[] = text.replace(/\n$/u, '').split('\n');
  for (const [place, { what, at }] of done.entries()) {
    lines = steps[what](lines, at, `${hand}.${70_001 + place}`);
  }
  return `${lines.join('\n')}\n`;
}

const [mine, others] = ['61', '82'];
const typed = (text: string, hand: string): string[] => [
  ...new Set(text.match(new RegExp(String.raw`${hand}\.7000\d`, 'gu')) ?? []),
];

const faults = (text: string): string[] =>
  splitBlocks(text).flatMap((block) => parseBlock(block).findings.map(({ name }) => name));

/** The text with every conflict decided for one side. */
function decided(text: string, forOurs: boolean): string {
  return text.replace(
    /^<<<<<<< ours\n([\s\S]*?)^=======\n([\s\S]*?)^>>>>>>> theirs\n/gmu,
    (_, ours: string, theirs: string) => (forOurs ? ours : theirs),
  );
}

describe('two states of a plan put together', () => {
  it('lose nothing that either side typed', () => {
    fc.assert(
      fc.property(plan, side, side, (base, our, their) => {
        const [ours, theirs] = [changed(base, our, mine), changed(base, their, others)];
        const { text } = merge(base, ours, theirs);
        const missing = [...typed(ours, mine), ...typed(theirs, others)].filter(
          (number) => !text.includes(number),
        );
        expect(missing).toEqual([]);
      }),
    );
  });

  it('are a plan again, whichever side is chosen where a choice is left', () => {
    fc.assert(
      fc.property(plan, side, side, (base, our, their) => {
        const [ours, theirs] = [changed(base, our, mine), changed(base, their, others)];
        fc.pre(faults(ours).length === 0 && faults(theirs).length === 0);
        const { text, conflicts } = merge(base, ours, theirs);
        expect(text.match(/^<<<<<<< ours$/gmu)?.length ?? 0).toBe(conflicts);
        expect([faults(decided(text, true)), faults(decided(text, false))]).toEqual([[], []]);
      }),
    );
  });

  it('need as many choices whoever merges', () => {
    fc.assert(
      fc.property(plan, side, side, (base, our, their) => {
        const [ours, theirs] = [changed(base, our, mine), changed(base, their, others)];
        expect(merge(base, ours, theirs).conflicts).toBe(merge(base, theirs, ours).conflicts);
      }),
    );
  });

  it('need no choice where they worked on different declarations, and then hold both', () => {
    fc.assert(
      fc.property(plan, fc.nat(), fc.nat(), step, step, (base, one, two, our, their) => {
        const blocks = splitBlocks(base);
        const [at, place] = [one % blocks.length, two % blocks.length];
        fc.pre(at !== place);
        const inside = (which: number, { what, at: where }: Step, hand: string) => {
          fc.pre(!what.endsWith('a declaration'));
          return changed(blocks[which]!, [{ what, at: where }], hand);
        };
        const [own, other] = [inside(at, our, mine), inside(place, their, others)];
        const both = blocks.with(at, own).with(place, other).join('');
        expect(
          merge(base, blocks.with(at, own).join(''), blocks.with(place, other).join('')),
        ).toEqual({ text: both, conflicts: 0, beside: 0 });
      }),
    );
  });

  it('are the one that changed where the other is as it was', () => {
    fc.assert(
      fc.property(plan, side, (base, our) => {
        const ours = changed(base, our, mine);
        expect(merge(base, ours, base).text).toBe(ours);
        expect(merge(base, base, ours).text).toBe(ours);
        expect(merge(base, ours, ours).text).toBe(ours);
      }),
    );
  });

  it('may be any text at all: each word of both is there, and nothing throws', () => {
    const words = (text: string) =>
      new Set(text.split(/\s+/u).filter((word) => word !== '-' && word !== ''));
    fc.assert(
      fc.property(brokenText(30), brokenText(30), brokenText(30), (base, ours, theirs) => {
        const result = words(merge(base, ours, theirs).text.replaceAll('\uFEFF', ''));
        const old = words(base.replaceAll('\uFEFF', ''));
        for (const said of [ours, theirs]) {
          const lost = [...words(said.replaceAll('\uFEFF', ''))].filter(
            (word) => !old.has(word) && !result.has(word),
          );
          expect(lost).toEqual([]);
        }
      }),
    );
  });
});
