/** Names that a link or set-up says it had before, and that something else has now. */
import { W } from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration } from './declaration.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import type { Scope } from './scope.ts';
import { namesOf, placeIn } from './values.ts';

/** One finding for each name that brings no evidence along. */
export function* formerNamesAstray(declaration: Declaration, scope: Scope): Iterable<ModelFinding> {
  const { name, block, kind } = declaration;
  if (declaration.was.length === 0) return;
  for (const entry of declaration.entries) {
    if (entry.word !== W.was) continue;
    for (const value of Object.values(entry.slots).flat()) {
      for (const former of namesOf([value])) {
        const holder = scope.find(kind === W.setup ? W.setup : 'object', former);
        if (!holder || (holder === declaration && name !== former)) continue;
        const of = holder === declaration ? 'own' : holder.name === former ? 'living' : 'claimed';
        const says =
          of === 'living' ? `${former} is declared here.` : `${holder.name} had that name as well.`;
        yield finding(
          'former-name-in-use',
          placeIn(block, value.span),
          { name, former, of, holder: holder.name },
          of === 'own' ? {} : { related: [{ place: holder.namePlace, message: says }] },
        );
      }
    }
  }
}
