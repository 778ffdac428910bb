/**
 * Windows of power asked of the modulation amplitude beside the average.
 *
 * That a loss takes the same share of both is arithmetic on the definition of
 * the decibel. Amplitude from average and extinction, P1 − P0 = 2·P·(r − 1) ÷ (r + 1):
 * definitions of IEEE 802.3 clause 52, from memory; the highest is twice the
 * average, 3.0103 dB, as its pair of −8.2 and −5.2 dBm for 10GBASE-LR shows
 * (from memory). All levels of the plans are ours.
 */
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { microDb, microDbm } from '../../grammar/src/quantity/index.ts';
import { modulationAmplitude } from '../../server/src/optics/index.ts';
import { exact, judged } from './judged.ts';

const window = (sender: string, receiver: string, km = 10) => {
  const { link, findings } = judged(`plan "Amplitude" {
  limits      SET
  measure     1310 nm
  reference   one-cord
  uncertainty 0.20 dB
}

fibre GLASS {
  mode        single-mode core 9 um
  attenuation 1310 nm min 0.30 dB/km max 0.40 dB/km
}

connector PAIR {
  loss        max 0.50 dB
}

limits SET {
  edition     "ours"
  policy      counting
  fibre       GLASS 1310 nm 0.40 dB/km
  connector   any 0.50 dB
  basis       "ours" read
}

application LINE {
  count       2
  wavelength  1310 nm
  fibre       GLASS loss 30 dB
}

transceiver SENDS {
  wavelength  1310 nm
${sender}
  input       min -14.4 dBm max 0.5 dBm
}

transceiver TAKES {
  wavelength  1310 nm
  output      min -8.2 dBm max 0.5 dBm
${receiver}
  penalty     1.0 dB
}

link KQ-1 {
  fibres      1..2
  connector   PAIR
  segment     ${km} km GLASS
  connector   PAIR
  carries     LINE with SENDS, TAKES
}
`);
  const power = link('KQ-1').power.find(({ direction }) => direction === 'A>B');
  const said = findings.find(({ name }) => name === 'power-budget-negative');
  return { power, said: said?.message };
};

describe('where both ends state an amplitude', () => {
  // 10 km · 0.40 + 2 · 0.50 + 1.0 of penalty are 6.0 dB.
  it('the lesser of both margins counts: −8.2 − 6.0 + 14.4 = 0.2, −5.2 − 6.0 + 11.1 = −0.1', () => {
    const { power, said } = window(
      '  output      min -8.2 dBm max 0.5 dBm amplitude -5.2 dBm',
      '  input       min -14.4 dBm max 0.5 dBm amplitude -11.1 dBm',
    );
    expect(exact(power?.margin)).toBe('-0.1');
    expect(exact(power?.amplitude?.margin)).toBe('-0.1');
    expect(said).toContain(
      '−5.20 dBm of modulation amplitude sent at least leaves −11.20 dBm by design, 0.10 dB under the −11.10 dBm that TAKES needs',
    );
  });

  it('the average may be the lesser', () => {
    const { power, said } = window(
      '  output      min -8.7 dBm max 0.5 dBm amplitude -5.2 dBm',
      '  input       min -14.4 dBm max 0.5 dBm amplitude -12.6 dBm',
    );
    expect(exact(power?.margin)).toBe('-0.3');
    expect(exact(power?.amplitude?.margin)).toBe('1.4');
    expect(said).toContain('−8.70 dBm sent at least leaves');
  });
});

describe('where the sender states its extinction instead', () => {
  it('the amplitude follows from the least average power: 10·log10(2·(r − 1) ÷ (r + 1))', () => {
    const { power } = window(
      '  output      min -8.2 dBm max 0.5 dBm\n  extinction  3.5 dB',
      '  input       min -14.4 dBm max 0.5 dBm amplitude -16.0 dBm',
    );
    // r = 2.238721, −1.163700 dB
    expect(power?.amplitude?.launch).toBe(-9_363_700);
    expect(exact(power?.amplitude?.margin)).toBe('0.6363');
    expect(exact(power?.margin)).toBe('0.2');
  });

  it('without either, and without an amplitude that is wanted, the average alone is asked', () => {
    const plain = '  output      min -8.2 dBm max 0.5 dBm';
    const taken = '  input       min -14.4 dBm max 0.5 dBm';
    for (const [sender, receiver] of [
      [plain, `${taken} amplitude -11.1 dBm`],
      [`${plain} amplitude -5.2 dBm`, taken],
    ] as const) {
      const { power } = window(sender, receiver);
      expect(power?.amplitude).toBeUndefined();
      expect(exact(power?.margin)).toBe('0.2');
    }
  });

  it('is that of wide decimals, rises with the extinction and stays below twice the average', () => {
    const Wide = Decimal.clone({ precision: 30 });
    fc.assert(
      fc.property(
        fc.integer({ min: -30_000_000, max: 5_000_000 }),
        fc.integer({ min: 100_000, max: 30_000_000 }),
        (power, extinction) => {
          const held = modulationAmplitude(microDbm(power), microDb(extinction))!;
          const ratio = new Wide(10).pow(new Wide(extinction).div(10_000_000));
          const share = ratio.minus(1).times(2).div(ratio.plus(1));
          const wanted = share.log(10).times(10_000_000).plus(power);
          expect(Math.abs(held - wanted.toNumber())).toBeLessThan(0.501);
          expect(held).toBeLessThan(power + 3_010_300);
          const more = modulationAmplitude(microDbm(power), microDb(extinction + 100_000))!;
          expect(more).toBeGreaterThanOrEqual(held);
        },
      ),
    );
    expect(modulationAmplitude(microDbm(0), microDb(0))).toBeUndefined();
  });
});
