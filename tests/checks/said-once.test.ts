/** One mistake is one finding: on the bad example of every check, no two findings of one line say the same. */
import { expect, test } from 'vitest';
import { checks } from '../../server/src/checks/index.ts';
import { judge } from '../support/judge.ts';

/** Two names that may stand on one line, and what the one says that the other does not. */
const bothHold: ReadonlyMap<string, string> = new Map([
  ['application-figure-missing operating-wavelength-untested', 'what is not known, and not tested'],
  ['application-loss-exceeded reach-exceeded', 'its loss, and its length'],
  ['concession-spent not-repeatable', 'a decision that ended, and two attempts apart'],
  ['concession-spent over-limit', 'a decision that ended, and a verdict'],
  ['event-unexplained pulse-too-long', 'where it lies, and how near the next'],
  ['joint-signature rise-after-repair', 'where loss lies, and since when'],
  ['loss-slightly-negative marginal-fail', 'two readings of one row'],
  ['loss-slightly-negative marginal-pass', 'why below zero, and the verdict'],
  ['marginal-fail marginal-pass', 'two readings of one row'],
  ['marginal-pass method-limit-mismatch', 'a verdict, and the method of the block'],
  ['measured-twice splice-over-objective', 'which value holds, and what it is'],
  ['not-repeatable over-limit', 'two attempts apart, and a verdict'],
  ['reference-missing wavelength-pair-wrong', 'what the set-up lacks, and what the link is'],
]);

interface Line {
  readonly at: number;
  readonly found: readonly { readonly name: string; readonly message: string }[];
}

function linesOf(text: string): Line[] {
  const { plan, findings } = judge(text);
  const lines = new Map<number, Line['found'][number][]>();
  for (const { name, message, place } of findings) {
    const at = plan.locate(place)!.range.start.line;
    lines.set(at, [...(lines.get(at) ?? []), { name, message }]);
  }
  return [...lines].map(([at, found]) => ({ at, found }));
}

const pairs = new Set<string>();

test.each(checks.map((check) => [check.name, check] as const))('%s', (_, { bad }) => {
  for (const { at, found } of linesOf(bad)) {
    const messages = found.map(({ message }) => message);
    expect(messages, `line ${at + 1}`).toHaveLength(new Set(messages).size);
    const names = [...new Set(found.map(({ name }) => name))].sort();
    for (const [index, one] of names.entries()) {
      for (const other of names.slice(index + 1)) pairs.add(`${one} ${other}`);
    }
  }
});

test('no two names say one thing of one line, but for those that say two', () => {
  expect([...pairs].filter((pair) => !bothHold.has(pair))).toEqual([]);
  expect([...bothHold.keys()].filter((pair) => !pairs.has(pair))).toEqual([]);
});

test('what a transceiver says that cannot be read is said there, not again of each link that it serves', () => {
  const plan = (penalty: string) => `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     1310 nm for single-mode
  reference   one-cord
  uncertainty 0.20 dB
}

application LONG {
  count       2
  wavelength  1310 nm
  fibre       OS2 loss 20 dB
}

transceiver T-1 {
  wavelength  1310 nm
  output      min -2 dBm max 4 dBm
  input       min -20 dBm max -9 dBm
  penalty     ${penalty}
}

link KQ-1 {
  fibres      1..2
  connector   LC
  segment     10 km OS2
  connector   LC
  carries     LONG with T-1
}
`;
  const names = (text: string) => judge(text).findings.map(({ name }) => name);
  // 4 dBm has to lose 13 dB; of -2 dBm 16 dB may be lost, and the path may take more than 3 of them.
  expect(names(plan('2 dB'))).toContain('attenuator-impossible');
  expect(names(plan('two dB'))).toEqual(['wrong-kind']);
});
