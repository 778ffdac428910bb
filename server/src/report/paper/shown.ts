/** What of a document's words a font can draw: the rest is shown as a box, and told in words. */
import type { Block, Cell, Paper, Run } from './blocks.ts';
import type { Covers } from './coverage.ts';

/** Stands for a character that the font does not hold. */
const box = '\u25A1';
const mostTold = 40;

/** The document with nothing in it that the font cannot draw, and what that was. */
export function shownBy(paper: Paper, covers: Covers): Paper {
  const lost = new Map<string, string>();
  const shown = (text: string): string => {
    const drawn = [...text].map((each) => (drawable(each, covers) ? each : box)).join('');
    if (drawn !== text) lost.set(text, codesIn(text, covers));
    return drawn;
  };
  const blocks = paper.blocks.map((block) => blockShown(block, shown));
  const foot = shown(paper.foot);
  return { ...paper, foot, blocks: lost.size === 0 ? blocks : [...told(lost, shown), ...blocks] };
}

function drawable(character: string, covers: Covers): boolean {
  const code = character.codePointAt(0) ?? 0;
  return code === 0x0a || code === 0x20 || covers(code);
}

function codesIn(text: string, covers: Covers): string {
  const codes = [...text]
    .filter((each) => !drawable(each, covers))
    .map((each) => `U+${(each.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`);
  return [...new Set(codes)].join(' ');
}

function told(
  lost: ReadonlyMap<string, string>,
  shown: (text: string) => string,
): readonly Block[] {
  const rows = [...lost].slice(0, mostTold).map(([text, codes]): Cell[] => [shown(text), codes]);
  return [
    {
      kind: 'text',
      runs: [
        {
          look: 'strong',
          text: `The font of this file cannot draw some characters of the plan; each stands as ${box}. The page and the workbook show them as written.`,
        },
      ],
    },
    {
      kind: 'table',
      columns: [
        { head: 'as shown here', grows: true },
        { head: 'missing', grows: true },
      ],
      rows: lost.size > mostTold ? [...rows, [`and ${lost.size - mostTold} more`, '']] : rows,
    },
  ];
}

function blockShown(block: Block, shown: (text: string) => string): Block {
  switch (block.kind) {
    case 'heading':
      return {
        ...block,
        text: shown(block.text),
        ...(block.note ? { note: shown(block.note) } : {}),
      };
    case 'text':
      return { ...block, runs: block.runs.map((run) => runShown(run, shown)) };
    case 'list':
      return {
        ...block,
        items: block.items.map((runs) => runs.map((run) => runShown(run, shown))),
      };
    case 'facts':
      return {
        ...block,
        rows: block.rows.map(({ label, value }) => ({ label: shown(label), value: shown(value) })),
      };
    case 'box':
      return { ...block, title: shown(block.title), lines: block.lines.map(shown) };
    case 'picture':
      return { ...block, svg: shown(block.svg) };
    case 'blanks':
      return block;
    case 'table':
      return {
        ...block,
        ...(block.caption ? { caption: shown(block.caption) } : {}),
        columns: block.columns.map((column) => ({ ...column, head: shown(column.head) })),
        rows: block.rows.map((cells) =>
          cells.map((cell): Cell => {
            if (typeof cell === 'string') return shown(cell);
            return 'svg' in cell ? cell : { ...cell, text: shown(cell.text) };
          }),
        ),
      };
  }
}

function runShown(run: Run, shown: (text: string) => string): Run {
  return typeof run === 'string' ? shown(run) : { ...run, text: shown(run.text) };
}
