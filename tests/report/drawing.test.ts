/** Drawings of the examples: their steps add up, each part has its sign, and traces lie where they were seen. */
import { describe, expect, test } from 'vitest';
import { type Drawing, drawingOf } from '../../server/src/report/drawing.ts';
import { plainDisplay } from '../../server/src/report/figures.ts';
import { openExample } from '../examples/open.ts';
import { judge } from '../support/judge.ts';

function drawingsOf(example: string): readonly Drawing[] {
  return openExample(example).plans.flatMap((plan) =>
    plan.result.order.flatMap((name) => {
      const subject = { plan, display: plainDisplay };
      const first = drawingOf(subject, name, undefined);
      return (first?.wavelengths ?? []).flatMap(
        ({ nanometres }) => drawingOf(subject, name, nanometres) ?? [],
      );
    }),
  );
}

function drawn(example: string, object: string, label: string): Drawing {
  const found = drawingsOf(example).find(
    (each) =>
      each.object === object &&
      each.wavelengths.some((wave) => wave.label === label && wave.nanometres === each.chosen),
  );
  if (!found) throw new Error(`${object} is not drawn at ${label}`);
  return found;
}

describe('the steps of a drawing', () => {
  test.each([
    'arrays',
    'first-link',
    'kestrel-quay-terminal',
    'legacy',
    'machine-hall',
    'outside-plant',
    'owner-figures',
    'shipboard',
    'wavelengths',
  ])('of %s and what stands at no place add up to the whole', (example) => {
    let summed = 0;
    for (const { object, chosen, elements, allowed, rest, tree, ring } of drawingsOf(example)) {
      const last = elements.findLast((each) => each.allowed && each.counted)?.allowed;
      if (tree || ring || !allowed || !last) continue;
      const elsewhere = rest.reduce((sum, each) => sum + Number(each.figure.replace('−', '-')), 0);
      // Figures of the rest are rounded to a hundredth, each.
      const most = 0.005 * rest.length + 1e-6;
      const apart = Math.abs(last.upTo + elsewhere - allowed.loss);
      expect(apart, `${object} ${chosen}`).toBeLessThanOrEqual(most);
      summed += 1;
    }
    expect(summed).toBeGreaterThan(0);
  });

  test('of a cord between three cords keep what its pairs may lose beyond those of the reference', () => {
    const { elements, limit } = drawn('kestrel-quay-terminal', 'CORD-007', '850 nm');
    expect(elements.map(({ sign, counted }) => [sign, counted])).toEqual([
      ['plug', true],
      ['segment', true],
      ['plug', true],
    ]);
    expect(elements.at(-1)?.allowed?.upTo).toBeCloseTo(limit?.loss ?? 0, 9);
  });
});

describe('signs', () => {
  test('tell multiplexers by the side of their branches, and an attenuator with its dB', () => {
    const { elements } = drawn('wavelengths', 'CAMERAS-1551', '1551 nm');
    expect(
      elements.flatMap(({ sign, kind, mark, what }) =>
        what ? [`${kind}: ${sign}, ${what}, ${mark}`] : [],
      ),
    ).toEqual([
      'MUX-4: mux-in, multiplexer, 1551 nm',
      'DROP-1531: mux-out, demultiplexer, 1551 nm',
      'MUX-4: mux-out, demultiplexer, 1551 nm',
      'PAD-8: attenuator, attenuator, 8.0 dB',
    ]);
  });

  test('of a part that states no least loss, or joins two kinds, stay those of a part', () => {
    const parts = ['owner-figures', 'arrays', 'machine-hall'].flatMap(drawingsOf);
    const signs = new Set(
      parts.flatMap(({ elements }) =>
        elements.flatMap(({ kind, sign }) => (/^(SURGE|FAN-OUT|SLIP)/u.test(kind) ? [sign] : [])),
      ),
    );
    expect([...signs]).toEqual(['part']);
  });
});

describe('a channel that nobody measured', () => {
  test('is drawn by the greatest figures of its parts against what its application allows', () => {
    const { allowed, limit, setup, labels } = drawn('wavelengths', 'SIGNALS-1531', '1531 nm');
    // Cords 0.002 each, 1.3 + 0.75 + 0.72 + 0.75 + 0.9 + 8.5 by the plan’s own figures.
    expect(allowed?.figure).toBe('12.92');
    expect(allowed?.kind).toBeUndefined();
    expect(limit).toMatchObject({ loss: 19, kind: 'application' });
    expect(setup).toBeUndefined();
    expect(labels.map(({ text }) => text)).toEqual([
      '19.00 limit, application',
      '12.92 at most, by design',
    ]);
  });
});

describe('where nothing was designed to be measured', () => {
  const text = `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     850 nm, 1300 nm for multimode
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
  zone        "UTC"
}

cable C-1 {
  fibre       OM4
  count       4
  length      300 m
}

link KQ-1 {
  fibres      1..2
  connector   LC
  segment     100 m OM4
  connector   LC
}

channel CH-1 {
  cord        3 m OM4 crossed
  link        KQ-1 fibres 1..2
  cord        5 m OM4 straight
  carries     10GBASE-SR
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
  taken       2026-03-14 08:10 1300 nm -20.31 dBm
}
readings C-1 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1  0.71
  2  0.72
}
`;
  const alone = (object: string) => {
    const drawing = drawingOf({ plan: judge(text).plan, display: plainDisplay }, object, undefined);
    if (!drawing) throw new Error(`${object} is not drawn`);
    return drawing;
  };
  const figures = ({ elements }: Drawing) =>
    elements.flatMap(({ counted, allowed }) => (counted && allowed ? [allowed.text] : []));

  test('a channel without transceivers is drawn by the light of what it carries', () => {
    const drawing = alone('CH-1');
    expect(drawing.wavelengths).toEqual([{ nanometres: 850, label: '850 nm' }]);
    // 3.0 dB/km × (3 + 100 + 5) m + 2 × 0.75 dB.
    expect(drawing.allowed).toMatchObject({ loss: 1.824, figure: '1.82' });
    expect(figures(drawing)).toEqual(expect.arrayContaining(['0.75', '0.30', '0.75']));
    expect(drawing.labels.map((label) => label.text)).toEqual([
      '2.90 limit, application',
      '1.82 at most, by design',
    ]);
  });

  test('a cable tested by itself is drawn by the limit of its readings', () => {
    const drawing = alone('C-1');
    // 3.0 dB/km × 300 m.
    expect(drawing.allowed).toMatchObject({ loss: 0.9, kind: 'components' });
    expect(figures(drawing)).toEqual(['0.90']);
    expect(drawing.readings).toHaveLength(2);
  });
});

describe('what traces saw', () => {
  test('stands at its joint as the mean of both directions, of the fibre that loses most', () => {
    const { traced, elements } = drawn('outside-plant', 'KQ-NORTH-1', '1310 nm');
    const at = (name: string) =>
      traced.find(({ element }) => elements[element ?? -1]?.name === name);
    // Fibre 1: (−0.05 + 0.19) / 2; fibre 2, 3 and 4: 0.06, 0.07 and 0.065 dB.
    expect(at('CL-1')).toMatchObject({ figure: '0.07', verdict: 'pass' });
    // Fibre 2: (0.05 + 0.27) / 2.
    expect(at('CL-2')).toMatchObject({ figure: '0.16', fibre: 'fibre 2' });
  });

  test('sums up along each fibre from A, with what lies between as it is expected', () => {
    const { traced, expected } = drawn('outside-plant', 'KQ-NORTH-1', '1310 nm');
    expect(traced.map(({ upTo }) => upTo.length)).toEqual(traced.map(() => 4));
    for (const fibre of [0, 1, 2, 3]) {
      const sums = traced.map(({ upTo }) => upTo[fibre]?.loss ?? Number.NaN);
      expect(sums).toEqual([...sums].sort((a, b) => a - b));
      expect(Math.abs((sums.at(-1) ?? 0) - (expected?.loss ?? 0))).toBeLessThan(0.5);
    }
  });

  test('of a repair that the path does not hold stands where it was seen, with its verdict', () => {
    const { traced } = drawn('outside-plant', 'KQ-OUTER-2', '1550 nm');
    expect(traced.every(({ element }) => element === undefined)).toBe(true);
    expect(traced.map(({ verdict }) => verdict)).toContain('fail');
    expect(traced.some(({ figure, fibre }) => figure === '0.24' && fibre === 'fibre 38')).toBe(
      true,
    );
  });
});
