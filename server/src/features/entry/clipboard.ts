/** A block copied from a spreadsheet, as rows of cells: tabs, or semicolons where there are no tabs. */

export interface Copied {
  /** Texts of the heading row; undefined where the first row holds readings already. */
  readonly headings: readonly string[] | undefined;
  readonly rows: readonly CopiedRow[];
}

export interface CopiedRow {
  /** As counted in what was copied, from 1. */
  readonly line: number;
  readonly cells: readonly string[];
}

/** Reads what was copied; empty lines are left out. */
export function readCopied(text: string): Copied {
  const lines = text.replace(/\r\n?/gu, '\n').split('\n');
  const parting = lines.some((line) => line.includes('\t')) ? '\t' : ';';
  const rows = lines
    .map((line, index) => ({
      line: index + 1,
      cells: line.split(parting).map((cell) =>
        cell
          .trim()
          .replace(/^"(.*)"$/su, '$1')
          .trim(),
      ),
    }))
    .filter(({ cells }) => cells.some((cell) => cell !== ''));
  const [first, ...rest] = rows;
  if (!first?.cells.some(isHeading)) return { headings: undefined, rows };
  return { headings: first.cells, rows: rest };
}

/** A wavelength with its unit, or a word: no reading is either. */
function isHeading(cell: string): boolean {
  if (/\d\s*nm\b/iu.test(cell)) return true;
  // `-21.1 dBm` is a value with its unit.
  return /\p{L}{3}/u.test(cell) && !/^(?:dark$|[-−+]?[.,]?\d)/iu.test(cell);
}

/** What a heading says of its column. */
export type Headed =
  | { readonly kind: 'fibre' }
  | {
      readonly kind: 'reading';
      readonly nanometres: number;
      readonly direction: 'A>B' | 'B>A' | undefined;
    }
  | { readonly kind: 'other' };

/** `850 nm A>B`, `850 A to B`, `1310nm (B-A)`, `Fibre no.` as people head their columns. */
export function headed(text: string): Headed {
  const wavelength = /(?<!\d)(\d{3,4})(?!\d)\s*(?:nm)?/iu.exec(text);
  if (wavelength) {
    const rest = text.replace(wavelength[0], ' ').toUpperCase();
    const way = /\b([AB])\s*(?:>|-|–|→|TO|\/)?\s*([AB])\b/u.exec(rest);
    const direction =
      way && way[1] !== way[2] ? (way[1] === 'A' ? ('A>B' as const) : ('B>A' as const)) : undefined;
    return { kind: 'reading', nanometres: Number(wavelength[1]), direction };
  }
  return /^(?:fib(?:re|er)|end|port|no\b|nr\b|#)/iu.test(text.trim())
    ? { kind: 'fibre' }
    : { kind: 'other' };
}

/** What a cell says; undefined where it is empty. */
export function cellText(cell: string): string | undefined {
  return cell === '' || /^[-–—]$/u.test(cell) ? undefined : cell;
}
