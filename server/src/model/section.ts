/**
 * A cable as something that is tested by itself: all its fibres from one bare
 * end to the other, its reels and the splices between them. What a link adds
 * (pigtails, pairs) is not in it, so that its limits are of fibre and splices
 * alone; what a contract or an application asks of links is not asked of it.
 */
import { W } from '../../../grammar/src/vocabulary/index.ts';
import { buildCable } from './cable.ts';
import { wholeCable } from './cable-segment.ts';
import type { Declaration } from './declaration.ts';
import type { Built } from './finding.ts';
import { keeping } from './kept.ts';
import { entriesOf } from './like.ts';
import type { Scope } from './scope.ts';
import { buildTerms, silencesOf } from './terms.ts';
import type { LinkModel } from './types.ts';

/** What a plan asks of its links, and not of a cable by itself: ends are bare, and joined as they come. */
const notAsked = { reference: undefined, require: [], carries: [] };

/** Nothing is expected of it: what is read of it is judged. */
export const buildSection = keeping((declaration: Declaration, scope: Scope): Built<LinkModel> => {
  const cable = buildCable(declaration, scope).model;
  const { lines } = entriesOf(declaration, scope);
  const own = lines.filter(({ entry }) => entry.word === W.silence);
  const { fibre } = cable;
  const light = { mode: fibre?.mode, fibres: fibre ? [fibre] : [] };
  return {
    model: {
      kind: 'section',
      name: cable.name,
      was: declaration.was,
      place: declaration.place,
      namePlace: declaration.namePlace,
      from: [],
      to: [],
      fibres: Array.from({ length: cable.count }, (_, index) => index + 1),
      spare: [],
      dead: [],
      path: wholeCable(cable),
      ways: [],
      repairs: cable.repairs,
      terms: { ...buildTerms([own], true, light, scope), ...notAsked },
      silence: silencesOf(own),
      notes: cable.notes,
      mode: fibre?.mode,
    },
    findings: [],
  };
});
