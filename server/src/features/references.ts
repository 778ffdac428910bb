import type { Location, ReferenceParams } from 'vscode-languageserver-protocol';
import { feature } from './feature.ts';
import { nameAt, placesOf } from './names.ts';

/** Every place in the plan where a name is used, its evidence included. */
export const references = feature<ReferenceParams, Location[] | null>({
  method: 'textDocument/references',
  capabilities: { referencesProvider: true },
  answer(session, { textDocument, position, context }) {
    const at = nameAt(session, textDocument.uri, position);
    if (!at) return null;
    return placesOf(at, context.includeDeclaration).flatMap((place) => at.plan.locate(place) ?? []);
  },
});
