import { type Check, noticed } from './check.ts';
import { example, singleModeLink, singleModePlan } from './examples.ts';

const mux = `component MUX-2 {
  loss        port 1531 wavelength 1531 nm max 1.4 dB
  loss        port 1551 wavelength 1551 nm max 1.4 dB
}
`;

const channel = (name: string, wavelength: string) => `channel ${name} {
  cord        2 m OS2 crossed
  component   MUX-2 port ${wavelength}
  link        KQ-1 fibres 1..2
  component   MUX-2 port ${wavelength}
  cord        2 m OS2 straight
  wavelength  ${wavelength} nm
}
`;

export const wavelengthShared: Check = {
  name: 'wavelength-shared',
  kind: 'contradiction',
  severity: 'error',
  title: 'Two channels use one fibre at the same wavelength',
  explanation:
    'Channels may share the fibres of a line if each has a wavelength of its own, which the parts at its ends put together and take apart. Two at one wavelength disturb each other; a channel on a shared line that does not say its wavelength cannot be told from the others.',
  source:
    'Wavelength grids of ITU-T G.694.1 and G.694.2: one channel a wavelength; common practice for the rest.',
  bad: example(
    singleModePlan,
    mux,
    singleModeLink,
    channel('CAM-1', '1551'),
    channel('CAM-2', '1551'),
  ),
  good: example(
    singleModePlan,
    mux,
    singleModeLink,
    channel('CAM-1', '1551'),
    channel('CAM-2', '1531'),
  ),
  link: noticed('wavelength-shared', (details) =>
    details.has('unsaid')
      ? `${details.text('channel')} and ${details.text('other')} both take fibre ${details.text('fibre')} of ${details.text('link')}, and ${details.text('unsaid')} does not say at which wavelength. Write wavelength in both, or take other fibres.`
      : `${details.text('channel')} and ${details.text('other')} both take fibre ${details.text('fibre')} of ${details.text('link')} at ${details.text('wavelength')} nm. Give one of them another wavelength, or other fibres.`,
  ),
};
