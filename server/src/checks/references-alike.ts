import type { Check, Found, SetupContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';
import { inNm, microInDbm } from './figures.ts';

const plan = (setup: string) =>
  example(multimodePlan, multimodeLink, setup, multimodeReadings('1  1.12  0.84', '2  1.08  0.80'));

/** Two references of one moment at two wavelengths with the same power, digit for digit. */
function* find({ setup }: SetupContext): Iterable<Found> {
  const taken = setup.events.flatMap((event) => (event.kind === 'taken' ? [event] : []));
  for (const [index, event] of taken.entries()) {
    const twin = taken
      .slice(0, index)
      .find(
        ({ at, power, wavelength }) =>
          at.text === event.at.text && power === event.power && wavelength !== event.wavelength,
      );
    if (!twin) continue;
    yield {
      place: event.place,
      related: [{ place: twin.place, message: `The reference at ${inNm(twin.wavelength)}.` }],
      message: `The references of ${event.at.text} at ${inNm(twin.wavelength)} and ${inNm(event.wavelength)} are both ${microInDbm(event.power)}, and two sources are seldom alike to a hundredth. Look whether one was copied, or taken before the wavelength was changed.`,
      details: { setup: setup.name, power: event.power },
    };
  }
}

export const referencesAlike: Check = {
  name: 'references-alike',
  kind: 'note',
  severity: 'warning',
  title: 'Two wavelengths have the same reference power',
  explanation:
    'Each wavelength has a source of its own, and what the two give into a cord differs by tenths of a decibel at least. The same power at both, digit for digit, is most often a figure that was copied, or a meter that was read twice before its wavelength was changed; every loss at one of the two is then wrong by the difference.',
  source: 'Common practice, no source: powers that repeat to 0.01 dB are asked about.',
  bad: plan(multimodeSetup.replace('-20.31', '-20.05')),
  good: plan(multimodeSetup),
  setup: find,
};
