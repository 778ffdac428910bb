import { strongLight as harmful } from '../evaluate/thresholds.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { example, farTransceiver, longLink, singleModePlan } from './examples.ts';
import { microInDbm } from './figures.ts';

function* find({ link }: LinkContext): Iterable<Found> {
  for (const { modules, place } of link.terms.carries) {
    const strong = modules.find(({ output }) => (output?.max ?? -Infinity) > harmful);
    if (!strong?.output) continue;
    yield {
      place,
      message:
        `${strong.name} sends up to ${microInDbm(strong.output.max)}, more than ${microInDbm(harmful)}. ` +
        'Switch it off before any plug is opened, clean every end face before it is lit, and look up the hazard level of the place.',
      details: { link: link.name, transceiver: strong.name, power: strong.output.max },
    };
  }
}

export const strongLight: Check = {
  name: 'strong-light',
  kind: 'note',
  severity: 'warning',
  title: 'Light in this path is strong enough to harm',
  explanation:
    'Above some 10 mW in a fibre the invisible light of an open plug harms an eye within a moment, and dirt on an end face burns in. Such places have a hazard level, marks and a way of shutting down: where anybody may come it is 2M at most, 3R behind a restriction, 3B under control; above 1400 nm level 1M ends at 136 mW (+21.34 dBm) in all. Never look into a plug or a fibre; switch the light off, and see that it is off, before anything is opened. The rules of the place and licensed practice decide.',
  source:
    'IEC 60825-2: levels and places as the Finnish radiation authority’s page on lasers in optic cables gives them, 136 mW as a platform’s hardware guide does; the bound of +10 dBm is common practice, no source.',
  bad: example(
    singleModePlan,
    farTransceiver
      .replace('output      min 0 dBm max 4 dBm', 'output      min 9 dBm max 12 dBm')
      .replace('max -7 dBm', 'max 2 dBm'),
    longLink,
  ),
  good: example(singleModePlan, farTransceiver, longLink),
  link: find,
};
