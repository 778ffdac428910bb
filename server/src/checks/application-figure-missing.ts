import { type Check, doubtsNamed, type Found, type LinkContext } from './check.ts';
import { example, singleModePlan } from './examples.ts';

/** The same lack leaves a limit open at a wavelength that is measured: it is told there. */
function* find(context: LinkContext): Iterable<Found> {
  const limits = doubtsNamed(context, 'limit-missing').map(({ details }) => details.wavelength);
  for (const { place, details } of doubtsNamed(context, 'application-figure-missing')) {
    if (limits.includes(details.wavelength!)) continue;
    const way = details.way === undefined ? '' : ` (${details.way})`;
    yield {
      place,
      details,
      message:
        `Whether ${context.link.name}${way} carries ${details.application} is not known: no figure is stated for ${details.missing}. ` +
        'Nothing else speaks against it. Write the figure with its source where the part is declared, or in the limits.',
    };
  }
}

const fibre = (more: string) => `fibre QUAY-GLASS {
  meets       OS2
  mode        single-mode core 9 um
  attenuation 1310 nm max 0.38 dB/km
${more}}
`;

const service = `application QUAY-CAMERAS {
  count       1
  wavelength  1310 nm A>B
  wavelength  1490 nm B>A
  fibre       OS2 reach 10 km loss 8 dB
}
`;

const link = `link KQ-1 {
  fibres      1..2
  connector   LC
  segment     2 km QUAY-GLASS
  connector   LC
  carries     QUAY-CAMERAS
}
`;

export const applicationFigureMissing: Check = {
  name: 'application-figure-missing',
  kind: 'note',
  severity: 'warning',
  title: 'A figure that the application needs is not stated',
  explanation:
    'The loss of a path is a sum, and one term of it has no figure at the light that the application sends: a fibre without an attenuation there, a part without a greatest loss. The path may carry it well; nothing says so. No figure is invented: the data sheet of the part has it.',
  source: 'Our own rule: no figure is invented where none is stated.',
  bad: example(singleModePlan, fibre(''), service, link),
  good: example(singleModePlan, fibre('  attenuation 1490 nm max 0.3 dB/km\n'), service, link),
  link: find,
};
