/**
 * Laws of a link as a sum: it may be cut anywhere, turned round, written in
 * other units, and nothing that makes it longer or lossier leaves more over.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import './runs.ts';
import {
  compareDb,
  type ExactDb,
  printExactDb,
  subtractDb,
} from '../../grammar/src/quantity/index.ts';
import type { LinkResult, WavelengthResult } from '../../server/src/evaluate/index.ts';
import { judged } from '../published/judged.ts';

type Part =
  | { readonly kind: 'stretch'; readonly centimetres: number; readonly fibre: string }
  | { readonly kind: 'pair' | 'splice' | 'part' };

const fibre = fc.constantFrom('WIDE', 'NARROW');
const stretch = fc.record({
  kind: fc.constant('stretch' as const),
  centimetres: fc.integer({ min: 2, max: 200_000 }),
  fibre,
});
const joint = fc.record({
  kind: fc.constantFrom('pair' as const, 'splice' as const, 'part' as const),
});
/** What lies between two stretches, so that none meet without a joint. */
const inside = fc.array(fc.tuple(joint, stretch), { maxLength: 5 });
const path = fc
  .tuple(stretch, inside)
  .map(([first, others]): readonly Part[] => [first, ...others.flat()]);

const words = {
  pair: '  connector   LC\n',
  splice: '  splice      WELD\n',
  part: '  component   BOX\n',
};
const lineOf = (part: Part) =>
  part.kind === 'stretch'
    ? `  segment     ${(part.centimetres / 100).toFixed(2)} m ${part.fibre}\n`
    : words[part.kind];
const linesOf = (parts: readonly Part[]) => parts.map(lineOf).join('');

const head = (more = '') => `plan "Laws" {
  limits      SET
  measure     850 nm, 1300 nm
  directions  both
  reference   one-cord
${more}}

fibre WIDE {
  mode        multimode core 62.5 um
  attenuation 850 nm min 2.1 dB/km typ 2.7 dB/km max 3.3 dB/km
  attenuation 1300 nm min 0.4 dB/km typ 0.7 dB/km max 1.3 dB/km
  bandwidth   850 nm min 200 MHz.km overfilled
  index       850 nm 1.496
}

fibre NARROW {
  mode        multimode core 50 um
  attenuation 850 nm min 1.9 dB/km typ 2.3 dB/km max 2.9 dB/km
  attenuation 1300 nm min 0.3 dB/km typ 0.6 dB/km max 1.1 dB/km
  bandwidth   850 nm min 500 MHz.km overfilled
  index       850 nm 1.482
}

connector LC {
  loss        typ 0.21 dB max 0.7 dB
}

splice WELD {
  loss        typ 0.07 dB max 0.3 dB
}

component BOX {
  loss        min 0.1 dB typ 0.33 dB max 0.6 dB
}

limits SET {
  policy      counting
  fibre       WIDE 850 nm 3.5 dB/km
  fibre       NARROW 850 nm 3.0 dB/km
  fibre       WIDE, NARROW 1300 nm 1.5 dB/km
  connector   any 0.75 dB
  connector   any 0.10 dB reference
  splice      any 0.3 dB
  part        any 0.6 dB
  core-step   WIDE to NARROW 4.7 dB
}

application LIGHT {
  count       1
  wavelength  850 nm
  fibre       WIDE reach 9 km loss 60 dB
  fibre       NARROW reach 9 km loss 60 dB
}
`;

const linkOf = (parts: readonly Part[], name = 'KQ-1', more = '') => `
link ${name} {
  fibres      1
  connector   LC
${linesOf(parts)}  connector   LC
${more}}
`;

/** All sums of a result, told apart by wavelength and direction; both where it says both are alike. */
function sumsOf({ wavelengths }: LinkResult, turned = false): readonly string[] {
  const told = (at: WavelengthResult, direction: 'A>B' | 'B>A') => {
    const other = direction === 'A>B' ? 'B>A' : 'A>B';
    const limits = at.limits.map(({ name, value }) => `${name} ${value && printExactDb(value)}`);
    const sums = [at.expected, at.worst, at.designMargin].map((sum) => sum && printExactDb(sum));
    return `${at.wavelength} ${turned ? other : direction}: ${[...limits, ...sums].join(', ')}`;
  };
  return wavelengths
    .flatMap((at) => (at.direction ? [told(at, at.direction)] : [told(at, 'A>B'), told(at, 'B>A')]))
    .sort();
}

const carriesIt = '  carries     LIGHT\n';
const resultOf = (text: string, name = 'KQ-1') => judged(text).link(name);

describe('a link cut in two', () => {
  const cut = fc
    .tuple(path, fc.nat(), fc.double({ min: 0, max: 1, noNaN: true }))
    .map(([parts, which, share]) => {
      const stretches = parts.flatMap((part, index) => (part.kind === 'stretch' ? [index] : []));
      const at = stretches[which % stretches.length] ?? 0;
      const whole = parts[at];
      if (whole?.kind !== 'stretch') throw new Error('a path holds a stretch');
      const first = 1 + Math.floor((whole.centimetres - 2) * share);
      const halves = [first, whole.centimetres - first].map((centimetres) => ({
        ...whole,
        centimetres,
      }));
      return {
        parts,
        before: [...parts.slice(0, at), halves[0]!],
        after: [halves[1]!, ...parts.slice(at + 1)],
      };
    });

  it('anywhere in a stretch, by a splice that loses nothing, has the same sums and the same signal', () => {
    const text = (parts: readonly Part[], seam?: readonly [readonly Part[], readonly Part[]]) => {
      const lines = seam
        ? `${linesOf(seam[0])}  splice      SEAM\n${linesOf(seam[1])}`
        : linesOf(parts);
      return `${head().replace('  splice      any 0.3 dB', '  splice      SEAM 0 dB\n  splice      any 0.3 dB')}
splice SEAM {
  loss        typ 0 dB max 0 dB
}

link KQ-1 {
  fibres      1
  connector   LC
${lines}  connector   LC
${carriesIt}}
`;
    };
    fc.assert(
      fc.property(cut, ({ parts, before, after }) => {
        const one = resultOf(text(parts));
        const two = resultOf(text(parts, [before, after]));
        expect(sumsOf(two)).toEqual(sumsOf(one));
        expect(two.length).toBe(one.length);
        expect(two.signal.map(({ delay }) => delay)).toEqual(one.signal.map(({ delay }) => delay));
        two.signal.forEach(({ bandwidth }, index) => {
          const [mine, other] = [
            bandwidth[0]?.value ?? 0,
            one.signal[index]?.bandwidth[0]?.value ?? 0,
          ];
          expect(Math.abs(mine - other)).toBeLessThanOrEqual(1);
        });
      }),
    );
  });

  it('at a pair has as two links, with a channel over both, the sums of the whole', () => {
    const channel = (links: string) => `
channel CH {
  measure     850 nm, 1300 nm
${links}${carriesIt}}
`;
    fc.assert(
      fc.property(path, path, (first, second) => {
        const whole = [...first, { kind: 'pair' as const }, ...second];
        const one = `${head()}${linkOf(whole)}${channel('  link        KQ-1\n')}`;
        const two = `${head()}${linkOf(first)}${linkOf(second, 'KQ-2')}${channel('  link        KQ-1\n  link        KQ-2\n')}`;
        const [alone, joined] = [resultOf(one, 'CH'), resultOf(two, 'CH')];
        expect(sumsOf(joined)).toEqual(sumsOf(alone));
        expect(joined.signal.map(({ delay }) => delay)).toEqual(
          alone.signal.map(({ delay }) => delay),
        );
      }),
    );
  });
});

describe('a link turned round', () => {
  it('has the same sums with A and B exchanged', () => {
    fc.assert(
      fc.property(path, (parts) => {
        const one = resultOf(`${head()}${linkOf(parts, 'KQ-1', carriesIt)}`);
        const other = resultOf(`${head()}${linkOf([...parts].reverse(), 'KQ-1', carriesIt)}`);
        expect(sumsOf(other, true)).toEqual(sumsOf(one));
      }),
    );
  });

  it('in a channel is the link written the other way round', () => {
    const channel = (turned: string) => `
channel CH {
  measure     850 nm, 1300 nm
  link        KQ-1${turned}
${carriesIt}}
`;
    fc.assert(
      fc.property(path, (parts) => {
        const one = resultOf(`${head()}${linkOf(parts)}${channel(' turned')}`, 'CH');
        const other = resultOf(`${head()}${linkOf([...parts].reverse())}${channel('')}`, 'CH');
        expect(sumsOf(one)).toEqual(sumsOf(other));
      }),
    );
  });
});

describe('other units for the same', () => {
  /** Whole thousands of feet count in all of them: 1 kft is 304.8 m exactly. */
  const lengths: readonly ((feet: number) => string)[] = [
    (feet) => `${(feet * 0.3048).toFixed(4)} m`,
    (feet) => `${(feet * 0.0003048).toFixed(7)} km`,
    (feet) => `${(feet * 30.48).toFixed(2)} cm`,
    (feet) => `${feet} ft`,
    (feet) => `${(feet / 1000).toFixed(3)} kft`,
  ];
  /** Thousandths of a dB/m come out even in both; a rate per kft is rounded once, to 1e-6 dB/km. */
  const rates: readonly ((tenths: number) => string)[] = [
    (tenths) => `${(tenths / 10).toFixed(1)} dB/km`,
    (tenths) => `${(tenths / 10_000).toFixed(4)} dB/m`,
    (tenths) => `${((tenths / 10) * 0.3048).toFixed(5)} dB/kft`,
  ];
  const powers: readonly ((nanowatts: number) => string)[] = [
    (nanowatts) => `${nanowatts} nW`,
    (nanowatts) => `${(nanowatts / 1000).toFixed(3)} uW`,
    (nanowatts) => `${(nanowatts / 1_000_000).toFixed(6)} mW`,
    (nanowatts) => `${(10 * Math.log10(nanowatts / 1e6)).toFixed(6)} dBm`,
  ];
  const plan = (length: string, rate: string, taken: string, seen: string) => `plan "Units" {
  limits      SET
  measure     850 nm
  directions  A>B
  uncertainty 0.15 dB
}

fibre GLASS {
  mode        multimode core 50 um
  index       850 nm 1.482
}

limits SET {
  policy      counting
  fibre       GLASS 850 nm ${rate}
  connector   any 0.75 dB
}

setup ONE {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -70 dBm
  cord        L1 launch LC GLASS reference-grade
  cord        R1 receive LC GLASS reference-grade verified 0.1 dB
  taken       2026-01-10 08:00 850 nm ${taken}
}

link KQ-1 {
  fibres      1
  connector   LC
  segment     ${length} GLASS
  connector   LC
}

readings KQ-1 {
  setup       ONE
  tested      2026-01-10 09:00
  values      power in dBm
  columns fibre, 850 nm A>B
  1  ${seen.replace(' ', '')}
}
`;

  it('say the same limit, loss, margin, verdict and delay', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9000 }),
        fc.integer({ min: 1, max: 80 }),
        fc.integer({ min: 1_000, max: 900_000 }),
        fc.integer({ min: 1_000, max: 900_000 }),
        (feet, tenths, taken, seen) => {
          const told = (length: number, rate: number, power: number) => {
            const { signal, readings } = resultOf(
              plan(
                lengths[length]!(feet),
                rates[rate]!(tenths),
                powers[power]!(taken),
                powers[power]!(seen),
              ),
            );
            const [first] = readings;
            return {
              limit: first?.limit?.value,
              loss: first?.loss,
              margin: first?.margin,
              verdict: first?.verdict,
              delay: signal[0]?.delay,
            };
          };
          const wanted = told(0, 0, 0);
          expect(wanted.limit).toBeDefined();
          expect(wanted.loss).toBeDefined();
          for (const each of [1, 2, 3, 4]) expect(told(each, 0, 0)).toEqual(wanted);
          for (const each of [1, 2]) expect(told(0, each, 0)).toEqual(wanted);
          for (const each of [1, 2, 3]) expect(told(0, 0, each)).toEqual(wanted);
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe('nothing more on the way leaves more over', () => {
  const module = `
transceiver PORT {
  application LIGHT
  wavelength  850 nm
  output      min -7 dBm max 0 dBm
  input       min -30 dBm max 0 dBm
}
`;
  const asked = '  require     loss 9 dB\n  carries     LIGHT with PORT\n';
  /** What is left of a fixed loss, and of the light that is sent. */
  const left = (parts: readonly Part[], figures = head()) => {
    const { wavelengths, power } = resultOf(`${figures}${module}${linkOf(parts, 'KQ-1', asked)}`);
    return [
      ...wavelengths.map(({ worst, limits }) => {
        const fixed = limits.find(({ kind }) => kind === 'contract')?.value;
        return worst === undefined || fixed === undefined ? undefined : subtractDb(fixed, worst);
      }),
      ...power.map(({ margin }) => margin),
    ];
  };
  const least = (values: readonly (ExactDb | undefined)[]) => {
    expect(values.length).toBeGreaterThan(0);
    return values.map((value) => {
      if (value === undefined) throw new Error('a margin is not known');
      return value;
    });
  };
  const worst = (values: readonly ExactDb[]) => [...values].sort(compareDb)[0]!;

  it('a longer stretch, a joint more or a part more', () => {
    fc.assert(
      fc.property(
        path,
        fc.nat(),
        fc.integer({ min: 1, max: 90_000 }),
        fc.constantFrom('pair' as const, 'splice' as const, 'part' as const),
        (parts, which, centimetres, kind) => {
          const before = worst(least(left(parts)));
          const stretches = parts.flatMap((part, index) =>
            part.kind === 'stretch' ? [index] : [],
          );
          const at = stretches[which % stretches.length];
          const longer = parts.map((part, index) =>
            index === at && part.kind === 'stretch'
              ? { ...part, centimetres: part.centimetres + centimetres }
              : part,
          );
          expect(worst(least(left(longer))) <= before).toBe(true);
          const more = parts.flatMap((part, index) =>
            index === at ? [part, { kind }, { ...part }] : [part],
          );
          expect(worst(least(left(more))) < before).toBe(true);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('a lossier fibre, pair, splice or part', () => {
    const figure = fc.constantFrom(
      ['max 3.3 dB/km', 'max 3.4 dB/km'],
      ['max 1.1 dB/km', 'max 1.9 dB/km'],
      ['max 0.7 dB', 'max 0.9 dB'],
      ['max 0.3 dB', 'max 0.35 dB'],
      ['max 0.6 dB', 'max 2.6 dB'],
    );
    fc.assert(
      fc.property(path, figure, (parts, [from, to]) => {
        const before = least(left(parts));
        const after = least(left(parts, head().replace(from!, to!)));
        expect(after.length).toBe(before.length);
        after.forEach((value, index) => {
          expect(value <= before[index]!).toBe(true);
        });
      }),
      { numRuns: 60 },
    );
  });
});
