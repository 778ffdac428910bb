import { toNanometres } from '../../../grammar/src/quantity/index.ts';
import type { EventResult, LinkResult } from '../evaluate/result.ts';
import type { BlockId, Place } from '../model/types.ts';
import { signed, unsigned, verdictInWords } from './wording.ts';

/** What was seen at a cell of a trace, a length or an inspection, and how it was judged. */
export function otherEvidenceAt(
  result: LinkResult,
  block: BlockId,
  offset: number,
  places: number,
): { readonly place: Place; readonly markdown: string } | undefined {
  const at = (place: Place | undefined) =>
    place?.block === block && place.span.start <= offset && offset <= place.span.end;
  for (const event of result.events) {
    const cell = [event.forward, event.back].find((each) => at(each?.place));
    if (cell) return { place: cell.place, markdown: eventAsMarkdown(event, places) };
  }
  for (const { cell, verdict, because } of result.lengths) {
    if (at(cell.place)) return { place: cell.place, markdown: said('Length', verdict, because) };
  }
  for (const { cell, side, verdict, because } of result.inspections) {
    if (cell && at(cell.place)) {
      return { place: cell.place, markdown: said(`End face ${side}`, verdict, because) };
    }
  }
  return undefined;
}

function eventAsMarkdown(event: EventResult, places: number): string {
  const { kind, part, wavelength, verdict, because, limit, margin } = event;
  const lines = [said(`${part ?? kind}, ${toNanometres(wavelength)} nm`, verdict, because)];
  if (limit?.value !== undefined) {
    const left = margin === undefined ? '' : `, margin ${signed(margin, places)} dB`;
    const source = limit.terms[0]?.source ?? limit.name;
    lines.push(`Limit ${unsigned(limit.value, places)} dB (${source})${left}`);
  }
  return lines.join('\n\n');
}

function said(what: string, verdict: EventResult['verdict'], because: string): string {
  return `**${what}: ${verdictInWords(verdict)}**${because ? `\n\n${because}` : ''}`;
}
