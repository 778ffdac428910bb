/** Fibres of cables in words: where one lies, what colour it has, which port it leads to. */
import type { BoundEntry, BoundRow, BoundTable, Value } from '../../../grammar/src/bound.ts';
import { printMicro, toMetres } from '../../../grammar/src/quantity/index.ts';
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import { numbersInWords } from '../evaluate/doubts.ts';
import { repairsUsed } from '../evaluate/repairs.ts';
import type { FibreResult, LinkResult } from '../evaluate/result.ts';
import { fibreInCable, fibreInWords, namesOf } from '../model/api.ts';
import type {
  Cable,
  ColoursType,
  FibreColours,
  LinkModel,
  PathElement,
  PlanSettings,
} from '../model/types.ts';
import type { BlockView, Plan } from '../project/types.ts';

/** Most fibres that one hover lists. */
const MOST_ROWS = 48;

export interface Words {
  readonly text: string;
  readonly span: { readonly start: number; readonly end: number };
}

/** What there is to say of a fibre number, or of numbers, under the pointer. */
export function fibresAt(plan: Plan, block: BlockView, offset: number): Words | undefined {
  return (
    reelAt(plan, block, offset) ?? segmentAt(plan, block, offset) ?? rowAt(plan, block, offset)
  );
}

// ---- reels that a segment takes

function reelAt(plan: Plan, block: BlockView, offset: number): Words | undefined {
  const entry = entryAt(block.bound().entries, offset);
  const value = entry?.slots[K.reels]?.find(({ span }) => holds(span, offset));
  const [named] = entry?.slots.cable ?? [];
  const cable = named && 'text' in named ? plan.cable(named.text) : undefined;
  if (!cable || !value) return undefined;
  const meant = new Set(namesOf([value]));
  const rows = cable.reels.flatMap(({ name, written, slack }, index) => {
    if (!meant.has(name)) return [];
    const more = slack > 0 ? ` + slack ${toMetres(slack)} m` : '';
    const joint = cable.joints[index];
    const then = joint ? `, then a splice${joint.at === undefined ? '' : ` at ${joint.at}`}` : '';
    return [`**${name}** of ${cable.name}: ${written}${more}${then}`];
  });
  return rows.length > 0 ? { text: rows.join('  \n'), span: value.span } : undefined;
}

// ---- fibres that a segment takes of a cable

function segmentAt(plan: Plan, block: BlockView, offset: number): Words | undefined {
  const entry = entryAt(block.bound().entries, offset);
  if (entry?.word !== W.segment) return undefined;
  const value = [...(entry.slots[K.fibres] ?? []), ...(entry.slots[K.tube] ?? [])].find(
    ({ span }) => holds(span, offset),
  );
  const byTube = entry.slots[K.tube]?.includes(value as Value) ?? false;
  if (!value) return undefined;
  for (const name of plan.objectsIn(block.id)) {
    const result = plan.result.link(name);
    const segment = result?.link.path.find(
      (element): element is Segment =>
        element.kind === 'segment' &&
        element.cable !== undefined &&
        element.place.block === block.id &&
        holds(element.place.span, offset),
    );
    if (!result || !segment?.cable) continue;
    const taken = (segment.cableFibres ?? []).flatMap((fibre, place) => {
      const lies = fibreInCable(segment.cable!, fibre);
      const meant = byTube ? (lies.tube ?? 0) : fibre;
      return numbersOf(value).has(meant) ? [{ lies, own: result.fibres[place] }] : [];
    });
    if (taken.length === 0) return undefined;
    const rows = taken
      .slice(0, MOST_ROWS)
      .map(({ lies, own }) =>
        [
          own ? `fibre ${own.fibre}` : '',
          `${segment.cable!.name} fibre ${lies.fibre}`,
          fibreInWords(lies),
          own ? portsOf(own) : '',
        ].join(' | '),
      )
      .map((row) => `| ${row} |`);
    const more = taken.length > MOST_ROWS ? [`| … ${taken.length - MOST_ROWS} more | | | |`] : [];
    const text = [
      orderInWords(segment.cable),
      '',
      `| ${name} | cable | lies in | ports |`,
      '| :-- | :-- | :-- | :-- |',
      ...rows,
      ...more,
    ].join('\n');
    return { text, span: value.span };
  }
  return undefined;
}

type Segment = Extract<PathElement, { kind: 'segment' }>;

function numbersOf(value: Value): ReadonlySet<number> {
  if (value.kind === 'whole') return new Set([value.value]);
  const numbers = new Set<number>();
  if (value.kind === 'wholes')
    for (let number = value.first; number <= value.last; number += value.step) numbers.add(number);
  return numbers;
}

// ---- fibres that evidence names

function rowAt(plan: Plan, block: BlockView, offset: number): Words | undefined {
  const entry = block.bound().entries.find(({ span }) => holds(span, offset));
  const table = entry?.body?.table;
  const row = table?.rows.find(({ span }) => holds(span, offset));
  if (!entry || !table || !row) return undefined;
  const cell = cellUnder(table, row, W.fibre);
  if (cell?.kind !== 'whole' || !holds(cell.span, offset)) return undefined;
  const object = entry.slots.object?.[0] ?? cellUnder(table, row, W.link);
  const named = object && 'text' in object ? plan.find('object', object.text) : undefined;
  const result = named && plan.result.link(named.name);
  const fibre = result?.fibres.find((one) => one.fibre === cell.value);
  return result && fibre && { text: fibreAsMarkdown(result, fibre), span: cell.span };
}

function cellUnder(table: BoundTable, row: BoundRow, word: string): Value | undefined {
  const column = table.headings.findIndex(
    (heading) => heading.kind === 'word' && heading.word === word,
  );
  return row.cells[column];
}

/** One fibre of a link or section: its ports, and where it lies in each cable of its path. */
export function fibreAsMarkdown({ link }: LinkResult, fibre: FibreResult): string {
  const place = link.fibres.indexOf(fibre.fibre);
  const said = new Set<string>();
  for (const element of link.path) {
    if (element.kind !== 'segment' || !element.cable) continue;
    const number = element.cableFibres?.[place];
    if (number === undefined) continue;
    said.add(
      `${element.cable.name} fibre ${number}: ${fibreInWords(fibreInCable(element.cable, number))}`,
    );
  }
  const repairs = link.repairs.filter(({ fibres }) => fibres.includes(fibre.fibre));
  return [
    `**${link.name} fibre ${fibre.fibre}**`,
    portsOf(fibre),
    ...said,
    ...repairs.map(({ name, on }) => `repair ${name} on ${on.text}`),
  ]
    .filter(Boolean)
    .join('  \n');
}

function portsOf({ fromPort, toPort }: FibreResult): string {
  return [fromPort, toPort].filter(Boolean).join(' to ');
}

// ---- cables and orders of colours

/** A cable as it comes out: how long, of what, how many of its fibres are needed, its colours. */
export function cableAsMarkdown(
  cable: Cable,
  needed: number,
  spares?: PlanSettings['spares'],
): string {
  const tubes = cable.tubes ? ` in ${cable.tubes} tubes` : '';
  const lines = [`**${cable.name}**: ${cable.count} fibres${tubes}, ${lengthInWords(cable)}`];
  if (cable.reels.length > 0) {
    const slack = cable.slack > 0 ? ` + slack ${toMetres(cable.slack)} m` : '';
    const splices = cable.joints.filter(Boolean).length;
    lines.push(
      `${cable.reels.map(({ name, written }) => `${name} ${written}`).join(' + ')}${slack}; ${splices} ${splices === 1 ? 'splice' : 'splices'} between reels`,
    );
  }
  if (cable.jacket) lines.push(`jacket ${cable.jacket.colour}`);
  lines.push(sparesInWords(cable, needed, spares), orderInWords(cable));
  for (const { name, on, fibres } of cable.repairs)
    lines.push(`repair ${name} on ${on.text}: fibres ${numbersInWords(fibres)}`);
  return lines.join('  \n');
}

/** `92 of 96 fibres are free, 20 wanted (20 %): 72 more than that`. */
export function sparesInWords(
  { count }: Cable,
  needed: number,
  spares: PlanSettings['spares'],
): string {
  const free = Math.max(0, count - needed);
  const said = `${free} of ${count} fibres are free`;
  if (spares === undefined) return said;
  const wanted = Math.ceil((spares * count) / 1_000_000);
  const over = free - wanted;
  const side =
    over === 0 ? 'as many as that' : over > 0 ? `${over} more than that` : `${-over} too few`;
  return `${said}, ${wanted} wanted (${printMicro(spares * 100)} %): ${side}`;
}

/** `repair REP-1 on 2026-03-03 (fibres 37..38); 1 of 4 held in reserve used`; undefined where there is none. */
export function repairsInWords(link: LinkModel): string | undefined {
  if (link.repairs.length === 0) return undefined;
  const each = link.repairs.map(
    ({ name, on, fibres }) => `repair ${name} on ${on.text} (fibres ${numbersInWords(fibres)})`,
  );
  const { repairs: reserved } = link.terms.reserve;
  const used = reserved > 0 ? `; ${repairsUsed(link)} of ${reserved} held in reserve used` : '';
  return `${each.join(', ')}${used}`;
}

/** `8425 m in 2 reels`. */
export function reelsInWords(cable: Cable): string {
  const { length } = cable.reels;
  return `${lengthInWords(cable)} in ${length} ${length === 1 ? 'reel' : 'reels'}`;
}

/** All that is known of it, slack included. */
function lengthInWords({ length }: Cable): string {
  return length === undefined ? 'no length' : `${toMetres(length)} m`;
}

function orderInWords({ colours, name }: Cable): string {
  return colours
    ? `Colours by ${colours.name}${colours.edition && colours.edition !== colours.name ? ` (${colours.edition})` : ''}.`
    : `${name} names no order of colours, so none is said.`;
}

/** What a colour tells in each order: `aqua: fibre 12 and tube 12 in TIA-598; jacket of OM3, OM4 by TIA-598`. */
export function colourAsMarkdown(
  colour: string,
  orders: readonly ColoursType[],
): string | undefined {
  const said = orders.flatMap(({ name, fibres, tubes, jackets, bodies }) => {
    const places = [
      fibres.includes(colour) ? `fibre ${fibres.indexOf(colour) + 1}` : '',
      tubes.includes(colour) ? `tube ${tubes.indexOf(colour) + 1}` : '',
    ].filter(Boolean);
    const has = ({ colours }: FibreColours) => colours.includes(colour);
    const polished = bodies.map((line) =>
      line.polish ? { ...line, fibres: line.fibres.map((one) => `${one} ${line.polish}`) } : line,
    );
    const kinds = [
      ...told('jacket of', jackets.filter(has)),
      ...told('connector body of', polished.filter(has)),
    ];
    return [
      ...(places.length > 0 ? [`${places.join(' and ')} in ${name}`] : []),
      ...(kinds.length > 0 ? [`${kinds.join(', ')} by ${name}`] : []),
    ];
  });
  return said.length > 0 ? `**${colour}**: ${said.join('; ')}` : undefined;
}

const told = (what: string, lines: readonly FibreColours[]): string[] =>
  lines.length === 0 ? [] : [`${what} ${lines.flatMap(({ fibres }) => fibres).join(', ')}`];

function entryAt(entries: readonly BoundEntry[], offset: number): BoundEntry | undefined {
  for (const entry of entries) {
    if (!holds(entry.span, offset)) continue;
    return (entry.body && entryAt(entry.body.entries, offset)) ?? entry;
  }
  return undefined;
}

function holds({ start, end }: { start: number; end: number }, offset: number): boolean {
  return start <= offset && offset <= end;
}
