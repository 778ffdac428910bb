/**
 * What a reading holds, for every reference, way of counting, pair of ends and
 * grade of cords: the sum of the path, plus an end pair where a link end mates
 * with a test cord, less a pair for each cord but one in the reference
 * (configurations of IEC 61280-4-1 and ISO/IEC 14763-3, as secondary texts have
 * them; the trade's n, n − 1, n − 2). Figures are invented, so that no two terms
 * can stand for each other.
 */
import { describe, expect, test } from 'vitest';
import { judge } from '../support/judge.ts';

type Policy = 'counting' | 'reference-grade' | 'enhanced';
type Grade = 'reference-grade' | 'ordinary';

interface Case {
  readonly policy: Policy;
  readonly method: string;
  readonly ends: readonly [string, string];
  readonly grades: readonly [Grade, Grade];
}

const ends: Readonly<Record<string, readonly [string, string]>> = {
  sockets: ['connector', 'connector'],
  'a socket and a plug': ['connector', 'plug'],
  plugs: ['plug', 'plug'],
};

/** 3.3 dB/km × 137 m + one pair + one splice, in ten-thousandths of a decibel. */
const inside = 4521 + 6100 + 2700;
const pair = 6100;
const endPair = 4300;
const referencePair = 1100;

/** Ten-thousandths of a decibel; undefined: no reading, since its cords or its ends do not suit. */
function limitOf({ policy, method, ends: [, far], grades }: Case): number | undefined {
  const direct = method.endsWith('direct');
  if (direct && far === 'connector') return undefined;
  if (method === 'equipment-cord') return inside;
  const used = direct ? grades.slice(0, 1) : grades;
  if (policy !== 'counting' && used.includes('ordinary')) return undefined;
  const mated = used.length * (policy === 'counting' ? pair : endPair);
  const inReference = { 'two-cord': 1, 'three-cord': 2 }[method] ?? 0;
  const taken = { counting: pair, 'reference-grade': referencePair, enhanced: 0 }[policy];
  return inside + mated - inReference * taken;
}

const read = (one: Case) => judged(one).plan.result.link('KQ-1')?.readings[0];

function judged({ policy, method, ends: [a, b], grades: [launch, receive] }: Case) {
  const cord = (role: string, grade: Grade) =>
    `  cord        T-${role} ${role} LC GLASS ${grade} length 2 m verified 0.05 dB\n`;
  const cords =
    cord('launch', launch) +
    (method.endsWith('direct') || method === 'equipment-cord' ? '' : cord('receive', receive)) +
    (method === 'three-cord' ? cord('substitution', receive) : '');
  return judge(`plan "Kestrel Quay" {
  limits      PAIRS
  policy      ${policy}
  measure     850 nm for multimode
  directions  A>B
  uncertainty 0.15 dB
  zone        "UTC"
}

fibre GLASS {
  mode        multimode core 50 um
  attenuation 850 nm min 2 dB/km typ 2.3 dB/km max 3.3 dB/km
}

limits PAIRS {
  fibre       GLASS 850 nm 3.3 dB/km
  connector   any 0.61 dB
  connector   any 0.43 dB end
  connector   any 0.11 dB reference
  splice      any 0.27 dB
}

link KQ-1 {
  fibres      1
  ${a} LC
  segment     100 m GLASS
  splice      fusion
  segment     17 m GLASS
  connector   LC
  segment     20 m GLASS
  ${b} LC
}

setup ONE {
  reference   ${method}
  source      "S-3" LED
  meter       "M-5" floor -60 dBm
  launch      encircled-flux
${cords}  taken       2026-03-14 08:10 850 nm -20.05 dBm
}

readings KQ-1 {
  setup       ONE
  tested      2026-03-14 09:05 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1  1.12
}
`);
}

const policies = ['counting', 'reference-grade', 'enhanced'] as const;
const methods = ['one-cord', 'one-cord direct', 'two-cord', 'three-cord', 'equipment-cord'];
const grades = [
  ['reference-grade', 'reference-grade'],
  ['ordinary', 'reference-grade'],
  ['ordinary', 'ordinary'],
] as const;

describe.each(policies)('%s', (policy) => {
  describe.each(methods)('%s', (method) => {
    test.each(Object.keys(ends))('between %s', (name) => {
      for (const each of grades) {
        const one: Case = { policy, method, ends: ends[name]!, grades: each };
        const expected = limitOf(one);
        const reading = read(one);
        expect(reading?.verdict, each.join(' ')).toBe(expected === undefined ? 'invalid' : 'pass');
        if (expected === undefined) continue;
        // margin + loss is the limit, exact to 1e-15 dB.
        const limit = (reading?.margin ?? 0n) + 1_120_000n * 10n ** 9n;
        expect(limit, each.join(' ')).toBe(BigInt(expected) * 10n ** 11n);
      }
    });
  });
});

test('no plug at the far end goes into no meter, and is said once', () => {
  const { findings } = judged({
    policy: 'counting',
    method: 'one-cord direct',
    ends: ends.sockets!,
    grades: grades[0],
  });
  const told = findings.filter(({ name }) => name === 'receive-cord-missing');
  expect(told.map(({ kind, message }) => [kind, message])).toEqual([
    [
      'contradiction',
      'ONE says that the far plug goes into the meter, and KQ-1 ends in a socket at B: there is no plug to put in. Say which receive cord was used, in a set-up without direct, or write the path as it ends.',
    ],
  ]);
});
