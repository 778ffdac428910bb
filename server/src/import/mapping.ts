/**
 * What a table of readings means, said by a person in a small JSON file: which
 * columns hold what, in which units and with which sign. Nothing is assumed
 * that would change a value; what is wrong is said at its place in the JSON.
 */
import { findNodeAtLocation, type ParseError, parseTree, printParseErrorCode } from 'jsonc-parser';
import * as z from 'zod/mini';

/** Each use with its own description: a description stands on one object of the schema. */
function described<Schema extends z.ZodMiniType>(schema: Schema, description: string): Schema {
  z.globalRegistry.add(schema, { description });
  return schema;
}

const words = () => z.string().check(z.minLength(1));
const whole = (least: number) => z.int().check(z.minimum(least));

/** A column by its heading or its number. */
const column = (description: string) =>
  described(z.union([words(), z.strictObject({ at: whole(1) })]), description);

/** A column, or what holds of all rows. */
const source = (description: string) =>
  described(
    z.union([
      words(),
      z.strictObject({ at: whole(1) }),
      z.strictObject({ always: z.string().check(z.minLength(1)) }),
    ]),
    `${description}: the heading of its column, { "at": number of the column } or { "always": what holds of all rows }`,
  );

const direction = z.enum(['A>B', 'B>A']);
const what = z.enum(['loss', 'power', 'reflectance']);
const unit = z.enum(['dB', 'dBm', 'W', 'mW', 'uW', 'nW']);
const lengthUnit = z.enum(['m', 'km', 'cm', 'ft', 'kft']);

const readingColumn = z.strictObject({
  column: column('the heading of the column, or { "at": its number }'),
  wavelength: described(z.number().check(z.gt(0)), 'in nanometres'),
  direction,
  what: z.optional(described(what, 'if it is not that of values')),
  unit: z.optional(described(unit, 'if it is not that of values')),
});

const columns = z.strictObject({
  link: source('name of the link, channel or cable in the plan'),
  fibre: z.optional(source('number of the fibre in the link')),
  end: z.optional(source('port that names the end of a tree')),
  setup: source('name of the set-up in the plan'),
  tested: source('day of the reading, with its time of day where it has one'),
  time: z.optional(source('time of day, where it has a column of its own')),
  by: z.optional(source('who tested')),
  remark: z.optional(source('words about the row')),
  length: z.optional(column('length of the fibre as it was measured, in the unit of lengths')),
  seen: z.optional(column('port at which the light came out')),
  wavelength: z.optional(source('wavelength in nanometres, with or without nm')),
  direction: z.optional(source('A>B or B>A, or a text of directions')),
  value: z.optional(column('the reading')),
  unit: z.optional(source('unit of the reading, if it is not that of values')),
  readings: z.optional(
    described(z.array(readingColumn), 'a column for each wavelength and direction'),
  ),
});

const mapping = z.strictObject({
  $schema: z.optional(z.string()),
  sheet: z.optional(
    described(z.union([words(), whole(1)]), 'of a workbook: its name or number; else the first'),
  ),
  heading: z.optional(described(whole(0), 'row of the headings, else 1; 0: there are none')),
  separator: z.optional(
    described(z.enum([',', ';', '|', 'tab']), 'of a CSV file: between two cells; else a comma'),
  ),
  decimal: z.optional(described(z.enum(['.', ',']), 'decimal sign of texts, else a point')),
  dates: z.optional(
    described(
      z.enum(['year-month-day', 'day-month-year', 'month-day-year']),
      'order in the dates of texts, whatever stands between; else year-month-day',
    ),
  ),
  values: z.strictObject({
    what,
    unit,
    sign: described(
      z.enum(['positive', 'negative']),
      'positive: a loss is written as 1.2; negative: a loss is written as -1.2',
    ),
  }),
  lengths: z.optional(described(lengthUnit, 'unit of the column of lengths')),
  directions: z.optional(
    described(z.record(z.string(), direction), 'texts of the column of directions'),
  ),
  untested: z.optional(
    described(z.array(z.string()), 'texts of cells without a reading, beside none and -'),
  ),
  dark: z.optional(described(z.array(z.string()), 'texts of cells that mean: no light was seen')),
  columns,
});

export type Mapping = z.infer<typeof mapping>;
export type Source = string | { readonly at: number } | { readonly always: string };
export type Quantity = z.infer<typeof what>;

/** What is wrong with a mapping, and where: `columns.link`. */
export interface MappingProblem {
  readonly path: readonly (string | number)[];
  readonly message: string;
}

/** The JSON Schema that editors complete and check mappings with. */
export function mappingJsonSchema(): object {
  return {
    ...z.toJSONSchema(mapping, { target: 'draft-7', io: 'input' }),
    title: 'How a table of readings is read',
  };
}

/** Reads a mapping; the sentences name line and column where the text has them. */
export function readMapping(text: string): Mapping | { readonly problems: readonly string[] } {
  const errors: ParseError[] = [];
  parseTree(text, errors, { disallowComments: true });
  const [first] = errors;
  if (first) {
    return {
      problems: [`${lineAndColumn(text, first.offset)}: this is no JSON (${faultOf(first)}).`],
    };
  }
  const read = z.safeParse(mapping, JSON.parse(text));
  const problems = read.success ? combinations(read.data) : read.error.issues.flatMap(problemsOf);
  if (problems.length > 0) return { problems: problems.map((each) => placed(text, each)) };
  return read.data!;
}

/** A problem as a sentence with its place in the text of the mapping. */
export function placed(text: string, { path, message }: MappingProblem): string {
  const name = path.length === 0 ? 'the whole' : path.join('.');
  const tree = parseTree(text);
  // What is missing is asked for where it would stand.
  for (let length = path.length; tree && length >= 0; length -= 1) {
    const node = findNodeAtLocation(tree, path.slice(0, length) as (string | number)[]);
    if (node) return `${lineAndColumn(text, node.offset)}, ${name}: ${message}`;
  }
  return `${name}: ${message}`;
}

function lineAndColumn(text: string, offset: number): string {
  const before = text.slice(0, offset).split('\n');
  return `line ${before.length}, column ${before.at(-1)!.length + 1}`;
}

function faultOf({ error }: ParseError): string {
  return printParseErrorCode(error)
    .replace(/(?<=[a-z])(?=[A-Z])/gu, ' ')
    .toLowerCase();
}

function problemsOf(issue: z.core.$ZodIssue): readonly MappingProblem[] {
  const path = issue.path.filter((each) => typeof each !== 'symbol');
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) => ({
        path: [...path, key],
        message: `nothing is called so here; known are ${knownAt(path).join(', ')}.`,
      }));
    case 'invalid_value':
      return [
        {
          path,
          message: `one of ${issue.values.map((each) => `"${String(each)}"`).join(', ')} is wanted.`,
        },
      ];
    case 'invalid_union':
      return [{ path, message: `${unionAt(path)} is wanted.` }];
    case 'invalid_type':
      return [
        {
          path,
          message:
            issue.input === undefined
              ? `this is missing (${issue.expected}).`
              : `${issue.expected} is wanted.`,
        },
      ];
    default:
      return [{ path, message: `${issue.message.toLowerCase()}.` }];
  }
}

function unionAt(path: readonly (string | number)[]): string {
  if (path[0] === 'sheet') return 'the name or the number of a sheet';
  return ['column', 'value', 'length', 'seen'].includes(String(path.at(-1)))
    ? 'the heading of a column or { "at": its number }'
    : 'the heading of a column, { "at": its number } or { "always": a text }';
}

function knownAt(path: readonly (string | number)[]): readonly string[] {
  if (path.length === 0) return Object.keys(mapping.def.shape);
  if (path[0] === 'values') return Object.keys(mapping.def.shape.values.def.shape);
  if (path[0] === 'columns' && path.length === 1) return Object.keys(columns.def.shape);
  if (path[1] === 'readings') return Object.keys(readingColumn.def.shape);
  return ['at', 'always'];
}

/** What is right by itself and wrong together. */
function combinations({ columns: of, values, lengths }: Mapping): readonly MappingProblem[] {
  const problems: MappingProblem[] = [];
  const ask = (wrong: boolean, path: MappingProblem['path'], message: string) => {
    if (wrong) problems.push({ path, message });
  };
  ask(
    (of.fibre === undefined) === (of.end === undefined),
    ['columns'],
    'either fibre or end says which place of the link was read.',
  );
  const single = [of.value, of.wavelength, of.direction];
  if (of.readings) {
    ask(of.readings.length === 0, ['columns', 'readings'], 'no column is named.');
    ask(
      single.some((each) => each !== undefined),
      ['columns'],
      'either readings, or value with wavelength and direction, not both.',
    );
  } else {
    ask(
      single.some((each) => each === undefined),
      ['columns'],
      'value, wavelength and direction say one reading a row; or readings names a column for each.',
    );
  }
  ask(
    of.length !== undefined && lengths === undefined,
    ['lengths'],
    `the unit of the column of lengths is wanted: ${lengthUnit.options.map((each) => `"${each}"`).join(', ')}.`,
  );
  ask(!fits(values.what, values.unit), ['values', 'unit'], wrongUnit(values.what));
  for (const [index, { what: of_ = values.what, unit: own = values.unit }] of (
    of.readings ?? []
  ).entries()) {
    ask(!fits(of_, own), ['columns', 'readings', index], wrongUnit(of_));
  }
  return problems;
}

/** Whether a quantity is said in a unit. */
export function fits(quantity: Quantity, of: string): boolean {
  return (quantity === 'power') === (of !== 'dB');
}

function wrongUnit(quantity: Quantity): string {
  return quantity === 'power'
    ? 'power is said in dBm, W, mW, uW or nW.'
    : `${quantity} is said in dB.`;
}
