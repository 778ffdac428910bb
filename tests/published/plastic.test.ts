/**
 * Plastic and hard-clad fibre on a machine, 650 nm.
 *
 * End-to-end limits of 12.5 dB and 4.75 dB, and a reference with both test
 * cords joined: PROFINET figures in an industrial switch manual, table 3.2, a
 * secondary text. That the fibre of test cords counts is arithmetic. All other
 * figures are ours.
 */
import { describe, expect, it } from 'vitest';
import { doubt, exact, judged, micro, reading, verdict } from './judged.ts';

const plan = (path: string, setup: string, row: string) => `
plan "Machine" {
  limits      MACHINE
  measure     650 nm
  directions  A>B
  uncertainty 0.30 dB
}

fibre PLASTIC-1000 {
  mode        plastic core 980 um
  attenuation 650 nm max 0.20 dB/m
}

fibre HARD-CLAD-200 {
  mode        multimode core 200 um
  attenuation 650 nm max 10 dB/km
}

connector BULKHEAD {
  loss        max 1.5 dB
}

limits MACHINE {
  policy      counting
  fibre       PLASTIC-1000 650 nm 0.20 dB/m
  fibre       HARD-CLAD-200 650 nm 10 dB/km
  connector   any 1.5 dB
}

application FIELDBUS {
  count       2
  wavelength  650 nm
  fibre       PLASTIC-1000 loss 12.5 dB
  fibre       HARD-CLAD-200 loss 4.75 dB
}

setup TEST {
${setup}
  source      "S1"
  meter       "M1" floor -60 dBm
  taken       2026-03-14 08:00 650 nm -10.00 dBm
}

link ROBOT-1 {
  fibres      1..2
${path}
  carries     FIELDBUS
}

readings ROBOT-1 {
  setup       TEST
  tested      2026-03-14 09:00
  values      loss in dB
  columns fibre, 650 nm A>B
  1       ${row}
}
`;

const plastic = `  plug        BULKHEAD
  segment     20 m PLASTIC-1000
  connector   BULKHEAD
  segment     18 m PLASTIC-1000
  plug        BULKHEAD`;

const launch = '  cord        L1 launch BULKHEAD PLASTIC-1000 ordinary length 1 m\n';
const receive =
  '  cord        R1 receive BULKHEAD PLASTIC-1000 ordinary length 1 m verified 1.2 dB\n';
const middle = '  cord        M1 substitution BULKHEAD PLASTIC-1000 ordinary length 1 m\n';

describe('the fibre of test cords is not nothing on plastic', () => {
  it.each([
    ['two-cord', launch + receive, '10.6'],
    ['one-cord', launch + receive, '12.3'],
    ['three-cord', launch + middle + receive, '8.9'],
  ])('%s', (method, cords, expected) => {
    const text = plan(plastic, `  reference   ${method}\n${cords}`, '8.0');
    expect(exact(reading(judged(text).link('ROBOT-1'), 1, 650).limit?.value)).toBe(expected);
  });

  it('9.9 dB by two cords passes; 8.95 dB by three is a marginal fail', () => {
    const two = plan(plastic, `  reference   two-cord\n${launch}${receive}`, '9.9');
    expect(verdict(judged(two).link('ROBOT-1'), 1, 650)).toBe('pass');
    const three = plan(plastic, `  reference   three-cord\n${launch}${middle}${receive}`, '8.95');
    const result = judged(three).link('ROBOT-1');
    expect(verdict(result, 1, 650)).toBe('marginal-fail');
    expect(doubt(result, 'marginal-fail', 1)).toMatchObject({ limit: 8.9, over: 0.05 });
  });

  it('carries the service by design: 9.1 dB of 12.5 dB', () => {
    const text = plan(plastic, `  reference   two-cord\n${launch}${receive}`, '-');
    const [application] = judged(text).link('ROBOT-1').applications;
    expect(application?.support).toBe('by design');
    expect(application?.because).toContain('9.10 dB');
  });

  it('hard-clad fibre, two cords: 2.35 + 1.5 = 3.85 dB', () => {
    const path = `  plug        BULKHEAD
  segment     40 m HARD-CLAD-200
  connector   BULKHEAD
  segment     45 m HARD-CLAD-200
  plug        BULKHEAD`;
    const cords = (launch + receive).replaceAll('PLASTIC-1000', 'HARD-CLAD-200');
    const text = plan(path, `  reference   two-cord\n${cords}`, '3.0');
    expect(exact(reading(judged(text).link('ROBOT-1'), 1, 650).limit?.value)).toBe('3.85');
  });
});

describe('received power against a window of −20 to −3 dBm', () => {
  const power = (microwatts: string) => {
    const text = plan(plastic, '', '-')
      .replace('  taken       2026-03-14 08:00 650 nm -10.00 dBm\n', '')
      .replace('  carries     FIELDBUS', '  require     power min -20.0 dBm max -3.0 dBm')
      .replace('loss in dB', 'power in uW')
      .replace('  1       -', `  1       ${microwatts}`);
    return judged(text).link('ROBOT-1');
  };

  it.each([
    ['12', '-19.208188', 'pass'],
    ['9.9', '-20.043648', 'marginal-fail'],
    ['620', '-2.076083', 'fail'],
  ])('%s µW is %s dBm: %s', (typed, expected, word) => {
    const one = reading(power(typed), 1, 650);
    expect(micro(one.power)).toBe(expected);
    expect(one.verdict).toBe(word);
  });

  it('of two sides that hold the nearer says what is left', () => {
    // 10 log 0.4 = -3.9794: 16.02 dB above the least, 0.9794 dB below the most.
    expect(exact(reading(power('400'), 1, 650).margin)).toBe('0.9794');
  });

  it('too strong is said as such', () => {
    expect(reading(power('620'), 1, 650).because).toContain('power at most −3.00 dBm');
  });
});
