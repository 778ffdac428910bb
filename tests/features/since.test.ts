/** What links in the text say of the revision that they are looked at beside, and what that costs a key. */
import { describe, expect, test } from 'vitest';
import { codeLens } from '../../server/src/features/code-lens.ts';
import { inlayHints } from '../../server/src/features/inlay-hints.ts';
import { compared } from '../support/compared.ts';
import { planUri } from '../support/judge.ts';

/** Limit of the first link, by TIA-568.3-D: 0.09 km of 3.0 dB/km and two pairs of 0.75 dB, 1.77 dB. */
const plan = `plan "Kestrel Quay" {
  limits      TIA-568.3-D
  measure     850 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.10 dB
}

link KQ-OPS-B1 {
  fibres      1..2
  connector   LC
  segment     90 m OM4
  connector   LC
}

link KQ-OPS-B2 {
  fibres      1..2
  connector   LC
  segment     60 m OM4
  connector   LC
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED
  meter       "M-5"
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.07 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
}

readings KQ-OPS-B1 {
  setup       MM-1
  tested      2026-03-14 09:05 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1  0.91
  2  0.92
}
`;

function lensesOf(now: string, before = plan, settle = true) {
  const sides = compared({ 'plan.lwl': before }, { 'plan.lwl': now });
  sides.project.open(planUri, 1, now);
  const learnt: string[] = [];
  if (settle) {
    sides.earlier.work(
      () => false,
      (_, { link }) => learnt.push(link.name),
    );
  }
  const lenses = () =>
    codeLens
      .answer(sides.session, { textDocument: { uri: planUri } })
      .map(({ command }) => command!);
  return { ...sides, learnt, lenses, titles: () => lenses().map(({ title }) => title) };
}

const since = (titles: readonly string[]) => titles.filter((title) => /since/u.test(title));

describe('beside an earlier revision', () => {
  test('a link that is as it was says nothing', () => {
    const { titles, learnt } = lensesOf(plan.replace('60 m OM4', '200 m OM4'));
    expect(learnt).toEqual(['KQ-OPS-B1', 'KQ-OPS-B2']);
    expect(since(titles())).toHaveLength(1);
  });

  test('its margin is said as it is and as it was', () => {
    const { titles } = lensesOf(plan.replace('1  0.91', '1  1.01'));
    expect(since(titles())).toEqual(['changed since main: margin +0.76 was +0.85']);
  });

  test('where the verdict moves, that comes first, and the hint says what it was', () => {
    const { titles, session } = lensesOf(plan.replace('1  0.91', '1  3.91'));
    expect(since(titles())).toEqual(['changed since main: fail was pass, margin −2.14 was +0.85']);
    const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
    const hints = inlayHints.answer(session, { textDocument: { uri: planUri }, range });
    expect(hints.filter(({ label }) => /was/u.test(String(label)))).toMatchObject([
      { label: expect.stringMatching(/fail, margin −2\.14 · was pass$/u) },
    ]);
  });

  test('where nothing is measured yet, its limit is said', () => {
    const { titles } = lensesOf(plan.replace('60 m OM4', '200 m OM4'));
    expect(since(titles())).toEqual(['changed since main: limit 2.10 was 1.68']);
  });

  test('readings that are made or gone are counted', () => {
    const { titles } = lensesOf(plan.replace('  2  0.92\n', ''));
    expect(since(titles())[0]).toMatch(/untested was pass.*1 of 2 readings was 2 of 2/u);
  });

  test('a link that is new says so; one with another name is what it was', () => {
    const renamed = plan
      .replace('link KQ-OPS-B2 {\n', 'link KQ-OPS-B7 {\n  was         KQ-OPS-B2\n')
      .concat(
        'link KQ-OPS-B9 {\n  fibres 1\n  connector LC\n  segment 60 m OM4\n  connector LC\n}\n',
      );
    expect(since(lensesOf(renamed).titles())).toEqual(['new since main']);
  });

  test('a lens opens the changes at its link', () => {
    const { lenses } = lensesOf(plan.replace('1  0.91', '1  1.01'));
    expect(lenses().find(({ title }) => /since/u.test(title))).toMatchObject({
      command: 'linkwright.compareRevision',
      arguments: [planUri, 'main', 'KQ-OPS-B1'],
    });
  });
});

describe('what it costs', () => {
  test('a question judges nothing: what is not known yet is not said', () => {
    const { titles } = lensesOf(plan.replace('1  0.91', '1  1.01'), plan, false);
    expect(since(titles())).toEqual([]);
  });

  test('a plan that is as it was is judged once, not twice', () => {
    const { learnt, titles } = lensesOf(plan);
    expect(learnt).toEqual([]);
    expect(since(titles())).toEqual([]);
  });

  test('after a key it is said at once, from what was known before', () => {
    const { project, titles } = lensesOf(plan.replace('1  0.91', '1  1.01'));
    const line = plan.split('\n').findIndex((each) => each.startsWith('  1  0.91'));
    const range = { start: { line, character: 5 }, end: { line, character: 9 } };
    project.change(planUri, 2, [{ range, text: '1.11' }]);
    expect(since(titles())).toEqual(['changed since main: margin +0.66 was +0.85']);
  });

  test('the same lens is the same object as long as nothing of it moves', () => {
    const { session } = lensesOf(plan.replace('1  0.91', '1  1.01'));
    const ask = () => codeLens.answer(session, { textDocument: { uri: planUri } });
    const [first, second] = [ask(), ask()];
    expect(first).toHaveLength(3);
    for (const [index, lens] of first.entries()) expect(second[index]).toBe(lens);
  });
});
