/**
 * What a design leaves, shown under the pointer: what weighs most, how far it
 * goes, what more it bears. Reach and loss of 10GBASE-SR on OM4 (400 m, 2.9 dB)
 * are those of the library, with their source there.
 */
import { expect, test } from 'vitest';
import { hover } from '../../server/src/features/hover.ts';
import { answer, ask } from '../support/ask.ts';

const plan = (length: string, middle = '', more = '') => `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  reference   one-cord
}

link KQ$0-1 {
  fibres      1..2
  connector   LC
  segment     ${length} OM4
${middle}  connector   LC
  carries     10GBASE-SR${more}
}
`;

function said(text: string): string {
  const contents = answer(hover, ask(text))?.contents;
  return contents && typeof contents === 'object' && 'value' in contents ? contents.value : '';
}

test('terms stand by what they weigh, each with its share', () => {
  const text = said(plan('180 m', '  connector   LC\n  segment     20 m OM4\n'));
  expect(text).toContain('**What weighs most** at 850 nm');
  const rows = text
    .slice(text.indexOf('What weighs most'))
    .split('\n')
    .filter((line) => line.startsWith('| '));
  // 2 × 0.75 at the ends, 0.75 between, 3.0 × 0.200: together 2.85 dB.
  expect(rows.slice(2)).toEqual([
    '| end pairs, 2 | 1.50 | 53 % |',
    '| mated pairs | 0.75 | 26 % |',
    '| fibre OM4, 200 m | 0.60 | 21 % |',
  ]);
  expect(text).toContain('limits it: 2.85 − 2.85 = 0.00 dB left');
});

test('the longest is the smaller of reach and loss, both with their sums', () => {
  const text = said(plan('180 m', '', ' cords 3 m, 2 m'));
  expect(text).toContain('by reach: 400 m − 5 m of other fibre = 395 m');
  // (2.9 − 1.5 − 3.0 × 0.005) ÷ 3.0 = 0.461666 km
  expect(text).toContain('by loss at 850 nm: (2.90 − 1.515) ÷ 3 dB/km = 461.66 m');
  expect(text).toContain(
    'Reach ends it first: at most **395 m** of OM4, 180 m are planned: 215 m to spare.',
  );
});

test('loss ends it where there are more joints', () => {
  const text = said(plan('180 m', '  connector   LC\n  segment     20 m OM4\n'));
  expect(text).toContain('Loss ends it first: at most **196.66 m** of OM4');
  expect(text).toContain('0.05 dB left at 850 nm: no more pair LC of 0.75 dB goes into that.');
});

test('what rests on a figure from memory says so', () => {
  const text = plan('180 m').replaceAll('850 nm', '1300 nm').replace('10GBASE-SR', '1000BASE-LX');
  expect(said(text)).toContain('This rests on a recalled figure.');
  expect(said(plan('180 m'))).not.toContain('recalled');
});

test('as many pairs more as go into what is left', () => {
  expect(said(plan('50 m'))).toContain(
    '1.25 dB left at 850 nm: 1 more pair LC of 0.75 dB would fit',
  );
});

test('what is carried shows its own room', () => {
  const text = said(plan('480 m').replace('KQ$0-1', 'KQ-1').replace('10GBASE-SR', '10GBASE$0-SR'));
  expect(text).toContain('at most **400 m** of OM4, 480 m are planned: 80 m too many');
  expect(text).toContain('0.04 dB more than it allows at 850 nm');
});

test('joints alone may be too much for any length', () => {
  const pairs = '  connector   LC\n  segment     5 m OM4\n'.repeat(3);
  expect(said(plan('50 m', pairs))).toContain(
    'No length would do: what is not this fibre takes all of the loss already.',
  );
});

test('spans of a ring that share a cable are named, and that others keep apart is said', () => {
  const ring = (second: string) => `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  reference   one-cord
}

cable C-1 {
  fibre       OS2
  count       12
  length      900 m
}

cable C-2 {
  fibre       OS2
  count       12
  length      900 m
}

link S-1 {
  fibres      1..2
  connector   LC
  segment     C-1 fibres 1..2
  connector   LC
}

link S-2 {
  fibres      1..2
  connector   LC
  segment     ${second} fibres 3..4
  connector   LC
}

ring KQ$0-RING {
  node        "Pump house" through 3 m OS2
  link        S-1
  node        "Lighthouse" through 3 m OS2
  link        S-2
}
`;
  expect(said(ring('C-1'))).toContain(
    'Pump house to Lighthouse and Lighthouse to Pump house share the cable C-1',
  );
  expect(said(ring('C-2'))).toContain('no two spans share a cable, a route or a closure');
});

const pair = (second: string) => `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  reference   one-cord
  spares      20 %
}

cable C-1 {
  fibre       OS2
  count       12
  length      900 m
  route       "quay wall"
}

cable C-2 {
  fibre       OS2
  count       12
  length      1100 m
  route       "${second}"
}

link KQ-$0NORTH {
  from        OPS/R1:01..08
  to          GATE/R1:01..08
  connector   LC
  segment     C-1 fibres 1..8
  connector   LC
}

link KQ-SOUTH {
  from        GATE/R2:01..02
  to          OPS/R2:01..02
  connector   LC
  segment     C-2 fibres 1..2
  connector   LC
}
`;

test('a second link between the same places is named with what both share', () => {
  expect(said(pair('upper road'))).toContain(
    '**Between the same places**: KQ-SOUTH shares no cable, route or closure with it.',
  );
  expect(said(pair('quay wall'))).toContain('KQ-SOUTH shares “quay wall”.');
});

test('free fibres of its cables stand beside what the plan wants', () => {
  expect(said(pair('upper road'))).toContain(
    'C-1: 4 of 12 fibres are free, 3 wanted (20 %): 1 more than that',
  );
  expect(said(pair('upper road').replace('20 %', '50 %'))).toContain('6 wanted (50 %): 2 too few');
});
