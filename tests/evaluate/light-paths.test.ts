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

describe('fibres of which one was repaired and another goes on in a channel', () => {
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

  it('are not lit where the service is not given to them', () => {
    const given = tree.replace('SERVICE with', 'SERVICE fibres 2, 3 with');
    expect(ends('', given)).toEqual([[], bare, bare, []]);
  });
});
