/** A fault of the tool itself, said calmly at the place it concerns. */
import type { Finding } from '../checks/finding.ts';
import type { Place } from '../model/types.ts';

export function faultFinding(place: Place, error: unknown): Finding {
  const reason = error instanceof Error ? error.message : String(error);
  return {
    name: 'not-worked-out',
    kind: 'note',
    severity: 'warning',
    place,
    message: `This could not be worked out, through a fault in the tool (${reason}). The text is untouched and the rest of the plan is judged as usual; please report it with this declaration.`,
    related: [],
    details: { reason },
  };
}
