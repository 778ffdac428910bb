/** Rules of a plan for its changes as the editor helps to write them. */
import { expect, it } from 'vitest';
import { completion } from '../../server/src/features/completion.ts';
import { hover } from '../../server/src/features/hover.ts';
import { answer, ask } from '../support/ask.ts';

const plan = (line: string) => `plan "Berth 3" {\n  changes {\n    ${line}\n  }\n}\n`;

it('offers the rules that are not written yet, and what every block knows', () => {
  const offered = answer(completion, ask(plan('$0')));
  expect(offered?.items.map(({ label }) => label)).toEqual([
    'margin',
    'no-worse',
    'signed',
    'same-limits',
    'unedited',
    'retested',
    'note',
  ]);
});

it('says what a rule asks where it is pointed at', () => {
  const said = answer(hover, ask(plan('no-w$0orse')));
  expect(JSON.stringify(said)).toContain('No verdict gets worse by a change');
});
