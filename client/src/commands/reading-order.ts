/** In which order a tester reads: asked before the first reading. */
import * as vscode from 'vscode';

/** One reading that is to be typed. */
export interface ToEnter {
  readonly object: string;
  readonly panel: string;
  readonly fibre: number;
  readonly wavelength: number;
  readonly direction: string;
  readonly place: string;
  readonly column: string;
  readonly ports: string;
  readonly limit: string;
}

export interface ReadingsToEnter {
  readonly object: string;
  readonly title: string;
  readonly again: boolean;
  readonly present: number;
  readonly expected: number;
  readonly readings: readonly ToEnter[];
}

interface Way extends vscode.QuickPickItem {
  readonly readings: readonly ToEnter[];
}

/** Readings in the order in which they are asked for, and of what they are. */
export interface Chosen {
  readonly of: ReadingsToEnter;
  readonly readings: readonly ToEnter[];
}

const byColumn = 'Column by column';
const byPanel = 'Panel by panel';

/** Which readings, in which order: asked once, before the first. Undefined: turned away. */
export async function chooseOrder(
  there: ReadingsToEnter,
  around: () => Promise<ReadingsToEnter | null>,
): Promise<Chosen | undefined> {
  const { object, title, again, readings } = there;
  const panel = readings[0]?.panel ?? '';
  const columns = [...new Set(readings.map(({ column }) => column))];
  const ways: Way[] = [
    {
      label: 'Fibre by fibre',
      description: `every wavelength and direction of a fibre, then the next: ${readings.length} readings`,
      readings,
    },
    {
      label: byColumn,
      description: `one wavelength and direction of all fibres, then the next`,
      readings: columns.flatMap((column) => readings.filter((each) => each.column === column)),
    },
    ...partsOf(readings),
    ...(panel === ''
      ? []
      : [
          {
            label: byPanel,
            description: `of all links port by port as you walk, ${panel} first`,
            readings,
          },
        ]),
  ];
  const way = await vscode.window.showQuickPick(ways, {
    title: `${object}${title ? `, ${title}` : ''}: ${again ? 'read again' : 'readings to enter'}`,
    placeHolder: 'In which order do you read?',
  });
  if (!way) return undefined;
  const walk = way.label === byPanel ? await around() : undefined;
  const of = walk ?? there;
  const all = walk ? await partOfWalk(walk) : way.readings;
  if (!all) return undefined;
  const fibres = new Set(all.map(placeOf)).size;
  if (fibres < 3) return { of, readings: all };
  const step = await askOrder(of.object, fibres);
  if (!step) return undefined;
  return {
    of,
    readings: panelsIn({ ...way, readings: all }, walk !== undefined).flatMap((each) =>
      inSteps(each, step),
    ),
  };
}

/** One direction of every wavelength, as source and meter stand; one wavelength of both; one column. */
function partsOf(readings: readonly ToEnter[]): readonly Way[] {
  const split = readings.map((reading) => ({ reading, ...columnOf(reading) }));
  const wavelengths = [...new Set(split.map(({ wavelength }) => wavelength))];
  const directions = [...new Set(readings.map(({ direction }) => direction))].sort();
  const columns = [...new Set(readings.map(({ column }) => column))];
  const part = (
    label: string,
    more: string,
    own: (each: (typeof split)[number]) => boolean,
  ): Way => {
    const part = split.filter(own).map(({ reading }) => reading);
    return { label, description: `${more}${part.length} readings`, readings: part };
  };
  const several = wavelengths.length > 1 && directions.length > 1;
  return [
    ...(several
      ? [
          ...directions.map((direction) =>
            part(
              direction,
              'every wavelength of a fibre, then the next: ',
              (each) => each.direction === direction,
            ),
          ),
          ...wavelengths.map((wavelength) =>
            part(
              wavelength,
              'both directions of a fibre, then the next: ',
              (each) => each.wavelength === wavelength,
            ),
          ),
        ]
      : []),
    ...(columns.length > 1
      ? columns.map((column) => part(column, '', ({ reading }) => reading.column === column))
      : []),
  ];
}

/** `850 nm A>B` in its two parts. */
function columnOf({ column, direction }: ToEnter): {
  readonly wavelength: string;
  readonly direction: string;
} {
  return { wavelength: column.replace(direction, '').trim(), direction };
}

async function partOfWalk({
  object,
  readings,
}: ReadingsToEnter): Promise<readonly ToEnter[] | undefined> {
  const parts = partsOf(readings);
  if (parts.length === 0) return readings;
  const all: Way = {
    label: 'Every wavelength and direction',
    description: `${readings.length} readings`,
    readings,
  };
  const chosen = await vscode.window.showQuickPick([all, ...parts], {
    title: object,
    placeHolder: 'Which readings at each port?',
  });
  return chosen?.readings;
}

/** How many fibres on from one to the next, below zero downwards; undefined: turned away. */
async function askOrder(object: string, fibres: number): Promise<number | undefined> {
  const order = await vscode.window.showQuickPick(
    [
      { label: 'Every fibre, upwards', step: 1 },
      { label: 'Every fibre, downwards', step: -1 },
      { label: 'Every second fibre, upwards, then the others', step: 2 },
      { label: 'Every second fibre, downwards, then the others', step: -2 },
      { label: 'Another step…', step: 0 },
    ],
    { title: object, placeHolder: 'From fibre to fibre' },
  );
  if (!order) return undefined;
  return order.step || askStep(object, fibres);
}

/** What is stepped through for itself: on a walk each panel, else all. */
function panelsIn(way: Way, apart: boolean): readonly Way[] {
  if (!apart) return [way];
  return [...new Set(way.readings.map(({ panel }) => panel))].map((panel) => ({
    ...way,
    readings: way.readings.filter((each) => each.panel === panel),
  }));
}

/** A fibre of a link. */
function placeOf({ object, fibre }: ToEnter): string {
  return `${fibre} of ${object}`;
}

async function askStep(object: string, fibres: number): Promise<number | undefined> {
  const typed = await vscode.window.showInputBox({
    title: object,
    prompt: 'How many fibres on from one to the next? A minus goes downwards.',
    validateInput: (text) =>
      /^-?[1-9]\d*$/u.test(text.trim()) && Math.abs(Number(text)) < fibres
        ? undefined
        : `A whole number from 1 to ${fibres - 1}, or the same with a minus.`,
  });
  return typed === undefined ? undefined : Number(typed);
}

/** With a step of 12: fibres 1, 13, 25 …, then 2, 14, 26 …; within one column, or one fibre, the order stays. */
function inSteps(way: Way, step: number): readonly ToEnter[] {
  const upwards = [...new Set(way.readings.map(placeOf))];
  const fibres = step < 0 ? upwards.toReversed() : upwards;
  const size = Math.abs(step);
  const order = new Map<string, number>();
  for (let start = 0; start < size; start++) {
    for (let at = start; at < fibres.length; at += size) order.set(fibres[at]!, order.size);
  }
  const columnFirst = way.label === byColumn;
  const columns = new Map(
    [...new Set(way.readings.map(({ column }) => column))].map((column, index) => [column, index]),
  );
  return [...way.readings].sort((a, b) => {
    const fibre = order.get(placeOf(a))! - order.get(placeOf(b))!;
    const column = columns.get(a.column)! - columns.get(b.column)!;
    return columnFirst ? column || fibre : fibre || column;
  });
}
