/**
 * What filter and search leave of a plan, as text for other programs: rows as
 * a tester typed them, parted by tabs, or every reading with what it was judged by.
 */
import type { FibreResult, LinkResult } from '../evaluate/result.ts';
import { placeName } from '../model/ways.ts';
import { toCsv } from './csv.ts';
import { wavelength } from './figures.ts';
import type { TableView } from './question.ts';
import { lossText } from './rows/fibre.ts';
import { columnsOf } from './rows/link.ts';
import type { Subject } from './subject.ts';
import { shownOf } from './table.ts';
import { lookOf } from './verdicts.ts';

export function shownText(subject: Subject, view: TableView, form: 'tabs' | 'csv'): string {
  const shown = shownOf(subject, view);
  if (form === 'csv') return toCsv(shown.map(({ result, fibres }) => narrowed(result, fibres)));
  let heading = '';
  const lines: string[] = [];
  for (const { result, fibres } of shown) {
    const columns = columnsOf(result).flatMap(({ wavelength: at, directions }) =>
      directions.map((direction) => ({ at, direction })),
    );
    const head = [
      'link',
      'fibre',
      ...columns.map(({ at, direction }) => [wavelength(at), direction].filter(Boolean).join(' ')),
      'verdict',
    ].join('\t');
    if (head !== heading) lines.push(head);
    heading = head;
    for (const fibre of fibres) {
      const values = columns.map(({ at, direction }) => {
        const reading = fibre.current.find(
          (each) => each.wavelength === at && each.direction === direction,
        );
        if (!reading) return '';
        return reading.attempt === null ? '-' : lossText(reading, subject.display.precision);
      });
      const place = fibre.end ?? placeName(result.link, fibre.fibre).replace(/^fibre /u, '');
      lines.push([result.link.name, place, ...values, lookOf(fibre.verdict).word].join('\t'));
    }
  }
  return `${lines.join('\n')}\n`;
}

function narrowed(result: LinkResult, fibres: readonly FibreResult[]): LinkResult {
  const kept = new Set(fibres.map(({ fibre }) => fibre));
  return {
    ...result,
    readings: result.readings.filter(({ fibre }) => kept.has(fibre)),
    reflectances: result.reflectances.filter(({ fibre }) => kept.has(fibre)),
  };
}
