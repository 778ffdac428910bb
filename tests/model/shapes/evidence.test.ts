/** Set-ups and readings over days, and figures of an owner, from text to model. */
import { describe, expect, test } from 'vitest';
import { evidenceOf } from '../../../server/src/model/api.ts';
import { planOf } from '../plan.ts';
import { backbone } from './backbone.ts';

const drift = `setup MM-2 {
  like        MM-1
  cord        TC-4 receive LC OM4 reference-grade verified 0.06 dB
  taken       2026-03-21 09:40 850 nm -20.02 dBm
  checked     2026-03-21 11:10 850 nm -20.19 dBm
  # drifted: a new reference, the same cords
  taken       2026-03-21 11:20 850 nm -20.20 dBm
  cord        TC-5 receive LC OM4 reference-grade since 2026-03-21 11:35
  verified    2026-03-21 12:15 TC-5 0.07 dB
}

readings KQ-OPS-B3 {
  setup       MM-2
  tested      2026-03-21 11:30 to 12:10 by "R. Vale"
  values      power in uW
  columns fibre, seen,           850 nm A>B, time,           remark
  2              B3/R1/A:02        7.11      11:32           -
  3              B3/R1/A:03        7.24      11:41           "cleaned twice"
}

work KQ-OPS-B3 {
  done        re-spliced
  fibres      3
  at          "closure under ramp 3"
  on          2026-03-20 14:10
}

withdraw KQ-OPS-B3 {
  fibres      3
  tested      2026-03-14 09:05
  because     "far plug was in the neighbouring panel"
  by          "R. Vale" on 2026-03-14
}
`;

describe('drift, a new reference, a retest, powers instead of losses', () => {
  const plan = planOf(backbone, drift);

  test('like copies equipment, never evidence', () => {
    expect(plan.findings()).toEqual([]);
    const setup = plan.setup('MM-2');
    expect(setup).toMatchObject({
      reference: 'one-cord',
      source: { text: 'S-3' },
      meter: { text: 'M-5' },
    });
    expect(setup.cords.map(({ name, role, since }) => [name, role, since?.text])).toEqual([
      ['TC-4', 'receive', undefined],
      ['TC-5', 'receive', '2026-03-21 11:35'],
      ['TC-1', 'launch', undefined],
    ]);
    expect(setup.events.map(({ kind, at }) => `${kind} ${at.text.slice(11)}`)).toEqual([
      'taken 09:40',
      'checked 11:10',
      'taken 11:20',
      'verified 12:15',
    ]);
  });

  test('a row has its own time, and a power is in dBm whatever the unit', () => {
    const { readings, work, withdrawals } = evidenceOf('KQ-OPS-B3', plan.scope);
    const powers = readings.filter(({ quantity }) => quantity === 'power');
    expect(powers).toMatchObject([
      {
        fibre: 2,
        seen: 'B3/R1/A:02',
        remark: undefined,
        typed: { digits: '7.11', unit: 'uW' },
        at: { text: '2026-03-21 11:32' },
      },
      { fibre: 3, remark: 'cleaned twice', at: { text: '2026-03-21 11:41' } },
    ]);
    // 10 · log10(7.11 µW / 1 mW) = -21.481304 dBm, by the definition of dBm (IEC 60027-3).
    expect(powers[0]?.power).toBe(-21_481_304);
    expect(powers[0]?.loss).toBeUndefined();
    expect(work.map(({ done, at }) => [done, at])).toContainEqual([
      're-spliced',
      'closure under ramp 3',
    ]);
    expect(withdrawals).toMatchObject([
      { fibres: [3], tested: { text: '2026-03-14 09:05' }, by: 'R. Vale' },
    ]);
  });
});

const owner = `plan "Kestrel Quay: owner's tighter figures" {
  limits      TIA-568.3-E, KQ-OWNER
  compare     KQ-OLD
}

limits KQ-OWNER {
  like        TIA-568.3-E
  edition     "clause 7.4, 2026" contract
  connector   any 0.5 dB
  splice      any 0.15 dB
}

limits KQ-OLD {
  like        KQ-OWNER
}

fibre OM4 {
  like        OM4
  attenuation 850 nm typ 2.3 dB/km max 2.7 dB/km
  basis       "contract clause 7.2" read
}

link CORD-001 {
  fibres      1..2
  plug        LC
  segment     5 m OM4
  plug        LC
}

setup CORD-TEST {
  reference   three-cord
}

readings {
  setup       CORD-TEST
  tested      2026-03-15 09:20 by "R. Vale"
  values      loss in dB
  columns link,   fibre,  850 nm A>B, 850 nm B>A
  CORD-001          1       0.21        0.24
}
`;

describe("owner's figures, an overridden fibre, a cord from stock", () => {
  const plan = planOf(owner);

  test('limits like others: what is written here stands first, the rest is taken over', () => {
    expect(plan.findings()).toEqual([]);
    const { terms } = plan.link('CORD-001');
    expect(terms.limits.map(({ name, contract }) => [name, contract])).toEqual([
      ['TIA-568.3-E', false],
      ['KQ-OWNER', true],
    ]);
    const [library, own] = terms.limits;
    expect(
      own?.connector.find(({ connector, grade }) => connector === 'any' && grade === 'installed'),
    ).toMatchObject({
      loss: 500_000,
    });
    expect(own?.splice.find(({ splice }) => splice === 'any')).toMatchObject({ loss: 150_000 });
    expect(own?.fibre.length).toBe(library?.fibre.length);
    expect(own?.edition).toBe('clause 7.4, 2026');
    expect(own?.policy).toBe(library?.policy);
    expect(terms.compare.map(({ name, connector }) => [name, connector[0]?.loss])).toEqual([
      ['KQ-OLD', 500_000],
    ]);
  });

  test('a fibre declared again is like the one it shadows', () => {
    const segment = plan.link('CORD-001').path[1];
    const fibre = segment?.kind === 'segment' ? segment.fibre : undefined;
    expect(fibre).toMatchObject({ name: 'OM4', origin: 'plan', mode: 'multimode' });
    const at850 = fibre?.attenuation.filter(({ wavelength }) => wavelength === 850_000);
    expect(at850).toMatchObject([{ typ: 2_300_000, max: 2_700_000 }]);
    expect(fibre?.attenuation.some(({ wavelength }) => wavelength === 1_300_000)).toBe(true);
    expect(fibre?.basis).toEqual([{ text: 'contract clause 7.2', trust: 'read' }]);
  });

  test('readings of many links name the link in the row', () => {
    const { readings } = evidenceOf('CORD-001', plan.scope);
    expect(readings.map(({ fibre, direction, loss }) => [fibre, direction, loss])).toEqual([
      [1, 'A>B', 210_000],
      [1, 'B>A', 240_000],
    ]);
  });
});
