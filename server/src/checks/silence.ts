import type { LinkModel, PlanSettings, Silence } from '../model/types.ts';
import type { Check, Found } from './check.ts';
import { makeFinding } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';
import type { Finding } from './finding.ts';

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

/** Takes out the doubts and notes that someone answered in words; says where an answer is not accepted. */
export function applySilence(
  findings: readonly Finding[],
  link: LinkModel,
  settings: PlanSettings,
  isKnown: (name: string) => boolean,
): readonly Finding[] {
  const answers = [...link.silence, ...settings.silence];
  if (answers.length === 0) return findings;
  const kept: Finding[] = [];
  for (const { place, finding } of link.silence) {
    if (isKnown(finding)) continue;
    const message = `No check is called ${finding}, so this answers nothing. The name stands in brackets behind a finding.`;
    kept.push(makeFinding(silenceUnknown, { place, message }, link.name));
  }
  const refused = new Set<Silence>();
  for (const finding of findings) {
    const answer = answers.find(({ finding: name }) => name === finding.name);
    if (!answer) kept.push(finding);
    else if (finding.kind === 'contradiction') {
      kept.push(finding);
      if (link.silence.includes(answer)) refused.add(answer);
    }
  }
  for (const { place, finding } of refused) {
    const found: Found = {
      place,
      message: `${finding} is a contradiction and cannot be silenced. Put right what contradicts, or withdraw the reading with a reason.`,
    };
    kept.push(makeFinding(silenceRefused, found, link.name));
  }
  return kept;
}
