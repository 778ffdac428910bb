import type { PowerResult } from '../evaluate/result.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { example, farTransceiver, longLink, singleModePlan } from './examples.ts';
import { litWays } from './light-windows.ts';

function* find({ result }: LinkContext): Iterable<Found> {
  const lines = new Map<string, { readonly power: PowerResult; readonly said: Set<string> }>();
  for (const { power } of litWays(result)) {
    const key = `${power.place.block}|${power.place.span.start}`;
    const line = lines.get(key) ?? { power, said: new Set<string>() };
    lines.set(key, line);
    for (const mismatch of power.mismatches) line.said.add(mismatch);
  }
  for (const { power, said } of lines.values()) {
    if (said.size === 0) continue;
    const all = [...said].join('; ');
    yield {
      place: power.place,
      message: `${all}. Name the transceivers of ${power.application}, the one at end A first, or what the path really carries.`,
      details: { application: power.application, mismatch: all },
    };
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
