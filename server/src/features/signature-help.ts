import {
  MarkupKind,
  type ParameterInformation,
  type SignatureHelp,
  type SignatureHelpParams,
} from 'vscode-languageserver-protocol';
import { contextAt } from '../../../grammar/src/binding.ts';
import {
  type Form,
  type Slot,
  signature,
  slotLabel,
} from '../../../grammar/src/vocabulary/index.ts';
import { feature, subject } from './feature.ts';

/** What the word of the line still takes, the next argument marked. */
export const signatureHelp = feature<SignatureHelpParams, SignatureHelp | null>({
  method: 'textDocument/signatureHelp',
  capabilities: { signatureHelpProvider: { triggerCharacters: [' '], retriggerCharacters: [','] } },
  answer(session, { textDocument, position }) {
    const found = subject(session, textDocument.uri);
    const block = found?.document.blockAt(position);
    if (!found || !block) return null;
    const at = contextAt(block.bound().tree, block.text, found.document.offsetIn(block, position));
    const { word } = at;
    if (!word) return null;
    const active = Math.max(0, at.form ? word.forms.indexOf(at.form) : 0);
    return {
      signatures: word.forms.map((form) => {
        const label = signature(word, form);
        return {
          label,
          documentation: { kind: MarkupKind.Markdown, value: word.doc },
          parameters: parametersOf(form, label),
        };
      }),
      activeSignature: active,
      activeParameter: next(word.forms[active], at.expected),
    };
  },
});

function parametersOf(form: Form, label: string): ParameterInformation[] {
  let from = 0;
  return form.slots.map((slot) => {
    const text = slotLabel(slot);
    const start = label.indexOf(text, from);
    from = start + text.length;
    return { label: [start, from] as [number, number] };
  });
}

function next(form: Form | undefined, expected: readonly Slot[]): number | null {
  const index = form?.slots.findIndex((slot) => slot.name === expected[0]?.name) ?? -1;
  return index < 0 ? null : index;
}
