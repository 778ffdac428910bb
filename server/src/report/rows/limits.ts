/** The working of limits: each with its terms as a sum that can be checked by hand. */
import { printExactDb, printMicro, toMetres } from '../../../../grammar/src/quantity/index.ts';
import type { ReadingLimit } from '../../evaluate/limits.ts';
import type { Limit, Term, WavelengthResult } from '../../evaluate/result.ts';
import { decibels, trueMinus } from '../figures.ts';
import type { LimitView, TermView } from '../view.ts';

/**
 * Limits side by side: the governing one first, then the others, then those
 * only compared. What several channels ask alike of the fibres they take stands once.
 */
export function limitsAt(at: WavelengthResult, places: number): readonly LimitView[] {
  const rank = (limit: Limit) => (limit === at.governing ? 0 : limit.beside ? 2 : 1);
  const said = new Set<string>();
  return [...at.limits]
    .sort((a, b) => rank(a) - rank(b))
    .map((limit) => limitView(limit, limit === at.governing, places))
    .filter(({ kind, name, figure, beside }) => {
      const text = [kind, name, figure, beside].join(' ');
      return !said.has(text) && said.add(text);
    });
}

function limitView(limit: ReadingLimit, governs: boolean, places: number): LimitView {
  return {
    kind: limit.kind,
    name: limit.name,
    figure: limit.value === undefined ? 'none' : decibels(limit.value, places),
    governs,
    beside: limit.beside,
    ...(limit.sufficient ? { sufficient: true } : {}),
    terms: limit.terms.map((term, index) => termView(term, index, places)),
    recalled: limit.recalled,
    ...(limit.because ? { because: limit.because } : {}),
  };
}

function termView(term: Term, index: number, places: number): TermView {
  const negative = term.total < 0n;
  const total = decibels((negative ? -term.total : term.total) as Term['total'], places);
  return {
    sign: negative ? '−' : index === 0 ? '' : '+',
    what: whatOf(term),
    total,
    working: workingOf(term),
    source: term.trust === 'recalled' ? `${term.source}, recalled` : term.source,
  };
}

function whatOf({ what, count, length }: Term): string {
  if (length !== undefined || Math.abs(count) === 1) {
    return length === undefined && Math.abs(count) === 1 ? singular(what) : what;
  }
  return `${Math.abs(count)} ${what}`;
}

function singular(what: string): string {
  return what.replace(/^((?:\w+ )?)(pair|splice)s$/u, '$1$2');
}

/** `0.142 km × 3 dB/km = 0.426`, `2 × 0.75 = 1.5`. */
function workingOf({ count, length, each, total }: Term): string {
  const many = length === undefined ? `${count}` : `${toMetres(length) / 1000} km`;
  const unit = length === undefined ? '' : ' dB/km';
  return trueMinus(`${many} × ${printMicro(each)}${unit} = ${printExactDb(total)}`);
}
