/** How events of a trace and measured lengths are worded at the end of their row. */
import { type ExactDb, exactDb, toNanometres } from '../../../grammar/src/quantity/index.ts';
import { type EventResult, type LinkResult, verdicts } from '../evaluate/result.ts';
import type { BlockId, Place } from '../model/types.ts';
import { unsigned, verdictInWords } from './wording.ts';

/** Rows of a block that hold events or the end of a trace, each with its words. */
export function* eventRows(
  block: BlockId,
  result: LinkResult,
  places: number,
): Iterable<readonly [Place, string]> {
  const rows = new Map<number, [Place, EventResult[]]>();
  for (const event of result.events) {
    for (const cell of [event.forward, event.back]) {
      if (cell?.row.block !== block) continue;
      const known = rows.get(cell.row.span.start);
      if (!known) rows.set(cell.row.span.start, [cell.row, [event]]);
      else if (!known[1].includes(event)) known[1].push(event);
    }
  }
  for (const { cell, because, verdict } of result.lengths) {
    const { row } = cell;
    if (row.block !== block || rows.has(row.span.start)) continue;
    yield [row, `${verdictInWords(verdict)}, ${inShort(because)}`];
  }
  for (const [row, events] of rows.values()) yield [row, eventsInWords(events, places)];
}

/** `pass, average 0.08`, `pass, average 0.07 at 1310 nm, 0.08 at 1550 nm`, `not judged: seen A>B alone`. */
function eventsInWords(events: readonly EventResult[], places: number): string {
  const worst = verdicts.find((verdict) => events.some((event) => event.verdict === verdict));
  const first = events.find(({ verdict }) => verdict === worst);
  const averages = events.flatMap(({ sum, wavelength }) =>
    sum === undefined ? [] : [{ average: signedHalf(sum, places), wavelength }],
  );
  const word = verdictInWords(worst ?? 'not-judged');
  if (averages.length > 0 && !unsaid.has(word)) {
    const [only] = averages;
    const said =
      averages.length === 1 && only
        ? only.average
        : averages.map((one) => `${one.average} at ${toNanometres(one.wavelength)} nm`).join(', ');
    return `${word}, average ${said}`;
  }
  return first?.because ? `${word}: ${inShort(first.because)}` : word;
}

/** What is said first; why it is so is told under the pointer and among the findings. */
function inShort(because: string): string {
  return because.split(': ')[0] ?? because;
}

/** Verdicts of which the reason says more than the figure. */
const unsaid: ReadonlySet<string> = new Set(['invalid', 'stale', 'not judged']);

function signedHalf(sum: NonNullable<EventResult['sum']>, places: number): string {
  const half = (exactDb(sum) / 2n) as ExactDb;
  return half < 0n ? `−${unsigned(-half as ExactDb, places)}` : unsigned(half, places);
}
