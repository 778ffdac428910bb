/** How a set-up put its light into the fibre, in words. */
import type { Setup } from '../model/types.ts';

/** `encircled-flux`; `mandrel 22 mm, 5 turns`; undefined where it is not said. */
export function launchInWords({ launch }: Pick<Setup, 'launch'>): string | undefined {
  if (!launch?.condition) return undefined;
  const { condition, mandrel, aperture } = launch;
  const turns = mandrel?.turns;
  return [
    [condition, mandrel?.written].filter(Boolean).join(' '),
    turns === undefined ? '' : `${turns} ${turns === 1 ? 'turn' : 'turns'}`,
    aperture === undefined ? '' : `aperture ${aperture}`,
  ]
    .filter(Boolean)
    .join(', ');
}
