/** What results say of links and channels that nobody has read yet, and of reflectances, on the page and as text. */
import { describe, expect, test } from 'vitest';
import {
  angledPlan,
  example,
  multimodeSetup,
  reflected,
} from '../../server/src/checks/examples.ts';
import { resultsOf } from '../../server/src/report/answer.ts';
import { plainDisplay } from '../../server/src/report/figures.ts';
import { plainView } from '../../server/src/report/question.ts';
import { toText } from '../../server/src/report/text.ts';
import type { Row } from '../../server/src/report/view.ts';
import { openExample } from '../examples/open.ts';
import { judge } from '../support/judge.ts';

type Judged = ReturnType<typeof judge>['plan'];

function rowsOf(plan: Judged, open: string[] = []): readonly Row[] {
  const subject = { plan, display: plainDisplay };
  return resultsOf(subject, { ...plainView, open }, 0, 1000).slice.rows;
}

function linkRow(rows: readonly Row[], name: string) {
  return rows.find((row) => row.kind === 'link' && row.name === name);
}

function textOf({ result }: Judged): string {
  return toText(
    result,
    result.order.flatMap((name) => result.link(name) ?? []),
    plainDisplay,
  );
}

const plan = `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
}

link KQ-1 {
  fibres      1..4
  connector   LC
  segment     90 m OM4
  connector   LC
  carries     1000BASE-SX
}
`;

describe('a link that nobody has read', () => {
  test('shows what it carries and what is expected to be left of its limit', () => {
    const row = linkRow(rowsOf(judge(plan).plan), 'KQ-1');
    // 3.0 × 0.090 + 2 × 0.75 = 1.77 dB
    expect(row).toMatchObject({
      governing: { figure: expect.stringMatching(/^1\.77/u) },
      worst: ['1000BASE-SX', 'by design'],
      byDesign: { text: expect.stringMatching(/^\+\d\.\d\d$/u), what: 'expected, 850 nm' },
    });
    expect(row?.spoken).toMatch(/1000BASE-SX by design, margin \+\d\.\d\d expected, 850 nm$/u);
    expect(row && 'margin' in row ? row.margin : undefined).toBeUndefined();
  });

  test('keeps its design out of the margin as soon as it is read', () => {
    const [read] = openExample('first-link').plans;
    const row = linkRow(rowsOf(read!), 'KQ-OPS-B3');
    expect(row).not.toHaveProperty('byDesign');
    expect(row).toMatchObject({ margin: { verdict: 'pass' } });
  });
});

describe('a channel', () => {
  const [wavelengths] = openExample('wavelengths').plans;

  test('shows its support and what is left of its light', () => {
    const rows = rowsOf(wavelengths!, ['SIGNALS-1531']);
    expect(linkRow(rows, 'SIGNALS-1531')).toMatchObject({
      byDesign: { text: '+0.20', what: 'of light, high end' },
      worst: ['CAMERA-1531', 'predicted'],
    });
    const limits = rows.find((row) => row.kind === 'limits');
    expect(limits).toMatchObject({
      supports: [
        {
          name: 'CAMERA-1531',
          support: 'predicted',
          power: '+0.20 dB left at the high end of the receiver’s window, 1531 nm A>B',
        },
      ],
    });
    expect(limits?.spoken).toContain('CAMERA-1531 predicted, +0.20 dB left at the high end');
  });

  test('is called a channel where things are counted, and has no line for fibres without readings', () => {
    const text = textOf(wavelengths!);
    expect(text).toContain('2 links, 2 channels, 16 of 16 readings made');
    expect(text).toMatch(/^SIGNALS-1531 .*\+0\.20 .*CAMERA-1531 predicted$/mu);
    expect(text).not.toMatch(/not judged: *$/mu);
  });
});

test('design stands beside the limits: expected, mean + 3 sigma where all parts state it, greatest', () => {
  const [owner] = openExample('owner-figures').plans;
  const names = owner!.result.order.filter((name) =>
    owner!.result.link(name)?.wavelengths.some(({ statistical }) => statistical !== undefined),
  );
  expect(names.length).toBeGreaterThan(0);
  const lines = rowsOf(owner!, names).flatMap((row) =>
    row.kind === 'limits' ? row.wavelengths : [],
  );
  const told = lines.filter(({ statistical }) => statistical !== '');
  expect(told.length).toBeGreaterThan(0);
  for (const { expected, statistical, greatest } of told) {
    expect(Number(expected)).toBeLessThan(Number(statistical));
    expect(Number(greatest)).toBeGreaterThan(Number(expected));
  }
});

test('the text lists a reflectance that is not pass, and counts the others with what is left', () => {
  const failed = judge(example(angledPlan, multimodeSetup, reflected('-48'))).plan;
  expect(textOf(failed)).toMatch(
    /^ {2}fibre 1: fail: 850 nm A>B reflectance −48\.00 dB \(return loss 48\.00 dB of 60\.00 dB/mu,
  );
  const passed = judge(example(angledPlan, multimodeSetup, reflected('-62.0'))).plan;
  expect(textOf(passed)).toMatch(/^ {2}reflectance: all 1 reading pass, least margin \+2\.00$/mu);
});
