/** A part of the record for each link: what it is, what its limit is made of, and every fibre with all that stands. */
import { type Picometres, toMetres } from '../../../../grammar/src/quantity/index.ts';
import { numbersInWords } from '../../evaluate/doubts.ts';
import type { LinkResult, ReadingResult, WayResult } from '../../evaluate/result.ts';
import type { LinkModel, PathElement } from '../../model/types.ts';
import { elementsIn, isTree, placeName } from '../../model/ways.ts';
import { type BesideTable, besideOf } from '../beside.ts';
import { decibels, key, length, listed, margin, microInColumn, wavelength } from '../figures.ts';
import { branchPicture } from '../page/branch-picture.tsx';
import {
  type Block,
  type Cell,
  type Column,
  facts,
  heading,
  quiet,
  strong,
  type Table,
  text,
} from '../paper/blocks.ts';
import { partsInWords, pathPicture } from '../paper/path-svg.ts';
import type { Documented } from '../paper/plan.ts';
import { lossText } from '../rows/fibre.ts';
import { limitsAt } from '../rows/limits.ts';
import { columnsOf } from '../rows/link.ts';
import { liesIn } from '../sheet/task.ts';
import { endInWords } from '../sheet/walk.ts';
import { lookOf } from '../verdicts.ts';

export function linkBlocks(subject: Documented, result: LinkResult): readonly Block[] {
  const { link } = result;
  const picture = pathPicture(link, subject.display) ?? branchPicture(subject, result);
  return [
    heading(3, link.name, {
      note: [link.title, lookOf(result.verdict).word].filter(Boolean).join(', '),
    }),
    factsOf(subject, result),
    ...(picture ? [picture] : []),
    ...(result.ways.length > 0 ? [waysTable(subject, result)] : []),
    ...limitBlocks(subject, result),
    ...(result.fibres.length > 0 ? [fibreTable(subject, result)] : []),
    ...powerTable(result),
    ...madeBy(result),
    ...besideOf(subject, result, Number.POSITIVE_INFINITY).map(besideTable),
  ];
}

function factsOf(subject: Documented, result: LinkResult): Block {
  const { link } = result;
  return facts([
    ['End A', endInWords(link.from)],
    ['End B', isTree(link) ? '' : endInWords(link.to)],
    [
      'Length',
      result.length === undefined
        ? 'not known'
        : `${length(result.length, subject.display)} as planned`,
    ],
    ['Fibre', listed(fibresIn(link))],
    ['Cables', listed(cablesIn(link))],
    ['Counted in the path', listed(partsInWords(link))],
    ['Carries', listed(result.applications.map(({ name, support }) => `${name} ${support}`))],
    ['Spare', link.spare.length > 0 ? `fibres ${numbersInWords(link.spare)}` : undefined],
    ['Dead', listed(link.dead.map(({ fibre, because }) => `fibre ${fibre} (${because})`))],
    ['Readings', `${result.present} of ${result.expected}`],
  ]);
}

function fibresIn(link: LinkResult['link']): readonly string[] {
  return distinct(
    [...elementsIn(link)].flatMap((element) =>
      element.kind === 'segment' ? [fibreInWords(element)] : [],
    ),
  );
}

function fibreInWords({ fibre, fibreName }: Extract<PathElement, { kind: 'segment' }>): string {
  const core = fibre?.core === undefined ? '' : `core ${fibre.core / 1e6} µm`;
  return [fibreName, fibre?.mode, core].filter(Boolean).join(', ');
}

function cablesIn(link: LinkResult['link']): readonly string[] {
  return distinct(
    [...elementsIn(link)].flatMap((element) =>
      element.kind === 'segment' && element.cable
        ? [
            `${element.cable.name}${element.reel ? ` reel ${element.reel}` : ''}${element.cableFibres ? ` fibres ${numbersInWords(element.cableFibres)}` : ''}`,
          ]
        : [],
    ),
  );
}

function distinct(values: readonly string[]): readonly string[] {
  return [...new Set(values.filter(Boolean))];
}

/** Limits at each wavelength, the governing one first, with the sums they come from. */
function limitBlocks(subject: Documented, result: LinkResult): readonly Block[] {
  const rows = result.wavelengths.flatMap((at) => {
    const where = [wavelength(at.wavelength), at.direction, at.reference && `${at.reference}`]
      .filter(Boolean)
      .join(' ');
    return limitsAt(at, subject.display.precision).map((limit, index): Cell[] => [
      index === 0 ? where : '',
      { text: limit.figure, ...(limit.governs ? { look: 'strong' as const } : {}) },
      [
        limit.governs ? 'governs' : limit.beside ? 'compared only' : 'in force',
        limit.recalled ? 'from memory' : '',
      ]
        .filter(Boolean)
        .join(', '),
      `${limit.kind}, ${limit.name}`,
      limit.because ??
        limit.terms
          .map(({ sign, what, working }) => `${sign} ${what}: ${working}`.trim())
          .join('; '),
      distinct(limit.terms.map(({ source }) => source)).join('; '),
    ]);
  });
  if (rows.length === 0) return [];
  return [
    {
      kind: 'table',
      columns: [
        { head: 'limit at' },
        { head: 'dB', align: 'right' },
        { head: '' },
        { head: 'limit', grows: true },
        { head: 'made of', grows: true },
        { head: 'source', grows: true },
      ],
      rows,
    },
  ];
}

function fibreTable(subject: Documented, result: LinkResult): Table {
  const { link, fibres } = result;
  const columns = columnsOf(result).filter(({ directions }) => directions.length > 0);
  const ports = fibres.some(({ fromPort, toPort }) => fromPort || toPort) && !isTree(link);
  const lies = fibres.some(({ fibre }) => liesIn(link, fibre));
  const before: Column[] = [
    { head: isTree(link) ? 'end' : 'fibre', align: isTree(link) ? 'left' : 'right' },
    ...(ports ? [{ head: 'A' }, { head: 'B' }] : []),
    ...(lies ? [{ head: 'lies in', grows: true }] : []),
  ];
  const { precision } = subject.display;
  return {
    kind: 'table',
    groups: [
      { text: '', span: before.length },
      ...columns.map(({ wavelength: at, directions }) => ({
        text: `${wavelength(at)}, loss in dB`,
        span: directions.length,
      })),
      { text: '', span: 4 },
    ],
    columns: [
      ...before,
      ...columns.flatMap(({ directions }) =>
        directions.map((direction): Column => ({ head: direction ?? 'mean', align: 'right' })),
      ),
      { head: 'margin', align: 'right' },
      { head: 'U', align: 'right' },
      { head: 'verdict' },
      { head: 'note', grows: true },
    ],
    rows: fibres.map(({ fibre, fromPort = '', toPort = '', verdict, current }): Cell[] => {
      const least = leastMargin(current);
      return [
        { text: isTree(link) ? placeName(link, fibre) : String(fibre), look: 'strong' },
        ...(ports ? [fromPort, toPort] : []),
        ...(lies ? [liesIn(link, fibre)] : []),
        ...columns.flatMap(({ wavelength: at, directions }) =>
          directions.map((direction): Cell => {
            const reading = current.find(
              (each) => each.wavelength === at && each.direction === direction,
            );
            if (!reading) return '';
            if (reading.attempt === null) return { text: 'not read', look: 'quiet' };
            return {
              text: lossText(reading, precision),
              ...(reading.verdict === 'pass' ? {} : { look: 'strong' as const }),
            };
          }),
        ),
        least?.margin === undefined ? '' : margin(least.margin, precision),
        least?.uncertainty ? microInColumn(least.uncertainty) : '',
        {
          text: lookOf(verdict).word,
          verdict,
          ...(verdict === 'pass' ? {} : { look: 'strong' as const }),
        },
        noteOf(link, fibre, current),
      ];
    }),
  };
}

function leastMargin(current: readonly ReadingResult[]): ReadingResult | undefined {
  return current
    .filter(({ margin: value }) => value !== undefined)
    .reduce<ReadingResult | undefined>(
      (least, each) => (least && least.margin! <= each.margin! ? least : each),
      undefined,
    );
}

/** Why it is left out; reasons, remarks, and which attempt stands where there were several. */
function noteOf({ dead }: LinkModel, fibre: number, current: readonly ReadingResult[]): string {
  const left = dead.find((each) => each.fibre === fibre);
  const attempts = new Map<number, string[]>();
  for (const reading of current) {
    const attempt = reading.attempt ?? 1;
    if (attempt > 1) attempts.set(attempt, [...(attempts.get(attempt) ?? []), key(reading)]);
  }
  return distinct([
    left ? `dead: ${left.because}` : '',
    ...current.map(({ because }) => because),
    ...current.map(({ reading }) => reading?.remark ?? ''),
    ...[...attempts].map(([attempt, keys]) =>
      keys.length === current.length
        ? `attempt ${attempt}`
        : `attempt ${attempt} at ${listed(keys)}`,
    ),
  ]).join('; ');
}

/** Where powers were read, they stand beside the losses that follow from them. */
function powerTable(result: LinkResult): readonly Table[] {
  const all = result.fibres.flatMap(({ current }) => current);
  if (!all.some(({ power }) => power !== undefined)) return [];
  const columns = columnsOf(result).filter(({ directions }) => directions.length > 0);
  return [
    {
      kind: 'table',
      caption: 'Power read and reference, dBm',
      groups: [
        { text: '', span: 1 },
        ...columns.map(({ wavelength: at, directions }) => ({
          text: wavelength(at),
          span: directions.length,
        })),
      ],
      columns: [
        {
          head: isTree(result.link) ? 'end' : 'fibre',
          align: isTree(result.link) ? 'left' : 'right',
        },
        ...columns.flatMap(({ directions }) =>
          directions.map(
            (direction): Column => ({ head: direction ?? 'mean', align: 'right', grows: true }),
          ),
        ),
      ],
      rows: result.fibres.map(({ fibre, current }): Cell[] => [
        isTree(result.link) ? placeName(result.link, fibre) : String(fibre),
        ...columns.flatMap(({ wavelength: at, directions }) =>
          directions.map((direction): Cell => {
            const reading = current.find(
              (each) => each.wavelength === at && each.direction === direction,
            );
            const { power, reference } = reading ?? {};
            if (power === undefined) return '';
            return reference === undefined
              ? microInColumn(power)
              : `${microInColumn(power)} of ${microInColumn(reference)}`;
          }),
        ),
      ]),
    },
  ];
}

/** When, by whom and with what the readings were made that stand: equal ones in one line. */
function madeBy({ link, readings }: LinkResult): readonly Block[] {
  const groups = new Map<string, { readonly text: string; readonly fibres: Set<number> }>();
  for (const { current, reading, setup, fibre } of readings) {
    if (!current || !reading) continue;
    const words = [
      reading.at.text,
      reading.by ? `by ${reading.by}` : 'tester not named',
      setup ? `set-up ${setup}` : '',
    ]
      .filter(Boolean)
      .join(', ');
    const group = groups.get(words) ?? { text: words, fibres: new Set<number>() };
    group.fibres.add(fibre);
    groups.set(words, group);
  }
  return [...groups.values()].map(({ text: words, fibres }) =>
    text(
      strong('Read '),
      words,
      quiet(
        isTree(link)
          ? `: ${[...fibres].map((fibre) => placeName(link, fibre)).join(', ')}`
          : `: ${fibres.size > 1 ? 'fibres' : 'fibre'} ${numbersInWords([...fibres])}`,
      ),
    ),
  );
}

/** Ends of a tree, or spans and long ways of a ring. */
function waysTable({ display }: Documented, result: LinkResult): Table {
  const waves = [
    ...new Set(result.ways.flatMap((way) => way.wavelengths.map((at) => at.wavelength))),
  ].sort((a, b) => a - b);
  const at = (way: WayResult, wave: Picometres) =>
    way.wavelengths.find((each) => each.wavelength === wave);
  // A part whose typical loss nobody states leaves nothing to expect.
  const expects = (wave: Picometres) =>
    result.ways.some((way) => at(way, wave)?.expected !== undefined);
  return {
    kind: 'table',
    caption: isTree(result.link) ? 'Ends of the tree' : 'Ways round the ring',
    columns: [
      { head: 'way', grows: true },
      { head: 'length', align: 'right' },
      ...waves.flatMap((wave): Column[] => [
        { head: `limit ${wavelength(wave)}`, align: 'right' },
        ...(expects(wave) ? [{ head: 'expected', align: 'right' } as const] : []),
      ]),
    ],
    rows: result.ways.map((way): Cell[] => [
      way.way.cut ? `${way.name}, ${way.way.cut} lost` : way.name,
      way.length === undefined ? '' : `${toMetres(way.length)} m`,
      ...waves.flatMap((wave) => {
        const here = at(way, wave);
        const limit = here?.governing?.value;
        const shown = [limit === undefined ? '' : decibels(limit, display.precision)];
        if (!expects(wave)) return shown;
        const { expected } = here ?? {};
        return [...shown, expected === undefined ? '' : decibels(expected, display.precision)];
      }),
    ]),
  };
}

function besideTable({ title, heads, figures, rows }: BesideTable): Table {
  return {
    kind: 'table',
    caption: title,
    columns: [
      ...heads.map((head): Column => ({ head, align: figures.includes(head) ? 'right' : 'left' })),
      { head: '', grows: true },
    ],
    rows: rows.map(({ cells, note }): Cell[] => [
      ...heads.map((_, index) => cells[index] ?? ''),
      note,
    ]),
  };
}
