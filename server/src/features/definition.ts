import type { DefinitionParams, LocationLink } from 'vscode-languageserver-protocol';
import type { Place } from '../model/types.ts';
import { feature } from './feature.ts';
import { type NameAt, nameAt } from './names.ts';

/** Where a name is declared, in the plan or in the library; from the declaration itself, itself. */
export const definition = feature<DefinitionParams, LocationLink[] | null>({
  method: 'textDocument/definition',
  capabilities: { definitionProvider: true },
  answer(session, { textDocument, position }) {
    const at = nameAt(session, textDocument.uri, position);
    const places = at && declarationOf(at);
    const whole = places && at.plan.locate(places.whole);
    const name = places && at.plan.locate(places.name);
    if (!at || !whole || !name) return null;
    return [
      {
        originSelectionRange: at.document.rangeOf(at.block, at.use.place.span),
        targetUri: whole.uri,
        targetRange: whole.range,
        targetSelectionRange: name.range,
      },
    ];
  },
});

function declarationOf(at: NameAt): { readonly whole: Place; readonly name: Place } | undefined {
  if (at.thing) return { whole: at.thing.place, name: at.thing.namePlace };
  const cord = at.use.kind === 'cord' ? cordOf(at) : undefined;
  return cord && { whole: cord, name: cord };
}

/** A test cord is known within its set-up alone; the last line of its name is the one in use. */
function cordOf({ plan, block, use }: NameAt): Place | undefined {
  const owner = plan.namesIn(block.id).find(({ kind, declares }) => declares && kind === 'setup');
  return owner && plan.setup(owner.name)?.cords.findLast(({ name }) => name === use.name)?.place;
}
