import { expect, test } from 'vitest';
import { codeActions } from '../../server/src/features/code-actions.ts';
import { codeLens } from '../../server/src/features/code-lens.ts';
import { hover } from '../../server/src/features/hover.ts';
import { inlayHints } from '../../server/src/features/inlay-hints.ts';
import { answer, applyEdits, ask } from '../support/ask.ts';

/** 3.0 × 0.180 + 2 × 0.75 = 2.04 at 850 nm; 1.5 × 0.180 + 2 × 0.75 = 1.77 at 1300 nm. */
const text = `plan "Judged" {
  limits      TIA-568.3-E
  measure     850 nm, 1300 nm for multimode
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
}

link KQ-1 {
  fibres      1..3
  connector   LC
  segment     180 m OM4
  connector   LC
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED
  meter       "M-5" floor -60 dBm
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
  taken       2026-03-14 08:10 1300 nm -20.31 dBm
}

readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 1300 nm A>B
  1                1.12        0.84
  2                2.31        0.90
}
`;
const everything = { range: { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } } };

function hints(source: string): string[] {
  return answer(inlayHints, ask(source), everything).map(
    ({ position, label }) => `${position.line} ${String(label).trim()}`,
  );
}

test('hints say limit and margin at the link, verdict at the reading, limits at the columns', () => {
  expect(hints(text)).toEqual(
    [
      '8 limit 2.04, 1.77 dB, recalled at 1300 nm · fail, margin −0.27 · 4 of 6 readings',
      '30 limit 2.04, 1.77, recalled at 1300 nm',
      '31 margin +0.92',
      '32 fail, 0.27 over the limit at 850 nm A>B',
    ].sort((a, b) => Number.parseInt(a, 10) - Number.parseInt(b, 10)),
  );
});

test('a changed reading changes its hint', () => {
  // A dark fibre has no margin, and that of the others does not stand for it.
  expect(hints(text.replace('2.31', 'dark')).find((hint) => hint.startsWith('8 '))).toMatch(
    /at 1300 nm · fail · 4 of 6 readings$/u,
  );
  expect(hints(text.replace('2.31', '1.31'))).toContain('32 margin +0.73');
});

test('hover on a reading shows how it was judged', () => {
  const value = JSON.stringify(answer(hover, ask(text.replace('2.31', '2.$031'))));
  expect(value).toContain('fail, 0.27 over the limit');
  expect(value).toContain('2.04');
  expect(value).toContain('MM-1');
});

test('hover on a link shows the sum of its limit', () => {
  const value = JSON.stringify(answer(hover, ask(text.replace('link KQ-1', 'link KQ$0-1'))));
  expect(value).toContain('0.54');
  expect(value).toContain('TIA-568.3-E');
});

test('hover on a fibre shows its figures and sources, on a word its help', () => {
  expect(JSON.stringify(answer(hover, ask(text.replace('180 m OM4', '180 m O$0M4'))))).toContain(
    'basis',
  );
  expect(JSON.stringify(answer(hover, ask(text.replace('  segment', '  seg$0ment'))))).toContain(
    'segment LEN',
  );
});

test('the lens above a link says its verdict and what is to test', () => {
  expect(answer(codeLens, ask(text)).map(({ command }) => command?.title)).toEqual([
    'fail · 2 to test',
  ]);
});

test('a fix is offered where its finding stands', () => {
  const broken = ask(text.replace('1.12', '1,12'));
  const [action] = answer(codeActions, broken, {
    range: { start: { line: 31, character: 19 }, end: { line: 31, character: 19 } },
    context: { diagnostics: [] },
  });
  expect(action && applyEdits(broken.text, action.edit?.changes?.[broken.uri] ?? [])).toBe(text);
});
