import type { Silence } from '../model/types.ts';
import type { Check } from './check.ts';
import { makeFinding } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';
import type { Finding, FindingKind } from './finding.ts';

/** A contradiction cannot be answered in words: two statements of one fact cannot both hold, whoever says so. */
export const silenceRefused: Check = {
  name: 'silence-refused',
  kind: 'note',
  severity: 'warning',
  title: 'A contradiction cannot be silenced',
  explanation:
    'Silence answers a doubt in words. A contradiction (two statements of one fact, an impossible value, a void set-up) makes readings invalid, and no reason makes them valid. Put right what contradicts, or withdraw the reading with a reason.',
  source: 'Our own rule.',
  bad: example(
    multimodePlan,
    `link KQ-1 {
  fibres      1
  connector   LC
  segment     180 m OM4
  connector   LC
  silence     loss-negative because "the meter does that"
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED
  meter       "M-5" floor -60 dBm
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
}

readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1  -0.12
}
`,
  ),
  good: example(
    multimodePlan,
    `link KQ-1 {
  fibres      1
  connector   LC
  segment     180 m OM4
  connector   LC
}
`,
  ),
};

export const silenceUnknown: Check = {
  name: 'silence-unknown',
  kind: 'note',
  severity: 'warning',
  title: 'A silence names no check',
  explanation:
    'Silence answers a finding by its name. A name that no check has answers nothing, now and later; most often it is misspelt.',
  source: 'Our own rule.',
  bad: example(
    multimodePlan,
    multimodeLink.replace('}', '  silence     core-size because "old cable"\n}'),
  ),
  good: example(
    multimodePlan,
    multimodeLink.replace('}', '  silence     core-size-mismatch because "old cable"\n}'),
  ),
};

/** What is left of findings after the doubts and notes that someone answered in words. */
export function unanswered(
  findings: readonly Finding[],
  answers: readonly Silence[],
): readonly Finding[] {
  if (answers.length === 0) return findings;
  const names = new Set(answers.map(({ finding }) => finding));
  return findings.filter(({ name, kind }) => isStatement(kind) || !names.has(name));
}

/** As {@link unanswered}, of answers that hold for what stands in their own block alone: a set-up, or evidence. */
export function unansweredInPlace(
  findings: readonly Finding[],
  answers: readonly Silence[],
): readonly Finding[] {
  if (answers.length === 0) return findings;
  const keys = new Set(answers.map(({ place, finding }) => `${place.block} ${finding}`));
  return findings.filter(
    ({ name, kind, place }) => isStatement(kind) || !keys.has(`${place.block} ${name}`),
  );
}

/** Two statements that cannot both hold, or one that cannot be read: no reason mends that. */
function isStatement(kind: FindingKind): boolean {
  return kind === 'contradiction' || kind === 'notation';
}

/** What is wrong with answers themselves, each at its own place; `kindOf` knows every name of a finding. */
export function checkSilence(
  answers: readonly Silence[],
  about: string,
  kindOf: (name: string) => FindingKind | undefined,
): readonly Finding[] {
  return answers.flatMap(({ place, finding }) => {
    const kind = kindOf(finding);
    if (kind === undefined) {
      const message = `Nothing that is found here is called ${finding}, so this answers nothing. The name stands in brackets behind a finding.`;
      return [makeFinding(silenceUnknown, { place, message }, about)];
    }
    if (!isStatement(kind)) return [];
    const what = kind === 'contradiction' ? 'a contradiction' : 'a mistake of notation';
    const message = `${finding} is ${what} and cannot be silenced. Put right what ${kind === 'contradiction' ? 'contradicts, or withdraw the reading with a reason' : 'cannot be read'}.`;
    return [makeFinding(silenceRefused, { place, message }, about)];
  });
}
