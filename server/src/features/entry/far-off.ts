/** A loss far from where those beside it lie: a point left out, a digit too many, another fibre. */
import {
  type ExactDb,
  exactDb,
  type MicroDb,
  printRounded,
  subtractDb,
} from '../../../../grammar/src/quantity/index.ts';
import type { LinkResult, ReadingResult } from '../../evaluate/index.ts';
import { farFrom, farMates } from '../../evaluate/thresholds.ts';
import { median } from '../../optics/index.ts';
import { judgedAt } from '../../report/strip.ts';
import { keyInWords } from '../wording.ts';

/** A sentence, where the loss is more than `farFrom` away from its mates, or from what its parts usually lose. */
export function farOff(
  result: LinkResult,
  reading: ReadingResult,
  place: string,
): string | undefined {
  const { loss } = reading;
  if (loss === undefined) return undefined;
  const mates = matesOf(result, reading);
  const middle = mates.length < farMates ? undefined : median(mates);
  const beside =
    middle === undefined
      ? judgedAt(result, reading.wavelength, reading)?.expected
      : exactDb(middle);
  if (beside === undefined || !isFar(exactDb(loss), beside)) return undefined;
  const where = `${place}, ${keyInWords(reading)}`;
  const others =
    middle === undefined
      ? `these parts usually lose ${dB(beside)} together`
      : `the median of ${mates.length} other fibres is ${dB(beside)}`;
  return `${where}: ${dB(exactDb(loss))}, and ${others}. Look at the point and at the number of the fibre.`;
}

/** Losses of other fibres at the same key; ends of a tree lie apart by themselves. */
function matesOf({ link, readings }: LinkResult, own: ReadingResult): readonly MicroDb[] {
  if (link.ways.length > 0) return [];
  return readings
    .filter(
      ({ current, fibre, wavelength, direction }) =>
        current &&
        fibre !== own.fibre &&
        wavelength === own.wavelength &&
        direction === own.direction,
    )
    .flatMap(({ verdict, loss }) => (verdict === 'invalid' || loss === undefined ? [] : [loss]));
}

/** By more than the bound, and by more than half of what it lies beside: long paths scatter more. */
function isFar(loss: ExactDb, beside: ExactDb): boolean {
  const away = subtractDb(loss, beside);
  const size = away < 0n ? -away : away;
  return size > exactDb(farFrom) && 2n * size > beside;
}

function dB(value: ExactDb): string {
  return `${printRounded(value, 2)} dB`;
}
