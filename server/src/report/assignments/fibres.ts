/** Which fibre of which cable does what: a row for every fibre of a link in every cable it lies in, and for every fibre that is free. */
import type { LinkResult } from '../../evaluate/result.ts';
import { fibreInCable } from '../../model/colours.ts';
import type { Cable, PathElement, Place } from '../../model/types.ts';
import { elementsIn, isTree, placeName } from '../../model/ways.ts';
import { type FleetPlan, type OfPlan, planColumns } from '../fleet/plan.ts';
import { type Column, column, type Table, tableOf } from '../fleet/table.ts';

interface Use {
  readonly result: LinkResult;
  readonly fibre: number;
  /** Reels of the cable that it takes, in order; empty: the cable is one piece. */
  readonly reels: readonly string[];
  readonly place: Place;
}

interface Row extends OfPlan {
  /** Undefined: the link names no cable. */
  readonly cable: Cable | undefined;
  readonly number: number | undefined;
  /** Undefined: nothing takes it. */
  readonly use: Use | undefined;
}

export function assignmentsTable(from: FleetPlan): Table {
  const names = [...new Set(from.plan.named('cable').map(({ name }) => name))];
  const cables = names.flatMap((name) => from.plan.cable(name) ?? []);
  const taken = new Map<string, Use[]>();
  const unnamed: Row[] = [];
  for (const result of from.links) {
    if (result.link.kind !== 'link' && result.link.kind !== 'ring') continue;
    for (const { fibre } of result.fibres) {
      const uses = usesOf(result, fibre);
      for (const [key, use] of uses) taken.set(key, [...(taken.get(key) ?? []), use]);
      if (uses.size > 0) continue;
      const use = { result, fibre, reels: [], place: result.link.namePlace };
      unnamed.push({ from, cable: undefined, number: undefined, use, place: use.place });
    }
  }
  const rows = cables.flatMap((cable) =>
    Array.from({ length: cable.count }, (_, index) => index + 1).flatMap((number): Row[] => {
      const uses = taken.get(keyOf(cable, number)) ?? [];
      return uses.length > 0
        ? uses.map((use) => ({ from, cable, number, use, place: use.place }))
        : [{ from, cable, number, use: undefined, place: cable.namePlace }];
    }),
  );
  return tableOf(assignmentColumns, [...rows, ...unnamed]);
}

const keyOf = (cable: Cable, number: number) => `${cable.name} ${number}`;

/** By cable and number of the fibre in it. */
function usesOf(result: LinkResult, fibre: number): ReadonlyMap<string, Use> {
  const { link } = result;
  const way = link.ways.find((each) => each.fibre === fibre);
  const path: Iterable<PathElement> = way ? way.path : elementsIn(link);
  const place = way ? 0 : link.fibres.indexOf(fibre);
  const uses = new Map<string, Use>();
  for (const element of path) {
    if (element.kind !== 'segment' || !element.cable) continue;
    const number = element.cableFibres?.[place];
    if (number === undefined) continue;
    const key = keyOf(element.cable, number);
    const reels = [...(uses.get(key)?.reels ?? []), ...(element.reel ? [element.reel] : [])];
    uses.set(key, { result, fibre, reels: [...new Set(reels)], place: element.place });
  }
  return uses;
}

/** What the fibre is kept for. */
function stateOf({ use }: Row): string {
  if (!use) return 'free';
  const { link } = use.result;
  if (link.dead.some(({ fibre }) => fibre === use.fibre)) return 'dead';
  return link.spare.includes(use.fibre) ? 'spare' : 'used';
}

const coloursOf = ({ cable, number }: Row) =>
  cable && number !== undefined ? fibreInCable(cable, number) : undefined;

const ofFibre = ({ use }: Row) => use?.result.fibres.find(({ fibre }) => fibre === use.fibre);

/** What a link carries on a fibre, as it says it. */
function carriedOn({ use }: Row): string | undefined {
  const names = use?.result.link.terms.carries.flatMap(({ name, fibres, beside }) =>
    !beside && (!fibres || fibres.includes(use.fibre)) ? [name] : [],
  );
  return names && names.length > 0 ? names.join('; ') : undefined;
}

export const assignmentColumns: readonly Column<Row>[] = [
  column(
    'cable',
    'text',
    'name of the cable; null: the link names none',
    ({ cable }) => cable?.name,
  ),
  column('cable_fibre', 'whole', 'number of the fibre in it', ({ number }) => number),
  column(
    'tube',
    'whole',
    'number of its tube; null: the cable does not say',
    (row) => coloursOf(row)?.tube,
  ),
  column(
    'tube_colour',
    'text',
    'by the order of colours of the cable; null: it names none',
    (row) => coloursOf(row)?.tubeColour,
  ),
  column(
    'position',
    'whole',
    'number in the tube, or in the cable where no tubes are said',
    (row) => coloursOf(row)?.position,
  ),
  column('colour', 'text', 'of the fibre, by the same order', (row) => coloursOf(row)?.colour),
  column('state', 'text', 'used, spare, dead, or free: no link takes it', stateOf),
  column(
    'object',
    'text',
    'link or ring that takes it; null: none',
    ({ use }) => use?.result.link.name,
  ),
  column('title', 'text', 'of that link', ({ use }) => use?.result.link.title),
  column('fibre', 'whole', 'its number there; of a tree, of its end', ({ use }) => use?.fibre),
  column('end', 'text', 'port of that end of a tree; null: it is none', ({ use }) =>
    use && isTree(use.result.link) ? placeName(use.result.link, use.fibre) : null,
  ),
  column('port_a', 'text', 'where it begins', (row) => ofFibre(row)?.fromPort),
  column('port_b', 'text', 'where it ends', (row) => ofFibre(row)?.toPort),
  column('reels', 'text', 'of the cable that it takes; null: the cable is one piece', ({ use }) =>
    use && use.reels.length > 0 ? use.reels.join('; ') : null,
  ),
  column('carries', 'text', 'what the link says it carries', carriedOn),
  column('cable_from', 'text', 'where the cable begins, as it says', ({ cable }) => cable?.from),
  column('cable_to', 'text', 'where it ends', ({ cable }) => cable?.to),
  column(
    'because',
    'text',
    'why it is dead',
    ({ use }) => use?.result.link.dead.find(({ fibre }) => fibre === use.fibre)?.because,
  ),
  ...planColumns,
];
