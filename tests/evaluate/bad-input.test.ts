/**
 * What cannot be is never a silent pass: it is invalid, untested, not judged or
 * failed, and a finding says so. That a contradiction or an impossible value
 * makes a reading void is our own rule; the plans are ours.
 */
import { describe, expect, it } from 'vitest';
import { findingsOf, judge } from '../support/judge.ts';

interface Text {
  readonly columns?: string;
  readonly values?: string;
  readonly tested?: string;
  readonly taken?: string;
  readonly limits?: string;
  readonly measure?: string;
  readonly path?: string;
  readonly more?: string;
  readonly link?: string;
}

const setup = (name: string, taken: string) => `setup ${name} {
  reference   one-cord
  source      "S1" LED
  meter       "M1" floor -60 dBm
  launch      encircled-flux
  cord        L1 launch LC OM4 reference-grade
  cord        R1 receive LC OM4 reference-grade verified 0.08 dB
${taken}}
`;

const usual = '  taken       2026-03-14 08:00 850 nm -20.05 dBm\n';
const glass = '  connector   LC\n  segment     142 m OM4\n  connector   LC\n';

function judged(rows: string, text: Text = {}, asOf?: string) {
  const { columns = 'fibre, 850 nm A>B', values = 'loss in dB', more = '' } = text;
  const { plan } = judge(
    `plan "Bad input" {
  limits      ${text.limits ?? 'TIA-568.3-E'}
  measure     ${text.measure ?? '850 nm'}
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
}

${setup('ONE', text.taken ?? usual)}
link KQ-1 {
  fibres      1..2
${text.path ?? glass}${text.link ?? ''}}

readings KQ-1 {
  setup       ONE
  tested      ${text.tested ?? '2026-03-14 09:05'} by "R. Vale"
  values      ${values}
  columns ${columns}
${rows}}
${more}`,
    asOf,
  );
  const result = plan.result.link('KQ-1');
  if (!result) throw new Error('the link was not judged');
  return {
    result,
    names: findingsOf(plan).map(({ name }) => name),
    verdicts: result.fibres.map(({ verdict }) => verdict),
    accepted: result.accepted,
  };
}

describe('a number that cannot be', () => {
  it.each([
    ['1e308', 'untested', 'unknown-choice'],
    ['100000000000000000000000000000', 'untested', 'too-large'],
    ['400', 'invalid', 'unit-suspect'],
    ['-21.1', 'invalid', 'unit-suspect'],
    ['-0.4', 'invalid', 'loss-negative'],
    ['-0', 'pass', 'loss-too-good'],
  ])('a loss of %s is %s: %s', (loss, word, name) => {
    const { verdicts, names } = judged(`  1  ${loss}\n`);
    expect(verdicts[0]).toBe(word);
    expect(names).toContain(name);
  });

  it.each([
    ['400', 'invalid', 'unit-suspect'],
    ['-400', 'invalid', 'unit-suspect'],
    ['-19', 'invalid', 'loss-negative'],
    ['-61', 'fail', 'power-below-floor'],
  ])('a power of %s dBm is %s: %s', (power, word, name) => {
    const { verdicts, names } = judged(`  1  ${power}\n`, { values: 'power in dBm' });
    expect(verdicts[0]).toBe(word);
    expect(names).toContain(name);
  });

  it('a reference of a kilowatt is none: what was read against it is invalid', () => {
    const { verdicts, names } = judged('  1  1.0\n  2  1.1\n', {
      taken: '  taken       2026-03-14 08:00 850 nm 60 dBm\n',
    });
    expect(verdicts).toEqual(['invalid', 'invalid']);
    expect(names.filter((name) => name === 'unit-suspect')).toHaveLength(1);
  });
});

describe('what is missing', () => {
  it('a wavelength: the column says nothing, and both fibres are untested', () => {
    const { verdicts, names } = judged('  1  1.0\n  2  1.1\n', { columns: 'fibre, A>B' });
    expect(verdicts).toEqual(['untested', 'untested']);
    expect(names).toContain('unknown-heading');
  });

  it('a reference: invalid', () => {
    const { verdicts, names } = judged('  1  1.0\n  2  1.1\n', { taken: '' });
    expect(verdicts).toEqual(['invalid', 'invalid']);
    expect(names).toContain('reference-missing');
  });

  it('a figure of the category at the wavelength: not judged, and none is made up between two', () => {
    const { verdicts, names, result } = judged('  1  1.0\n  2  1.1\n', {
      measure: '953 nm',
      columns: 'fibre, 953 nm A>B',
      taken: '  taken       2026-03-14 08:00 953 nm -20.05 dBm\n',
    });
    expect(verdicts).toEqual(['not-judged', 'not-judged']);
    expect(names).toContain('limit-missing');
    expect(result.wavelengths[0]?.limits[0]?.because).toContain('OM4 at 953 nm');
  });

  it('every term of a limit: a sum of nothing is no limit of 0 dB', () => {
    const nothing = '  plug        LC\n  segment     unknown OM4\n  plug        LC\n';
    const own = setup('ONE', usual)
      .replace('setup ONE', 'setup OWN')
      .replace('one-cord', 'equipment-cord');
    const { result, names } = judged('  2  1.1\n', {
      path: nothing,
      more: `${own}
readings KQ-1 {
  setup       OWN
  tested      2026-03-14 10:05 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1  0.06
}
`,
    });
    const read = result.readings.find(({ fibre }) => fibre === 1);
    expect(read?.limit).toBeUndefined();
    expect(read?.verdict).toBe('not-judged');
    expect(result.accepted).toBe(false);
    expect(names).not.toContain('over-limit');
  });
});

describe('two set-ups that claim one reading', () => {
  const twice = (time: string) => `${setup('TWO', usual)}
readings KQ-1 {
  setup       TWO
  tested      2026-03-14 ${time} by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1  1.0
  2  1.1
}
`;

  it('void both, and it is said once', () => {
    const { verdicts, names } = judged('  1  1.0\n  2  1.1\n', { more: twice('09:05') });
    expect(verdicts).toEqual(['invalid', 'invalid']);
    expect(names.filter((name) => name !== 'readings-missing')).toEqual([
      'set-ups-claim-one-reading',
    ]);
  });

  it('are two attempts where they have two times', () => {
    const { verdicts, names } = judged('  1  1.0\n  2  1.1\n', { more: twice('09:15') });
    expect(verdicts).toEqual(['pass', 'pass']);
    expect(names).toEqual([]);
  });

  it('are settled by a withdrawal', () => {
    const withdrawn = `${twice('09:05')}
withdraw KQ-1 {
  because     "typed under the wrong set-up"
  by          "R. Vale"
}
`;
    // It takes out both: nothing stands.
    expect(judged('  1  1.0\n  2  1.1\n', { more: withdrawn }).verdicts).toEqual([
      'untested',
      'untested',
    ]);
  });
});

describe('a date later than the time of judgement', () => {
  const rows = '  1  2.5\n  2  1.1\n';
  const decision = (what: string, day: string) => `
${what} KQ-1 {
  fibres      1
  because     "booked"
  by          "M. Ashdown" on ${day}
${what === 'concession' ? '  accepted    2.6 dB\n' : ''}}
`;

  it('makes a reading invalid, and it supersedes none', () => {
    const later = `
readings KQ-1 {
  setup       ONE
  tested      2062-03-14 09:05 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1  1.0
  2  1.0
}
`;
    const { verdicts, names } = judged(rows, { more: later });
    expect(verdicts).toEqual(['fail', 'pass']);
    expect(names.filter((name) => name === 'reading-in-future')).toHaveLength(1);
    expect(judged(rows, {}, '2026-03-13').verdicts).toEqual(['invalid', 'invalid']);
    // Its own day is over only when it is over.
    expect(judged(rows, {}, '2026-03-14').verdicts).toEqual(['fail', 'pass']);
  });

  it('lets a concession and a withdrawal wait for their day', () => {
    const conceded = judged(rows, { more: decision('concession', '2062-03-20') });
    expect(conceded.verdicts[0]).toBe('fail');
    expect(conceded.names).toContain('dated-in-future');
    expect(judged(rows, { more: decision('concession', '2026-03-20') }).verdicts[0]).toBe(
      'conceded',
    );
    const withdrawn = judged(rows, { more: decision('withdraw', '2062-03-20') });
    expect(withdrawn.verdicts[0]).toBe('fail');
    expect(withdrawn.names).toContain('dated-in-future');
    expect(judged(rows, { more: decision('withdraw', '2026-03-20') }).verdicts[0]).toBe('untested');
  });

  it('ages by work all the same, and says so', () => {
    const { verdicts, names } = judged(rows, {
      more: '\nwork KQ-1 {\n  done        cleaned\n  fibres      2\n  on          2062-03-20\n}\n',
    });
    expect(verdicts).toEqual(['fail', 'stale']);
    expect(names).toContain('dated-in-future');
  });
});

describe('no light where power is asked for', () => {
  const light = (floor: string, require: string, value = 'dark') => {
    const { plan } = judge(`plan "Light" {
  limits      TIA-568.3-E
  measure     850 nm
  directions  A>B
  uncertainty 0.15 dB
}

setup LIVE {
  source      "switch"
  meter       "M1"${floor}
}

link KQ-1 {
  fibres      1
${glass}${require}}

readings KQ-1 {
  setup       LIVE
  tested      2026-03-14 09:05 by "R. Vale"
  values      power in dBm
  columns fibre, 850 nm A>B
  1  ${value}
}
`);
    const result = plan.result.link('KQ-1');
    const said = findingsOf(plan).find(({ name }) => name === 'over-limit');
    return [result?.verdict, said?.message] as const;
  };
  const window = '  require     power min -11.1 dBm max 0.5 dBm\n';

  it('fails a window that asks for more than the meter sees', () => {
    const [word, message] = light(' floor -40 dBm', window);
    expect(word).toBe('fail');
    expect(message).toContain(
      'saw no light: less than −40.00 dBm is outside what is asked (contract, power at least −11.10 dBm)',
    );
    expect(light(' floor -11.1 dBm', window)[0]).toBe('fail');
  });

  it('is not judged where the meter would not see what is asked for, or nothing is', () => {
    expect(light(' floor -11.0 dBm', window)[0]).toBe('not-judged');
    expect(light('', window)[0]).toBe('not-judged');
    expect(light(' floor -40 dBm', '')[0]).toBe('not-judged');
  });

  it('no light is brighter than 10 W, whatever window it would pass', () => {
    expect(light('', '  require     power min -11.1 dBm max 900 dBm\n', '400')[0]).toBe('invalid');
  });
});

it('a dead fibre carries nothing: a duplex service over two, one of them dead, lacks one', () => {
  const { result, names } = judged('  1  1.0\n', {
    link: '  dead        2 because "broken at the panel"\n  carries     10GBASE-SR\n',
  });
  expect(result.applications[0]).toMatchObject({
    support: 'not supported',
    because: 'it needs 2 fibres and has 1',
  });
  expect(names).toContain('too-few-fibres');
});
