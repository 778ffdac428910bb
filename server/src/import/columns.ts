/** Where in a row stands what a mapping names. */
import type { Mapping, MappingProblem, Source } from './mapping.ts';
import type { Cell, TableRow } from './table.ts';

/** A cell of a row, or what holds of all rows; undefined: nothing is said of it. */
export type Reader = (row: TableRow) => Cell | undefined;

export interface Columns {
  readonly link: Reader;
  readonly fibre: Reader | undefined;
  readonly end: Reader | undefined;
  readonly setup: Reader;
  readonly tested: Reader;
  readonly time: Reader | undefined;
  readonly by: Reader | undefined;
  readonly remark: Reader | undefined;
  readonly length: Reader | undefined;
  readonly seen: Reader | undefined;
  readonly wavelength: Reader | undefined;
  readonly direction: Reader | undefined;
  readonly value: Reader | undefined;
  readonly unit: Reader | undefined;
  /** By their place in the mapping. */
  readonly readings: readonly Reader[];
}

/** Finds every column, or says which the table lacks. */
export function findColumns(
  { columns }: Mapping,
  headings: readonly string[] | undefined,
  width: number,
): Columns | { readonly problems: readonly MappingProblem[] } {
  const problems: MappingProblem[] = [];
  const reader = (source: Source, path: MappingProblem['path']): Reader => {
    if (typeof source === 'object' && 'always' in source) return () => source.always;
    const at = typeof source === 'string' ? headed(source, path) : numbered(source.at, path);
    return ({ cells }) => cells[at];
  };
  const numbered = (at: number, path: MappingProblem['path']): number => {
    if (at > width) problems.push({ path, message: `the table has ${width} columns.` });
    return at - 1;
  };
  const headed = (heading: string, path: MappingProblem['path']): number => {
    if (!headings) {
      problems.push({ path, message: 'without a row of headings write { "at": its number }.' });
      return -1;
    }
    const wanted = asCompared(heading);
    const found = headings.flatMap((each, index) => (asCompared(each) === wanted ? [index] : []));
    if (found.length !== 1) {
      problems.push({ path, message: notOne(heading, found, headings) });
    }
    return found[0] ?? -1;
  };
  const optional = (
    name: 'fibre' | 'end' | 'time' | 'by' | 'remark' | 'length' | 'seen' | Single,
  ) => {
    const source = columns[name];
    return source === undefined ? undefined : reader(source, ['columns', name]);
  };
  const found: Columns = {
    link: reader(columns.link, ['columns', 'link']),
    fibre: optional('fibre'),
    end: optional('end'),
    setup: reader(columns.setup, ['columns', 'setup']),
    tested: reader(columns.tested, ['columns', 'tested']),
    time: optional('time'),
    by: optional('by'),
    remark: optional('remark'),
    length: optional('length'),
    seen: optional('seen'),
    wavelength: optional('wavelength'),
    direction: optional('direction'),
    value: optional('value'),
    unit: optional('unit'),
    readings: (columns.readings ?? []).map(({ column }, index) =>
      reader(column, ['columns', 'readings', index, 'column']),
    ),
  };
  return problems.length > 0 ? { problems } : found;
}

type Single = 'wavelength' | 'direction' | 'value' | 'unit';

/** A heading as people compare it: without case and without what only lays it out. */
export function asCompared(heading: string): string {
  return heading.normalize('NFC').replaceAll(/\s+/gu, ' ').trim().toLowerCase();
}

function notOne(heading: string, found: readonly number[], headings: readonly string[]): string {
  if (found.length > 1) {
    const places = found.map((index) => index + 1).join(' and ');
    return `columns ${places} are both headed "${heading}": write { "at": its number }.`;
  }
  const known = headings.filter((each) => each !== '').map((each) => `"${each}"`);
  return `no column is headed "${heading}"; there are ${known.join(', ') || 'no headings'}.`;
}
