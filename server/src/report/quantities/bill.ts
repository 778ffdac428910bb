/**
 * How much of what a plan takes: cables by kind and length, joints, parts, cords
 * and the places of splices. Everything is counted from the model; what has no
 * length or no place said is counted and told apart, never guessed.
 */
import { type Micrometres, toMetres } from '../../../../grammar/src/quantity/index.ts';
import type { Cable, LinkModel, PathElement } from '../../model/types.ts';
import type { FleetPlan } from '../fleet/plan.ts';
import { type PhysicalPiece, piecesIn } from './pieces.ts';

export interface BillLine {
  /** `cable`, `mated pair`, `fibre splice` … */
  readonly item: string;
  /** Kind of it, as the plan names it. */
  readonly what: string;
  /** Of one; undefined: it has no length, or none is said. */
  readonly each?: Micrometres;
  /** Number of pieces. */
  readonly count: number;
  /** Pieces of which something needed to order them is not said. */
  readonly unknown: number;
  /** Of cables: fibres that no link needs. */
  readonly spareFibres?: number;
  /** What a piece is, and what to mind. */
  readonly remark: string;
  /** What it is for, each once, in order. */
  readonly of: readonly string[];
}

export function billOf({ plan, links }: FleetPlan): readonly BillLine[] {
  const names = [...new Set(plan.named('cable').map(({ name }) => name))];
  const cables = names.flatMap((name) => plan.cable(name) ?? []);
  const pieces = piecesIn(links, cables);
  return summed([
    ...cables.flatMap((cable) => cableLines(cable, plan.fibresNeeded(cable.name))),
    ...pieces.flatMap(pieceLines),
    ...links.flatMap(({ link }) => [...splitterLines(link), ...plannedCords(link)]),
  ]);
}

function cableLines(cable: Cable, needed: number): readonly BillLine[] {
  const { name, length, reels } = cable;
  const what = kindOf(cable);
  return [
    {
      item: 'cable',
      what,
      each: length,
      count: 1,
      unknown: length === undefined ? 1 : 0,
      spareFibres: Math.max(0, cable.count - needed),
      remark: 'sheath with the slack that is said; no allowance for waste',
      of: [name],
    },
    ...reels.map(
      (reel): BillLine => ({
        item: 'reel',
        what,
        each: reel.length,
        count: 1,
        unknown: reel.length === undefined ? 1 : 0,
        remark: 'lies within a cable of this bill, slack left out: not added to it',
        of: [name],
      }),
    ),
  ];
}

/** `OM4, 24 fibres in 2 tubes`. */
function kindOf({ fibreName, count, tubes, jacket }: Cable): string {
  return [
    fibreName || 'fibre not said',
    `${fibresInWords(count)}${tubes ? ` in ${tubes} tubes` : ''}`,
    jacket ? `jacket ${jacket.colour}` : '',
  ]
    .filter(Boolean)
    .join(', ');
}

function pieceLines(piece: PhysicalPiece): readonly BillLine[] {
  const { element, fibres, times, of } = piece;
  const line = (item: string, what: string, more: Partial<BillLine> = {}): BillLine => ({
    item,
    what: what || 'kind not said',
    count: fibres * times,
    unknown: what ? 0 : fibres * times,
    remark: 'one for each fibre',
    of: [of],
    ...more,
  });
  switch (element.kind) {
    case 'segment':
      return [stretchLine(piece, element)];
    case 'connector': {
      const places = element.type?.positions ?? 1;
      const remark =
        places > 1
          ? `one for every ${places} fibres`
          : 'one for each fibre; at an end of a link one plug of it is the cord’s';
      return [line('mated pair', element.name, { ...inArrays(fibres, times, places), remark })];
    }
    case 'plug': {
      const places = element.type?.positions ?? 1;
      return [
        line('plug', element.name, {
          ...inArrays(fibres, times, places),
          remark: places > 1 ? `one for every ${places} fibres` : 'one for each fibre',
        }),
      ];
    }
    case 'splice':
      return [
        line('fibre splice', element.name),
        element.at === undefined
          ? line('place of splices', 'not said', {
              unknown: fibres * times,
              remark: 'counted in fibre splices, since no place is said',
            })
          : {
              item: 'place of splices',
              what: element.at,
              count: 1,
              unknown: 0,
              remark: 'a closure or tray, as the plan names it',
              of: [of],
            },
      ];
    case 'component': {
      const places = Math.max(
        1,
        ...(element.type?.joined ?? []).map((each) => each?.positions ?? 1),
      );
      return [
        line('part', element.name, {
          ...inArrays(fibres, times, places),
          remark: places > 1 ? `one for every ${places} fibres` : 'one for each fibre',
        }),
      ];
    }
    case 'split':
      // Each output is an element of its own: one splitter holds as many as it has.
      return [];
    case 'cord':
      return [cordLine(piece, element)];
    case 'link':
      return [];
  }
}

function inArrays(fibres: number, times: number, places: number): Pick<BillLine, 'count'> {
  return { count: Math.ceil(fibres / places) * times };
}

function stretchLine(
  { fibres, times, of }: PhysicalPiece,
  { length, deliberate, fibreName }: Extract<PathElement, { kind: 'segment' }>,
): BillLine {
  const known = deliberate ? undefined : length;
  return {
    item: 'cable without a name',
    what: `${fibreName || 'fibre not said'}, ${fibresInWords(fibres)}`,
    each: known,
    count: times,
    unknown: known === undefined ? times : 0,
    remark: 'a stretch that names no cable, taken for one of its own; no allowance for waste',
    of: [of],
  };
}

function cordLine(
  { fibres, times, of }: PhysicalPiece,
  { length, fibreName, plugs }: Extract<PathElement, { kind: 'cord' }>,
): BillLine {
  return {
    item: 'cord',
    what: [
      fibreName || 'fibre not said',
      fibresInWords(fibres),
      plugs ? plugs.map(({ name }) => name).join(' to ') : '',
    ]
      .filter(Boolean)
      .join(', '),
    each: length,
    count: times,
    unknown: length === undefined ? times : 0,
    remark: 'for all fibres of its channel or ring: divide it where each cord has fewer',
    of: [of],
  };
}

/** Cords that a link is planned with where no channel is written: for each application that its fibres hold. */
function plannedCords({ name, fibres, terms, path }: LinkModel): readonly BillLine[] {
  const kinds = new Set(
    path.flatMap((element) =>
      element.kind === 'segment' ? element.fibreName || element.cable?.fibreName || [] : [],
    ),
  );
  return terms.carries.flatMap(({ cords, fibres: taken, application }) =>
    cords.map((length): BillLine => {
      const each = application?.count;
      const count = each ? Math.floor((taken ?? fibres).length / each) : 1;
      return {
        item: 'cord',
        what: [[...kinds].join(' or ') || 'fibre not said', each ? fibresInWords(each) : '']
          .filter(Boolean)
          .join(', '),
        each: length,
        count,
        unknown: each ? 0 : count,
        remark: each
          ? 'planned with what the link carries'
          : 'planned with what the link carries, of which it is not known how many fibres it takes',
        of: [name],
      };
    }),
  );
}

function splitterLines({ name, splits = [] }: LinkModel): readonly BillLine[] {
  return splits.map(({ splitter, stands, spare }) => ({
    item: 'splitter',
    what: splitter || 'kind not said',
    count: stands,
    unknown: splitter ? 0 : stands,
    remark:
      spare.length === 0
        ? 'every output leads on'
        : `${spare.length} ${spare.length === 1 ? 'output' : 'outputs'} of each kept as spare`,
    of: [name],
  }));
}

function fibresInWords(count: number): string {
  return `${count} ${count === 1 ? 'fibre' : 'fibres'}`;
}

const order = [
  'cable',
  'reel',
  'cable without a name',
  'mated pair',
  'plug',
  'fibre splice',
  'place of splices',
  'splitter',
  'part',
  'cord',
];

/** Alike lines as one; places of splices are the same place however many meet there. */
function summed(lines: readonly BillLine[]): readonly BillLine[] {
  const sums = new Map<string, BillLine>();
  for (const line of lines) {
    const key = [line.item, line.what, line.each ?? '', line.remark].join('\0');
    const known = sums.get(key);
    if (!known) {
      sums.set(key, line);
      continue;
    }
    const place = line.item === 'place of splices' && line.unknown === 0;
    sums.set(key, {
      ...known,
      count: place ? 1 : known.count + line.count,
      unknown: known.unknown + line.unknown,
      ...(known.spareFibres !== undefined && {
        spareFibres: known.spareFibres + (line.spareFibres ?? 0),
      }),
      of: [...new Set([...known.of, ...line.of])],
    });
  }
  return [...sums.values()].sort((a, b) => order.indexOf(a.item) - order.indexOf(b.item));
}

/** Length of all pieces of a line; undefined where it has none, or one of them is not known. */
export function totalMetres({ each, count }: BillLine): number | undefined {
  return each === undefined ? undefined : Math.round(toMetres(each) * count * 1e6) / 1e6;
}
