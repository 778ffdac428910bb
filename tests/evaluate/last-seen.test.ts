/** Of end faces the last look holds, in order of time and not of the text (practice after IEC 61300-3-35: inspect, clean, inspect again). */
import { describe, expect, it } from 'vitest';
import { judged } from '../published/judged.ts';

const plan = `
plan "Faces" {
  limits      TIA-568.3-E
  measure     850 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
}

link KQ-1 {
  from        A:01..02
  to          B:01..02
  connector   LC
  segment     100 m OM4
  connector   LC
}
`;

const look = (tested: string, row: string, criterion = '"contract, clause 9"') => `
inspection KQ-1 {
  tested      ${tested} by "R. Vale"
  criterion   ${criterion}
  columns fibre, A,  B
  ${row}
}
`;

const faces = (...looks: string[]) =>
  judged(plan + looks.join(''))
    .link('KQ-1')
    .inspections.map(({ fibre, side, verdict, because }) => ({
      face: `${fibre}${side} ${verdict}`,
      because,
    }));
const words = (...looks: string[]) => faces(...looks).map(({ face }) => face);

describe('an end face', () => {
  const [early, late] = [
    look('2026-03-14 08:00', '1  fail  pass'),
    look('2026-03-14 08:20', '1  pass  fail'),
  ];

  it('is as the later look saw it, wherever that stands in the text', () => {
    expect(words(early, late)).toEqual(['1A pass', '1B fail']);
    expect(words(late, early)).toEqual(['1A pass', '1B fail']);
    const [first, second, third] = [
      look('2026-03-14 08:00', '1  fail  fail'),
      look('2026-03-14 08:10', '1  cleaned  cleaned'),
      look('2026-03-14 08:20', '1  pass  fail'),
    ];
    expect(words(second, third, first)).toEqual(['1A pass', '1B fail']);
    expect(words(third, first, second)).toEqual(['1A pass', '1B fail']);
  });

  it('looked at on a day is as it was seen later on it, where one time is not known', () => {
    const [timed, dated] = [
      look('2026-03-14 00:00', '1  pass  pass'),
      look('2026-03-14', '1  fail  pass'),
    ];
    // The day goes on after its first minute: what has no time of day counts as the later.
    expect(words(timed, dated)).toEqual(['1A fail', '1B pass']);
    expect(words(dated, timed)).toEqual(['1A fail', '1B pass']);
  });

  it('says by what it was judged, and of a cleaned one that nobody has looked since', () => {
    expect(faces(early)[0]).toEqual({ face: '1A fail', because: 'contract, clause 9' });
    expect(faces(look('2026-03-14 08:00', '1  cleaned  pass'))[0]).toEqual({
      face: '1A not-judged',
      because: 'cleaned, and not inspected since: it has not passed yet',
    });
  });

  it('is listed by fibre, A before B, whatever was looked at first', () => {
    expect(
      words(look('2026-03-14 08:00', '2  -  pass\n  2  pass  -\n  1  -  pass\n  1  pass  -')),
    ).toEqual(['1A pass', '1B pass', '2A pass', '2B pass']);
  });
});
