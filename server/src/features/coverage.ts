import type { Location, TextDocumentPositionParams } from 'vscode-languageserver-protocol';
import type { LinkResult, ReadingResult } from '../evaluate/result.ts';
import type { Place } from '../model/types.ts';
import type { Plan } from '../project/types.ts';
import { feature, subject } from './feature.ts';
import { keyInWords } from './wording.ts';

/** How far the readings at a place have come. */
export interface Coverage {
  /** Link or channel; the plan's title, or `plan`, where the place belongs to none. */
  readonly object: string;
  readonly present: number;
  readonly expected: number;
  /** `what` as in `fibre 7 850 nm B>A`; null when nothing is missing. */
  readonly next: (Location & { readonly what: string }) | null;
}

/** Readings made and expected at the cursor, and where the next one is to be typed. Null outside of plans. */
export const coverage = feature<TextDocumentPositionParams, Coverage | null>({
  method: 'linkwright/coverage',
  capabilities: {},
  answer(session, { textDocument, position }) {
    const found = subject(session, textDocument.uri);
    if (!found?.plan) return null;
    const { document, plan } = found;
    const block = document.blockAt(position);
    const here = block ? plan.objectsIn(block.id).flatMap((name) => resultOf(plan, name)) : [];
    const offset = block ? document.offsetIn(block, position) : 0;
    const holds = (place: Place | undefined) =>
      place?.block === block?.id &&
      place !== undefined &&
      place.span.start <= offset &&
      offset <= place.span.end;
    const result =
      here.find(({ link }) => holds(link.row)) ??
      here.find(({ link }) => holds(link.place)) ??
      here[0];
    if (result) {
      const { present, expected, link } = result;
      return { object: link.name, present, expected, next: nextIn(plan, result) };
    }
    const { totals, title } = plan.result;
    return {
      object: title ?? 'plan',
      present: totals.present,
      expected: totals.expected,
      next: nextInPlan(plan),
    };
  },
});

function resultOf(plan: Plan, name: string): LinkResult[] {
  const result = plan.result.link(name);
  return result ? [result] : [];
}

function nextInPlan(plan: Plan): Coverage['next'] {
  if (plan.result.totals.present >= plan.result.totals.expected) return null;
  for (const name of plan.result.order) {
    const [result] = resultOf(plan, name);
    const next = result ? nextIn(plan, result) : null;
    if (next) return next;
  }
  return null;
}

function nextIn(plan: Plan, result: LinkResult): Coverage['next'] {
  const missing = result.readings.find((each) => each.attempt === null && each.expectedSet);
  if (!missing) return null;
  const located = plan.locate(whereToType(result, missing));
  if (!located) return null;
  const what = `fibre ${missing.fibre} ${keyInWords(missing)}`;
  return { what, uri: located.uri, range: { start: located.range.end, end: located.range.end } };
}

/** The fibre's own row, else the last row of the link's readings, else the link itself. */
function whereToType(result: LinkResult, missing: ReadingResult): Place {
  const made = result.readings.flatMap(({ reading }) => (reading ? [reading] : []));
  const ofFibre = made.findLast(({ fibre }) => fibre === missing.fibre);
  return (ofFibre ?? made.at(-1))?.row ?? result.link.namePlace;
}
