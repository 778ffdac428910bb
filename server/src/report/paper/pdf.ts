/**
 * A document for paper as a PDF: text that can be selected and searched, the
 * font inside the file. Nothing else of the house loads this.
 */

import regular from 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf';
import bold from 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf';
import maker from 'pdfmake';
import type { Block, Cell, Column, Paper, Run, Table } from './blocks.ts';
import { coverageOf } from './coverage.ts';
import { markHeight, markSvg, markWidth } from './mark-svg.ts';
import { shownBy } from './shown.ts';

export type PageSize = 'A4' | 'Letter';

const font = 'Body';
/** Their own names: pictures ask for a font by the name under which the text has brought it in. */
const regularName = 'DejaVuSansCondensed';
const boldName = 'DejaVuSansCondensed-Bold';
const millimetre = 72 / 25.4;
const edge = 15 * millimetre;
const widths: Readonly<Record<PageSize, number>> = { A4: 210 * millimetre, Letter: 612 };
const grey = '#555555';
const hair = '#bbbbbb';
const black = '#000000';
/** Height of a row to be written in by hand. */
const handHeight = 8 * millimetre;
const handPadding = 5;

export async function paperPdf(paper: Paper, page: PageSize): Promise<Uint8Array> {
  maker.virtualfs.writeFileSync(regularName, regular);
  maker.virtualfs.writeFileSync(boldName, bold);
  maker.setFonts({ [font]: { normal: regularName, bold: boldName } });
  // A document is made of what it is given: nothing is fetched, nothing read from the disk.
  maker.setUrlAccessPolicy(() => false);
  maker.setLocalAccessPolicy(() => false);
  const { title, foot, stamp, seal, blocks } = shownBy(paper, coverageOf(regular));
  const room = widths[page] - 2 * edge;
  return maker
    .createPdf({
      pageSize: page === 'A4' ? 'A4' : 'LETTER',
      pageMargins: [edge, edge + 6, edge, edge + 12],
      language: 'en',
      info: { title, ...(seal ? { keywords: seal } : {}) },
      defaultStyle: { font, fontSize: 8.6, lineHeight: 1.15 },
      content: withHeadings(blocks, room),
      header: () => ({
        text: stamp ?? '',
        bold: true,
        alignment: 'right',
        margin: [edge, edge - 12, edge, 0],
      }),
      footer: (at: number, of: number) => ({
        margin: [edge, 8, edge, 0],
        fontSize: 7.5,
        columns: [
          { text: foot, width: '*' },
          { text: `page ${at} of ${of}`, width: 'auto' },
        ],
      }),
      ...(stamp
        ? {
            watermark: {
              text: stamp,
              font,
              bold: true,
              fontSize: 90,
              color: '#999999',
              opacity: 0.15,
            },
          }
        : {}),
    })
    .getBuffer();
}

/** A table up to so many rows stands on one page with what it is called. */
const shortTable = 8;

/** A heading never ends a page: it goes on with what it is the heading of, where that is short. */
function withHeadings(blocks: readonly Block[], room: number): readonly (object | string)[] {
  const set: (object | string)[] = [];
  for (let at = 0; at < blocks.length; at++) {
    let end = at;
    while (blocks[end]?.kind === 'heading') end++;
    const headed = blocks[end];
    if (end === at || !headed || (headed.kind === 'table' && headed.rows.length > shortTable)) {
      set.push(blockOf(blocks[at]!, room));
      continue;
    }
    const together = blocks.slice(at, end + 1);
    const newPage = together.some((each) => each.kind === 'heading' && each.newPage);
    const stack = together.map((each) =>
      blockOf(each.kind === 'heading' ? { ...each, newPage: false } : each, room),
    );
    set.push({ stack, unbreakable: true, ...(newPage ? { pageBreak: 'before' } : {}) });
    at = end;
  }
  return set;
}

function blockOf(block: Block, room: number): object | string {
  switch (block.kind) {
    case 'heading':
      return headingOf(block);
    case 'text':
      return {
        text: runsOf(block.runs, block.large ? 14 : undefined),
        margin: [0, 0, 0, block.large ? 2 : 5],
      };
    case 'list': {
      const items = block.items.map((runs) => ({ text: runsOf(runs), margin: [0, 0, 0, 2] }));
      return { [block.numbered ? 'ol' : 'ul']: items, margin: [0, 0, 0, 5] };
    }
    case 'facts':
      return block.rows.length === 0
        ? ''
        : {
            margin: [0, 0, 0, 5],
            layout: { ...noLines, ...tight },
            table: {
              widths: [30 * millimetre, '*'],
              body: block.rows.map(({ label, value }) => [{ text: label, color: grey }, value]),
            },
          };
    case 'box':
      return {
        margin: [room * 0.55, 0, 0, 6],
        layout: {
          paddingLeft: () => 8,
          paddingRight: () => 8,
          paddingTop: () => 4,
          paddingBottom: () => 4,
        },
        table: {
          widths: ['*'],
          body: [
            [
              {
                stack: [
                  { text: block.title, bold: true, fontSize: 11 },
                  ...block.lines.map((text) => ({ text, fontSize: 7.5 })),
                ],
              },
            ],
          ],
        },
      };
    case 'picture':
      return { svg: inBody(block.svg), width: Math.min(room, block.width), margin: [0, 4, 0, 6] };
    case 'blanks':
      return blanksOf(block.labels);
    case 'table':
      return tableOf(block, room);
  }
}

function headingOf({ level, text, note, newPage }: Extract<Block, { kind: 'heading' }>): object {
  const size = level === 1 ? 14 : level === 2 ? 11 : 8.6;
  return {
    text: [
      { text, bold: true, fontSize: size },
      ...(note ? [{ text: `   ${note}`, fontSize: 8.6 }] : []),
    ],
    headlineLevel: level,
    margin: [0, level === 1 || newPage ? 0 : level === 2 ? 12 : 8, 0, 4],
    ...(newPage ? { pageBreak: 'before' } : {}),
  };
}

function runsOf(runs: readonly Run[], size?: number): readonly object[] {
  return runs.map((run) => {
    if (typeof run === 'string') return { text: run };
    if (run.look === 'quiet') return { text: run.text, color: grey };
    return { text: run.text, bold: true, ...(size ? { fontSize: size } : {}) };
  });
}

function blanksOf(labels: readonly string[]): object {
  const pairs = labels.flatMap((label, index) =>
    index % 2 === 0 ? [[label, labels[index + 1] ?? '']] : [],
  );
  return {
    unbreakable: true,
    margin: [0, 4, 0, 8],
    layout: { ...tight, vLineWidth: () => 0, hLineWidth: (line: number) => (line === 0 ? 0 : 0.5) },
    table: {
      widths: ['*', '*'],
      heights: 10 * millimetre,
      body: pairs.map((pair) => pair.map((text) => ({ text, color: grey, fontSize: 7.5 }))),
    },
  };
}

const noLines = { hLineWidth: () => 0, vLineWidth: () => 0 };
const tight = {
  paddingLeft: () => 0,
  paddingRight: () => 4,
  paddingTop: () => 1,
  paddingBottom: () => 1,
};

/** Texts up to so many characters are not broken, where that leaves room for the rest. */
const shortText = 18;
/** Of a character of this font at the size of tables, at the most usual. */
const characterWidth = 4.1;

function mostWhole({ columns, rows }: Table, room: number): number {
  const needed = columns.reduce((sum, { grows, head }, at) => {
    const longest = rows.reduce(
      (most, row) => Math.max(most, Math.min(shortText, textIn(row[at]).length)),
      Math.min(shortText, head.length),
    );
    return sum + (grows ? 10 : longest) * characterWidth + 5;
  }, 0);
  return needed > room ? 0 : shortText;
}

function textIn(cell: Cell | undefined): string {
  if (cell === undefined || typeof cell === 'string') return cell ?? '';
  return 'svg' in cell ? '' : cell.text;
}

function tableOf(table: Table, room: number): object {
  const { caption, groups, columns, rows, byHand = false } = table;
  const marked = columns.map((_, at) => rows.some((row) => hasMark(row[at])));
  const heads = groups ? 2 : 1;
  const whole = mostWhole(table, room);
  const spanOf = (from: number, span: number) =>
    span + marked.slice(from, from + span).filter(Boolean).length;
  const body = [
    ...(groups ? [groupCells(groups, spanOf)] : []),
    columns.flatMap((column, at) => spread(headCell(column), marked[at] ?? false)),
    ...rows.map((row) =>
      row.flatMap((cell, at) =>
        cellsOf(cell, { column: columns[at], marked: marked[at] ?? false, byHand, whole }),
      ),
    ),
  ];
  const set = {
    margin: [0, 2, 0, 8],
    fontSize: 7.5,
    layout: layoutOf(heads, byHand),
    table: {
      headerRows: heads,
      dontBreakRows: true,
      keepWithHeaderRows: 1,
      widths: columns.flatMap(({ grows }, at) => [
        ...(marked[at] ? [markWidth * 0.75] : []),
        grows ? '*' : 'auto',
      ]),
      ...(byHand
        ? { heights: (row: number) => (row < heads ? 'auto' : handHeight - handPadding - 2) }
        : {}),
      body,
    },
  };
  return caption
    ? { stack: [{ text: caption, bold: true, fontSize: 7.5, margin: [0, 4, 0, 0] }, set] }
    : set;
}

function layoutOf(heads: number, byHand: boolean): object {
  return {
    ...tight,
    paddingLeft: () => (byHand ? 3 : 0),
    paddingTop: (row: number) => (byHand && row >= heads ? handPadding : 2),
    paddingBottom: () => 2,
    hLineWidth: (line: number) => {
      if (line < heads) return 0;
      if (!byHand) return 0.5;
      return line > heads && (line - heads) % 4 === 0 ? 1.2 : 0.8;
    },
    vLineWidth: () => 1,
    hLineColor: (line: number) =>
      byHand && line > heads && (line - heads) % 4 === 0 ? black : hair,
  };
}

function groupCells(
  groups: NonNullable<Table['groups']>,
  spanOf: (from: number, span: number) => number,
): readonly object[] {
  let from = 0;
  return groups.flatMap(({ text, span }) => {
    const colSpan = spanOf(from, span);
    from += span;
    return [
      { text, colSpan, bold: true, alignment: 'center', border: noBorder },
      ...Array.from({ length: colSpan - 1 }, () => ({})),
    ];
  });
}

const noBorder = [false, false, false, false];

function headCell({ head, align }: Column): object {
  return { text: head, color: grey, border: noBorder, ...(align ? { alignment: align } : {}) };
}

/** A column of marks stands before its words as a narrow one of its own. */
function spread(cell: object, marked: boolean): readonly object[] {
  return marked ? [{ ...cell, colSpan: 2 }, {}] : [cell];
}

function hasMark(cell: Cell | undefined): boolean {
  return typeof cell === 'object' && 'verdict' in cell && cell.verdict !== undefined;
}

interface CellPlace {
  readonly column: Column | undefined;
  /** Its column has marks before its words. */
  readonly marked: boolean;
  readonly byHand: boolean;
  /** Characters up to which a text is not broken. */
  readonly whole: number;
}

function cellsOf(cell: Cell, { column, marked, byHand, whole }: CellPlace): readonly object[] {
  const border = [false, true, false, byHand];
  const align = {
    ...(column?.align ? { alignment: column.align } : {}),
    ...(textIn(cell).length <= whole && !column?.grows ? { noWrap: true } : {}),
  };
  if (typeof cell === 'string') return spread({ text: cell, border, ...align }, marked);
  if ('svg' in cell) {
    return spread({ svg: inBody(cell.svg), width: cell.width, border }, marked);
  }
  const { text, look, verdict, blank } = cell;
  const words = {
    text,
    ...align,
    ...(look === 'strong' ? { bold: true } : {}),
    ...(look === 'quiet' ? { color: grey } : {}),
    ...(blank
      ? { border: [true, true, true, true], borderColor: [black, black, black, black] }
      : { border }),
  };
  if (!marked) return [words];
  if (!verdict) return spread(words, true);
  const width = markWidth * 0.65;
  return [
    { svg: markSvg(verdict), width, height: (width / markWidth) * markHeight, border },
    words,
  ];
}

/** Words of a picture are set in the font of the file. */
function inBody(svg: string): string {
  return svg.replaceAll('font-family="sans-serif"', `font-family="${font}"`);
}
