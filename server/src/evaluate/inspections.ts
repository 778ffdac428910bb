/**
 * End faces as they were last seen. An end face that was cleaned and not looked
 * at since has not passed yet; work on its fibre makes what was seen before
 * stale (practice after IEC 61300-3-35: inspect, clean, inspect again).
 */
import type { FaceGrade, InspectionCell } from '../model/types.ts';
import type { Context } from './context.ts';
import { numbersInWords } from './doubts.ts';
import { measuredTwice } from './event-doubts.ts';
import { agingWork, covers } from './measurement.ts';
import type { Doubt, InspectionResult } from './result.ts';

/** In order of fibre, A before B. */
export function inspectionResults(context: Context): readonly InspectionResult[] {
  return [...facesOf(context).values()]
    .map((cells) => judgeFace(cells.at(-1)!, context))
    .sort((a, b) => a.fibre - b.fibre || Number(a.side === 'B') - Number(b.side === 'B'));
}

/** What was seen of each end face, in order of time, without what was withdrawn. */
function facesOf(context: Context): ReadonlyMap<string, readonly InspectionCell[]> {
  const { inspections, withdrawals } = context.input.evidence;
  const faces = new Map<string, InspectionCell[]>();
  for (const cell of inspections) {
    if (withdrawals.some((one) => covers(one, cell))) continue;
    const key = `${cell.fibre} ${cell.side}`;
    const known = faces.get(key);
    if (known) known.push(cell);
    else faces.set(key, [cell]);
  }
  for (const cells of faces.values()) {
    cells.sort((a, b) => a.at.from - b.at.from || a.at.to - b.at.to);
  }
  return faces;
}

function judgeFace(cell: InspectionCell, context: Context): InspectionResult {
  const { fibre, end, side, seen } = cell;
  const base = { fibre, end, side, seen, cell };
  const work = agingWork(context.work, cell, context.sharing);
  if (work) {
    const because = `${work.done} on ${work.on.text}, after it was inspected`;
    return { ...base, verdict: 'stale', because };
  }
  if (seen === 'cleaned') {
    return {
      ...base,
      verdict: 'not-judged',
      because: 'cleaned, and not inspected since: it has not passed yet',
    };
  }
  return { ...base, verdict: seen, because: cell.criterion ?? '' };
}

/** A fail keeps the object from being accepted where its contract wants inspection; else it is said. */
export function* doubtsOfInspections(
  context: Context,
  results: readonly InspectionResult[],
): Iterable<Doubt> {
  const required = context.link.terms.require.some(({ kind }) => kind === 'inspection');
  const unknown = new Set<number>();
  yield* gradesOfOthers(context, results);
  for (const { cell, fibre, side, seen, verdict } of results) {
    if (!cell || !context.link.fibres.includes(fibre)) {
      if (cell && context.link.fibres.length > 0 && !unknown.has(fibre))
        yield stranger(cell, context);
      unknown.add(fibre);
      continue;
    }
    const details = {
      fibre,
      side,
      inspected: cell.at.text,
      ...(cell.criterion === undefined ? {} : { criterion: cell.criterion }),
    };
    const { place } = cell;
    if (verdict === 'fail') {
      yield { name: required ? 'end-face-fails' : 'end-face-poor', place, details };
    }
    if (seen === 'cleaned' && verdict !== 'stale') {
      yield { name: 'end-face-not-seen-again', place, details };
    }
  }
  for (const cells of facesOf(context).values()) {
    for (const [index, cell] of cells.entries()) {
      const before = cells[index - 1];
      if (before?.at.from !== cell.at.from || before.at.to !== cell.at.to) continue;
      const { fibre, side } = cell;
      const what = `end face ${side}`;
      yield measuredTwice(before.place, cell.place, { fibre, what, tested: cell.at.text });
    }
  }
}

/** Said once of each line that names a criterion: faces of another mode, or angled ones graded as straight. */
function* gradesOfOthers(
  { link, path }: Context,
  results: readonly InspectionResult[],
): Iterable<Doubt> {
  const said = new Set<number>();
  for (const { cell } of results) {
    const { grade, side } = cell ?? {};
    if (!cell || !grade || !side || said.has(grade.place.span.start)) continue;
    const end = path.ends[side];
    // An end of a tree has a joint of its own, which the path before the split does not tell.
    const known = !cell.end && (end.kind === 'socket' || end.kind === 'plug');
    const polish = known ? end.type?.polish : undefined;
    const details = { criterion: grade.name, link: link.name, side };
    if (grade.mode && link.mode && grade.mode !== link.mode) {
      yield found(grade, { ...details, graded: grade.mode, faces: link.mode });
    } else if (grade.polish && polish && isAngled(grade.polish) !== isAngled(polish)) {
      yield found(grade, { ...details, graded: grade.polish, faces: polish });
    } else continue;
    said.add(grade.place.span.start);
  }
}

const isAngled = (polish: string): boolean => polish === 'APC';

const found = ({ place }: FaceGrade, details: Doubt['details']): Doubt => ({
  name: 'criterion-of-other-face',
  place,
  details,
});

function stranger(cell: InspectionCell, context: Context): Doubt {
  const { link } = context;
  const has = numbersInWords(link.fibres);
  return {
    name: 'fibre-not-in-plan',
    place: cell.place,
    details: { fibre: cell.fibre, object: link.name, has },
  };
}
