/**
 * What the table needs to know of a link before it is shown: its place in
 * every order, its share of the tally and of the scale. Worked out once for
 * each result, which is never changed but replaced.
 */
import { type MicroDb, microDb } from '../../../grammar/src/quantity/index.ts';
import type { LinkResult, Verdict } from '../evaluate/result.ts';
import { toDb } from './figures.ts';
import { governingOf } from './rows/governing.ts';
import { type Held, hold } from './scale.ts';
import { rankOf } from './verdicts.ts';

export interface Summary {
  readonly result: LinkResult;
  readonly name: string;
  readonly rank: number;
  /** Worst margin, dB; a link without one stands after those that have one. */
  readonly margin: number;
  /** Micrometres; undefined where the plan does not say it. */
  readonly length: number | undefined;
  /** Share of its readings that are made; undefined where none is expected. */
  readonly tested: number | undefined;
  /** The limit that is shown of it, dB. */
  readonly limit: number | undefined;
  /** Fibres by verdict. */
  readonly fibres: ReadonlyMap<Verdict, number>;
  readonly margins: number;
  readonly held: Held;
  /** Readings that must be made again. */
  readonly repeat: number;
  readonly limits: string;
  readonly reference: string;
  readonly directions: string;
  readonly wanted: MicroDb;
  /** Name, title and ports in lower case, made when something is searched. */
  text(): string;
}

const kept = new WeakMap<LinkResult, Summary>();

export function summaryOf(result: LinkResult): Summary {
  let summary = kept.get(result);
  if (!summary) {
    summary = summarise(result);
    kept.set(result, summary);
  }
  return summary;
}

function summarise(result: LinkResult): Summary {
  const { link, worstMargin } = result;
  const fibres = new Map<Verdict, number>();
  const margins: number[] = [];
  let repeat = 0;
  for (const fibre of result.fibres) {
    fibres.set(fibre.verdict, (fibres.get(fibre.verdict) ?? 0) + 1);
    for (const reading of fibre.current) {
      if (reading.margin !== undefined) margins.push(toDb(reading.margin));
      if (reading.verdict === 'invalid' || reading.verdict === 'stale') repeat += 1;
    }
  }
  if (margins.length === 0) margins.push(...expectedMargins(result));
  const limit = governingOf(result)?.value;
  let text: string | undefined;
  return {
    result,
    name: link.name,
    rank: rankOf(result.verdict),
    margin: worstMargin ? toDb(worstMargin.margin) : Number.POSITIVE_INFINITY,
    length: result.length,
    tested: result.expected > 0 ? result.present / result.expected : undefined,
    limit: limit === undefined ? undefined : toDb(limit),
    fibres,
    margins: margins.length,
    held: hold(margins),
    repeat,
    limits: link.terms.limits.map(({ name }) => name).join(', '),
    reference: link.terms.reference ?? '',
    directions: directionsOf(result),
    wanted: link.terms.margin ?? microDb(0),
    text: () => (text ??= searchText(result)),
  };
}

/** Where nothing is measured yet, the scale fits what is expected. */
function expectedMargins({ wavelengths }: LinkResult): number[] {
  return wavelengths.flatMap(({ governing, expected }) =>
    governing?.value === undefined || expected === undefined
      ? []
      : [toDb(governing.value) - toDb(expected)],
  );
}

function directionsOf({ link: { terms } }: LinkResult): string {
  const { wanted, average } = terms.directions;
  if (average) return 'both, averaged';
  return wanted.length === 2 ? 'both' : (wanted[0] ?? '');
}

function searchText({ link, fibres }: LinkResult): string {
  const ports = fibres.flatMap(({ fromPort, toPort }) => [fromPort, toPort]);
  return [link.name, link.title, ...ports].filter(Boolean).join('\n').toLowerCase();
}
