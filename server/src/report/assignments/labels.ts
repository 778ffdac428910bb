/**
 * Texts for labels, made of the plan's own names: both ends of every cable and
 * link, and every port. What a label says of the other side is what the plan
 * says; nothing is abbreviated.
 */
import type { LinkResult } from '../../evaluate/result.ts';
import type { Cable } from '../../model/types.ts';
import { type FleetPlan, type OfPlan, planColumns } from '../fleet/plan.ts';
import { type Column, column, type Table, tableOf } from '../fleet/table.ts';

interface Row extends OfPlan {
  readonly on: string;
  readonly end: 'A' | 'B';
  readonly first: string;
  readonly second: string | undefined;
  readonly third: string | undefined;
}

export function labelsTable(from: FleetPlan): Table {
  const names = [...new Set(from.plan.named('cable').map(({ name }) => name))];
  const rows = [
    ...names.flatMap((name) => {
      const cable = from.plan.cable(name);
      return cable ? cableLabels(from, cable) : [];
    }),
    ...from.links.flatMap((result) =>
      result.link.kind === 'link' ? linkLabels(from, result) : [],
    ),
  ];
  return tableOf(labelColumns, rows);
}

function cableLabels(from: FleetPlan, cable: Cable): readonly Row[] {
  const { name, from: begins, to: ends, fibreName, count } = cable;
  const kind = `${fibreName} ${count}`.trim();
  const label = (end: 'A' | 'B', here: string | undefined, there: string | undefined): Row => ({
    from,
    place: cable.namePlace,
    on: 'cable',
    end,
    first: name,
    second: there ? `to ${there}` : here,
    third: kind,
  });
  return [label('A', begins, ends), label('B', ends, begins)];
}

function linkLabels(from: FleetPlan, { link, fibres }: LinkResult): readonly Row[] {
  const place = link.namePlace;
  const port = (end: 'A' | 'B', here: string | undefined, there: string | undefined): Row[] =>
    here === undefined
      ? []
      : [
          {
            from,
            place,
            on: 'port',
            end,
            first: here,
            second: there && `to ${there}`,
            third: link.name,
          },
        ];
  const seen = new Set<string>();
  const ports = fibres
    .flatMap(({ fromPort, toPort }) => [
      ...port('A', fromPort, toPort),
      ...port('B', toPort, fromPort),
    ])
    // The trunk of a tree begins at one port, however many ends it has.
    .filter(({ first, end }) => {
      const key = `${end} ${first}`;
      const fresh = !seen.has(key);
      seen.add(key);
      return fresh;
    });
  const whole = (end: 'A' | 'B', ports: readonly string[]): Row => ({
    from,
    place,
    on: 'link',
    end,
    first: link.name,
    second: spanOf(ports),
    third: link.title,
  });
  return [whole('A', link.to), whole('B', link.from), ...ports];
}

/** `to B3/R1/A:01 … B3/R1/A:12`. */
function spanOf(ports: readonly string[]): string | undefined {
  const [first] = ports;
  const last = ports.at(-1);
  if (first === undefined) return undefined;
  return first === last ? `to ${first}` : `to ${first} … ${last}`;
}

export const labelColumns: readonly Column<Row>[] = [
  column('on', 'text', 'cable, link or port', ({ on }) => on),
  column('side', 'text', 'A or B: the end that it is for', ({ end }) => end),
  column('line_1', 'text', 'the name itself', ({ first }) => first),
  column(
    'line_2',
    'text',
    'where the other end is; of a cable that does not say, where this one is',
    ({ second }) => second,
  ),
  column(
    'line_3',
    'text',
    'of a cable its fibres, of a link its title, of a port its link',
    ({ third }) => third,
  ),
  ...planColumns,
];
