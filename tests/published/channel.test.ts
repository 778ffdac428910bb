/**
 * A link tested before its cords exist, then the channel over it.
 *
 * Rule-derived: figures are ours. A permanent link ends at the panels and a
 * channel at the equipment plugs, whose joints do not count: from memory of
 * ISO/IEC 11801-1, the last also in a maker's text. 25GBASE-SR on OM4, 100 m
 * and 1.9 dB: a cable maker's table of IEEE 802.3.
 */
import { describe, expect, it } from 'vitest';
import { exact, judged, limit, multimodeParts, reading, verdict } from './judged.ts';

const plan = (more = '', work = '') => `
plan "Later" {
  limits      PLAIN
  directions  A>B
  uncertainty 0.15 dB
}
${multimodeParts}
application SHORT-25G {
  count       1
  wavelength  850 nm A>B
  fibre       GLASS-50 reach 100 m loss 1.9 dB
}

setup ONE {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -60 dBm
  cord        L1 launch PAIR GLASS-50 reference-grade
  cord        R1 receive PAIR GLASS-50 reference-grade verified 0.07 dB
  taken       2026-03-14 08:00 850 nm -20.05 dBm
}

setup THREE {
  like        ONE
  reference   three-cord
  cord        S1 substitution PAIR GLASS-50 reference-grade
  taken       2026-03-14 08:00 850 nm -20.05 dBm
}

link KQ-9 {
  fibres      1
  measure     850 nm
  reference   one-cord
  connector   PAIR
  segment     60 m GLASS-50
  connector   PAIR
  carries     SHORT-25G cords 3 m, 3 m
}

readings KQ-9 {
  setup       ONE
  tested      2026-03-14 09:00
  values      loss in dB
  columns fibre, 850 nm A>B
  1       0.62
}
${more}${work}`;

const channel = `
channel CH-9 {
  measure     850 nm
  reference   three-cord
  cord        3 m GLASS-50 straight
  connector   PAIR
  cord        2 m GLASS-50 straight
  link        KQ-9 fibres 1
  cord        3 m GLASS-50 straight
  carries     SHORT-25G
}
`;

const channelReading = `
readings CH-9 {
  setup       THREE
  tested      2026-03-14 11:00
  values      loss in dB
  columns fibre, 850 nm A>B
  1       1.05
}
`;

describe('the link before its cords', () => {
  const result = judged(plan()).link('KQ-9');

  it('is held to 1.68 dB; the application with planned cords leaves it 1.882 dB', () => {
    expect(limit(result, 850, 'PLAIN')).toBe('1.68');
    expect(limit(result, 850, 'SHORT-25G')).toBe('1.882');
    expect(exact(reading(result, 1, 850).limit?.value)).toBe('1.68');
    expect(verdict(result, 1, 850)).toBe('pass');
  });

  it('is predicted, not measured: 0.638 dB', () => {
    expect(result.applications[0]).toMatchObject({ support: 'predicted' });
    expect(result.applications[0]?.because).toContain('0.638 dB');
  });
});

describe('the link once a channel crosses it', () => {
  const built = judged(plan(channel));

  it('has what lies outside it taken from the application: 1.126 dB, which governs', () => {
    const result = built.link('KQ-9');
    expect(limit(result, 850, 'SHORT-25G')).toBe('1.126');
    expect(exact(reading(result, 1, 850).limit?.value)).toBe('1.126');
    expect(result.applications[0]?.because).toContain('1.394 dB');
  });

  it('with the worst cords would lose 1.394 + 2·(0.75 − 0.50) = 1.894 of 1.9', () => {
    const compared = plan(channel).replace(
      'limits      PLAIN\n',
      'limits      PLAIN\n  compare     END-PAIRS\n',
    );
    expect(judged(compared).link('KQ-9').applications[0]?.because).toMatch(
      /^1\.394 dB at most, .*; 1\.894 dB with ordinary cords$/u,
    );
  });

  it('foretells the channel from its reading', () => {
    const [application] = built.link('CH-9').applications;
    expect(application).toMatchObject({ support: 'predicted' });
    expect(application?.because).toContain('1.394 dB');
  });
});

describe('the channel', () => {
  const both = judged(plan(channel, channelReading));
  const result = both.link('CH-9');

  it('is held to the application, not to its components, and gains no pairs of test cords', () => {
    expect(limit(result, 850, 'PLAIN')).toBe('2.454');
    expect(exact(reading(result, 1, 850).limit?.value)).toBe('1.9');
    expect(verdict(result, 1, 850)).toBe('pass');
  });

  it('is supported by measurement', () => {
    expect(result.applications[0]).toMatchObject({ support: 'by measurement' });
  });

  it('neither supersedes nor repairs the link: both stand', () => {
    expect(exact(reading(both.link('KQ-9'), 1, 850).margin)).toBe('0.506');
    expect(exact(reading(result, 1, 850).margin)).toBe('0.85');
  });

  it('ages alone when a cord is changed; and with the link when the link is touched', () => {
    const work = (object: string) => `
work ${object} {
  done        re-patched
  on          2026-03-16 10:00
}
`;
    const cords = judged(plan(channel, channelReading + work('CH-9')));
    expect(verdict(cords.link('CH-9'), 1, 850)).toBe('stale');
    expect(verdict(cords.link('KQ-9'), 1, 850)).toBe('pass');
    const link = judged(plan(channel, channelReading + work('KQ-9')));
    expect(verdict(link.link('KQ-9'), 1, 850)).toBe('stale');
    expect(verdict(link.link('CH-9'), 1, 850)).toBe('stale');
  });
});
