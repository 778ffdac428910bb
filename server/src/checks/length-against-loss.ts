import { exactFromNumber, picometres, toMetres } from '../../../grammar/src/quantity/index.ts';
import type { ReadingResult, WavelengthResult } from '../evaluate/result.ts';
import type { Check, Found, LinkContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';
import { inDb, inMetres, metresInWords } from './figures.ts';

/** The two wavelengths at which multimode fibre is tested. */
const SHORT = picometres(850_000);
const LONG = picometres(1_300_000);

/** Fewer fibres than this are no batch; nearer than the others is noise. Common practice, no source. */
const FEWEST = 4;
const SHARE = 0.3;
const METRES = 100;
const DECIBELS = 0.2;

const plan = (...rows: readonly string[]) =>
  example(
    multimodePlan,
    multimodeLink.replace('1..2', '1..4'),
    multimodeSetup,
    multimodeReadings(...rows),
  );

/** dB that the fibre of the path usually loses at one wavelength. */
function fibreLoss(at: WavelengthResult | undefined): number | undefined {
  if (at?.expected === undefined) return undefined;
  const terms = at.expectedTerms.filter(({ role }) => role === 'fibre');
  // Where two kinds of fibre meet, the step between them differs by wavelength as well.
  if (new Set(terms.map(({ what }) => what)).size !== 1) return undefined;
  return terms.reduce((sum, { total }) => sum + Number(total) / 1e15, 0);
}

/** Loss at 850 nm less that at 1300 nm of each fibre and direction that has both, in dB. */
function differences(readings: readonly ReadingResult[]): readonly number[] {
  const lossOf = ({ loss, verdict }: ReadingResult) => (verdict === 'invalid' ? undefined : loss);
  return readings.flatMap((short) => {
    if (short.wavelength !== SHORT) return [];
    const long = readings.find(
      ({ wavelength, direction }) => wavelength === LONG && direction === short.direction,
    );
    const [more, less] = [lossOf(short), long && lossOf(long)];
    return more === undefined || less === undefined ? [] : [(more - less) / 1e6];
  });
}

/** Joints lose alike at both wavelengths, so that what differs is the fibre: its length follows. */
function* find({ link, result }: LinkContext): Iterable<Found> {
  const { length } = result;
  if (link.mode !== 'multimode' || length === undefined || link.ways.length > 0) return;
  const [short, long] = [SHORT, LONG].map((wavelength) =>
    fibreLoss(result.wavelengths.find((one) => one.wavelength === wavelength)),
  );
  if (short === undefined || long === undefined || short <= long) return;
  const measured = result.fibres.map(({ current }) => differences(current));
  if (measured.filter((each) => each.length > 0).length < FEWEST) return;
  const median = middle(measured.flat());
  const expected = short - long;
  // A difference the wrong way round is no length.
  if (median <= 0 || Math.abs(median - expected) < DECIBELS) return;
  const metres = toMetres(length);
  const estimate = (metres * median) / expected;
  if (Math.abs(estimate - metres) <= Math.max(SHARE * metres, METRES)) return;
  yield {
    place: link.namePlace,
    message: `850 nm lost ${inDb(exactFromNumber(median))} more than 1300 nm on ${link.name} (median), as some ${metresInWords(Math.round(estimate))} of its fibre do, and ${inMetres(length)} are declared. Look at the length and its unit, at the fibre, and whether both columns are of this link.`,
    details: { link: link.name, estimate: Math.round(estimate), declared: metres },
  };
}

function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

export const lengthAgainstLoss: Check = {
  name: 'length-against-loss',
  kind: 'note',
  severity: 'note',
  title: 'The losses at two wavelengths speak of another length',
  explanation:
    'Connectors and splices lose nearly the same at 850 and 1300 nm, so the difference between the two readings is the fibre’s, and a length follows from it: (loss at 850 − loss at 1300) / (rate at 850 − rate at 1300). It is no measurement of length. But where the median of a batch speaks of far more or far less fibre than is declared, a length was mistyped, a unit exchanged, or another cable measured.',
  source:
    'Attenuation of multimode categories (ISO/IEC 11801-1, IEC 60793-2-10); the bounds of 30 % and 100 m are common practice, no source.',
  bad: plan('1  1.85  0.84', '2  1.82  0.80', '3  1.84  0.83', '4  1.86  0.85'),
  good: plan('1  1.12  0.84', '2  1.08  0.80', '3  1.10  0.82', '4  1.13  0.85'),
  link: find,
};
