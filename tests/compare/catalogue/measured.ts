/** Changes of what was measured, by what, and of what is decided about it. */
import { changed, type Pair, pair } from './pair.ts';
import { berth } from './plans.ts';

const retest = `
readings KQ-OPS-B3 {
  setup       MM-1
  tested      2026-03-14 11:40 by "T. Holm"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A
  3          1.42         1.45
}
`;
const gateWithdrawn = `
withdraw KQ-OPS-G1 {
  fibres      2
  because     "far plug was in the neighbouring panel"
  by          "P. Orme" on 2026-03-21
}
`;
const gateReadings = berth.slice(
  berth.indexOf('readings KQ-OPS-G1 {'),
  berth.indexOf('concession KQ-OPS-B3 {'),
);
const concession = berth.slice(berth.indexOf('concession KQ-OPS-B3 {'));
const end = (text: string) => [concession, concession + text] as const;
const traced = changed(
  berth,
  end(`
setup OT-1 {
  otdr        "OT-9 no 12" calibrated 2026-01-12 due 2027-01-12
  cord        TC-3 launch LC OM4 reference-grade length 150 m
  cord        TC-4 receive LC OM4 reference-grade length 150 m
  pulse       5 ns
  index       850 nm 1.482
}

events KQ-OPS-B3 {
  setup       OT-1
  tested      2026-03-15 09:00 by "T. Holm"
  values      loss in dB
  trace       "traces/b3-1.sor"
  columns fibre, at in m, kind,          850 nm A>B
  1            0       connector        0.31
  1          181       splice           0.08
  1          222       connector        0.35
}

inspection KQ-OPS-B3 {
  tested      2026-03-15 08:30 by "T. Holm"
  criterion   "IEC 61300-3-35"
  columns fibre,  A,              B
  1               pass            pass
  2               pass            cleaned
}
`),
);

export const measured: readonly Pair[] = [
  // ---- evidence
  pair('A reading is edited in place and stays a pass', berth, [
    '2          2.31 ',
    '2          2.21 ',
  ]),
  pair('A failed reading is edited into a pass', changed(berth, [concession, '']), [
    '3          2.71         2.68 ',
    '3          2.11         2.08 ',
  ]),
  pair('A reading is taken out of its row', berth, ['0.82          0.85', '-             0.85']),
  pair('A row of readings is taken out', berth, [
    '  2          2.31         2.28         0.82          0.85\n',
    '',
  ]),
  pair('A whole block of readings is taken out', berth, [gateReadings, '']),
  pair('The failed first attempt is taken out, the retest stays', berth, [
    '  4          2.62         2.63         0.91          0.88\n',
    '',
  ]),
  pair('Readings are set under another time', berth, [
    '2026-03-14 09:05 to 09:40',
    '2026-03-14 09:50 to 10:05',
  ]),
  pair('A block of readings is given to another link', berth, [
    'readings KQ-OPS-G1 {',
    'readings KQ-OPS-B3 {',
  ]),
  pair('A reading is typed with more digits that say the same', berth, [
    '1          1.12 ',
    '1          1.120',
  ]),
  pair('A reference power is edited after the readings', berth, [
    '08:30 850 nm -20.05 dBm',
    '08:30 850 nm -19.85 dBm',
  ]),
  pair('A drift check that heals the day is taken out', berth, [
    '  checked     2026-03-14 12:00 850 nm -20.07 dBm\n',
    '',
  ]),
  pair('An event of a trace is edited', traced, ['splice           0.08', 'splice           0.28']),
  pair(
    'An end face that failed is made a pass',
    changed(traced, [
      '1               pass            pass',
      '1               pass            fail',
    ]),
    ['1               pass            fail', '1               pass            pass'],
  ),
  pair(
    'An edit of a reading is answered with a reason',
    berth,
    ['2          2.31 ', '2          2.21 '],
    [
      'readings KQ-OPS-B3 {\n  setup       MM-1\n  tested      2026-03-14 09:05',
      'readings KQ-OPS-B3 {\n  silence     reading-altered because "typed wrong, see sheet 4" by "M. Ashdown" on 2026-03-21\n  setup       MM-1\n  tested      2026-03-14 09:05',
    ],
  ),
  // ---- readings
  pair('A retest is added that passes, and ends the concession', berth, end(retest)),
  pair('First readings are added', changed(berth, [gateReadings, '']), [
    concession,
    gateReadings + concession,
  ]),
  pair(
    'A first reading is added that fails',
    changed(berth, ['0.91         0.88         0.63 ', '-            0.88         0.63 ']),
    ['-            0.88         0.63 ', '2.31         0.88         0.63 '],
  ),
  pair('A reading is withdrawn with a reason', berth, end(gateWithdrawn)),
  pair('A withdrawal is taken back', changed(berth, end(gateWithdrawn)), [gateWithdrawn, '']),
  pair(
    'Work is done after the readings, and makes them old',
    berth,
    end(`
work KQ-OPS-G1 {
  done        re-terminated
  on          2026-04-02
  by          "P. Orme"
}
`),
  ),
  pair(
    'Work is done and measured again in one change',
    berth,
    end(`
work KQ-OPS-G1 {
  done        cleaned
  on          2026-03-14 11:35
  fibres      1
}

readings KQ-OPS-G1 {
  setup       MM-1
  tested      2026-03-14 11:45 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A, 1300 nm A>B, 1300 nm B>A
  1          0.72         0.75         0.55          0.57
}
`),
  ),
  pair('Work is taken out of the plan', berth, [
    'work KQ-OPS-B3 {\n  done        cleaned\n  on          2026-03-14 10:10\n  fibres      4\n  by          "R. Vale"\n}\n\n',
    '',
  ]),
  // ---- method
  pair('The reference method of a set-up is changed', berth, [
    'setup MM-1 {\n  reference   one-cord',
    'setup MM-1 {\n  reference   two-cord',
  ]),
  pair('The reference method that the plan wants is changed', berth, [
    'directions  both\n  reference   one-cord',
    'directions  both\n  reference   three-cord',
  ]),
  pair('The launch condition is changed', berth, [
    'launch      encircled-flux',
    'launch      as-found',
  ]),
  pair('A test cord is no longer of reference grade', berth, [
    'TC-1 launch LC OM4 reference-grade',
    'TC-1 launch LC OM4 ordinary',
  ]),
  pair('The receive cord is taken out', berth, [
    '  cord        TC-2 receive LC OM4 reference-grade verified 0.06 dB\n',
    '',
  ]),
  pair('The launch plug was disturbed', berth, [
    '  checked     2026-03-14 12:00 850 nm',
    '  disturbed   2026-03-14 11:00 because "source was moved"\n  checked     2026-03-14 12:00 850 nm',
  ]),
  // ---- concession
  pair('A failure is conceded', changed(berth, [concession, '']), [
    gateReadings,
    gateReadings + concession,
  ]),
  pair('A concession is taken out', berth, [concession, '']),
  pair('A concession accepts more', berth, ['accepted    2.75 dB', 'accepted    2.95 dB']),
  pair('A concession accepts less than was measured', berth, [
    'accepted    2.75 dB',
    'accepted    2.70 dB',
  ]),
  pair('A concession gets another name under it', berth, [
    'by          "M. Ashdown" on 2026-03-20',
    'by          "P. Orme" on 2026-03-20',
  ]),
  pair('A doubt is answered', berth, [
    '  segment     90 m OM4\n  connector   LC\n}',
    '  segment     90 m OM4\n  connector   LC\n  silence     loss-too-good because "short pair, seen by eye" by "M. Ashdown" on 2026-03-20\n}',
  ]),
  pair('A concession has an end that is past', berth, [
    '  accepted    2.75 dB',
    '  until       2026-05-01\n  accepted    2.75 dB',
  ]),
  // ---- instrument
  pair('The calibration of the meter ends before the readings', berth, [
    '"PM-2 no 84" floor -60 dBm calibrated 2026-01-12 due 2027-01-12',
    '"PM-2 no 84" floor -60 dBm calibrated 2025-01-12 due 2026-01-12',
  ]),
  pair('Another meter is named', berth, ['PM-2 no 84', 'PM-2 no 85']),
  pair('Another tester is named', berth, [
    '11:10 to 11:30 by "R. Vale"',
    '11:10 to 11:30 by "T. Holm"',
  ]),
  // ---- words
  pair('A remark is written behind a reading', berth, [
    '0.82          0.85\n',
    '0.82          0.85          "cap was missing"\n',
  ]),
];
