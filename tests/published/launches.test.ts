/**
 * Mandrels and colours against what publishes them, and how a set-up and a cable are held against them.
 *
 * The rule of the mandrel: nominal 20 mm (core of 62.5 µm) or 25 mm (50 µm) less the outer diameter of the cord, rounded
 * up to whole millimetres, five turns (TIA/EIA-568-B.1 and TIA/EIA-526-14-A as quoted in programming documents of the
 * City of San Antonio, p.353); one loop of 1.2 in, 30 mm, on single-mode (the same page). Colours: TIA-598-C.
 */
import { describe, expect, it } from 'vitest';
import { libraryFiles } from '../../grammar/library/index.ts';
import { launchInWords } from '../../server/src/report/launch.ts';
import { judge } from '../support/judge.ts';

const setup = (launch: string, cord = 'OM4 reference-grade diameter 3.0 mm', more = '') =>
  `plan "Kestrel Quay" {
  limits      TIA-568.3-E
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED
  meter       "M-5" floor -60 dBm
  launch      ${launch}
  cord        TC-1 launch LC ${cord}
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
}
${more}`;

const said = (text: string, name: string) =>
  judge(text)
    .findings.filter((finding) => finding.name === name)
    .map(({ message }) => message);
const doubts = (...given: Parameters<typeof setup>) => said(setup(...given), 'mandrel-size-wrong');

describe('the mandrels of the library', () => {
  const text = libraryFiles['launches.lwl'] ?? '';
  const block = (name: string) => text.split(`mandrel ${name} {`)[1]?.split('\n}')[0] ?? '';

  it.each([
    ['MANDREL-62.5', 20],
    ['MANDREL-50', 25],
  ])('%s follow the rule: %d mm less the cord, rounded up', (name, nominal) => {
    const lines = [...block(name).matchAll(/diameter\s+(\S+) mm cord (\S+) mm/gu)];
    expect(lines.map(([, , cord]) => cord)).toEqual(['0.9', '2.0', '2.4', '3.0']);
    for (const [, diameter, cord] of lines)
      expect(Number(diameter)).toBe(Math.ceil(nominal - Number(cord)));
    expect(block(name)).toContain('turns       5');
  });

  it('have one loop of 30 mm for single-mode', () => {
    expect(block('MANDREL-9')).toMatch(/diameter +30 mm\n +turns +1\n/u);
  });
});

describe('a mandrel', () => {
  it.each([
    ['the one of the table', 'mandrel 22 mm turns 5', undefined],
    ['less than a millimetre from it', 'mandrel 22.5 mm turns 5', undefined],
    ['one by name', 'mandrel MANDREL-50', undefined],
    ['any of its core where the cord is not said', 'mandrel 25 mm', 'OM4 reference-grade'],
    ['for a thickness that no table has', 'mandrel 40 mm', 'OM4 reference-grade diameter 1.6 mm'],
    ['one loop on single-mode', 'mandrel 30 mm turns 1', 'OS2 reference-grade'],
    ['no mandrel at all', 'encircled-flux', undefined],
  ])('that fits is not doubted: %s', (_, launch, cord) => {
    expect(doubts(launch, cord)).toEqual([]);
  });

  it('made for another core reads low where it is thinner, and high where it is thicker', () => {
    expect(doubts('mandrel 17 mm turns 5')).toEqual([
      'The launch cord TC-1 is OM4, 3 mm thick, and a mandrel of 17 mm is too thin, so that losses read low: MANDREL-50 asks for 22 mm. Wind the cord round one of that size and measure again, or correct the figure.',
    ]);
    expect(doubts('mandrel 22 mm turns 5', 'OM1 reference-grade diameter 3.0 mm')[0]).toContain(
      'is too thick, so that losses read high: MANDREL-62.5 asks for 17 mm',
    );
  });

  it('is held against every size for its core where the cord does not say how thick it is', () => {
    expect(doubts('mandrel 20 mm', 'OM4 reference-grade')[0]).toContain(
      'MANDREL-50 asks for 22 mm, 23 mm or 25 mm',
    );
  });

  it('by name is held against the core of the cord', () => {
    expect(doubts('mandrel MANDREL-62.5')[0]).toContain(
      'the mandrel MANDREL-62.5 is for another core of 62.5 µm. Take MANDREL-50',
    );
  });

  it('wound too seldom or too often is doubted', () => {
    expect(doubts('mandrel 22 mm turns 3')[0]).toContain(
      'wound 3 times round its mandrel, and MANDREL-50 asks for 5 turns',
    );
  });

  it('of the plan stands for a fibre of the plan, and for one that meets another', () => {
    const own = `
mandrel KQ-M {
  like        MANDREL-50
  diameter    24 mm cord 1.6 mm
}

fibre KQ-50 {
  mode        multimode core 50 um
  mandrel     KQ-M
}

fibre KQ-51 {
  mode        multimode core 50 um
  meets       OM4
}
`;
    const thin = (fibre: string) => `${fibre} reference-grade diameter 1.6 mm`;
    expect(doubts('mandrel 24 mm', thin('KQ-50'), own)).toEqual([]);
    expect(doubts('mandrel 22 mm', thin('KQ-50'), own)[0]).toContain('KQ-M asks for 24 mm');
    expect(doubts('mandrel 17 mm', 'KQ-51 ordinary', own)[0]).toContain('MANDREL-50 asks for');
  });

  it('that is not declared is one finding, and turns without one are another', () => {
    const unknown = judge(setup('mandrel MANDREL-51'));
    expect(unknown.findings.map(({ name }) => name)).toContain('unknown-reference');
    expect(doubts('mandrel MANDREL-51')).toEqual([]);
  });
});

describe('a jacket', () => {
  const doubted = (fibre: string, jacket: string, colours = '  colours     TIA-598\n') =>
    said(
      `cable C-1 {
  fibre       ${fibre}
  count       12
  length      100 m
${colours}  jacket      ${jacket}
}
`,
      'jacket-of-other-fibre',
    );

  it.each([
    ['OM1', 'orange'],
    ['OM1', 'slate'],
    ['OM2', 'orange'],
    ['OM3', 'aqua'],
    ['OM4', 'aqua'],
    ['OM4', 'violet'],
    ['OM5', '"lime green"'],
    ['OS1a', 'yellow'],
    ['OS2', 'yellow'],
    // ITU-T G.657.A2 meets OS2, and black outdoors says nothing of the fibre.
    ['G.657.A2', 'yellow'],
    ['OM4', 'black'],
  ])('of %s in %s is what the order gives it', (fibre, jacket) => {
    expect(doubted(fibre, jacket)).toEqual([]);
  });

  it.each([
    ['OM4', 'orange', 'OM1, OM2'],
    ['OM3', 'violet', 'OM4'],
    ['OM1', 'aqua', 'OM3, OM4'],
    ['G.652.D', 'aqua', 'OM3, OM4'],
    ['OM4', 'yellow', 'OS1, OS1a, OS2'],
  ])('of %s in %s has the colour of another', (fibre, jacket, others) => {
    expect(doubted(fibre, jacket)).toEqual([
      expect.stringContaining(`which TIA-598 gives to ${others}, and the fibre inside is ${fibre}`),
    ]);
  });

  it('is not judged where the cable names no order of colours', () => {
    expect(doubted('OM4', 'orange', '')).toEqual([]);
  });
});

describe('a line that could not be read', () => {
  it.each([
    ['a size without its unit', 'mandrel 22', 'missing-unit'],
    ['turns of nothing', 'mandrel turns 5', 'misplaced-argument'],
    ['a length', 'mandrel 22 m turns 5', 'wrong-dimension'],
    ['a word almost spelt', 'mandrell', 'unknown-choice'],
  ])('is one finding: %s', (_, launch, name) => {
    const found = judge(setup(launch)).findings.map((finding) => finding.name);
    expect(found.filter((one) => one === name || /mandrel|launch/u.test(one))).toEqual([name]);
  });
});

describe('a record', () => {
  it.each([
    ['mandrel 22 mm turns 5', 'mandrel 22 mm, 5 turns'],
    ['mandrel MANDREL-50', 'mandrel MANDREL-50'],
    ['encircled-flux aperture 0.2', 'encircled-flux, aperture 0.2'],
    ['mandrel 30 mm turns 1', 'mandrel 30 mm, 1 turn'],
  ])('says of %s what was used', (launch, words) => {
    const used = judge(setup(launch)).plan.setup('MM-1');
    expect(used && launchInWords(used)).toBe(words);
  });
});
