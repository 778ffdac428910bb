/**
 * No verdict without a limit and a valid reading: whatever is left out of a
 * sound plan, alone or with other things, no reading of it passes, fails or is
 * conceded; with nothing left out every reading is decided.
 */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Verdict } from '../../server/src/evaluate/index.ts';
import { judge } from '../support/judge.ts';
import { atLeast } from './runs.ts';

const needs = [
  'the set-up',
  'its method',
  'its reference',
  'its reference at the wavelength',
  'its reference before the reading',
  'its receive cord',
  'the check of that cord',
  'a date that has come',
  'a value',
  'limits',
  'their policy',
  'their figure of the fibre',
  'a fibre that is known',
] as const;
type Need = (typeof needs)[number];

interface Sound {
  readonly metres: number;
  readonly pairs: number;
  readonly splices: number;
  readonly losses: readonly (number | 'dark')[];
  readonly conceded: boolean;
  readonly rule: string;
}

const sound: fc.Arbitrary<Sound> = fc.record({
  metres: fc.integer({ min: 60, max: 900 }),
  pairs: fc.integer({ min: 0, max: 3 }),
  splices: fc.integer({ min: 0, max: 3 }),
  losses: fc.array(
    fc.oneof(
      { weight: 4, arbitrary: fc.integer({ min: 30, max: 600 }).map((n) => n / 100) },
      { weight: 1, arbitrary: fc.constant('dark' as const) },
    ),
    { minLength: 1, maxLength: 4 },
  ),
  conceded: fc.boolean(),
  rule: fc.constantFrom('flagged', 'simple', 'guarded-acceptance', 'guarded-rejection'),
});

function plan({ metres, pairs, splices, losses, conceded, rule }: Sound, lacks: ReadonlySet<Need>) {
  const unless = (need: Need, text: string, instead = '') => (lacks.has(need) ? instead : text);
  const fibre = unless('a fibre that is known', 'GLASS', 'GLAS');
  const late = lacks.has('its reference before the reading') ? '10:00' : '08:00';
  const at = lacks.has('its reference at the wavelength') ? '1300' : '850';
  const verified = unless('the check of that cord', ' verified 0.08 dB');
  const rows = losses.map((loss, index) => {
    const value = lacks.has('a value') ? '-' : loss === 'dark' ? loss : loss.toFixed(2);
    return `  ${index + 1}  ${value}\n`;
  });
  return `plan "Needs" {
${unless('limits', '  limits      SET\n')}  measure     850 nm
  directions  A>B
  uncertainty 0.15 dB
  decision    ${rule}
}

fibre GLASS {
  mode        multimode core 50 um
  attenuation 850 nm max 3.0 dB/km
}

connector PAIR {
  loss        max 0.75 dB
}

splice WELD {
  loss        max 0.3 dB
}

limits SET {
${unless('their policy', '  policy      counting\n')}${unless('their figure of the fibre', '  fibre       GLASS 850 nm 3.0 dB/km\n', '  fibre       GLASS 1300 nm 1.5 dB/km\n')}  connector   any 0.75 dB
  splice      any 0.3 dB
}

${unless('the set-up', 'setup ONE {', 'setup OTHER {')}
${unless('its method', '  reference   one-cord\n')}  source      "S1"
  meter       "M1" floor -60 dBm
  launch      encircled-flux
  cord        L1 launch PAIR ${fibre} ordinary
${unless('its receive cord', `  cord        R1 receive PAIR ${fibre} ordinary${verified}\n`)}${unless('its reference', `  taken       2026-03-14 ${late} ${at} nm -20.05 dBm\n`)}}

link KQ-1 {
  fibres      1..${losses.length}
  connector   PAIR
${`  segment     1 m ${fibre}\n  connector   PAIR\n`.repeat(pairs)}${`  segment     1 m ${fibre}\n  splice      WELD\n`.repeat(splices)}  segment     ${metres} m ${fibre}
  connector   PAIR
}

readings KQ-1 {
  setup       ONE
  tested      ${unless('a date that has come', '2026', '2062')}-03-14 09:00 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
${rows.join('')}}
${
  conceded
    ? '\nconcession KQ-1 {\n  accepted    9 dB\n  because     "booked"\n  by          "M. Ashdown" on 2026-03-20\n}\n'
    : ''
}`;
}

const decided: ReadonlySet<Verdict> = new Set([
  'pass',
  'marginal-pass',
  'marginal-fail',
  'fail',
  'conceded',
]);

const verdictsOf = (text: string) => judge(text).plan.result.link('KQ-1');

it('a sound plan decides every reading, by a limit that is the sum of its terms', () => {
  fc.assert(
    fc.property(sound, (whole) => {
      const result = verdictsOf(plan(whole, new Set()));
      expect(result?.readings).toHaveLength(whole.losses.length);
      for (const one of result?.readings ?? []) {
        expect(decided).toContain(one.verdict);
        expect(one.limit?.terms.length).toBeGreaterThan(0);
        expect(one.limit?.terms.reduce((sum, term) => sum + term.total, 0n)).toBe(one.limit?.value);
        expect(one.loss ?? one.lossBound).toBeDefined();
        expect(one.reference).toBeDefined();
      }
    }),
  );
});

it('without any one or more of what it needs no reading is decided, and nothing is accepted', () => {
  const some = fc.subarray([...needs], { minLength: 1, maxLength: 4 });
  fc.assert(
    fc.property(sound, some, (whole, lacks) => {
      const result = verdictsOf(plan(whole, new Set(lacks)));
      const words = result?.fibres.flatMap((fibre) => fibre.current.map(({ verdict }) => verdict));
      expect(words).toHaveLength(whole.losses.length);
      for (const word of words ?? []) expect([lacks, decided.has(word)]).toEqual([lacks, false]);
      expect(result?.accepted).toBe(false);
      expect(result?.worstMargin).toBeUndefined();
    }),
    { numRuns: atLeast(200) },
  );
});

it.each(needs)('without %s alone', (need) => {
  const losses = [1.2, 'dark'] as const;
  const whole: Sound = {
    metres: 142,
    pairs: 1,
    splices: 0,
    losses,
    conceded: true,
    rule: 'flagged',
  };
  const result = verdictsOf(plan(whole, new Set([need])));
  expect(result?.fibres.map(({ verdict }) => decided.has(verdict))).toEqual([false, false]);
  expect(result?.accepted).toBe(false);
});
