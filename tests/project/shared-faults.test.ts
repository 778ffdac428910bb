/** A mistake that one set-up or one table made in many links is one finding, whoever is judged first. */
import { expect, it } from 'vitest';
import type { Finding } from '../../server/src/checks/finding.ts';
import { judge } from '../support/judge.ts';

const head = `plan "Many" {
  limits      TIA-568.3-E
  measure     850 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
  zone        "UTC"
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
}
`;

const losses = [1.12, 1.05, 1.09, 1.17, 1.02, 1.14, 1.08, 1.06];

/** So many links with a table of losses each, less what the reference was off by. */
function site(off: readonly number[], more = ''): string {
  const links = off.map(
    (by, at) => `
link KQ-${at + 1} {
  fibres      1..8
  connector   LC
  segment     180 m OM4
  connector   LC
${more}}

readings KQ-${at + 1} {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
${losses.map((loss, row) => `  ${row + 1}  ${(loss - by).toFixed(2)}`).join('\n')}
}
`,
  );
  return `${head}${links.join('')}`;
}

const named = (findings: readonly Finding[], name: string) =>
  findings.filter((finding) => finding.name === name);

it('a reference that made three links too low is told once, at the first, with the others beside it', () => {
  const { findings, plan } = judge(site([0.6, 0.6, 0.6, 0]));
  const [only, ...others] = named(findings, 'batch-too-low');
  expect(others).toEqual([]);
  expect(only?.about).toBe('KQ-1');
  expect(only?.message).toContain(
    '2 others measured with set-up MM-1 show the same (KQ-2, KQ-3): look for one cause.',
  );
  expect(only?.related.map(({ message }) => message)).toEqual([
    'the same in KQ-2',
    'the same in KQ-3',
  ]);
  // Each of them waits for an answer all the same.
  const accepted = [1, 2, 3, 4].map((n) => plan.result.link(`KQ-${n}`)?.accepted);
  expect(accepted).toEqual([false, false, false, true]);
});

it('two links are one and another one; one link is told as ever', () => {
  const two = named(judge(site([0.6, 0.6])).findings, 'batch-too-low');
  expect(two.map(({ message }) => message)).toEqual([
    expect.stringContaining('Another one measured with set-up MM-1 shows the same (KQ-2)'),
  ]);
  const one = named(judge(site([0.6, 0])).findings, 'batch-too-low');
  expect(one.map(({ message }) => message)).toEqual([expect.not.stringContaining('the same')]);
});

it('an answer in a link takes that link out, one in the plan all', () => {
  const answer = 'silence     batch-too-low because "reference checked again, as it was"';
  const text = site([0.6, 0.6]);
  const inLink = text.replace('  connector   LC\n', `  ${answer}\n  connector   LC\n`);
  const left = named(judge(inLink).findings, 'batch-too-low').filter(({ silenced }) => !silenced);
  expect(left.map(({ about }) => about)).toEqual(['KQ-2']);
  const inPlan = text.replace('zone        "UTC"', `zone        "UTC"\n  ${answer}`);
  const none = named(judge(inPlan).findings, 'batch-too-low').filter(({ silenced }) => !silenced);
  expect(none).toEqual([]);
});

it('of many links the first are named and the rest counted', () => {
  const [only] = named(judge(site(new Array(10).fill(0.6))).findings, 'batch-too-low');
  expect(only?.message).toContain('9 others');
  expect(only?.message).toContain('and 3 more)');
  expect(only?.details).toMatchObject({ objects: 10 });
});

it('values of one table headed wrongly are one finding over its links, which no answer in words settles', () => {
  const rows = ['KQ-1', 'KQ-2'].flatMap((link) =>
    losses.slice(0, 4).map((loss, row) => `  ${link}  ${row + 1}  ${(-20.05 - loss).toFixed(2)}`),
  );
  const text = `${site([0, 0]).replace(/readings [\s\S]*?\n\}\n/gu, '')}
readings {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns link, fibre, 850 nm A>B
${rows.join('\n')}
}
`;
  const [only, ...others] = named(judge(text).findings, 'unit-suspect');
  expect(others).toEqual([]);
  expect(only?.message).toContain('Another one in this table shows the same (KQ-2)');
  expect(only?.message).not.toContain('An answer');
});

const setupLine = (from: string, to: string) => site([0, 0, 0]).replace(from, to);

it.each([
  [
    'calibration-expired',
    setupLine(
      '"M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12',
      '"M-5" floor -60 dBm calibrated 2025-01-12 due 2026-01-12',
    ),
  ],
  ['cord-connector-mismatch', setupLine('TC-1 launch LC', 'TC-1 launch SC')],
  ['cord-fibre-mismatch', setupLine('TC-2 receive LC OM4', 'TC-2 receive LC OM1')],
  ['cord-not-verified', setupLine(' verified 0.08 dB', '')],
  [
    'reference-drift',
    setupLine('-20.05 dBm\n', '-20.05 dBm\n  checked     2026-03-14 10:00 850 nm -20.45 dBm\n'),
  ],
  ['reference-missing', setupLine('2026-03-14 08:10 850', '2026-03-14 11:10 850')],
])('%s of one set-up is one finding over whatever was measured with it', (name, text) => {
  const { findings, plan } = judge(text);
  const [only, ...others] = named(findings, name);
  expect(others).toEqual([]);
  expect(only?.message).toContain(
    'The same holds for KQ-2, KQ-3, measured with set-up MM-1 as well.',
  );
  expect(['KQ-1', 'KQ-2', 'KQ-3'].map((link) => plan.result.link(link)?.accepted)).toEqual([
    false,
    false,
    false,
  ]);
});

it.each([
  ['receive-cord-missing', /^ {2}cord +TC-2.*\n/mu],
  ['launch-condition-missing', /^ {2}launch .*\n/mu],
])('%s is told of the set-up that has it, not of one that is like it', (name, line) => {
  const like = 'setup MM-2 {\n  like MM-1\n  taken 2026-03-15 08:10 850 nm -20.05 dBm\n}\n';
  const whose = (text: string) => named(judge(text).findings, name).map(({ about }) => about);
  const wrong = site([0]).replace(line, '');
  expect(whose(`${wrong}\n${like}`)).toEqual(['MM-1']);
  // What it has wrong by itself is told of it.
  const again = line.exec(site([0]))![0];
  expect(whose(`${wrong}\n${like.replace('}', `${again}}`)}`)).toEqual(['MM-1']);
  expect(whose(`${site([0])}\n${like}`)).toEqual([]);
});

it('a power that no source gives is told of each set-up that has one', () => {
  const like = 'setup MM-2 {\n  like MM-1\n  taken 2026-03-15 08:10 850 nm 12 dBm\n}\n';
  const text = `${site([0]).replace('-20.05 dBm', '12 dBm')}\n${like}`;
  expect(
    named(judge(text).findings, 'reference-power-implausible').map(({ about }) => about),
  ).toEqual(['MM-1', 'MM-2']);
});
