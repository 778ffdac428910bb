import { expect, test } from 'vitest';
import { fibreTests, readingTests } from '../../server/src/features/reading-tests.ts';
import { answer, ask, textIn } from '../support/ask.ts';

const plan = `plan "Two links" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  directions  A>B
  reference   one-cord
}

link KQ-1 "Berth 1" {
  fibres      1..4
  connector   LC
  segment     180 m OM4
  connector   LC
}

link KQ-2 {
  fibres      1..2
  connector   LC
  segment     80 m OM4
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
}

readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1                1.12
  2                   -
  3                9.21
  4               -9.21
}
`;

const asked = ask(`$0${plan}`);
const first = answer(readingTests, asked, { since: 0 });
const [told] = first.plans;
const fibres = answer(fibreTests, asked, { root: told?.root ?? '', name: 'KQ-1' }) ?? [];

test('lists every link in order, with what it comes to and where it stands', () => {
  expect(told?.title).toBe('Two links');
  expect(told?.names).toEqual(['KQ-1', 'KQ-2']);
  expect(told?.changed.map(({ name, outcome }) => [name, outcome])).toEqual([
    ['KQ-1', 'failed'],
    ['KQ-2', 'skipped'],
  ]);
  expect(told?.changed[0]).toMatchObject({
    says: expect.stringMatching(/^Berth 1 · fail · /u),
  });
  expect(textIn(asked.text, told?.changed[0]?.at?.range ?? expect.fail('no place'))).toBe('KQ-1');
});

test('says of each fibre whether it passed, failed or waits, and why at the reading itself', () => {
  expect(fibres.map(({ label, outcome }) => [label, outcome])).toEqual([
    ['fibre 1', 'passed'],
    ['fibre 2', 'skipped'],
    ['fibre 3', 'failed'],
    ['fibre 4', 'failed'],
  ]);
  expect(fibres[1]?.says).toMatch(/1 to read$/u);
  expect(fibres[0]?.messages).toEqual([]);
  const [over] = fibres[2]?.messages ?? [];
  expect(over?.text).toMatch(
    /^fail, 7\.\d+ over the (recalled )?limit at 850 nm A>B: 9\.21 dB read, limit 2\.\d+ dB \(components/u,
  );
  expect(textIn(asked.text, over?.at?.range ?? expect.fail('no place'))).toBe('9.21');
  expect(fibres[3]?.messages[0]?.text).toMatch(/^invalid at 850 nm A>B: /u);
  expect(textIn(asked.text, fibres[2]?.at?.range ?? expect.fail('no place'))).toMatch(
    /^3 +9\.21$/u,
  );
});

test('tells once what did not change since', () => {
  const again = answer(readingTests, asked, { since: first.upTo });
  expect(again.upTo).toBe(first.upTo);
  expect(again.plans.map(({ names, changed }) => [names.length, changed.length])).toEqual([[2, 0]]);
});

test('knows no fibres of what is no longer there', () => {
  expect(answer(fibreTests, asked, { root: told?.root ?? '', name: 'KQ-9' })).toBeNull();
});
