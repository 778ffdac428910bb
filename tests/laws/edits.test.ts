/**
 * What holds of what the text of two states says otherwise: no figure becomes
 * another one in silence, and looked at from the other side the same is told
 * with its sides exchanged.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { editsOf } from '../../server/src/compare/edits/index.ts';
import { stateOf } from '../../server/src/compare/index.ts';
import type { Edit, PlanState } from '../../server/src/compare/types.ts';
import { LiveProject } from '../../server/src/project/index.ts';
import { blocks, planBlock } from '../project/plans.ts';
import { cleanPlan } from '../support/clean-plans.ts';
import { oneIn } from './runs.ts';

const asOf = Date.UTC(2026, 3, 1) / 60_000;
const root = 'file:///compared/plan.lwl';

function state(text: string): PlanState {
  const project = new LiveProject({ asOf });
  project.folders = ['file:///compared'];
  project.putAll([[root, { text }]]);
  return stateOf(project.planOf(root)!, project, 'state');
}

/** Numbers of a text that say something: neither in a comment nor a part of a word of two letters. */
function numbersIn(text: string): readonly { readonly index: number; readonly digits: string }[] {
  return [...text.matchAll(/\d+/gu)].flatMap(({ index, 0: digits }) => {
    const line = text.slice(text.lastIndexOf('\n', index) + 1, index);
    return /(^|\s)#/u.test(line) ? [] : [{ index, digits }];
  });
}

/** One number of a text, one greater. */
function raised(text: string, nth: number): string {
  const numbers = numbersIn(text);
  const { index, digits } = numbers[nth % numbers.length]!;
  const greater = String(Number(digits) + 1).padStart(digits.length, '0');
  return text.slice(0, index) + greater + text.slice(index + digits.length);
}

const plans: fc.Arbitrary<string> = fc.oneof(
  fc
    .subarray(blocks.slice(1), { minLength: 6, maxLength: 12 })
    .map((some) => [planBlock, ...some].join('\n')),
  fc.nat(10_000).map(cleanPlan),
);

const values = (edits: readonly Edit[], turned: boolean) =>
  edits
    .filter(({ kind }) => kind !== 'text')
    .map(
      ({ was, now, count }) =>
        `${(turned ? now : was) ?? '-'} -> ${(turned ? was : now) ?? '-'} x ${count}`,
    )
    .sort();

describe('what a text says otherwise', () => {
  it('is told of every number', () => {
    fc.assert(
      fc.property(plans, fc.nat(5_000), (plan, nth) => {
        const edits = editsOf(state(plan), state(raised(plan, nth)));
        expect(edits.some(({ kind }) => kind !== 'text')).toBe(true);
      }),
      { numRuns: oneIn(2) },
    );
  });

  it('is told from the other side with its sides exchanged', () => {
    fc.assert(
      fc.property(
        plans,
        fc.array(fc.nat(5_000), { minLength: 1, maxLength: 3 }),
        (plan, places) => {
          const [before, after] = [state(plan), state(places.reduce(raised, plan))];
          expect(values(editsOf(after, before), true)).toEqual(
            values(editsOf(before, after), false),
          );
        },
      ),
      { numRuns: oneIn(2) },
    );
  });
});
