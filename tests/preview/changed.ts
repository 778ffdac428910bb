/** The ferry terminal before and after a week of work on its plan, and the page that shows what changed. */
import type { Browser } from 'playwright-core';
import { comparison } from '../../server/src/features/comparison.ts';
import { compared } from '../support/compared.ts';
import { planUri } from '../support/judge.ts';
import { frame, terminal } from './host.ts';

/** Each place of the text must be there once: a plan that moved on would change something else. */
function said(text: string, edits: readonly (readonly [was: string, now: string])[]): string {
  return edits.reduce((now, [was, is]) => {
    if (now.split(was).length !== 2) throw new Error(`not there once: ${was}`);
    return now.replace(was, is);
  }, text);
}

const edits: Readonly<Record<string, readonly (readonly [was: string, now: string])[]>> = {
  'plan.lwl': [
    ['uncertainty 0.15 dB for multimode', 'uncertainty 0.25 dB for multimode'],
    ['# Each day of testing', '# Every day of testing'],
  ],
  'links-multimode.lwl': [
    ['B4/R1/A:01..12  164', 'B4/R1/A:01..12  412'],
    [
      '  segment     38 m OM4\n',
      '  segment     38 m OM4\n  splice      fusion at "berth 3 pit"\n  segment     12 m OM4\n',
    ],
  ],
  'readings-2026-03-16.lwl': [
    ['9                0.78        0.68', '9                3.02        0.68'],
    ['  10               0.95        0.84        0.67         0.66\n', ''],
  ],
  'setups.lwl': [['2026-03-17 10:50 850 nm -20.26 dBm', '2026-03-17 10:50 850 nm -19.86 dBm']],
};

export const changedTerminal: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries(terminal).map(([file, text]) => [file, said(text, edits[file] ?? [])]),
);

type Files = Readonly<Record<string, string>>;
type Sides = ReturnType<typeof compared>;

/** Judged once for all looks and widths. */
const judged = new Map<Files, Sides>();

function sidesOf(before: Files, after: Files): Sides {
  const sides = judged.get(after) ?? compared(before, after);
  judged.set(after, sides);
  return sides;
}

function answerOf({ session }: Sides) {
  return comparison.answer(session, { uri: planUri, revision: 'main' });
}

export async function openChanges(
  browser: Browser,
  before: Readonly<Record<string, string>>,
  after: Readonly<Record<string, string>>,
  options: Pick<Parameters<typeof frame>[1], 'theme' | 'width' | 'height'> = {},
) {
  const sides = sidesOf(before, after);
  const opened = await frame(browser, {
    ...options,
    bundle: 'changes',
    data: { plan: planUri, revision: 'main' },
    ready: '.change, .status',
    answer: () => answerOf(sides),
  });
  return { ...opened, ...sides };
}
