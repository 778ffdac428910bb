import {
  ErrorCodes,
  type PrepareRenameParams,
  type Range,
  type RenameParams,
  ResponseError,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver-protocol';
import { spelt } from '../../../grammar/src/spelt.ts';
import { feature } from './feature.ts';
import { type NameAt, nameAt, placesOf } from './names.ts';

/**
 * Renames a declaration and every use of it across the plan. Evidence that
 * names it is renamed with it: the reading cells are untouched. What the
 * library declares cannot be renamed, since its text is not the user's.
 */
export const prepareRename = feature<
  PrepareRenameParams,
  { range: Range; placeholder: string } | null
>({
  method: 'textDocument/prepareRename',
  capabilities: { renameProvider: { prepareProvider: true } },
  answer(session, { textDocument, position }) {
    const at = nameAt(session, textDocument.uri, position);
    if (!at || refusal(at)) return null;
    return { range: at.document.rangeOf(at.block, at.use.place.span), placeholder: at.use.name };
  },
});

export const rename = feature<RenameParams, WorkspaceEdit | null>({
  method: 'textDocument/rename',
  capabilities: { renameProvider: { prepareProvider: true } },
  answer(session, { textDocument, position, newName }) {
    const at = nameAt(session, textDocument.uri, position);
    if (!at) return null;
    const because = refusal(at) ?? taken(at, newName);
    if (because) throw new ResponseError(ErrorCodes.InvalidParams, because);
    const written = spelt(newName);
    const changes: Record<string, TextEdit[]> = {};
    const seen = new Set<string>();
    for (const place of placesOf(at, true)) {
      const located = at.plan.locate(place);
      if (!located) continue;
      const key = `${located.uri} ${located.range.start.line}:${located.range.start.character}`;
      if (seen.has(key)) continue;
      seen.add(key);
      const edits = changes[located.uri] ?? [];
      edits.push({ range: located.range, newText: written });
      changes[located.uri] = edits;
    }
    return { changes };
  },
});

function refusal({ thing, use }: NameAt): string | undefined {
  if (!thing) return `${use.name} is declared nowhere, so there is nothing to rename.`;
  return thing.origin === 'library'
    ? `${use.name} stands in the library. Declare it in the plan with like ${use.name} to change it.`
    : undefined;
}

function taken({ plan, use }: NameAt, newName: string): string | undefined {
  const other = newName === use.name ? undefined : plan.find(use.kind, newName);
  return other ? `${newName} is taken: another ${use.kind} has that name.` : undefined;
}
