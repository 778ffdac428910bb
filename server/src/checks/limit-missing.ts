import { type Check, noticed } from './check.ts';
import { example, singleModeLink, singleModePlan } from './examples.ts';

export const limitMissing: Check = {
  name: 'limit-missing',
  kind: 'doubt',
  severity: 'warning',
  title: 'A limit in force cannot be built',
  explanation:
    'A limit is a sum, and a term of it has no figure: a fibre without a rate at this wavelength, a part without an allowance, a length that is not known. A missing limit is “not judged”, never a pass.',
  source: 'Our own rule: no figure is invented where an edition has none.',
  bad: example(singleModePlan.replace('1310 nm, 1550 nm', '1490 nm'), singleModeLink),
  good: example(singleModePlan, singleModeLink),
  link: noticed(
    'limit-missing',
    (d) =>
      `At ${d.text('wavelength')} nm${d.has('direction') ? ` ${d.text('direction')}` : ''} ${d.text('limitName')} gives no limit: ${d.text('because')}. Readings there are not judged by it.`,
  ),
};
