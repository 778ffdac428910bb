/** The dialog in which somebody says what the columns of a table mean: one line for each thing, with examples from the table. */
import * as vscode from 'vscode';

type Column = string | { readonly at: number };
type Source = Column | { readonly always: string };
type Way = 'A>B' | 'B>A';

interface ReadingColumn {
  readonly column: Column;
  readonly wavelength: number;
  readonly direction: Way;
  readonly what?: string;
  readonly unit?: string;
}

/** A mapping as it is made: what is missing is still to be said. */
export interface Draft {
  readonly sheet?: string;
  readonly decimal?: '.' | ',';
  readonly dates?: string;
  readonly lengths?: string;
  readonly values: { readonly what: string; readonly unit: string; readonly sign: string };
  readonly directions?: Readonly<Record<string, Way>>;
  readonly columns: Readonly<Partial<Record<Field, Source>>> & {
    readonly readings?: readonly ReadingColumn[];
  };
}

export type TableLook =
  | {
      readonly headings: readonly string[];
      readonly examples: readonly (readonly string[])[];
      readonly rows: number;
      readonly sheets: readonly string[];
      readonly mapping: Draft;
      readonly objects: readonly string[];
      readonly setups: readonly string[];
    }
  | { readonly because: string };

type Look = Exclude<TableLook, { readonly because: string }>;

type Field =
  | 'link'
  | 'fibre'
  | 'end'
  | 'setup'
  | 'tested'
  | 'time'
  | 'by'
  | 'remark'
  | 'length'
  | 'seen'
  | 'wavelength'
  | 'direction'
  | 'value'
  | 'unit';

const names: Readonly<Record<Field, string>> = {
  link: 'Link',
  fibre: 'Fibre',
  end: 'End of a tree',
  setup: 'Set-up',
  tested: 'Day tested',
  time: 'Time of day',
  by: 'Tested by',
  remark: 'Remark',
  length: 'Length measured',
  seen: 'Port at which light came out',
  wavelength: 'Wavelength',
  direction: 'Direction',
  value: 'Reading',
  unit: 'Unit',
};

/** What cannot be the same for all rows. */
const ofEachRow: readonly Field[] = ['value', 'length', 'seen'];

interface Line extends vscode.QuickPickItem {
  /** What choosing the line does; undefined ends the dialog with the draft. */
  readonly change?: (draft: Draft) => Promise<Draft | undefined>;
  readonly go?: true;
}

/** Asks until somebody reads all rows with it; undefined: turned away, or the look at the table stopped. */
export async function sayColumns(
  name: string,
  lookAt: (sheet: string | undefined) => Promise<TableLook | undefined>,
  before: Draft | undefined,
): Promise<Draft | undefined> {
  let look = await lookAt(before?.sheet);
  let draft = before;
  for (;;) {
    if (!look) return undefined;
    if ('because' in look) {
      void vscode.window.showErrorMessage(look.because);
      return undefined;
    }
    const now: Draft = draft ?? look.mapping;
    const chosen = await vscode.window.showQuickPick(linesOf(now, look), {
      title: `Import ${name}: what its columns mean`,
      placeHolder: 'Choose a line to say otherwise',
      matchOnDescription: true,
      ignoreFocusOut: true,
    });
    if (!chosen) return undefined;
    if (chosen.go) return now;
    draft = (await chosen.change?.(now)) ?? now;
    if (draft.sheet !== now.sheet) {
      look = await lookAt(draft.sheet);
      draft = undefined;
    }
  }
}

function linesOf(draft: Draft, look: Look): Line[] {
  const missing = missingIn(draft, look);
  const rows = look.rows.toLocaleString('en');
  const go: Line =
    missing.length === 0
      ? {
          label: `$(play) Read ${look.rows === 1 ? 'the one row' : `all ${rows} rows`}`,
          detail: 'Nothing is written yet',
          go: true,
        }
      : { label: `$(warning) Still to be said: ${missing.join(', ')}` };
  const { columns } = draft;
  const single = !columns.readings;
  const field = (key: Field): Line => ({
    label: names[key],
    description: told(columns[key], look),
    change: (now) => changeField(now, key, look),
  });
  return [
    go,
    partOf('which reading'),
    ...(look.sheets.length > 1 ? [sheetLine(draft, look)] : []),
    field('link'),
    field(columns.end === undefined ? 'fibre' : 'end'),
    ...(columns.end === undefined && columns.fibre === undefined ? [field('end')] : []),
    field('setup'),
    field('tested'),
    field('time'),
    field('by'),
    field('remark'),
    partOf('its value'),
    ...(single ? [field('value'), field('wavelength'), field('direction')] : []),
    ...(single ? wayLines(draft, look) : []),
    ...(columns.readings ?? []).map((reading, index) => readingLine(reading, index, look)),
    field('unit'),
    valuesLine(draft),
    field('length'),
    ...(columns.length === undefined ? [] : [lengthsLine(draft)]),
    field('seen'),
    choiceLine(
      'Decimal sign',
      draft.decimal === ',' ? 'comma' : 'point',
      ['point', 'comma'],
      (now, decimal) => ({ ...now, decimal: decimal === 'comma' ? ',' : '.' }),
    ),
    choiceLine(
      'Dates as texts',
      draft.dates ?? 'year-month-day',
      ['year-month-day', 'day-month-year', 'month-day-year'],
      (now, dates) => ({ ...now, dates }),
    ),
  ];
}

function missingIn(draft: Draft, look: Look): string[] {
  const { columns } = draft;
  const wanted: readonly Field[] = [
    'link',
    ...(columns.end === undefined ? (['fibre'] as const) : []),
    'setup',
    'tested',
    ...(columns.readings ? [] : (['value', 'wavelength', 'direction'] as const)),
  ];
  const ways = columns.readings ? [] : strangeWays(draft, look);
  return [
    ...wanted
      .filter((each) => columns[each] === undefined)
      .map((each) => names[each].toLowerCase()),
    ...ways.map((each) => `what "${each}" means`),
    ...(columns.length !== undefined && draft.lengths === undefined ? ['unit of lengths'] : []),
  ];
}

async function changeField(draft: Draft, key: Field, look: Look): Promise<Draft | undefined> {
  const columns = look.headings.map((heading, index) => ({
    label: heading || `Column ${index + 1}`,
    description: (look.examples[index] ?? []).slice(0, 3).join(', '),
    source: isUnique(heading, look) ? heading : { at: index + 1 },
  }));
  const always = { label: '$(edit) The same for all rows …', description: '' };
  const none = { label: '$(circle-slash) Not in the table', description: '' };
  const chosen = await vscode.window.showQuickPick(
    [...columns, ...(ofEachRow.includes(key) ? [] : [always]), none],
    { title: `${names[key]}: which column?`, matchOnDescription: true, ignoreFocusOut: true },
  );
  if (!chosen) return undefined;
  const others = { ...draft.columns };
  delete others[key];
  if (chosen === none) return { ...draft, columns: others };
  const source = 'source' in chosen ? chosen.source : await sameForAll(key, look);
  if (source === undefined) return undefined;
  // A fibre is not an end, and one reading a row is not a column for each.
  if (key === 'fibre') delete others.end;
  if (key === 'end') delete others.fibre;
  return { ...draft, columns: { ...others, [key]: source } as Draft['columns'] };
}

async function sameForAll(key: Field, look: Look): Promise<Source | undefined> {
  const offered =
    { link: look.objects, setup: look.setups, direction: ['A>B', 'B>A'] }[key as string] ?? [];
  const text =
    offered.length > 0
      ? await vscode.window.showQuickPick([...offered], { title: names[key], ignoreFocusOut: true })
      : await vscode.window.showInputBox({
          title: `${names[key]}, of all rows`,
          ignoreFocusOut: true,
          ...(key === 'tested' ? { placeHolder: '2026-03-14 or 2026-03-14 09:05' } : {}),
        });
  return text ? { always: text } : undefined;
}

function readingLine(reading: ReadingColumn, index: number, look: Look): Line {
  const { wavelength, direction } = reading;
  return {
    label: `${wavelength} nm ${direction}`,
    description: told(reading.column, look),
    async change(draft) {
      const both = (['A>B', 'B>A'] as const).map((each) => `${wavelength} nm ${each}`);
      const none = 'No reading';
      const chosen = await vscode.window.showQuickPick([...both, none], {
        title: `${told(reading.column, look)}: which reading?`,
        ignoreFocusOut: true,
      });
      if (chosen === undefined) return undefined;
      const all = draft.columns.readings ?? [];
      const changed = { ...reading, direction: chosen === both[1] ? 'B>A' : 'A>B' } as const;
      const { readings: _, ...others } = draft.columns;
      const readings = all.flatMap((each, at) =>
        at !== index ? [each] : chosen === none ? [] : [changed],
      );
      return { ...draft, columns: readings.length > 0 ? { ...others, readings } : others };
    },
  };
}

function valuesLine({ values: { what, unit, sign } }: Draft): Line {
  const kinds = [
    ['loss', 'dB', 'positive', 'loss in dB, written as 1.2'],
    ['loss', 'dB', 'negative', 'loss in dB, written as -1.2'],
    ...['dBm', 'mW', 'uW', 'nW'].map((each) => ['power', each, 'positive', `power in ${each}`]),
    ['reflectance', 'dB', 'positive', 'reflectance in dB, written as -40'],
  ] as const;
  const now = kinds.find(([a, b, c]) => a === what && b === unit && (a !== 'loss' || c === sign));
  return {
    label: 'Readings are',
    description: now?.[3] ?? `${what} in ${unit}`,
    async change(draft) {
      const chosen = await vscode.window.showQuickPick(
        kinds.map(([, , , label]) => label!),
        { title: 'Readings are', ignoreFocusOut: true },
      );
      const kind = kinds.find(([, , , label]) => label === chosen);
      return kind && { ...draft, values: { what: kind[0]!, unit: kind[1]!, sign: kind[2]! } };
    },
  };
}

/** Texts of the column of directions that say neither A>B nor B>A. */
function strangeWays({ columns, directions }: Draft, look: Look): string[] {
  const index = indexOf(columns.direction, look);
  return (index < 0 ? [] : (look.examples[index] ?? [])).filter(
    (each) =>
      directions?.[each] === undefined && !/^[AB]\s*(?:>|-+>?|–|→|to)\s*[AB]$/iu.test(each.trim()),
  );
}

function wayLines(draft: Draft, look: Look): Line[] {
  const all = new Set([...Object.keys(draft.directions ?? {}), ...strangeWays(draft, look)]);
  return [...all].map((text) =>
    choiceLine(
      `Direction "${text}"`,
      draft.directions?.[text] ?? 'still to be said',
      ['A>B', 'B>A'],
      (now, way) => ({ ...now, directions: { ...now.directions, [text]: way as Way } }),
    ),
  );
}

function lengthsLine({ lengths }: Draft): Line {
  return choiceLine(
    'Lengths are in',
    lengths ?? 'still to be said',
    ['m', 'km', 'cm', 'ft', 'kft'],
    (now, chosen) => ({ ...now, lengths: chosen }),
  );
}

function sheetLine({ sheet }: Draft, look: Look): Line {
  return choiceLine('Sheet', sheet ?? '', look.sheets, (now, chosen) => ({
    ...now,
    sheet: chosen,
  }));
}

function choiceLine(
  label: string,
  description: string,
  choices: readonly string[],
  change: (draft: Draft, chosen: string) => Draft,
): Line {
  return {
    label,
    description,
    async change(draft) {
      const chosen = await vscode.window.showQuickPick([...choices], {
        title: label,
        ignoreFocusOut: true,
      });
      return chosen === undefined ? undefined : change(draft, chosen);
    },
  };
}

/** `column "Core", such as 1, 2, 3`. */
function told(source: Source | undefined, look: Look): string {
  if (source === undefined) return 'not in the table';
  if (typeof source === 'object' && 'always' in source) return `${source.always}, for all rows`;
  const index = indexOf(source, look);
  const examples = (look.examples[index] ?? []).slice(0, 3).join(', ');
  const heading = typeof source === 'string' ? `column "${source}"` : `column ${source.at}`;
  return examples === '' ? heading : `${heading}, such as ${examples}`;
}

function indexOf(source: Source | undefined, look: Look): number {
  if (source === undefined || (typeof source === 'object' && 'always' in source)) return -1;
  return typeof source === 'string' ? look.headings.indexOf(source) : source.at - 1;
}

function isUnique(heading: string, { headings }: Look): boolean {
  return heading !== '' && headings.filter((each) => each === heading).length === 1;
}

function partOf(label: string): Line {
  return { label, kind: vscode.QuickPickItemKind.Separator };
}
