/** Numbers, lists and names that cannot be as they stand: each is one finding at its place, and nothing else is said of it. */
import { describe, expect, test } from 'vitest';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
  singleModePlan,
  spliceLimits,
  traceLink,
  tracePlan,
  traceSetup,
} from '../../server/src/checks/examples.ts';
import { applyEdits } from '../support/ask.ts';
import { judge } from '../support/judge.ts';

const readings = multimodeReadings('1  1.12  0.84', '2  1.08  0.80');
const sound = example(multimodePlan, multimodeLink, multimodeSetup, readings);

/** Each finding with the text that it stands at. */
function found(text: string) {
  const { plan, findings } = judge(text);
  // A part by itself is named by nothing; that is not what is asked here.
  const asked = findings.filter(({ name }) => name !== 'unused-definition');
  return asked.map(({ name, place }) => {
    const range = plan.locate(place)!.range;
    const line = text.split('\n')[range.start.line]!;
    const last = range.start.line === range.end.line ? range.end.character : undefined;
    return [name, line.slice(range.start.character, last)];
  });
}

const told = (text: string) =>
  judge(text).findings.filter(({ name }) => name !== 'unused-definition');
const message = (text: string) => told(text)[0]?.message;

/** The text with one more line in the block that begins with a word. */
const within = (text: string, line: string) => text.replace(/\n\}/u, `\n  ${line}\n}`);

const cable = (count: string) => `cable C-1 {
  fibre       OS2
  count       ${count}
  length      200 m
}
`;
const splitter = (ratio: string) => `splitter SPLIT-1 {
  ports       ${ratio}
  loss        max 10.5 dB
}
`;
const transceiver = (output: string, input: string, wavelength = '1310 nm') => `transceiver X-1 {
  application 10GBASE-LR
  wavelength  ${wavelength}
  output      ${output}
  input       ${input}
}
`;
const colours = (tubes: string, fibres: string) => `colours QUAY-ORDER {
  tubes       ${tubes}
  fibres      ${fibres}
}
`;

describe('figures that stand the wrong way round', () => {
  const right = ['min -8 dBm max 0 dBm', 'min -14 dBm max 0.5 dBm'] as const;
  test.each([
    ['an output', transceiver('min 4 dBm max 0 dBm', right[1]), '0 dBm'],
    ['an output in two units', transceiver('min 2 mW max 1 dBm', right[1]), '1 dBm'],
    ['an input', transceiver(right[0], 'max -24 dBm min -7 dBm'), '-7 dBm'],
    ['a wavelength', transceiver(...right, '1310 nm min 1320 nm max 1360 nm'), '1320 nm'],
    ['a loss', 'component PAD-1 {\n  loss        min 3 dB typ 2 dB max 4 dB\n}\n', '2 dB'],
    [
      'an attenuation',
      'fibre F-1 {\n  like        OS2\n  attenuation 1550 nm typ 0.4 dB/km max 0.3 dB/km\n}\n',
      '0.3 dB/km',
    ],
    [
      'an application',
      'application A-1 {\n  count       2\n  wavelength  1310 nm\n  fibre       OS2 loss 3 dB min 5 dB\n}\n',
      '5 dB',
    ],
    [
      'a window that the plan wants',
      within(multimodePlan, 'require     power min -3 dBm max -9 dBm'),
      '-9 dBm',
    ],
  ])('%s', (_, part, at) => {
    const text = part.startsWith('plan') ? part : example(singleModePlan, part);
    expect(found(text)).toEqual([['figures-out-of-order', at]]);
    const [finding] = told(text);
    expect(finding).toMatchObject({ kind: 'contradiction' });
    expect(finding?.message).toContain('is more than');
  });

  test('may be equal, and figures of a part in order are silent', () => {
    expect(found(example(singleModePlan, transceiver('min 0 dBm max 0 dBm', right[1])))).toEqual(
      [],
    );
  });

  test('are exchanged by their fix', () => {
    const text = example(singleModePlan, transceiver('min 4 dBm max 0 dBm', right[1]));
    const { plan, findings } = judge(text);
    const found = findings.find(({ name }) => name === 'figures-out-of-order')!;
    const edits = found.fix!.edits.map(({ place, text: newText }) => ({
      range: plan.locate(place)!.range,
      newText,
    }));
    expect(applyEdits(text, edits)).toBe(
      example(singleModePlan, transceiver('min 0 dBm max 4 dBm', right[1])),
    );
  });
});

describe('lists and counts', () => {
  test.each([
    ['a colour twice', colours('blue, orange', 'blue, orange, blue'), 'colour-twice', 'blue'],
    ['in other capitals', colours('blue, BLUE', 'blue, orange'), 'colour-twice', 'BLUE'],
    ['fibres that tubes do not divide', cable('25 tubes 2'), 'tubes-uneven', '2'],
    ['more tubes than fibres', cable('4 tubes 6'), 'tubes-uneven', '6'],
    ['a splitter written from its outputs', splitter('8:1'), 'splitter-reversed', '8:1'],
    ['a splitter that splits nothing', splitter('1:1'), 'splitter-reversed', '1:1'],
  ])('%s', (_, part, name, at) => {
    expect(found(example(singleModePlan, part))).toEqual([[name, at]]);
  });

  test.each([
    colours('blue, orange', 'blue, blue-striped, orange'),
    cable('24 tubes 2'),
    splitter('1:8'),
    splitter('2:2'),
    splitter('2:16'),
  ])('that are as they should be are silent: %s', (part) => {
    expect(found(example(singleModePlan, part))).toEqual([]);
  });

  test('a splitter is turned round by its fix', () => {
    const findings = told(example(singleModePlan, splitter('8:1')));
    expect(findings[0]?.fix?.edits.map(({ text }) => text)).toEqual(['1:8']);
  });

  test('say in numbers what is wrong', () => {
    expect(message(example(singleModePlan, cable('25 tubes 2')))).toContain(
      'with 13 in each, the last holds 12',
    );
    expect(message(example(singleModePlan, splitter('8:1')))).toContain('8 inputs and 1 output');
  });

  test.each(['0', '0..3'])('fibres that begin at 0: %s', (numbers) => {
    const text = example(multimodePlan, multimodeLink.replace('1..2', numbers));
    expect(found(text)).toEqual([['fibre-zero', numbers]]);
  });
});

describe('fibres that what is done or decided does not find', () => {
  const decided = '  because     "known"\n  by          "M. Ashdown" on 2026-03-20\n';
  test.each([
    `concession KQ-1 {\n  fibres      2, 7\n  accepted    3 dB\n${decided}}\n`,
    `withdraw KQ-1 {\n  fibres      7\n${decided}}\n`,
    'work KQ-1 {\n  done        cleaned\n  fibres      7..8\n  on          2026-03-10 08:00\n}\n',
  ])('%s', (part) => {
    const text = example(sound, part);
    const at = part.includes('7..8') ? '7..8' : '7';
    expect(found(text)).toEqual([['fibre-out-of-range', at]]);
    expect(message(text)).toContain('KQ-1 has no fibre 7; its fibres are 1..2');
    expect(
      found(text.replace('7..8', '2').replace('2, 7', '2').replace('fibres      7', '')),
    ).not.toContain('fibre-out-of-range');
  });
});

describe('a name that something else has now', () => {
  const second = multimodeLink.replace('KQ-1', 'KQ-2');
  const more = readings.replace('KQ-1', 'KQ-2');
  const was = (text: string, name: string) => within(text, `was         ${name}`);

  test('of a link, which goes on holding its own evidence', () => {
    const text = example(
      multimodePlan,
      was(multimodeLink, 'KQ-2'),
      second,
      multimodeSetup,
      readings,
      more,
    );
    expect(found(text)).toEqual([['former-name-in-use', 'KQ-2']]);
    const { plan } = judge(text);
    expect(plan.result.link('KQ-2')?.present).toBe(4);
  });

  test('its own: no reading counts twice', () => {
    const text = example(multimodePlan, was(multimodeLink, 'KQ-1'), multimodeSetup, readings);
    expect(found(text)).toEqual([['former-name-in-use', 'KQ-1']]);
    expect(judge(text).plan.result.link('KQ-1')?.readings).toHaveLength(4);
  });

  test('of a set-up', () => {
    const other = multimodeSetup.replace('MM-1', 'MM-2');
    const setup = was(multimodeSetup, 'MM-2');
    const text = example(multimodePlan, multimodeLink, setup, other, readings);
    expect(found(text)).toEqual([['former-name-in-use', 'MM-2']]);
  });

  test('that two claim: the first of them has the evidence', () => {
    const old = readings.replace('KQ-1', 'KQ-OLD');
    const text = example(
      multimodePlan,
      was(multimodeLink, 'KQ-OLD'),
      was(second, 'KQ-OLD'),
      multimodeSetup,
      old,
    );
    expect(found(text)).toEqual([['former-name-in-use', 'KQ-OLD']]);
    const { plan } = judge(text);
    expect(plan.result.link('KQ-1')?.present).toBe(4);
    expect(plan.result.link('KQ-2')?.present).toBe(0);
  });

  test('that nothing else has is silent', () => {
    const old = readings.replace('KQ-1', 'KQ-OLD');
    expect(
      found(example(multimodePlan, was(multimodeLink, 'KQ-OLD'), multimodeSetup, old)),
    ).toEqual([]);
  });
});

describe('a trace before its beginning', () => {
  const events = (...rows: readonly string[]) =>
    `events KQ-1 {
  setup       OT-1
  tested      2026-03-14 09:05 to 09:40 by "T. Holm"
  values      loss in dB
  columns fibre, at in km, kind, 1550 nm A>B, 1550 nm B>A
${rows.map((row) => `  ${row}`).join('\n')}
}
`;
  const names = (...rows: readonly string[]) =>
    found(example(tracePlan, spliceLimits, traceLink, traceSetup, events(...rows))).filter(
      ([name]) => name !== 'readings-missing',
    );

  test('is said once a fibre, and its length is not judged', () => {
    expect(names('1  0  connector  0.31  0.28', '1  -8.1  end  -  -')).toEqual([
      ['event-before-start', '-8.1'],
    ]);
    expect(
      names('1  -0.2  splice  0.05  0.06', '1  -0.1  splice  0.05  0.06', '1  8.1  end  -  -'),
    ).toEqual([['event-before-start', '-0.2']]);
  });
});

describe('the clock of the site', () => {
  test.each(['quay time', 'Harbour/North', '+25:00'])('%s is no clock against UTC', (zone) => {
    const text = sound.replace('"UTC"', `"${zone}"`);
    expect(found(text)).toEqual([['zone-unreadable', `"${zone}"`]]);
    expect(judge(text).findings[0]?.kind).toBe('note');
  });

  test.each(['UTC', '+01:00', '-3:30', 'UTC+1'])('%s is one', (zone) => {
    expect(found(sound.replace('"UTC"', `"${zone}"`))).toEqual([]);
  });
});

describe('amounts that no sum can hold are refused where they are written', () => {
  test.each([
    ['100001 km', '180 m'],
    ['9000001000 m', '180 m'],
  ])('a length of %s', (length, sensible) => {
    const text = example(multimodePlan, multimodeLink.replace(sensible, length));
    expect(found(text)).toEqual([['too-large', length]]);
    expect(message(text)).toContain('Look at the number and at its unit.');
  });

  test('a loss and a rate, so that nothing is left unworked', () => {
    const limits = `limits KQ-OWNER {
  policy      counting
  fibre       OM4 850 nm 9000000 dB/km
  connector   any 8000000000 dB
}
`;
    const text = example(
      multimodePlan.replace('TIA-568.3-E', 'KQ-OWNER').replace('850 nm, 1300 nm', '850 nm'),
      limits,
      multimodeLink,
    );
    const names = found(text).map(([name]) => name);
    expect(names.filter((name) => name === 'too-large')).toHaveLength(2);
    expect(names).not.toContain('not-worked-out');
  });

  test('and what is finer than lengths are held says so', () => {
    const text = example(multimodePlan, multimodeLink.replace('180 m', '0.001 ft'));
    expect(message(text)).toContain('0.001 ft is no whole number of micrometres');
    const metric = example(multimodePlan, multimodeLink.replace('180 m', '0.0000001 m'));
    expect(message(metric)).toContain('at most 6 in m');
  });
});

describe('a link or channel is not accepted while its own structure is in doubt', () => {
  test('with no fibres said', () => {
    const channel =
      'channel CH-1 {\n  cord        2 m OM4 crossed\n  cord        2 m OM4 straight\n}\n';
    const { plan } = judge(example(sound, channel));
    expect(plan.result.link('CH-1')?.accepted).toBe(false);
    const answer =
      '  silence     fibres-missing because "cords are numbered when they are bought"\n';
    const answered = judge(example(sound, channel.replace('\n  cord', `\n${answer}  cord`)));
    expect(answered.findings.map(({ name }) => name)).not.toContain('fibres-missing');
  });

  test('with an open end, until somebody answers', () => {
    const open = multimodeLink.replace(/\n {2}connector {3}LC\n\}/u, '\n}');
    const text = example(multimodePlan, open, multimodeSetup, readings);
    expect(judge(text).plan.result.link('KQ-1')?.accepted).toBe(false);
    const answered = example(
      multimodePlan,
      within(open, 'silence     open-end because "plugged next week"'),
      multimodeSetup,
      readings,
    );
    expect(judge(answered).findings.map(({ name }) => name)).not.toContain('open-end');
  });
});
