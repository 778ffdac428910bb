/**
 * What lies outside of an object counts for the fibres that it goes on from, and for no
 * others: windows of power, delay and room of fibres that were repaired, or that are ends
 * of a tree, beside channels of some of them. Figures are ours and added up by hand.
 */
import { describe, expect, it } from 'vitest';
import type { LinkResult } from '../../server/src/evaluate/index.ts';
import { exact, judged } from '../published/judged.ts';

const head = `plan "Outside" {
  directions  A>B
  uncertainty 0.20 dB
}

fibre GLASS {
  mode        single-mode core 9 um
  attenuation 1310 nm min 0.20 dB/km max 0.40 dB/km
  index       1310 nm 1.5
}

connector PAIR {
  loss        max 0.5 dB
}

splice WELD {
  loss        max 0.1 dB
}

component PAD-5 {
  loss        min 5 dB max 5 dB
}

splitter FOUR {
  ports       1:4
  loss        min 6 dB max 7.4 dB
}

transceiver LAMP {
  wavelength  1310 nm
  output      min -1 dBm max 3 dBm
  input       min -28 dBm max 4 dBm
}

application SERVICE {
  count       1
  wavelength  1310 nm A>B
  fibre       GLASS reach 100 km loss 25 dB
}
`;

/** To fibre 2 alone: 5 dB and 3 m more. */
const channel = (link: string) => `
channel CAM-2 {
  cord        3 m GLASS straight
  component   PAD-5
  link        ${link} fibres 2
}
`;

const windows = (power: LinkResult['power']) =>
  power.map(({ greatestLoss, leastLoss }) => [exact(greatestLoss), exact(leastLoss)]);
const lengths = (signal: LinkResult['signal']) =>
  signal.flatMap(({ application, length }) => (application ? [length! / 1e6] : []));

const link = `
link KQ-1 {
  fibres      1..3
  connector   PAIR
  segment     1 km GLASS
  connector   PAIR
  carries     SERVICE with LAMP
  repair REP-1 {
    fibres      1
    on          2026-05-01
    splice      WELD
    segment     500 m GLASS
    splice      WELD
  }
}
`;
describe('fibres of which one was repaired and another goes on in a channel', () => {
  const result = (more = '', text = link) =>
    judged(head + text + more, '2026-06-01 12:00').link('KQ-1');

  it('have one worst of what they are, not of what none of them is', () => {
    // 1.4 and 0.2 dB as it was laid; 0.4 dB and 0.1 dB more after the repair.
    expect(windows(result().power)).toEqual([['1.8', '0.2']]);
    expect(lengths(result().signal)).toEqual([1500]);
    // 5 dB and 3 m on the one that was not repaired.
    expect(windows(result(channel('KQ-1')).power)).toEqual([['6.4012', '0.2']]);
    expect(lengths(result(channel('KQ-1')).signal)).toEqual([1500]);
  });

  it('are as one where all go on alike', () => {
    const all = channel('KQ-1').replace('fibres 2', 'fibres 1..3');
    expect(windows(result(all).power)).toEqual([['6.8012', '5.2006']]);
    expect(lengths(result(all).signal)).toEqual([1503]);
  });

  it('are left out where they are dead, or not given to the service', () => {
    const given = (fibres: string) =>
      result(channel('KQ-1'), link.replace('SERVICE with', `SERVICE fibres ${fibres} with`));
    expect(windows(given('1').power)).toEqual([['1.8', '0.3']]);
    expect(windows(given('3').power)).toEqual([['1.4', '0.2']]);
    expect(windows(given('2').power)).toEqual([['6.4012', '5.2006']]);
    const dead = (numbers: string) =>
      result(
        channel('KQ-1'),
        link.replace('  carries', `  dead        ${numbers} because "crushed"\n  carries`),
      );
    expect(windows(dead('2').power)).toEqual([['1.8', '0.2']]);
    expect(windows(dead('1, 3').power)).toEqual([['6.4012', '5.2006']]);
    expect(lengths(dead('1, 3').signal)).toEqual([1003]);
    expect([dead('1..3').power, lengths(dead('1..3').signal)]).toEqual([[], []]);
  });
});

describe('a service over fibres of which one was repaired and another goes on in a channel', () => {
  /** The answer for a service that allows so much, and the channel that answers by itself. */
  const answer = (loss: string, { more = '', carries = '', readings = '' } = {}) => {
    const text = head.replace('loss 25 dB', `loss ${loss}`) + link.replace('with LAMP', carries);
    const { link: of } = judged(text + more + readings, '2026-06-01 12:00');
    const [found] = of('KQ-1').applications;
    return [found?.support, found?.because, found?.channel];
  };

  it('is refused by what some fibre is, not by what none is', () => {
    // 1.8 dB after the repair, 6.4012 dB in the channel, 6.8012 dB if they were one.
    const design = 'at the greatest figures';
    expect(answer('6.5 dB', { more: channel('KQ-1') })).toEqual([
      'by design',
      `6.401 dB ${design} of all parts`,
      undefined,
    ]);
    expect(answer('6.4 dB', { more: channel('KQ-1') })).toEqual([
      'not supported',
      `6.401 dB ${design} is more than its loss`,
      undefined,
    ]);
    expect(answer('1.79 dB')).toEqual([
      'not supported',
      `fibre 1: 1.80 dB ${design} is more than its loss`,
      undefined,
    ]);
    // Fibres that it is not given are not asked.
    expect(answer('1.79 dB', { carries: 'fibres 2, 3' })[0]).toBe('by design');
  });

  it('is answered by the channel where that carries the same', () => {
    const carrying = (service: string) =>
      channel('KQ-1').replace(/\}\n$/u, `  carries     ${service}\n}\n`);
    expect(answer('6.4 dB', { more: carrying('SERVICE') })[2]).toBe('CAM-2');
    const other = head.match(/application SERVICE[^}]*\}\n/u)?.[0].replace('SERVICE', 'OTHER');
    expect(answer('6.4 dB', { more: carrying('OTHER') + other })[2]).toBeUndefined();
    const both = carrying('OTHER').replace(/\}\n$/u, '  carries     SERVICE\n}\n');
    expect(answer('6.4 dB', { more: both + other })[2]).toBe('CAM-2');
    // Of two that answer alike the first, and of two that do not the one with less left.
    const second = carrying('SERVICE').replace('CAM-2', 'CAM-3').replace('fibres 2', 'fibres 3');
    expect(answer('6.4 dB', { more: carrying('SERVICE') + second })[2]).toBe('CAM-2');
    const longer = second.replace('3 m', '4 m');
    expect(answer('6.4 dB', { more: carrying('SERVICE') + longer })[2]).toBe('CAM-3');
  });

  it('is answered by readings without a word of paths', () => {
    const readings = `
setup METER {
  reference   one-cord
  source      "S-3" laser
  meter       "M-5" floor -60 dBm
  cord        L-1 launch PAIR GLASS reference-grade
  cord        R-1 receive PAIR GLASS reference-grade verified 0.1 dB
  taken       2026-05-20 08:00 1310 nm -20.00 dBm
}

readings KQ-1 {
  setup       METER
  tested      2026-05-20 09:00
  values      loss in dB
  columns fibre, 1310 nm A>B
  1  1.2
  2  1.1
  3  1.3
}
`;
    expect(answer('1.4 dB', { readings })).toEqual([
      'predicted',
      '1.30 dB at most, this mating only: not by design at the greatest figures',
      undefined,
    ]);
    expect(answer('1.25 dB', { readings })).toEqual([
      'not supported',
      'fibre 3 A>B would lose 1.30 dB',
      undefined,
    ]);
  });
});

describe('ends of a tree that are made alike', () => {
  const tree = `
pattern drop {
  segment     1 km GLASS
  connector   PAIR
}

link TREE {
  connector   PAIR
  split SP FOUR {
    out         1..4 to E-1, E-2, E-3, E-4 as drop
  }
  carries     SERVICE with LAMP
}
`;
  const ends = (more = '', text = tree) =>
    judged(head + text + more)
      .link('TREE')
      .ways.map(({ power, signal }) => [...windows(power).flat(), ...lengths(signal)]);
  // 0.4 + 1.0 + 7.4 dB, and 0.2 + 6 dB at the least.
  const bare = ['8.8', '6.2', 1000];

  it('are lit as they go on', () => {
    expect(ends()).toEqual([bare, bare, bare, bare]);
    expect(ends(channel('TREE'))).toEqual([bare, ['13.8012', '11.2006', 1003], bare, bare]);
  });

  it('are one fibre each, whose length has to be known for what has a reach', () => {
    const answers = (text: string, rows = '') =>
      judged(head.replace(/ {2}fibre {7}GLASS reach.*\n/u, `$&${rows}`) + text)
        .link('TREE')
        .ways.map(({ applications: [one] }) => `${one?.support}: ${one?.because}`);
    const borne = 'by design: 8.80 dB at the greatest figures of all parts';
    expect(answers(tree)).toEqual([borne, borne, borne, borne]);
    const unknown = tree
      .replace(
        'out         1..4 to E-1, E-2, E-3, E-4 as drop',
        'out         1..3 to E-1, E-2, E-3 as drop\n    out         4 to E-4 as lost',
      )
      .concat('pattern lost {\n  segment     unknown GLASS\n  connector   PAIR\n}\n');
    const open =
      'not supported: the length of the path is not known, and so neither is whether it reaches';
    expect(answers(unknown)).toEqual([borne, borne, borne, open]);
    // A row without a reach beside one that has it makes that no better.
    expect(answers(unknown, '  fibre       GLASS loss 25 dB\n')[3]).toBe(open);
    const duplex = head.replace('count       1', 'count       2') + tree;
    const [first] = judged(duplex).link('TREE').ways;
    expect(first?.applications[0]?.because).toBe('it needs 2 fibres and has 1');
  });

  it('are not lit where the service is not given to them', () => {
    const given = tree.replace('SERVICE with', 'SERVICE fibres 2, 3 with');
    expect(ends('', given)).toEqual([[], bare, bare, []]);
  });
});
