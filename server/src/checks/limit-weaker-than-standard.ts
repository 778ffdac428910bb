import { exactDb } from '../../../grammar/src/quantity/index.ts';
import type { Check, Found, LinkContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';
import { inDb } from './figures.ts';

/** A loss required of this object for itself that its components' limit always comes before. */
function* find({ link, result }: LinkContext): Iterable<Found> {
  for (const required of link.terms.require) {
    if (required.kind !== 'loss' || required.sufficient || required.statistic !== undefined)
      continue;
    // One that a plan or a table asks of many is no slip where a short link needs less.
    if (required.place.block !== link.place.block || link.row) continue;
    const asked = exactDb(required.loss);
    const limits = result.wavelengths
      .filter(({ wavelength }) => [undefined, wavelength].includes(required.wavelength))
      .flatMap(({ limits: all }) =>
        all.filter(({ kind, beside }) => kind === 'components' && !beside),
      );
    const values = limits.flatMap(({ value }) => (value === undefined ? [] : [value]));
    if (values.length === 0 || !values.every((value) => value < asked)) continue;
    const [greatest] = [...values].sort((a, b) => Number(b - a));
    const name = limits.find(({ value }) => value === greatest)?.name ?? '';
    yield {
      place: required.place,
      message:
        `${inDb(asked, greatest!)} is required, and ${name} allows these parts at most ${inDb(greatest!, asked)}: the smaller one judges, so this line never does. ` +
        'If it is to be enough, write sufficient; else leave it out or ask for less.',
      details: { link: link.name, required: required.loss, limit: Number(greatest) / 1e15 },
    };
  }
}

const plan = (asked: string) =>
  example(
    multimodePlan,
    multimodeLink.replace('}', `  require     loss ${asked}\n}`),
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  );

export const limitWeakerThanStandard: Check = {
  name: 'limit-weaker-than-standard',
  kind: 'note',
  severity: 'note',
  title: 'A required loss is greater than the components allow',
  explanation:
    'Of all limits in force the smallest judges. A required loss above the sum of the components therefore never comes to bear, which whoever wrote it may not know: perhaps a relaxed figure was agreed that was to be enough by itself.',
  source: 'Our own rule of which limit governs; that it is named is common practice, no source.',
  bad: plan('3.0 dB'),
  good: plan('3.0 dB sufficient'),
  link: find,
};
