import { type Check, noticed } from './check.ts';
import { example, singleModeLink, singleModePlan } from './examples.ts';

const plan = (port: string) =>
  example(
    singleModePlan,
    `component MUX-2 {
  loss        port 1531 wavelength 1531 nm max 1.4 dB
  loss        port 1551 wavelength 1551 nm max 1.4 dB
}
`,
    singleModeLink,
    `channel CAM-1 {
  cord        2 m OS2 crossed
  component   MUX-2 port ${port}
  link        KQ-1 fibres 1..2
  component   MUX-2 port 1551
  cord        2 m OS2 straight
  wavelength  1551 nm
}
`,
  );

export const componentFigureMissing: Check = {
  name: 'component-figure-missing',
  kind: 'doubt',
  severity: 'warning',
  title: 'A part has no loss at the wavelength its channel uses',
  explanation:
    'A part that parts wavelengths loses little where it is made to pass light and much where it is not, so a figure of one wavelength says nothing of another, and none is made up between two. ' +
    'Often the channel takes the wrong port. Without the figure its loss is not known.',
  source: 'Common practice, no source.',
  bad: plan('1531'),
  good: plan('1551'),
  link: noticed('component-figure-missing', (details) => {
    const port = details.has('port') ? ` at port ${details.text('port')}` : '';
    return (
      `${details.text('channel')} uses ${details.text('wavelength')} nm, and ${details.text('component')} has no loss for it${port}, only at ${details.text('has')}. ` +
      'Take the port of that wavelength, or give the part its loss there.'
    );
  }),
};
