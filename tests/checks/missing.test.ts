/** What is said of readings that are not there: how many, which, and whether an instrument counted in twos. */
import { expect, test } from 'vitest';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from '../../server/src/checks/examples.ts';
import { judge } from '../support/judge.ts';

function missing(fibres: string, read: readonly number[], more = '') {
  const rows = read.map((fibre) => `${fibre}  1.1${fibre % 10}  0.8${fibre % 7}`);
  const link = multimodeLink.replace('1..2', fibres).replace('}', `${more}}`);
  const { findings } = judge(
    example(multimodePlan, link, multimodeSetup, multimodeReadings(...rows)),
  );
  return findings.find(({ name }) => name === 'readings-missing')?.message;
}

const step = 'Every second fibre is missing: look whether the instrument counted in steps of two.';

test.each([
  ['the odd ones read', '1..8', [1, 3, 5, 7]],
  ['the even ones read', '1..8', [2, 4, 6, 8]],
])('every second fibre, %s', (_, fibres, read) => {
  expect(missing(fibres, read)).toContain(step);
});

test('a dead fibre does not hide the step', () => {
  const dead = '  dead        9 because "broken in the duct"\n';
  expect(missing('1..9', [1, 3, 5, 7], dead)).toContain(step);
});

test.each([
  ['the last half', '1..8', [1, 2, 3, 4]],
  ['too few', '1..6', [1, 3, 5]],
  ['one out of step', '1..10', [1, 3, 5, 7, 8]],
])('%s missing is no step', (_, fibres, read) => {
  expect(missing(fibres, read)).toMatch(/^\d+ of \d+ readings are still to make/u);
  expect(missing(fibres, read)).not.toContain(step);
});

test('and nothing is said where nothing is missing', () => {
  expect(missing('1..4', [1, 2, 3, 4])).toBeUndefined();
});
