/** Every doubt and every note can be answered in words, in the plan; nothing else is answered with it, and no contradiction is. */
import { expect, test } from 'vitest';
import { checks } from '../../server/src/checks/index.ts';
import { judge } from '../support/judge.ts';

/** The answers themselves are not answered. */
const open = checks.filter(({ name }) => !name.startsWith('silence-'));

function told(text: string): string[] {
  return judge(text)
    .findings.map(({ name }) => name)
    .sort();
}

function answered(text: string, name: string): string {
  return text.replace(/^(plan "[^"]*" \{\n)/mu, `$1  silence     ${name} because "seen"\n`);
}

test.each(open.filter(({ kind }) => kind !== 'contradiction').map((check) => [check.name, check]))(
  '%s',
  (name, { bad }) => {
    const text = answered(bad, name);
    expect(text).not.toBe(bad);
    expect(told(text)).toEqual(told(bad).filter((each) => each !== name));
  },
);

test.each(open.filter(({ kind }) => kind === 'contradiction').map((check) => [check.name, check]))(
  'but not %s',
  (name, { bad }) => {
    expect(told(answered(bad, name))).toEqual([...told(bad), 'silence-refused'].sort());
  },
);
