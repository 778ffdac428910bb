/**
 * One link read with several set-ups, both ways, over a change of cords: each reading has
 * the reference, the cords and the ends of its own. Figures are ours and added up by hand;
 * which ends a reference of one cord holds: configurations of IEC 61280-4-1.
 */
import { describe, expect, it } from 'vitest';
import type { LimitsSet } from '../../server/src/model/types.ts';
import { exact, judged, micro } from '../published/judged.ts';
import {
  betweenPairs,
  cell,
  evaluate,
  evidence,
  setup as handSetup,
  limitsSet,
  link,
  oneWay,
  settings,
} from '../support/build.ts';

const plan = (body: string, ends: readonly [string, string] = ['plug', 'plug']) => `
plan "Set-ups" {
  limits      SET
  measure     850 nm
  directions  both
  uncertainty 0.15 dB
}

fibre GLASS {
  mode        multimode core 50 um
  attenuation 850 nm max 3.0 dB/km
}

connector LEFT {
  loss        max 0.75 dB
}

connector RIGHT {
  loss        max 0.3 dB
}

limits SET {
  policy      counting
  fibre       GLASS 850 nm 3.0 dB/km
  connector   LEFT 0.75 dB
  connector   RIGHT 0.3 dB
  connector   any 0.1 dB reference
}

link KQ-1 {
  fibres      1..4
  ${ends[0]}        LEFT
  segment     100 m GLASS
  ${ends[1]}        RIGHT
}
${body}`;

const setup = (name: string, lines: readonly string[]) => `
setup ${name} {
  source      "S-3" LED
  meter       "M-5" floor -60 dBm
  launch      encircled-flux
${lines.map((line) => `  ${line}\n`).join('')}}
`;

const readings = (
  name: string,
  rows: string,
  values = 'loss in dB',
  tested = '2026-03-14 09:00',
) => `
readings KQ-1 {
  setup       ${name}
  tested      ${tested}
  values      ${values}
  columns fibre, 850 nm A>B, 850 nm B>A
${rows}
}
`;

const one = (connector: string, more = '') => [
  'reference   one-cord',
  `cord        L-1 launch ${connector} GLASS reference-grade`,
  `cord        R-1 receive ${connector} GLASS reference-grade verified 0.08 dB${more}`,
  'taken       2026-03-14 08:00 850 nm -20.00 dBm',
];

/** What became of each reading: fibre, direction, limit or why it has none, loss. */
const read = (text: string) =>
  judged(text)
    .link('KQ-1')
    .readings.filter(({ attempt }) => attempt !== null)
    .map(({ fibre, direction, reason, limit, loss }) =>
      [fibre, direction, reason ?? exact(limit?.value), micro(loss)].join(' '),
    );

describe('set-ups of one link', () => {
  const both = '0.5  0.5';

  it('each hold the ends that they mate with, in each direction', () => {
    const direct = [...one('LEFT').slice(1), 'reference   one-cord direct'];
    const text =
      setup('S-1', one('LEFT')) +
      setup('S-2', direct) +
      readings('S-1', `  1  ${both}`) +
      readings('S-2', `  2  ${both}`);
    // 0.3 dB of fibre with both pairs, and with that at the source alone.
    expect(read(plan(text))).toEqual([
      '1 A>B 1.35 0.5',
      '1 B>A 1.35 0.5',
      '2 A>B 1.05 0.5',
      '2 B>A 0.6 0.5',
    ]);
    // The far plug goes into the meter: there is none at end A.
    expect(read(plan(text, ['connector', 'plug']))).toEqual([
      '1 A>B 1.35 0.5',
      '1 B>A 1.35 0.5',
      '2 A>B 1.05 0.5',
      '2 B>A receive-cord-missing 0.5',
    ]);
  });

  it('each have a reference of their own', () => {
    const brighter = one('LEFT').map((line) => line.replace('-20.00', '-19.50'));
    const text =
      setup('S-1', one('LEFT')) +
      setup('S-2', brighter) +
      readings('S-1', '  1  -20.6  -20.6', 'power in dBm') +
      readings('S-2', '  2  -20.6  -20.6', 'power in dBm');
    expect(read(plan(text)).map((line) => line.split(' ').at(-1))).toEqual([
      '0.6',
      '0.6',
      '1.1',
      '1.1',
    ]);
  });

  it('hold the fibre of the cord that was there, and are void while that is not proven', () => {
    const changed = [
      ...one('LEFT'),
      'cord        R-2 receive LEFT GLASS reference-grade length 20 m since 2026-03-14 09:30',
    ];
    const text = (more: readonly string[]) =>
      plan(
        setup('S-1', [...changed, ...more]) +
          readings('S-1', `  1  ${both}`) +
          readings('S-1', `  2  ${both}`, 'loss in dB', '2026-03-14 10:00') +
          readings('S-1', `  3  ${both}`, 'loss in dB', '2026-03-14 09:00 to 10:00'),
      );
    expect(read(text([]))).toEqual([
      '1 A>B 1.35 0.5',
      '1 B>A 1.35 0.5',
      '2 A>B cord-not-verified 0.5',
      '2 B>A cord-not-verified 0.5',
      '3 A>B cord-not-verified 0.5',
      '3 B>A cord-not-verified 0.5',
    ]);
    // 0.06 dB more for the 20 m.
    const proven = read(text(['verified    2026-03-14 09:40 R-2 0.07 dB']));
    expect(proven.slice(0, 4)).toEqual([
      '1 A>B 1.35 0.5',
      '1 B>A 1.35 0.5',
      '2 A>B 1.41 0.5',
      '2 B>A 1.41 0.5',
    ]);
  });

  it('each have a lowest that can be, by the pairs that their reference took', () => {
    const text =
      setup('S-1', one('LEFT')) +
      setup('S-2', [...one('LEFT').slice(1), 'reference   two-cord']) +
      readings('S-1', '  1  0.5  -0.1') +
      readings('S-2', '  2  0.5  -0.1\n  3  0.5  -0.2');
    // Fibre loses nothing at the least, one pair 0.10 dB at most, and 0.05 dB by chance.
    const { readings: found, doubts } = judged(plan(text)).link('KQ-1');
    const at = (fibre: number) =>
      found.find((each) => each.fibre === fibre && each.direction === 'B>A')?.reason;
    expect([1, 2, 3].map(at)).toEqual(['loss-negative', undefined, 'loss-negative']);
    expect(
      doubts
        .filter(({ name }) => name === 'loss-slightly-negative')
        .map(({ details }) => details.fibre),
    ).toEqual([2]);
  });

  it('each change their own cords, at one time', () => {
    const changed = (length: number) => [
      ...one('LEFT'),
      `cord        R-2 receive LEFT GLASS reference-grade length ${length} m since 2026-03-14 08:30 verified 0.07 dB`,
    ];
    const text =
      setup('S-1', changed(20)) +
      setup('S-2', changed(40)) +
      readings('S-1', `  1  ${both}`) +
      readings('S-2', `  2  ${both}`);
    expect(read(plan(text)).filter((line) => line.includes('A>B'))).toEqual([
      '1 A>B 1.41 0.5',
      '2 A>B 1.47 0.5',
    ]);
  });

  it('are as sure as the plan says of their method, and of each wavelength', () => {
    const sure = (lines: string, body: string) =>
      judged(plan(body).replace('  uncertainty 0.15 dB\n', lines))
        .link('KQ-1')
        .readings.filter(({ attempt }) => attempt !== null)
        .map(({ uncertainty }) => micro(uncertainty));
    const methods = '  uncertainty 0.10 dB one-cord\n  uncertainty 0.40 dB two-cord\n';
    const two =
      setup('S-1', one('LEFT')) +
      setup('S-2', [...one('LEFT').slice(1), 'reference   two-cord']) +
      readings('S-1', `  1  ${both}`) +
      readings('S-2', `  2  ${both}`);
    expect(sure(methods, two)).toEqual(['0.1', '0.1', '0.4', '0.4']);
    const lights = '  uncertainty 0.10 dB 850 nm\n  uncertainty 0.40 dB 1300 nm\n';
    const taken = 'taken       2026-03-14 08:00 1300 nm -20.00 dBm';
    const columns = readings('S-1', `  1  ${both}`).replace('850 nm B>A', '1300 nm A>B');
    expect(sure(lights, setup('S-1', [...one('LEFT'), taken]) + columns)).toEqual(['0.1', '0.4']);
  });

  it('are proven at each wavelength by its figure', () => {
    const own = plan(
      `connector OWN {
  loss        wavelength 850 nm max 0.3 dB
  loss        wavelength 1300 nm max 0.5 dB
}
${setup('S-1', [...one('OWN').map((line) => line.replace('reference-grade verified 0.08', 'ordinary verified 0.4')), 'taken       2026-03-14 08:00 1300 nm -20.00 dBm'])}
readings KQ-1 {
  setup       S-1
  tested      2026-03-14 09:00
  values      loss in dB
  columns fibre, 850 nm A>B, 1300 nm A>B
  1  0.5  0.4
}
`,
    );
    expect(read(own)).toEqual(['1 A>B cord-out-of-spec 0.5', '1 A>B no-limit 0.4']);
  });
});

describe('a reading that took a while', () => {
  const spans = (events: readonly string[], ...times: readonly string[]) =>
    read(
      plan(
        setup('S-1', [...one('LEFT'), ...events]) +
          times
            .map((time, at) =>
              readings('S-1', `  ${at + 1}  -21.0  -21.0`, 'power in dBm', `2026-03-14 ${time}`),
            )
            .join(''),
      ),
    ).filter((line) => line.includes('A>B'));

  it('is void where its end lies after a disturbance, beside one of the same beginning', () => {
    const moved = ['disturbed   2026-03-14 10:00'];
    expect(spans(moved, '09:00 to 09:10', '09:00 to 11:00', '09:00 to 09:20')).toEqual([
      '1 A>B 1.35 1',
      '2 A>B reference-disturbed 1',
      '3 A>B 1.35 1',
    ]);
  });

  it('is held against the reference of its beginning too, beside one of the same end', () => {
    const later = ['taken       2026-03-14 08:30 850 nm -20.50 dBm'];
    expect(spans(later, '08:10 to 09:10', '09:00 to 09:10', '08:10 to 08:20')).toEqual([
      '1 A>B 1.35 1',
      '2 A>B 1.35 0.5',
      '3 A>B 1.35 1',
    ]);
  });
});

describe('the grade of test cords', () => {
  /** Of set-ups whose cords are ordinary, under sets of these policies; `plan` is the plan’s own. */
  const graded = (
    policies: readonly (LimitsSet['policy'] | undefined)[],
    plan?: LimitsSet['policy'],
    own?: LimitsSet['policy'],
  ) => {
    const using = handSetup();
    const ordinary = {
      ...using,
      cords: using.cords.map((cord) => ({ ...cord, grade: 'ordinary' as const })),
    };
    const limits = policies.map((policy, at) =>
      limitsSet(`SET-${at}`, 0.75, 3, { policy } as Partial<LimitsSet>),
    );
    const model = link(betweenPairs(100), { ...oneWay, limits, policy: own }, 1);
    const found = evaluate(
      model,
      evidence({ readings: [cell(1, 1, 'A>B', 500)] }),
      ordinary,
      settings({ policy: plan }),
    );
    return found.readings[0]?.reason ?? found.readings[0]?.verdict;
  };

  it('is asked for where some limit in force grants pairs of reference grade', () => {
    expect(graded(['counting'])).toBe('pass');
    expect(graded(['reference-grade'])).toBe('cord-grade-missing');
    expect(graded(['enhanced'])).toBe('cord-grade-missing');
    expect(graded(['counting', 'reference-grade'])).toBe('cord-grade-missing');
    expect(graded(['reference-grade', 'counting'])).toBe('cord-grade-missing');
    expect(graded([])).toBe('no-limit');
  });

  it('goes by the policy of the set, else of the object, else of the plan, else by none', () => {
    expect(graded([undefined])).toBe('no-limit');
    expect(graded([undefined], 'reference-grade')).toBe('cord-grade-missing');
    expect(graded([undefined], 'reference-grade', 'counting')).toBe('pass');
    expect(graded(['counting'], 'reference-grade', 'reference-grade')).toBe('pass');
    expect(graded([undefined], 'counting', 'reference-grade')).toBe('cord-grade-missing');
  });
});
