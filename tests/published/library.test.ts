/**
 * The library against texts other than those its figures were taken from, and
 * against itself where one published figure follows from another; and what a
 * reader is shown of an entry: figures, editions, sources, and who differs.
 *
 * Sources: Fibre Channel reach and loss by grade, a system maker's look-up table
 * (twenty rows, READ); levels of GPON class B+ (from memory, J14 of the
 * collection of worked examples); even splits (READ); dispersion at 1550 and
 * 1625 nm as makers' data sheets of G.652.D and G.657.A1 print it (READ).
 */
import { describe, expect, it } from 'vitest';
import { picometres, printMicro } from '../../grammar/src/quantity/index.ts';
import { explain } from '../../server/src/cli/explain.ts';
import { hover } from '../../server/src/features/hover.ts';
import { dispersionAt, idealSplit } from '../../server/src/optics/index.ts';
import { answer, ask } from '../support/ask.ts';
import { judged } from './judged.ts';

/** Figures of a declaration as they are written, by the start of their line. */
function lines(name: string, kind: string): readonly string[] {
  const text = explain(name);
  const from = text.indexOf(`${name} (${kind}, of the library)`);
  return text
    .slice(from)
    .split('\n')
    .map((line) => line.trim().replace(/\s+/gu, ' '));
}

function figure(name: string, kind: string, start: string, keyword: string): number {
  const line = lines(name, kind).find((each) => each.startsWith(start));
  return Number(new RegExp(` ${keyword} (-?[\\d.]+)`, 'u').exec(line ?? '')?.[1]);
}

describe('Fibre Channel by grade: a system maker’s table of twenty rows', () => {
  it.each([
    ['FC-100-MX-SN', 'OM1', 300, 3.0],
    ['FC-200-MX-SN', 'OM1', 150, 2.1],
    ['FC-400-MX-SN', 'OM1', 70, 1.78],
    ['FC-800-MX-SN', 'OM1', 21, 1.58],
    ['FC-100-MX-SN', 'OM2', 500, 3.85],
    ['FC-200-MX-SN', 'OM2', 300, 2.62],
    ['FC-400-MX-SN', 'OM2', 150, 2.06],
    ['FC-800-MX-SN', 'OM2', 50, 1.68],
    ['FC-1600-MX-SN', 'OM2', 35, 1.63],
    ['FC-3200-MX-SN', 'OM2', 20, 1.57],
    ['FC-100-MX-SN', 'OM3', 860, 4.62],
    ['FC-200-MX-SN', 'OM3', 500, 3.31],
    ['FC-400-MX-SN', 'OM3', 380, 2.88],
    ['FC-800-MX-SN', 'OM3', 150, 2.04],
    ['FC-1600-MX-SN', 'OM3', 100, 1.86],
    ['FC-3200-MX-SN', 'OM3', 70, 1.75],
    ['FC-400-MX-SN', 'OM4', 400, 2.95],
    ['FC-800-MX-SN', 'OM4', 190, 2.19],
    ['FC-1600-MX-SN', 'OM4', 125, 1.95],
    ['FC-3200-MX-SN', 'OM4', 100, 1.86],
  ])('%s on %s: %d m, %d dB', (name, fibre, reach, loss) => {
    expect(figure(name, 'application', `fibre ${fibre} `, 'reach')).toBe(reach);
    expect(figure(name, 'application', `fibre ${fibre} `, 'loss')).toBe(loss);
  });
});

describe('windows of power and the losses of the same application', () => {
  // Least launch less least receive power is what the table gives as channel loss, where no penalty lies between.
  it.each([
    ['10GBASE-LR', 'OS2', 6.2],
    ['25GBASE-LR', 'OS2', 6.3],
    ['50GBASE-LR', 'OS2', 6.3],
    ['100GBASE-LR4', 'OS2', 6.3],
    ['100GBASE-SR4', 'OM4', 1.9],
    ['25GBASE-SR', 'OM4', 1.9],
    ['400GBASE-DR4', 'OS2', 3.0],
    ['100GBASE-DR', 'OS2', 3.0],
  ])('%s: both give %s %d dB', (name, fibre, loss) => {
    const port = `${name}-PORT`;
    const window =
      figure(port, 'transceiver', 'output', 'min') - figure(port, 'transceiver', 'input', 'min');
    expect(window).toBeCloseTo(loss, 9);
    expect(figure(name, 'application', `fibre ${fibre} `, 'loss')).toBe(loss);
  });

  it('10GBASE-ER: +4.0 dBm launched against -1.0 dBm is its least loss of 5 dB', () => {
    const least =
      figure('10GBASE-ER-PORT', 'transceiver', 'output', 'max') -
      figure('10GBASE-ER-PORT', 'transceiver', 'input', 'max');
    expect(least).toBeCloseTo(figure('10GBASE-ER', 'application', 'fibre OS2 ', 'min'), 9);
  });

  it.each([
    ['GPON-B+', 'CENTRE', 'OUTLET'],
    ['GPON-B+', 'OUTLET', 'CENTRE'],
    ['XGS-PON-N1', 'CENTRE', 'OUTLET'],
    ['XGS-PON-N1', 'OUTLET', 'CENTRE'],
    ['XGS-PON-N2', 'CENTRE', 'OUTLET'],
    ['XGS-PON-N2', 'OUTLET', 'CENTRE'],
    ['XGS-PON-E1', 'CENTRE', 'OUTLET'],
    ['XGS-PON-E1', 'OUTLET', 'CENTRE'],
  ])('%s: what the %s sends and the %s takes is the class', (name, from, to) => {
    const [sends, takes] = [`${name}-${from}`, `${name}-${to}`];
    const of = (who: string, word: string, end: string) => figure(who, 'transceiver', word, end);
    const penalty = Number(
      /[\d.]+/u.exec(
        lines(takes, 'transceiver').find((line) => line.startsWith('penalty')) ?? '',
      )?.[0],
    );
    const row = (word: string) => figure(name, 'application', 'fibre OS2 ', word);
    expect(of(sends, 'output', 'min') - of(takes, 'input', 'min') - penalty).toBeCloseTo(
      row('loss'),
      9,
    );
    expect(of(sends, 'output', 'max') - of(takes, 'input', 'max')).toBeLessThanOrEqual(row('min'));
  });
});

describe('figures that follow from one another', () => {
  it('zero and slope of G.652.D give the dispersion that data sheets print, at most', () => {
    const zero = picometres(1_300_000);
    const slope = figure('G.652.D', 'fibre', 'dispersion zero', 'slope') * 1e6;
    for (const [nm, printed] of [
      [1550, 18],
      [1625, 22],
    ] as const) {
      const computed = dispersionAt(picometres(nm * 1000), zero, slope) / 1e6;
      expect(Math.round(computed)).toBe(printed);
      expect(figure('G.652.D', 'fibre', `dispersion ${nm} nm`, 'max')).toBe(printed);
    }
  });

  it('no splitter allows less than an even split loses', () => {
    for (const outputs of [2, 3, 4, 6, 8, 12, 16, 24, 32, 64, 128]) {
      const even = Number(printMicro(idealSplit(outputs) ?? 0));
      expect(figure(`PLC-1x${outputs}`, 'splitter', 'loss', 'max')).toBeGreaterThan(even);
    }
  });

  it('the width of each class is what its ends may differ by', () => {
    for (const name of [
      'GPON-A',
      'GPON-B',
      'GPON-B+',
      'GPON-C',
      'GPON-C+',
      'XGS-PON-N1',
      'XG-PON-E2',
    ]) {
      const row = (word: string) => figure(name, 'application', 'fibre OS2 ', word);
      expect(row('differential'), name).toBe(row('loss') - row('min'));
    }
  });
});

describe('what a reader is shown of OM4', () => {
  it('explain: its figures, its sources, and which editions differ on it', () => {
    const text = explain('OM4');
    expect(text).toContain('OM4 (fibre, of the library)');
    expect(text).toContain('bandwidth   850 nm min 4700 MHz.km effective');
    expect(text).toContain('edition     "ISO/IEC 11801-1:2017, TIA-568.3-E');
    expect(text).toMatch(
      /greatest attenuation at 850 nm, where they differ: TIA-568\.3-E 3\.0 dB\/km; .*TIA-568-C\.3 3\.5 dB\/km \(from memory\); ISO-11801-1 3\.5 dB\/km; MIL-STD-2042-6 4\.5 dB\/km/u,
    );
    expect(text).toMatch(
      /greatest attenuation at 1300 nm.*its own 1\.5 dB\/km.*TIA-568\.3-E 1\.5 dB\/km \(from memory\)/u,
    );
  });

  it('explain: what editions grant a pair', () => {
    const text = explain('LC');
    expect(text).toMatch(
      /greatest loss, where they differ: its own 0\.75 dB; TIA-568\.3-E 0\.75 dB/u,
    );
    expect(text).toMatch(
      /loss of a pair with a reference-grade plug, multimode, where they differ: .*ISO-11801-2010 0\.30 dB/u,
    );
  });

  it('explain: what an entry takes over from the one it is like is said too', () => {
    const text = explain('G.657.A1');
    expect(text).toContain('What it is like:\n  fibre G.652.D {');
    expect(explain('SC')).toMatch(
      /greatest loss, where they differ: its own, as LC 0\.75 dB; TIA-568\.3-E 0\.75 dB/u,
    );
    // An own line replaces the one that would come along.
    expect(explain('SC-UPC')).toContain('return-loss min 45 dB');
  });

  it('hover: the plan’s own figure stands beside the library’s and the limits’', () => {
    const found = answer(
      hover,
      ask(`plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     850 nm
  reference   one-cord
}

fibre OM4 {
  like        OM4
  attenuation 850 nm max 2.7 dB/km
  basis       "delivery note 17" read
}

link KQ-1 {
  fibres      1..2
  connector   LC
  segment     180 m O$0M4
  connector   LC
}
`),
    );
    const text = JSON.stringify(found?.contents);
    expect(text).toContain('its own, in the plan 2.7 dB/km');
    expect(text).toContain('TIA-568.3-E 3.0 dB/km');
    expect(text).toContain('where they differ');
  });
});

it('a plan may name any of the windows for what it carries, at both ends', () => {
  const { power } = judged(`plan "Kestrel Quay" {
  measure     1310 nm
  reference   one-cord
  policy      counting
  limits      TIA-568.3-E
}

link KQ-1 {
  fibres      1..2
  connector   LC
  segment     6 km G.652.D
  connector   LC
  carries     10GBASE-LR with 10GBASE-LR-PORT
}
`).link('KQ-1');
  // -8.2 - 6 · 0.4 - 2 · 0.75 + 14.4, and 0.5 - 0.5 for light that loses nothing.
  expect(
    power.map(({ margin, overloadMargin }) => [Number(margin) / 1e15, Number(overloadMargin)]),
  ).toEqual([
    [2.3, 0],
    [2.3, 0],
  ]);
});
