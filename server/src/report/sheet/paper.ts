/** The field sheet as a document for paper: the walk first, then the set-ups, then a page for each link. */
import type { LinkResult } from '../../evaluate/result.ts';
import { isTree } from '../../model/ways.ts';
import { counted, length, listed } from '../figures.ts';
import { branchPicture } from '../page/branch-picture.tsx';
import {
  type Block,
  type Cell,
  type Column,
  facts,
  heading,
  list,
  type Paper,
  quiet,
  strong,
  text,
} from '../paper/blocks.ts';
import { pathPicture } from '../paper/path-svg.ts';
import type { Documented } from '../paper/plan.ts';
import { type Arrangement, arrangementFor, cordsOf, setupInWords, stepsOf } from './arrangement.ts';
import { cautions } from './cautions.ts';
import { type Task, type TaskLimit, taskOf } from './task.ts';
import { endInWords, inWalkingOrder } from './walk.ts';

export interface SheetWish {
  /** Only these links and channels; undefined: all that have something to test. */
  readonly links?: readonly string[];
}

interface Visit {
  readonly task: Task;
  readonly arrangement: Arrangement;
  /** Number of its set-up on the sheet. */
  readonly setup: number;
}

export function sheetPaper(subject: Documented, wish: SheetWish = {}): Paper {
  const { plan } = subject;
  const { title, site, client, revision } = plan.settings;
  const visits = visitsOf(subject, wish);
  const name = title ?? 'Plan without a title';
  const toTest = visits.reduce((sum, { task }) => sum + task.toTest, 0);
  const toRepeat = visits.reduce((sum, { task }) => sum + task.toRepeat, 0);
  return {
    title: `Field sheet: ${name}`,
    foot: [name, revision && `revision ${revision.text}`, `as of ${subject.asOf}`]
      .filter(Boolean)
      .join(', '),
    blocks: [
      heading(1, 'Field sheet', { note: name }),
      facts([
        ['Client', client],
        ['Site', site],
        ['Revision', revision && [revision.text, revision.on].filter(Boolean).join(' of ')],
        ['State as of', subject.asOf],
        ['To do', workInWords(toTest, toRepeat, visits.length)],
      ]),
      ...(visits.length === 0
        ? [text('Every reading that the plan asks for has been made and still stands.')]
        : [...walkOf(visits), ...setupsOf(visits)]),
      heading(2, 'Cautions'),
      list(cautions),
      ...visits.flatMap((visit, index) => pageOf(subject, visit, index)),
    ],
  };
}

function visitsOf(subject: Documented, { links }: SheetWish): readonly Visit[] {
  const { result } = subject.plan;
  const results = result.order.flatMap((name) => result.link(name) ?? []);
  const wanted = links
    ? results.filter(({ link }) => links.includes(link.name))
    : results.filter(hasWork);
  const setups = new Map<string, number>();
  return inWalkingOrder(wanted).map((each) => {
    const arrangement = arrangementFor(subject, each);
    if (!setups.has(arrangement.key)) setups.set(arrangement.key, setups.size + 1);
    return {
      task: taskOf(subject, each, arrangement.method),
      arrangement,
      setup: setups.get(arrangement.key)!,
    };
  });
}

/** Something was never read, does not count any more, or lies over its limit. */
function hasWork({ counts }: LinkResult): boolean {
  const { untested, invalid, stale, fail } = counts;
  return untested + invalid + stale + fail + counts['marginal-fail'] > 0;
}

function workInWords(toTest: number, toRepeat: number, links?: number): string {
  const parts = [
    toTest > 0 ? `${counted(toTest, 'reading')} to make` : '',
    toRepeat > 0 ? `${counted(toRepeat, 'reading')} to repeat` : '',
  ].filter(Boolean);
  if (parts.length === 0) return 'nothing to test';
  return `${parts.join(', ')}${links === undefined ? '' : `, at ${counted(links, 'link')}`}`;
}

function walkOf(visits: readonly Visit[]): readonly Block[] {
  const columns: Column[] = [
    { head: '', align: 'right' },
    { head: 'begin at', grows: true },
    { head: 'link' },
    { head: 'far end', grows: true },
    { head: 'to do', grows: true },
    { head: 'set-up', align: 'right' },
  ];
  return [
    heading(2, 'The walk', { note: 'by room and panel, as the plan names them' }),
    {
      kind: 'table',
      columns,
      rows: visits.map(({ task, setup }, index): Cell[] => [
        String(index + 1),
        endInWords(task.link.from) || 'not named in the plan',
        { text: task.link.name, look: 'strong' },
        isTree(task.link) ? counted(task.link.fibres.length, 'end') : endInWords(task.link.to),
        toDoIn(task),
        String(setup),
      ]),
    },
  ];
}

function toDoIn({ toTest, toRepeat, over }: Task): string {
  return [
    toTest > 0 ? `${toTest} to test` : '',
    toRepeat > 0 ? `${toRepeat} to repeat` : '',
    over.length > 0 ? `${counted(over.length, 'fibre')} over the limit` : '',
  ]
    .filter(Boolean)
    .join(', ');
}

function setupsOf(visits: readonly Visit[]): readonly Block[] {
  const first = new Map<number, Visit>();
  for (const visit of visits) if (!first.has(visit.setup)) first.set(visit.setup, visit);
  /** Which set-up has the same steps already: they stand once. */
  const told = new Map<string, number>();
  return [...first.values()].flatMap(({ arrangement, setup }): Block[] => {
    const links = visits.filter((each) => each.setup === setup).map(({ task }) => task.link.name);
    const { method, wavelengths, mode, declared } = arrangement;
    const steps = stepsOf(arrangement);
    const same = told.get(steps.join());
    if (same === undefined) told.set(steps.join(), setup);
    return [
      heading(2, `Set-up ${setup}`, {
        note: [`${method ?? 'no'} reference`, mode, wavelengths.join(', ')]
          .filter(Boolean)
          .join(', '),
      }),
      facts([
        ['For', links.length > 12 ? counted(links.length, 'link') : listed(links)],
        ...declared.slice(0, 3).map((each) => [each.name, setupInWords(each)] as const),
      ]),
      text(strong('Take with you')),
      list([
        ...cordsOf(arrangement),
        'Source and meter with their papers of calibration, charged; an instrument with a filter to look at end faces; what cleans plugs and sockets',
      ]),
      text(strong('Reference')),
      same === undefined ? list(steps, true) : text(`Step by step as for set-up ${same}.`),
      referenceTable(wavelengths),
    ];
  });
}

/** Blanks for the reference and its checks. */
function referenceTable(wavelengths: readonly string[]): Block {
  const blank: Cell = { text: '', blank: true };
  return {
    kind: 'table',
    byHand: true,
    columns: [
      { head: 'reference' },
      { head: 'day and time', grows: true },
      ...wavelengths.map((each) => ({ head: `${each}, dBm`, grows: true })),
      { head: 'by', grows: true },
    ],
    rows: ['taken', 'checked', 'checked', 'after the last fibre'].map((what) => [
      what,
      blank,
      ...wavelengths.map(() => blank),
      blank,
    ]),
  };
}

function pageOf(subject: Documented, visit: Visit, index: number): readonly Block[] {
  const { task, setup } = visit;
  const { link, result } = task;
  const { directions } = link.terms;
  const picture = pathPicture(link, subject.display) ?? branchPicture(subject, result);
  return [
    heading(2, `${index + 1}  ${link.name}`, {
      newPage: true,
      ...(link.title ? { note: link.title } : {}),
    }),
    facts([
      ['End A', endInWords(link.from)],
      [
        'End B',
        isTree(link) ? `${counted(link.fibres.length, 'end')}, see the table` : endInWords(link.to),
      ],
      ['Length', result.length === undefined ? undefined : length(result.length, subject.display)],
      ['Set-up', `${setup}, ${visit.arrangement.method ?? 'no'} reference`],
      [
        'Directions',
        directionsInWords(directions.wanted.length, directions.average, directions.wanted[0]),
      ],
      ['To do', workInWords(task.toTest, task.toRepeat)],
      [
        'Over the limit',
        task.over.length > 0
          ? `${listed(task.over)}: clean both ends, look, read again; what stays over needs work or a decision`
          : undefined,
      ],
      [
        'Leave out',
        link.dead.length > 0
          ? listed(link.dead.map(({ fibre, because }) => `fibre ${fibre} (${because})`))
          : undefined,
      ],
    ]),
    ...(picture ? [picture] : []),
    ...task.groups.flatMap(({ wavelength, limits }) =>
      limits.map((limit): Block => limitLine(wavelength, limit)),
    ),
    fibreTable(task),
    text(
      quiet(
        'Read in this order, one line a fibre, as the instrument shows it. A fibre unlike its neighbours: clean both ends, look, read again, and keep both readings. No light: write dark. Not reached: leave it blank and say why.',
      ),
    ),
    { kind: 'blanks', labels: ['Tested by', 'Day, from, to', 'Instruments and cords', 'Remarks'] },
    text(
      strong('Never look into a fibre: '),
      'its light cannot be seen. Shards in their box. Nothing live is unplugged without leave.',
    ),
  ];
}

function directionsInWords(count: number, average: boolean, first: string | undefined): string {
  const each = 'A>B: source at end A, meter at end B';
  if (average) return `both, their mean is judged. ${each}`;
  if (count === 2) return `both. ${each}; B>A: the other way round`;
  return first === 'B>A' ? 'B>A: source at end B, meter at end A' : each;
}

function limitLine(wavelength: string, limit: TaskLimit): Block {
  const what = [wavelength, limit.direction].filter(Boolean).join(' ');
  if (!limit.limit) {
    return text(strong(`${what}  no limit`), quiet(limit.because ? `  ${limit.because}` : ''));
  }
  return {
    kind: 'text',
    large: true,
    runs: [
      strong(`${what}  limit ${limit.limit} dB`),
      quiet(
        `  ${[
          limit.expected && `expected ${limit.expected}`,
          limit.marginal && `marginal above ${limit.marginal}`,
          limit.from,
        ]
          .filter(Boolean)
          .join(', ')}`,
      ),
    ],
  };
}

function fibreTable(task: Task): Block {
  const groups = task.groups.filter(({ directions }) => directions.length > 0);
  const lies = task.rows.some((row) => row.lies);
  const tree = isTree(task.link);
  const ports = !tree && task.rows.some(({ fromPort, toPort }) => fromPort || toPort);
  const before: Column[] = [
    { head: tree ? 'end' : 'fibre', align: tree ? 'left' : 'right' },
    ...(ports ? [{ head: 'A' }, { head: 'B' }] : []),
    ...(lies ? [{ head: 'lies in', grows: true }] : []),
  ];
  return {
    kind: 'table',
    byHand: true,
    groups: [
      { text: '', span: before.length },
      ...groups.map(({ wavelength, directions }) => ({
        text: `${wavelength}, dB`,
        span: directions.length,
      })),
      { text: '', span: 1 },
    ],
    columns: [
      ...before,
      ...groups.flatMap(({ directions }) =>
        directions.map((head): Column => ({ head, align: 'right' })),
      ),
      { head: 'remark', grows: true },
    ],
    rows: task.rows.map(({ label, fromPort, toPort, lies: where, dead, cells }) => [
      { text: label, look: 'strong' },
      ...(ports ? [fromPort, toPort] : []),
      ...(lies ? [where] : []),
      ...cells.map(({ text: value, blank }): Cell => ({ text: value, look: 'quiet', blank })),
      dead ? 'leave out' : '',
    ]),
  };
}
