/** Links of the table together by what they share: their cable, or their verdict. A group is open until it is shut. */
import { verdicts } from '../evaluate/result.ts';
import { byCable, cableOf } from './cable.ts';
import type { TableView } from './question.ts';
import type { Entry, FoldEntry, LinkEntry } from './table.ts';

export function grouped(shown: readonly LinkEntry[], view: TableView): readonly Entry[] {
  return view.group === 'verdict' ? byVerdictOf(shown, view) : byCableOf(shown, view);
}

/** Worst first, as everywhere. */
function byVerdictOf(shown: readonly LinkEntry[], view: TableView): readonly Entry[] {
  return verdicts.flatMap((verdict) => {
    const entries = shown.filter(({ summary }) => summary.result.verdict === verdict);
    return entries.length === 0 ? [] : group(verdict, entries, view, { verdict });
  });
}

function byCableOf(shown: readonly LinkEntry[], view: TableView): readonly Entry[] {
  const cables = new Map<string, LinkEntry[]>();
  for (const entry of shown) {
    const cable = cableOf(entry.summary.result);
    const own = cables.get(cable);
    if (own) own.push(entry);
    else cables.set(cable, [entry]);
  }
  return [...cables]
    .sort(([a], [b]) => byCable(a, b))
    .flatMap(([cable, entries]) => group(cable, entries, view, {}));
}

function group(
  name: string,
  entries: readonly LinkEntry[],
  { shut }: TableView,
  also: Pick<FoldEntry, 'verdict'>,
): readonly Entry[] {
  const open = !shut.includes(name);
  const links = entries.map(({ summary }) => summary);
  const head: FoldEntry = {
    kind: 'fold',
    fold: 'group',
    group: name,
    ...also,
    links,
    open,
    rows: 1,
  };
  return open ? [head, ...entries] : [head];
}
