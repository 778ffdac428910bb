/** Shares of a part's losses from which no spread follows: falling, open at the end, or without a mean. */
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import { sigmaThrough } from '../optics/index.ts';
import type { Declaration } from './declaration.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { entriesOf } from './like.ts';
import { lossShares, partLosses } from './parts.ts';
import type { PlacedEntry, Scope } from './scope.ts';
import type { LossShare } from './types.ts';
import { lossOf, placeOf, shareOf, wavelengthOf } from './values.ts';

const whole = 1_000_000;

/** At most one finding a wavelength; of those taken over from another by `like` only what own lines make of them. */
export function* sharesAstray(declaration: Declaration, scope: Scope): Iterable<ModelFinding> {
  if (!declaration.entries.some(({ word }) => word === W.share)) return;
  const { lines } = entriesOf(declaration, scope);
  const all = lossShares(lines);
  for (const wavelength of new Set(all.map((each) => each.wavelength))) {
    const said = all
      .filter((each) => each.wavelength === wavelength)
      .toSorted((a, b) => a.share - b.share);
    const wrong = wrongIn(said, meanAt(lines, wavelength));
    const place = wrong && placeOfShare(declaration, wrong.at);
    if (wrong && place)
      yield finding('share-unusable', place, {
        share: wrong.at.share / 10_000,
        because: wrong.because,
      });
  }
}

function wrongIn(
  said: readonly LossShare[],
  mean: number | undefined,
): { readonly at: LossShare; readonly because: string } | undefined {
  const falling = said.find(({ loss }, index) => loss < (said[index - 1]?.loss ?? 0));
  if (falling)
    return { at: falling, because: 'a smaller share loses more than it. Correct one of the two' };
  const last = said.at(-1);
  if (!last || last.share === whole) return undefined;
  if (said.length > 1) {
    const because = 'nothing says what the rest lose. Add a share of 100 % with the greatest loss';
    return { at: last, because };
  }
  if (mean === undefined)
    return { at: last, because: 'alone it needs a mean. Write typ in loss, or shares up to 100 %' };
  if (sigmaThrough(mean / 1e6, last.share / whole, last.loss / 1e6) !== undefined) return undefined;
  return {
    at: last,
    because: 'no gamma distribution has it and the mean that typ gives. Write shares up to 100 %',
  };
}

function meanAt(lines: readonly PlacedEntry[], wavelength: LossShare['wavelength']) {
  const figures = partLosses(lines).filter(({ typ }) => typ !== undefined);
  const own = figures.find((loss) => loss.wavelength === wavelength);
  return (own ?? figures.find((loss) => loss.wavelength === undefined))?.typ;
}

/** Its own line; the last of its own lines where the share was taken over. */
function placeOfShare({ entries, block }: Declaration, { share, loss, wavelength }: LossShare) {
  const own = entries.filter(({ word }) => word === W.share);
  const same = own.find(
    ({ slots }) =>
      shareOf(slots.share) === share &&
      lossOf(slots.loss) === loss &&
      wavelengthOf(slots[K.wavelength]) === wavelength,
  );
  const entry = same ?? own.at(-1);
  return entry && placeOf({ block, entry });
}
