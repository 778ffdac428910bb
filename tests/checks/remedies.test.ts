/** What a sentence tells somebody to do fits what the plan says already, and its digits fit the verdict. */
import { describe, expect, test } from 'vitest';
import {
  example,
  farTransceiver,
  longLink,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
  singleModeLink,
  singleModePlan,
} from '../../server/src/checks/examples.ts';
import { judge } from '../support/judge.ts';

const messages = (name: string, ...blocks: string[]) =>
  judge(example(...blocks))
    .findings.filter((finding) => finding.name === name)
    .map(({ message }) => message);

const readings = multimodeReadings('1  1.12  0.84', '2  1.08  0.80');

describe('the grade of the test cords', () => {
  const plan = multimodePlan.replace('TIA-568.3-E', 'ISO-11801-1');

  test('is asked for where no word of it stands', () => {
    const cords = multimodeSetup.replace(/ reference-grade/gu, '');
    const [message] = messages('cord-grade-missing', plan, multimodeLink, cords, readings);
    expect(message).toMatch(
      /is not said.*Write reference-grade or ordinary at the cords of MM-1\.$/u,
    );
  });

  test('is not asked for again where it is said, and is the wrong one', () => {
    const cords = multimodeSetup.replace(/ reference-grade/gu, ' ordinary');
    const [message] = messages('cord-grade-missing', plan, multimodeLink, cords, readings);
    expect(message).toMatch(
      /are ordinary\. Measure again with cords of reference grade, or judge by limits whose policy is counting\.$/u,
    );
  });
});

describe('the band of a retest', () => {
  // MIL-STD-2042-6B(SH) method 6E1: from 1.0 dB over the limit on, reject.
  const plan = multimodePlan.replace('TIA-568.3-E', 'MIL-STD-2042-6');
  const simple = plan.replace('  zone', '  decision    simple\n  zone');
  const link = multimodeLink.replace(/segment +.*/u, 'segment     100 m OM4');
  // 4.5 dB/km × 0.1 km + 2 × 0.75 dB = 1.95 dB at 850 nm.
  const told = (loss: string) =>
    messages('over-limit', simple, link, multimodeSetup, multimodeReadings(`1  ${loss}  0.84`));

  test('is said with as many places as keep the excess on its side of it', () => {
    expect(told('2.949')).toEqual([
      'Fibre 1 at 850 nm A>B lost 2.949 dB, 0.999 dB over the limit of 1.95 dB (components, MIL-STD-2042-6). By MIL-STD-2042-6: clean and retest; from 1.00 dB over the limit on it is rejected.',
    ]);
    expect(told('2.95')).toEqual([
      'Fibre 1 at 850 nm A>B lost 2.95 dB, 1.00 dB over the limit of 1.95 dB (components, MIL-STD-2042-6). By MIL-STD-2042-6: reject. From 1.00 dB over the limit on no retest is allowed: make the ends or the joint again, or replace it.',
    ]);
  });
});

test('a fibre that measures too short may end early; one that measures too long has a piece put in', () => {
  const measured = (metres: number) =>
    messages(
      'length-differs',
      multimodePlan,
      multimodeLink,
      multimodeSetup,
      readings
        .replace(/columns .*/u, (columns) => `${columns}, length in m`)
        .replace('1  1.12  0.84', `1  1.12  0.84  ${metres}`)
        .replace('2  1.08  0.80', '2  1.08  0.80  181'),
    );
  expect(measured(90)[0]).toMatch(/50 % under the 180 m declared\..*ends early, at a break/u);
  expect(measured(270)[0]).toMatch(/50 % over the 180 m declared\..*put in without record/u);
});

test('a spread of light is said to a hundredth, and a small excess is never said to be none', () => {
  const plan = (bears: string) =>
    messages(
      'dispersion-exceeded',
      singleModePlan,
      farTransceiver.replace('1600 ps/nm', bears),
      longLink,
    )[0];
  expect(plan('400 ps/nm')).toMatch(
    /by up to \d+(\.\d{1,2})? ps\/nm, \d+(\.\d{1,2})? ps\/nm more than/u,
  );
});

test('a least loss that leaves out fibres says which', () => {
  const application = `application LINE {
  count       2
  wavelength  1310 nm
  fibre       OS2 loss 24 dB min 5 dB
}
`;
  const of = (fibre: string) =>
    messages(
      'application-loss-too-low',
      singleModePlan,
      application,
      fibre,
      singleModeLink.replace('}', '  carries     LINE\n}'),
    );
  expect(of('')).toEqual([
    'LINE asks for 5.00 dB at least, and the path may lose as little as 0.00 dB, 5.00 dB too little. Put in an attenuator, or another splitter. OS2 states no least attenuation and counts as nothing lost: a known `min` narrows this.',
  ]);
  // 0.8 km × 0.30 dB/km = 0.24 dB.
  const own =
    'fibre OS2 {\n  like        OS2\n  attenuation 1310 nm min 0.30 dB/km max 0.4 dB/km\n}\n';
  expect(of(own)).toEqual([
    'LINE asks for 5.00 dB at least, and the path may lose as little as 0.24 dB, 4.76 dB too little. Put in an attenuator, or another splitter.',
  ]);
});

test('a year that is wrong is told as that, and not as a calibration that ended', () => {
  const late = readings.replace(/2026-/u, '2027-');
  const names = judge(example(multimodePlan, multimodeLink, multimodeSetup, late)).findings.map(
    ({ name }) => name,
  );
  expect(names).toContain('reading-in-future');
  expect(names).not.toContain('calibration-expired');
});
