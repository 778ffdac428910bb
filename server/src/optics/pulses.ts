/** How far a pulse of light reaches along a fibre. */
import { type Micrometres, micrometres } from '../../../grammar/src/quantity/index.ts';

/** Speed of light in vacuum, exact by definition of the metre (SI), in micrometres per picosecond. */
const lightSpeed = 299.792458;

/**
 * Length that a pulse covers on a trace: c·τ ÷ (2·n), since light goes there and
 * back. Two events nearer than that show as one. `pulse` in picoseconds, `index`
 * the group index; textbook.
 */
export function pulseLength(pulse: number, index: number): Micrometres {
  return micrometres(Math.round((lightSpeed * pulse) / (2 * index)));
}
