import type { Check, Found, LinkContext } from './check.ts';
import { example, farTransceiver, longLink, singleModePlan } from './examples.ts';
import { litWays } from './light-windows.ts';

function* find({ result }: LinkContext): Iterable<Found> {
  const said = new Map<string, Set<string>>();
  for (const { power } of litWays(result)) {
    const { place, mismatches } = power;
    const key = `${place.block}|${place.span.start}`;
    const known = said.get(key) ?? new Set<string>();
    said.set(key, known);
    for (const mismatch of mismatches) {
      if (known.has(mismatch)) continue;
      known.add(mismatch);
      yield {
        place,
        message: `${mismatch}. Name the transceivers of ${power.application}, or what the path really carries.`,
        details: { application: power.application, mismatch },
      };
    }
  }
}

export const transceiverMismatch: Check = {
  name: 'transceiver-mismatch',
  kind: 'note',
  severity: 'error',
  title: 'A transceiver does not fit what it is to carry',
  explanation:
    'A transceiver says what it is made for and which wavelength it sends. Where that is another application, or light of a wavelength that the application does not send in that direction or that the channel has not on its line, the figures of its windows answer another question. Of the two written after `with`, the first is at end A.',
  source:
    'Makers’ data sheets name the applications and the wavelengths of a transceiver; the comparison is common practice, no source.',
  bad: example(
    singleModePlan,
    farTransceiver.replace('  application FAR-LINE', '  application 10GBASE-ER'),
    longLink,
  ),
  good: example(singleModePlan, farTransceiver, longLink),
  link: find,
};
