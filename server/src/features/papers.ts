/** A field sheet or an acceptance record of the plan that a document belongs to, ready to be written where the user says. */
import type { RecordFormat, SheetFormat } from '../report/papers.ts';
import type { Missing } from '../report/record/required.ts';
import { feature, type Session } from './feature.ts';

export interface PaperParams {
  readonly uri: string;
  readonly document:
    | { readonly kind: 'sheet'; readonly format: SheetFormat }
    | { readonly kind: 'record'; readonly format: RecordFormat; readonly issue: boolean };
  readonly page: 'A4' | 'Letter';
  /** Name and version of what writes it. */
  readonly tool: string;
}

/** The document as text or as bytes in base 64; what is missing before it can be issued; or why it cannot be made. */
export type PaperAnswer =
  | { readonly text: string }
  | { readonly base64: string }
  | { readonly missing: readonly Missing[] }
  | { readonly because: string };

export const papers = feature<PaperParams, Promise<PaperAnswer>>({
  method: 'linkwright/paper',
  capabilities: {},
  answer: paperFor,
});

async function paperFor(session: Session, params: PaperParams): Promise<PaperAnswer> {
  const { uri, document, page, tool } = params;
  const plan = session.project.planOf(uri);
  if (!plan) return { because: 'This file belongs to no plan.' };
  const { recordedPlan, stateOf, writtenRecord, writtenSheet } = await import(
    '../report/papers.ts'
  );
  const issue = document.kind === 'record' && document.issue;
  const recorded = recordedPlan(plan, (file) => session.project.document(file)?.text(), {
    tool,
    issue,
  });
  try {
    if (document.kind === 'sheet') {
      return asAnswer(await writtenSheet(recorded, document.format, { page }));
    }
    const state = stateOf(recorded);
    if (issue && state.state !== 'issued') return { missing: state.missing };
    return asAnswer(await writtenRecord(recorded, state, { format: document.format, page }));
  } catch (error) {
    if (document.format !== 'pdf') throw error;
    return {
      because:
        'A PDF cannot be made here, since what sets it is not part of this build. Write the page (html) and print it to a PDF.',
    };
  }
}

function asAnswer(content: string | Uint8Array): PaperAnswer {
  if (typeof content === 'string') return { text: content };
  const binary = Array.from(content, (byte) => String.fromCharCode(byte)).join('');
  return { base64: btoa(binary) };
}
