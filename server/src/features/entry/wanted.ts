/** Which readings of an object somebody is to type, and in which order. */
import type { Picometres } from '../../../../grammar/src/quantity/index.ts';
import type { LinkResult, ReadingResult, Verdict } from '../../evaluate/result.ts';
import type { Direction } from '../../model/types.ts';

/** Fibre, wavelength and direction of a reading that is to be made. */
export interface WantedKey {
  readonly fibre: number;
  readonly wavelength: Picometres;
  readonly direction: Direction;
}

export interface Wanted {
  readonly keys: readonly WantedKey[];
  /** Nothing is missing: these have been read and want to be read again. */
  readonly again: boolean;
}

/** Verdicts that no later step mends: the fibre is to be put right and read again. */
const toReadAgain: ReadonlySet<Verdict> = new Set(['fail', 'marginal-fail', 'invalid', 'stale']);

/**
 * What is expected and not there, fibre by fibre, in order of wavelength, A>B before B>A; where
 * nothing is missing, what failed, was invalid or is older than work on its fibre.
 */
export function wantedOf({ readings }: Pick<LinkResult, 'readings'>): Wanted {
  const missing = readings.filter(({ attempt, expectedSet }) => attempt === null && expectedSet);
  if (missing.length > 0) return { keys: missing.flatMap(keyOf), again: false };
  const again = readings.filter(
    ({ current, expectedSet, verdict }) => current && expectedSet && toReadAgain.has(verdict),
  );
  return { keys: again.flatMap(keyOf), again: true };
}

function keyOf({ fibre, wavelength, direction }: ReadingResult): readonly WantedKey[] {
  return direction ? [{ fibre, wavelength, direction }] : [];
}

export function sameKey(
  key: WantedKey,
  other: {
    readonly fibre: number;
    readonly wavelength: Picometres;
    readonly direction?: Direction;
  },
): boolean {
  return (
    key.fibre === other.fibre &&
    key.wavelength === other.wavelength &&
    key.direction === other.direction
  );
}
