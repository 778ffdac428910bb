import type { DefinitionParams, LocationLink } from 'vscode-languageserver-protocol';
import { feature } from './feature.ts';
import { nameAt } from './names.ts';

/** Where a name is declared, in the plan or in the library; from the declaration itself, itself. */
export const definition = feature<DefinitionParams, LocationLink[] | null>({
  method: 'textDocument/definition',
  capabilities: { definitionProvider: true },
  answer(session, { textDocument, position }) {
    const at = nameAt(session, textDocument.uri, position);
    const whole = at?.thing && at.plan.locate(at.thing.place);
    const name = at?.thing && at.plan.locate(at.thing.namePlace);
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
