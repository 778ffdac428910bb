/**
 * A day that went wrong: drift, a swapped cord, expiry, retests, a concession.
 *
 * Rule-derived: figures are ours. Recorded reference power and the undisturbed
 * joint at the source: MIL-STD-2042-6B(SH). Bracketing checks, their tolerance
 * and expiry, and that a check is compared with the reference and never with
 * the check before: common practice, no source; they are settings of the plan.
 */
import { describe, expect, it } from 'vitest';
import { doubt, doubts, exact, judged, multimodeParts, reading, verdict } from './judged.ts';

const head = (drift: string) => `
plan "A bad day" {
  limits      PLAIN
  measure     850 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
  drift       0.20 dB ${drift}
}
${multimodeParts}
link KQ-8 {
  fibres      1..80
  connector   PAIR
  segment     118 m GLASS-50
  connector   PAIR
  segment     67 m GLASS-50
  connector   PAIR
}
`;

const setup = (more: string) => `
setup DAY {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -60 dBm
  cord        L1 launch PAIR GLASS-50 reference-grade
  cord        R1 receive PAIR GLASS-50 reference-grade verified 0.08 dB
  taken       2026-03-14 09:00 850 nm -20.05 dBm
  checked     2026-03-14 10:45 850 nm -20.11 dBm
  checked     2026-03-14 12:25 850 nm -20.37 dBm
  taken       2026-03-14 12:30 850 nm -20.36 dBm
  checked     2026-03-14 14:15 850 nm -20.40 dBm
  cord        R2 receive PAIR GLASS-50 reference-grade since 2026-03-14 13:30
${more}}
`;

const day = `
readings KQ-8 {
  setup       DAY
  tested      2026-03-14 09:05
  values      loss in dB
  columns fibre, 850 nm A>B, time
  1       1.10  09:10
  24      1.10  10:40
  25      1.10  10:50
  48      1.10  12:20
  49      1.10  12:40
  60      1.10  13:20
  61      1.10  13:35
  72      1.10  14:00
  73      1.10  17:10
  74      1.10  18:30
}
`;

const proven = '  verified    2026-03-14 14:10 R2 0.07 dB\n';
const run = (drift: string, more: string) => judged(head(drift) + setup(more) + day).link('KQ-8');
const strict = 'expiry 4 h closing';

describe('a reference brackets its readings', () => {
  const result = run(strict, proven);

  it.each([
    [1, 'pass', 'between reference and good check'],
    [24, 'pass', 'between reference and good check'],
    [25, 'invalid', 'before a bad check'],
    [48, 'invalid', 'before a bad check'],
    [49, 'pass', 'between new reference and good check'],
    [60, 'pass', 'between new reference and good check'],
    [61, 'pass', 'with a cord proven afterwards'],
    [72, 'pass', 'with a cord proven afterwards'],
    [73, 'invalid', 'no closing check'],
    [74, 'invalid', 'over four hours'],
  ])('fibre %i: %s, %s', (fibre, word) => {
    expect(verdict(result, fibre, 850)).toBe(word);
  });

  it('says which check, by how much, and on which side', () => {
    expect(doubt(result, 'reference-drift')).toMatchObject({
      drift: -0.32,
      tolerance: 0.2,
      fibres: '25, 48',
      readings: 2,
      side: 'high',
    });
    expect(doubt(result, 'closing-check-missing').fibres).toBe('73');
    expect(doubt(result, 'reference-expired').fibres).toBe('74');
  });

  it('a source that rose makes readings too low: the unsafe side', () => {
    const risen = judged(
      head(strict) + setup(proven).replace('12:25 850 nm -20.37', '12:25 850 nm -19.75') + day,
    ).link('KQ-8');
    expect(doubt(risen, 'reference-drift')).toMatchObject({ drift: 0.3, side: 'low' });
  });

  it('a later good check heals what waits for closing, and what is expired only if the plan says so', () => {
    const check = `${proven}  checked     2026-03-14 18:45 850 nm -20.41 dBm\n`;
    const closed = run(strict, check);
    expect(verdict(closed, 73, 850)).toBe('pass');
    expect(verdict(closed, 74, 850)).toBe('invalid');
    const extended = run('expiry 4 h extended closing', check);
    expect(verdict(extended, 74, 850)).toBe('pass');
  });

  it('without a closing check wanted the last readings stand until they expire', () => {
    expect(verdict(run('expiry 4 h', proven), 73, 850)).toBe('pass');
  });

  it('if no expiry is said, a reference holds until the end of its day', () => {
    const next = `${head('')}${setup(proven)}
readings KQ-8 {
  setup       DAY
  tested      2026-03-15 08:00
  values      loss in dB
  columns fibre, 850 nm A>B
  1       1.10
}
`;
    expect(verdict(run('', proven), 74, 850)).toBe('pass');
    expect(doubts(judged(next).link('KQ-8'), 1)).toContain('reference-expired');
  });
});

describe('cords', () => {
  it('a receive cord that was changed voids nothing before it and all after it until it is proven', () => {
    const result = run(strict, '');
    expect(verdict(result, 60, 850)).toBe('pass');
    expect(verdict(result, 61, 850)).toBe('invalid');
    expect(doubt(result, 'cord-not-verified')).toMatchObject({ cord: 'R2', fibres: '61, 72' });
  });

  it('a launch cord that was changed voids the reference, and no check heals that', () => {
    const result = run(
      strict,
      `${proven}  cord        L2 launch PAIR GLASS-50 reference-grade since 2026-03-14 13:00\n`,
    );
    expect(verdict(result, 49, 850)).toBe('pass');
    expect(verdict(result, 60, 850)).toBe('invalid');
    expect(doubt(result, 'reference-disturbed')).toMatchObject({
      cord: 'L2',
      cause: 'launch cord replaced',
    });
  });

  it('a disturbance voids what follows until a new reference', () => {
    const result = run(
      strict,
      `${proven}  disturbed   2026-03-14 09:30 because "launch plug pulled"\n`,
    );
    expect(verdict(result, 1, 850)).toBe('invalid');
    expect(verdict(result, 24, 850)).toBe('invalid');
    expect(verdict(result, 49, 850)).toBe('pass');
  });
});

describe('a row without a time lies anywhere in its interval', () => {
  it('and is good only if it is good throughout', () => {
    const across = (until: string) => `${head(strict)}${setup(proven)}
readings KQ-8 {
  setup       DAY
  tested      2026-03-14 10:00 to ${until}
  values      loss in dB
  columns fibre, 850 nm A>B
  1       1.10
}
`;
    expect(verdict(judged(across('10:40')).link('KQ-8'), 1, 850)).toBe('pass');
    expect(verdict(judged(across('13:00')).link('KQ-8'), 1, 850)).toBe('invalid');
  });
});

const other = (blocks: string) =>
  judged(
    `${head('').replace('measure     850 nm', 'measure     850 nm, 1300 nm')}
setup GOOD {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -60 dBm
  cord        L1 launch PAIR GLASS-50 reference-grade
  cord        R1 receive PAIR GLASS-50 reference-grade verified 0.08 dB
  taken       2026-03-16 08:00 850 nm -20.05 dBm
  taken       2026-03-16 08:00 1300 nm -20.31 dBm
}

setup BAD {
  like        GOOD
  taken       2026-03-16 08:00 850 nm -20.05 dBm
  checked     2026-03-16 18:00 850 nm -20.60 dBm
}
${blocks}`,
  ).link('KQ-8');

const rows = (at: string, columns: string, row: string, name = 'GOOD') => `
readings KQ-8 {
  setup       ${name}
  tested      2026-03-16 ${at}
  values      loss in dB
  columns fibre, ${columns}
  ${row}
}
`;

describe('work and attempts', () => {
  it('work ages every wavelength of the fibre, and what was not read again is stale', () => {
    const result = other(
      `${rows('09:00', '850 nm A>B, 1300 nm A>B', '30  3.10  2.40')}
work KQ-8 {
  done        cleaned
  fibres      30
  on          2026-03-16 09:30
}
${rows('10:00', '850 nm A>B', '30  2.20')}`,
    );
    expect(verdict(result, 30, 850)).toBe('pass');
    expect(verdict(result, 30, 850, 'A>B', 1)).toBe('stale');
    expect(verdict(result, 30, 1300)).toBe('stale');
    expect(result.fibres[29]?.verdict).toBe('stale');
    expect(doubt(result, 'stale-reading')).toMatchObject({ wavelength: 1300, fibres: '30' });
  });

  it('work of a day without a time ages readings of that day', () => {
    const result = other(
      `${rows('09:00', '850 nm A>B', '30  1.10')}
work KQ-8 {
  done        cleaned
  fibres      30
  on          2026-03-16
}
${rows('10:00', '850 nm A>B', '30  1.10')}`,
    );
    expect(verdict(result, 30, 850)).toBe('stale');
    expect(doubt(result, 'stale-reading').timed).toBe(0);
  });

  it('the last valid attempt governs, never the best, and two that disagree are named', () => {
    const result = other(
      rows('09:00', '850 nm A>B', '31  2.70') + rows('10:00', '850 nm A>B', '31  2.95'),
    );
    expect(verdict(result, 31, 850)).toBe('marginal-fail');
    expect(doubt(result, 'not-repeatable', 31)).toMatchObject({ difference: 0.25, bound: 0.2121 });
  });

  it('an invalid attempt supersedes nothing', () => {
    const result = other(
      rows('09:00', '850 nm A>B', '32  1.90') + rows('17:00', '850 nm A>B', '32  1.95', 'BAD'),
    );
    expect(verdict(result, 32, 850)).toBe('pass');
    expect(reading(result, 32, 850).attempt).toBe(1);
    expect(verdict(result, 32, 850, 'A>B', 2)).toBe('invalid');
  });

  it('a withdrawn attempt stays visible and counts for nothing', () => {
    const result = other(
      `${rows('09:00', '850 nm A>B', '33  1.90')}
withdraw KQ-8 {
  fibres      33
  because     "far plug was in the neighbouring panel"
  by          "R. Vale" on 2026-03-16
}
`,
    );
    expect(verdict(result, 33, 850)).toBe('untested');
    expect(verdict(result, 33, 850, 'A>B', 1)).toBe('invalid');
    expect(reading(result, 33, 850, 'A>B', 1).reason).toBe('withdrawn');
  });
});

describe('a concession', () => {
  const concession = `
concession KQ-8 {
  fibres      7
  wavelength  850 nm
  accepted    3.10 dB
  because     "rework is booked"
  by          "M. Ashdown" on 2026-03-16
}
`;
  const first = rows('09:00', '850 nm A>B, 1300 nm A>B', '7  3.05  2.80') + concession;

  it('covers its wavelength up to its value, and the fail stays on the record', () => {
    const result = other(first);
    const one = reading(result, 7, 850);
    expect(one.verdict).toBe('conceded');
    expect(exact(one.margin)).toBe('-0.245');
    expect(doubt(result, 'excess-conceded', 7).over).toBe(0.245);
    expect(verdict(result, 7, 1300)).toBe('fail');
  });

  it('does not cover a greater loss', () => {
    expect(verdict(other(first + rows('10:00', '850 nm A>B', '7  3.18')), 7, 850)).toBe('fail');
  });

  it('does not cover the application: 3.05 + 3.0·0.005 = 3.065 is more than 2.9', () => {
    const service = `
application TEN-G {
  count       1
  wavelength  850 nm A>B
  fibre       GLASS-50 reach 400 m loss 2.9 dB
}

channel CH-7 {
  cord        3 m GLASS-50 straight
  link        KQ-8 fibres 7
  cord        2 m GLASS-50 straight
  carries     TEN-G
}
`;
    const { link } = judged(
      `${head('')}${service}
setup GOOD {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -60 dBm
  cord        L1 launch PAIR GLASS-50 reference-grade
  cord        R1 receive PAIR GLASS-50 reference-grade verified 0.08 dB
  taken       2026-03-16 08:00 850 nm -20.05 dBm
}
${rows('09:00', '850 nm A>B', '7  3.05')}${concession}`,
    );
    expect(verdict(link('KQ-8'), 7, 850)).toBe('conceded');
    // By the greatest figures of its parts the path would do: 3.0·0.19 + 3·0.75 = 2.82.
    const [application] = link('CH-7').applications;
    expect(application?.support).toBe('not supported');
    expect(application?.because).toContain('3.065 dB');
  });

  it('is spent by a pass', () => {
    const pass = first + rows('11:00', '850 nm A>B', '7  2.50');
    expect(verdict(other(pass), 7, 850)).toBe('pass');
    const again = other(pass + rows('12:00', '850 nm A>B', '7  3.05'));
    expect(verdict(again, 7, 850)).toBe('fail');
    expect(doubt(again, 'concession-spent', 7)).toMatchObject({ accepted: 3.1, loss: 3.05 });
  });
});
