import type {
  Location,
  Position,
  TextDocumentPositionParams,
} from 'vscode-languageserver-protocol';
import type { ExactDb } from '../../../grammar/src/quantity/index.ts';
import type { LinkResult, ReadingResult } from '../evaluate/result.ts';
import type { Place, ReadingCell } from '../model/types.ts';
import { placeName } from '../model/ways.ts';
import type { Located, Plan, Range } from '../project/types.ts';
import { blankFor } from './entry/blanks.ts';
import { feature, type Session, subject } from './feature.ts';
import { keyInWords, signed } from './wording.ts';

/** How far the readings at a place have come. */
export interface Coverage {
  /** Link or channel; the plan's title, or `plan`, where the place belongs to none. */
  readonly object: string;
  readonly present: number;
  readonly expected: number;
  /** The least of its readings: `+0.42 dB`, of a plan with the link, `−0.27 dB at KQ-1`; null where none is judged. */
  readonly margin: string | null;
  /** `what` as in `fibre 7 850 nm B>A`; null when nothing is missing. */
  readonly next: (Location & { readonly what: string }) | null;
}

export interface CoverageParams extends TextDocumentPositionParams {
  /** Somebody goes to the next one: its cell is looked for in all readings, which a moving cursor does not wait for. */
  readonly go?: boolean;
}

/** Readings made and expected at the cursor, and where the next one is to be typed. Null outside of plans. */
export const coverage = feature<CoverageParams, Coverage | null>({
  method: 'linkwright/coverage',
  capabilities: {},
  answer(session, { textDocument, position, go = false }) {
    const found = resultAt(session, textDocument.uri, position);
    if (!found) return null;
    const { plan, result } = found;
    if (result) {
      const { present, expected, link, worstMargin } = result;
      return {
        object: link.name,
        present,
        expected,
        margin: marginOf(session, worstMargin?.margin),
        next: nextIn(session, plan, result, go),
      };
    }
    const { totals, title } = plan.result;
    return {
      object: title ?? 'plan',
      present: totals.present,
      expected: totals.expected,
      margin: marginOf(session, totals.worst?.margin, totals.worst?.link),
      next: nextInPlan(session, plan, go),
    };
  },
});

function marginOf(
  { settings }: Session,
  margin: ExactDb | undefined,
  link?: string,
): Coverage['margin'] {
  if (margin === undefined) return null;
  return `${signed(margin, settings.precision)} dB${link === undefined ? '' : ` at ${link}`}`;
}

/** The plan of a file and, of what is judged there, the row, declaration or evidence the place stands in. */
export function resultAt(
  session: Session,
  uri: string,
  position: Position,
): { readonly plan: Plan; readonly result: LinkResult | undefined } | undefined {
  const found = subject(session, uri);
  if (!found?.plan) return undefined;
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
  return { plan, result };
}

function resultOf(plan: Plan, name: string): LinkResult[] {
  const result = plan.result.link(name);
  return result ? [result] : [];
}

function nextInPlan(session: Session, plan: Plan, go: boolean): Coverage['next'] {
  if (plan.result.totals.present >= plan.result.totals.expected) return null;
  for (const name of plan.result.order) {
    const [result] = resultOf(plan, name);
    const next = result ? nextIn(session, plan, result, go) : null;
    if (next) return next;
  }
  return null;
}

function nextIn(session: Session, plan: Plan, result: LinkResult, go: boolean): Coverage['next'] {
  const missing = result.readings.find((each) => each.attempt === null && each.expectedSet);
  if (!missing) return null;
  const place = (go ? placeToMake : rowToMake)(session, plan, result, missing);
  const what = `${placeName(result.link, missing.fibre)} ${keyInWords(missing)}`;
  return place ? { what, ...place } : null;
}

/** Where a reading that is to be made is typed: its `-`, wherever that was laid out, else as `rowToMake`. */
export function placeToMake(
  session: Session,
  plan: Plan,
  result: LinkResult,
  missing: ReadingResult,
): Location | undefined {
  const { fibre, wavelength, direction } = missing;
  const blank =
    direction && blankFor(session.project, plan, result, { fibre, wavelength, direction });
  const cell = blank && plan.locate({ block: blank.block.id, span: blank.cell });
  return cell ?? rowToMake(session, plan, result, missing);
}

/** Its `-` in a row with other readings, else the end of its row, of the readings, of the link. */
function rowToMake(
  session: Session,
  plan: Plan,
  result: LinkResult,
  missing: ReadingResult,
): Location | undefined {
  const made = result.readings.flatMap(({ reading }) => (reading ? [reading] : []));
  const ofFibre = made.findLast(({ fibre }) => fibre === missing.fibre);
  // The fibre's own row, else the last row of the link's readings, else the link itself.
  const row = plan.locate((ofFibre ?? made.at(-1))?.row ?? result.link.namePlace);
  if (!row) return undefined;
  const end = { start: row.range.end, end: row.range.end };
  const range = (ofFibre && blankIn(session, plan, row, made, missing)) ?? end;
  return { uri: row.uri, range };
}

/** The `-` of a row that stands under the heading of the missing reading: nearest to where other rows have theirs. */
function blankIn(
  session: Session,
  plan: Plan,
  row: Located,
  made: readonly ReadingCell[],
  missing: ReadingResult,
): Range | undefined {
  const alike = made.find(
    ({ wavelength, direction }) =>
      wavelength === missing.wavelength && direction === missing.direction,
  );
  const column = alike && plan.locate(alike.place)?.range.end.character;
  const { line } = row.range.start;
  const text = session.project.document(row.uri)?.line(line);
  if (column === undefined || text === undefined) return undefined;
  const blanks = [...text.matchAll(/(?<=\s)-(?=\s|$)/g)].map(({ index }) => index);
  const distance = (at: number) => Math.abs(at + 1 - column);
  const nearest = blanks.sort((a, b) => distance(a) - distance(b))[0];
  if (nearest === undefined) return undefined;
  return { start: { line, character: nearest }, end: { line, character: nearest + 1 } };
}
