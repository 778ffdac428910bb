import { type Check, doubtsNamed, type Found, type LinkContext } from './check.ts';
import { example, singleModeLink, singleModePlan } from './examples.ts';

/** One finding per limit and cause, whatever the number of wavelengths it concerns. */
function* find(context: LinkContext): Iterable<Found> {
  const causes = new Map<
    string,
    { found: Omit<Found, 'message'>; name: string; because: string; at: string[] }
  >();
  for (const { place, details } of doubtsNamed(context, 'limit-missing')) {
    const name = String(details.limitName);
    // The wavelength is said once, for all that lack the same.
    const because = String(details.because).replace(` at ${details.wavelength} nm`, '');
    const at = `${details.wavelength} nm${details.direction ? ` ${details.direction}` : ''}`;
    const known = causes.get(`${name} ${because}`);
    if (known) known.at.push(at);
    else causes.set(`${name} ${because}`, { found: { place, details }, name, because, at: [at] });
  }
  for (const { found, name, because, at } of causes.values()) {
    yield {
      ...found,
      message: `${name} gives no limit at ${at.join(', ')}: ${because}. Readings there are not judged by it.`,
    };
  }
}

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
  link: find,
};
