import { expect, test } from 'vitest';
import { coverage } from '../../server/src/features/coverage.ts';
import { answer, ask, textIn } from '../support/ask.ts';

const plan = `plan "Two links" {
  limits      TIA-568.3-E
  measure     850 nm, 1300 nm for multimode
  directions  A>B
  reference   one-cord
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
  2                   -           -
  3                1.21        0.80
}
`;

function next(marked: string) {
  const asked = ask(marked);
  const found = answer(coverage, asked);
  return { ...found, blank: found?.next ? textIn(asked.text, found.next.range) : undefined };
}

test('counts the readings of the link at the cursor and says which one is next', () => {
  expect(next(plan.replace('1.12', '1.$012'))).toMatchObject({
    object: 'KQ-1',
    present: 4,
    expected: 6,
    margin: expect.stringMatching(/^\+0\.\d+ dB$/u),
    next: { what: expect.stringContaining('fibre 2 850 nm') },
  });
});

test('points at the blank under the heading of the missing reading', () => {
  const filled = plan.replace(
    '2                   -           -',
    '2                1.33           -',
  );
  const asked = ask(filled.replace('1.12', '1.$012'));
  const found = answer(coverage, asked)?.next;
  const lines = asked.text.split('\n');
  const line = lines.findIndex((each) => each.includes('1.33'));
  expect(found?.what).toContain('1300 nm');
  expect(found?.range.start).toEqual({ line, character: lines[line]?.lastIndexOf('-') });
  expect(textIn(asked.text, found?.range ?? expect.fail('no place'))).toBe('-');
});

test('points at the blank in a row that holds no reading yet, and in a table that holds none', () => {
  const gone = (text: string) => {
    const asked = ask(text.replace('link KQ-1', 'link $0KQ-1'));
    const { range } = answer(coverage, asked, { go: true })!.next!;
    const line = asked.text.split('\n')[range.start.line]!;
    return [
      textIn(asked.text, range),
      line.trim().split(/ +/u)[0],
      line.slice(0, range.start.character),
    ];
  };
  expect(gone(plan)).toEqual(['-', '2', expect.stringMatching(/^ {2}2 +$/u)]);
  const laidOut = plan.replace(/^( {2}[12] +)\d.*$/gmu, (row) => row.replace(/\d\.\d+/gu, '-'));
  expect(gone(laidOut)).toEqual(['-', '1', expect.stringMatching(/^ {2}1 +$/u)]);
});

test('speaks for the whole plan where the cursor is in no link', () => {
  expect(next(`$0${plan}`)).toMatchObject({
    object: 'Two links',
    present: 4,
    expected: 6,
    margin: expect.stringMatching(/^\+0\.\d+ dB at KQ-1$/u),
  });
});

test('has nothing next where every expected reading is there', () => {
  const whole = plan.replace(
    '2                   -           -',
    '2                1.33        0.91',
  );
  expect(next(whole.replace('1.12', '1.$012'))).toMatchObject({ present: 6, next: null });
});
