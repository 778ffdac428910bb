import type { Check, Found, LinkContext } from './check.ts';
import { neighbours } from './core-size-mismatch.ts';

function* find({ link }: LinkContext): Iterable<Found> {
  for (const { before, beforePlace, after, place } of neighbours(link)) {
    if (!before.mode || !after.mode || before.mode === after.mode) continue;
    yield {
      place,
      message:
        `${after.name} is ${after.mode} and ${before.name} before it is ${before.mode}. ` +
        `Light from the wider core is almost all lost at such a joint. Look at which of the two the cable really is.`,
      related: [{ place: beforePlace, message: `${before.name}, ${before.mode}` }],
      details: { before: before.name, after: after.name },
    };
  }
}

export const singleModeMultimodeJoint: Check = {
  name: 'single-mode-multimode-joint',
  kind: 'doubt',
  severity: 'error',
  title: 'Single-mode and multimode fibre are joined',
  explanation:
    'A multimode core is five to seven times as wide as a single-mode core. Light going into the narrow one loses some 17 to 20 dB. ' +
    'Nearly always one of the two fibre types is written wrongly, or the wrong cord was taken from the box. ' +
    'A mode-conditioning cord is the one deliberate exception: silence the doubt with that reason.',
  source:
    'Loss of 17 to 20 dB from multimode into single-mode: published trade tables (read in secondary texts).',
  bad: `plan "Mixed" {
  limits      TIA-568.3-E
  measure     1310 nm for single-mode
  measure     850 nm for multimode
  reference   one-cord
  uncertainty 0.20 dB
}

link KQ-1 {
  fibres      1..2
  connector   LC
  segment     90 m OS2
  connector   LC
  segment     20 m OM4
  connector   LC
}
`,
  good: `plan "Single-mode throughout" {
  limits      TIA-568.3-E
  measure     1310 nm for single-mode
  reference   one-cord
  uncertainty 0.20 dB
}

link KQ-1 {
  fibres      1..2
  connector   LC
  segment     90 m OS2
  connector   LC
  segment     20 m OS2
  connector   LC
}
`,
  link: find,
};
