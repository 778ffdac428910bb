/** A plan in which a line cannot be read is not accepted, whatever its verdicts; put right, it is again. */
import { expect, test } from 'vitest';
import { judge, planUri } from '../support/judge.ts';

const sound = `plan "Accepted" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
  zone        "UTC"
}

link KQ-1 {
  fibres      1
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
}

readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1                1.12
}
`;

const accepted = (text: string) =>
  judge({ 'plan.lwl': text }).project.planOf(planUri)?.result.totals.accepted;

test.each([
  ['a word that is none', sound.replace('  zone ', '  zon ')],
  ['a line outside of everything', `${sound}\nwithdrawn by somebody\n`],
  [
    'a name that nobody declares',
    `${sound}\nwork KQ-2 {\n  done        cleaned\n  on          2026-03-13\n}\n`,
  ],
])('not with %s', (_, broken) => {
  expect(accepted(sound)).toBe(true);
  expect(accepted(broken)).toBe(false);
});
