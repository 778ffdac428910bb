import type { Position } from 'vscode-languageserver-protocol';
import { type Answer, answerTo, type Cursor } from '../report/answer.ts';
import { standingAt } from '../report/coverage.ts';
import { type Question, readQuestion } from '../report/question.ts';
import type { TextPlace } from '../report/view.ts';
import { placeToMake } from './coverage.ts';
import { feature, type Session, subject } from './feature.ts';

/** What the results view asks about the plan that a document belongs to. */
export interface ResultsParams {
  readonly uri: string;
  /** A question of the view; anything else is answered with null. */
  readonly question: unknown;
}

/** Answers the results view, in slices; `linkwright/resultsChanged` says when to ask again. */
export const results = feature<ResultsParams, Answer | null>({
  method: 'linkwright/results',
  capabilities: {},
  answer(session, { uri, question }) {
    const asked = readQuestion(question);
    const plan = session.project.planOf(uri);
    if (!asked || !plan) return null;
    if (asked.ask === 'place') return placeOf(session, plan, asked);
    return answerTo({ plan, display: session.settings }, asked, cursorOf(session, asked));
  },
});

/** The cell of a reading that was made; of one to make the `-` that stands for it. */
function placeOf(
  session: Session,
  plan: NonNullable<ReturnType<Session['project']['planOf']>>,
  { object, fibre, wavelength, direction }: Extract<Question, { ask: 'place' }>,
): TextPlace | null {
  const result = plan.result.link(object);
  const found = standingAt(result, fibre, wavelength, direction);
  if (!result || !found) return null;
  const place = found.reading
    ? plan.locate(found.reading.place)
    : placeToMake(session, plan, result, found);
  return place ?? null;
}

/** The block of the cursor and what is declared or tested in it. */
function cursorOf(session: Session, question: Question): Cursor | undefined {
  if (question.ask !== 'cursor') return undefined;
  const found = subject(session, question.uri);
  const position: Position = question.position;
  const block = found?.document.blockAt(position);
  if (!found?.plan || !block) return undefined;
  return {
    objects: found.plan.objectsIn(block.id),
    block: block.id,
    offset: found.document.offsetIn(block, position),
  };
}
