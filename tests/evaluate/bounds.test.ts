/** What a plan says in `doubts`: from where on readings are pointed at. */
import { expect, it, test } from 'vitest';
import { findWord, W, wordsIn } from '../../grammar/src/vocabulary/index.ts';
import { checks, findCheck } from '../../server/src/checks/index.ts';
import { explain } from '../../server/src/cli/explain.ts';
import { boundsOf } from '../../server/src/evaluate/bounds.ts';
import { judge } from '../support/judge.ts';

/** A plan with lines in its `doubts`. */
const saying = (plan: string, ...lines: string[]) =>
  plan.replace(
    /^(plan .*\{)$/mu,
    ['$1', '  doubts {', ...lines.map((each) => `    ${each}`), '  }'].join('\n'),
  );

const namesIn = (text: string) => judge(text).findings.map(({ name }) => name);

/** Findings with a line under which their own bad example is no longer one. */
const generous: readonly (readonly [string, string])[] = [
  ['pass-but-outlier', 'outlier 1 dB'],
  ['pass-but-outlier', 'outlier 0.20 dB mates 9'],
  ['direction-asymmetry', 'asymmetry 3 dB'],
  ['directions-exchanged', 'asymmetry 3 dB'],
  ['directions-exchanged', 'exchanged 60 % mates 5'],
  ['direction-fake', 'copied 99'],
  ['bend-signature-sm', 'bend 3 dB'],
  ['bend-or-swap-mm', 'inversion 3 dB'],
  ['joint-signature', 'joint 3 dB'],
  ['batch-too-high', 'too-high 3 dB'],
  ['batch-too-low', 'too-low 1 % length 1 %'],
  ['drift-while-testing', 'course 3 dB'],
  ['level-changes', 'course 0.21 dB mates 13'],
  ['wavelengths-exchanged', 'exchanged 1 % mates 7'],
  ['rows-repeated', 'repeated 99'],
  ['numbers-shifted', 'numbered 17'],
  ['length-differs', 'length 3 % 1 km'],
];

test.each(generous)('%s is not said under a plan with %s', (name, line) => {
  const bad = findCheck(name)?.bad ?? '';
  expect(namesIn(bad)).toContain(name);
  const found = namesIn(saying(bad, line));
  expect(found).not.toContain(name);
  expect(found.filter((each) => /word|argument|brace/u.test(each))).toEqual([]);
});

/** Findings with a line under which even their good example is one. */
const strict: readonly (readonly [string, string])[] = [
  ['direction-asymmetry', 'asymmetry 0 dB'],
  ['batch-too-low', 'too-low 100 % length 100 %'],
];

test.each(strict)('%s is said earlier under a plan with %s', (name, line) => {
  const good = findCheck(name)?.good ?? '';
  expect(namesIn(good)).not.toContain(name);
  expect(namesIn(saying(good, line))).toContain(name);
});

it('is said of every word which finding it moves, and each of them by a case here', () => {
  const words = wordsIn('doubts')
    .map(({ word }) => word)
    .filter((word) => word !== W.note);
  const moved = new Set(checks.flatMap(({ bounds = [] }) => bounds));
  expect([...moved].sort()).toEqual([...words].sort());
  const cases = new Set(generous.map(([name]) => name));
  expect(
    checks
      .filter(({ bounds }) => bounds)
      .map(({ name }) => name)
      .filter((name) => !cases.has(name)),
  ).toEqual([]);
});

const bounds = boundsOf({ doubts: {} });
const inDb = (value: number) => `${(value / 1e6).toFixed(2)} dB`;
const inPercent = (value: number) => `${value / 1e4} %`;
test.each([
  [W.outlier, inDb(bounds.outlier), `, ${bounds.outlierMates} if`],
  [W.asymmetry, inDb(bounds.asymmetry)],
  [W.copied, `more than ${bounds.copied} if`],
  [W.bend, inDb(bounds.bend)],
  [W.inversion, inDb(bounds.inversion)],
  [W.joint, inDb(bounds.joint)],
  [W.tooHigh, inDb(bounds.tooHigh)],
  [W.tooLow, `${inPercent(bounds.leastOfPair)} if`, `${inPercent(bounds.leastOfFibre)} if`],
  [W.course, '0.21 dB at 0.05 dB', `, ${bounds.courseMates} if`],
  [W.exchanged, `${inPercent(bounds.exchanged)} if`, `, ${bounds.exchangedMates} if`],
  [W.repeated, `${bounds.repeated} if`],
  [W.numbered, `${bounds.numbered} if`],
  [W.length, inPercent(bounds.length.share), `${bounds.length.least / 1e6} m if`],
])('%s says what holds where it is not said', (word, ...defaults) => {
  const doc = findWord(word, 'doubts')?.doc ?? '';
  for (const each of defaults) expect(doc).toContain(each);
});

it('is on the page of a finding, and in what explains it', () => {
  const said = explain('batch-too-low');
  expect(said).toContain('Set in `doubts` of the plan, as `too-low SHARE [length SHARE]`.');
  expect(said).toContain('35 % if not said');
});
