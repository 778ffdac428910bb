/**
 * An example with what the tool says of it: under each line stand the findings
 * that lie on it, the limits and the verdict of a link that is declared there,
 * and the verdicts of the readings typed there.
 */
import { exactDb, printExactDb, toNanometres } from '../../grammar/src/quantity/index.ts';
import type { Finding } from '../../server/src/checks/finding.ts';
import type {
  ApplicationResult,
  Limit,
  LinkResult,
  ReadingResult,
  WavelengthResult,
  WayResult,
} from '../../server/src/evaluate/result.ts';
import type { Place } from '../../server/src/model/types.ts';
import type { Plan, Project } from '../../server/src/project/types.ts';

/** The files of a plan by address, each with what is said of its lines. */
export function annotate(project: Project, plan: Plan): Map<string, string> {
  const said = new Notes(plan);
  for (const findings of plan.allFindings().values()) {
    for (const finding of findings) {
      said.under(finding.place, sayFinding(finding, plan));
      for (const { place, message } of finding.related)
        said.under(place, `beside ${finding.name}: ${message}`);
    }
  }
  for (const name of plan.result.order) {
    const result = plan.result.link(name);
    if (result) sayLink(result, said);
  }
  return new Map(
    plan.files.map((uri) => [uri, said.woven(uri, project.document(uri)?.text() ?? '')]),
  );
}

/** What is said, by file and line. Lines said of one place keep their order. */
class Notes {
  readonly #lines = new Map<string, string[]>();
  readonly #plan: Plan;

  constructor(plan: Plan) {
    this.#plan = plan;
  }

  under(place: Place, text: string): void {
    const located = this.#plan.locate(place);
    if (!located) throw new Error(`a place that is nowhere: ${text}`);
    const key = `${located.uri}#${located.range.start.line}`;
    this.#lines.set(key, [...(this.#lines.get(key) ?? []), text]);
  }

  woven(uri: string, text: string): string {
    return text
      .split('\n')
      .flatMap((line, number) => [
        line,
        ...(this.#lines.get(`${uri}#${number}`) ?? []).map((note) => `    | ${note}`),
      ])
      .join('\n');
  }
}

function sayFinding({ severity, name, message, place, silenced }: Finding, plan: Plan): string {
  const { start, end } = plan.locate(place)?.range ?? {
    start: { character: 0 },
    end: { character: 0 },
  };
  const answered = silenced === undefined ? '' : ` (answered: ${silenced})`;
  return `${severity} ${name} ${start.character + 1}-${end.character + 1}: ${message}${answered}`;
}

function sayLink(result: LinkResult, said: Notes): void {
  const { link } = result;
  const length = result.length === undefined ? 'length unknown' : `${result.length / 1e6} m`;
  const counts = Object.entries(result.counts).flatMap(([word, count]) =>
    count > 0 ? [`${count} ${word}`] : [],
  );
  const accepted = result.accepted ? 'accepted' : 'not accepted';
  said.under(
    link.namePlace,
    `${link.name}: ${length}, ${result.verdict}, ${accepted}; ${counts.join(', ') || 'nothing expected'}`,
  );
  for (const wavelength of result.wavelengths)
    said.under(link.namePlace, sayWavelength(wavelength));
  for (const application of result.applications)
    said.under(link.namePlace, sayApplication(application));
  const standing = new Map(result.fibres.map(({ end, verdict }) => [end, verdict]));
  for (const way of result.ways)
    said.under(way.way.place, sayWay(way, standing.get(way.name), way.name === result.worstWay));
  for (const [row, readings] of byRow(result.readings))
    said.under(row, readings.map(sayReading).join('; '));
  for (const { place, fibre, wavelength, part, verdict, because } of result.events) {
    const where = `${fibre} ${toNanometres(wavelength)} nm ${part ?? 'no joint'}`;
    said.under(place, `${where}: ${verdict}, ${because}`);
  }
  for (const { cell, verdict, because } of result.lengths) {
    said.under(cell.place, `${cell.fibre} length: ${verdict}, ${because}`);
  }
  for (const { cell, side, verdict, because } of result.inspections) {
    if (cell) said.under(cell.place, `${cell.fibre} ${side}: ${verdict}, ${because}`);
  }
}

function sayWavelength({
  wavelength,
  direction,
  reference,
  limits,
  governing,
  worst,
  expected,
  lowest,
}: WavelengthResult): string {
  const sums = [
    ['expected', expected],
    ['worst', worst],
    ['lowest', lowest],
  ] as const;
  const shown = sums.flatMap(([word, sum]) =>
    sum === undefined ? [] : [`${word} ${printExactDb(sum)}`],
  );
  const of = limits.map((limit) => `${limit === governing ? '*' : ''}${sayLimit(limit)}`);
  return [
    [`${toNanometres(wavelength)} nm`, direction, reference].filter(Boolean).join(' '),
    `limits ${of.join(', ') || 'none'}`,
    ...shown,
  ].join('; ');
}

function sayLimit({ name, value, beside, because, recalled }: Limit): string {
  const marks = [beside ? 'beside' : '', recalled ? 'recalled' : ''].filter(Boolean).join(', ');
  return `${name} ${value === undefined ? `not known: ${because}` : printExactDb(value)}${marks ? ` (${marks})` : ''}`;
}

function sayApplication({ name, support, row, because, differential }: ApplicationResult): string {
  const apart = differential
    ? `; ends ${printExactDb(differential.value)} dB apart at most, ${differential.highest} and ${differential.lowest}`
    : '';
  return `${name}: ${support}${row ? `, row ${row}` : ''}; ${because}${apart}`;
}

/** An end of a tree or a way round a ring: its sums, what it carries, what is left of the light. */
function sayWay(
  { name, length, wavelengths, applications, power }: WayResult,
  verdict: string | undefined,
  worst: boolean,
): string {
  const sums = wavelengths.map(
    (at) =>
      `${toNanometres(at.wavelength)} nm ${at.worst === undefined ? 'not known' : printExactDb(at.worst)}`,
  );
  const carried = applications.map((one) => `${one.name} ${one.support}`);
  const light = power.map(
    ({ direction, margin, overloadMargin }) =>
      `${direction} ${margin === undefined ? 'not known' : printExactDb(margin)} left, ${overloadMargin === undefined ? 'not known' : printExactDb(overloadMargin)} to overload`,
  );
  const head = [name, verdict, worst ? 'the worst' : undefined].filter(Boolean).join(', ');
  const along = length === undefined ? 'length unknown' : `${length / 1e6} m`;
  return `${head}: ${[along, ...sums, ...carried, ...light].join('; ')}`;
}

/** Readings of one row of a table, in order; expected and missing ones have no row. */
function byRow(readings: readonly ReadingResult[]): Map<Place, ReadingResult[]> {
  const rows = new Map<string, [Place, ReadingResult[]]>();
  for (const result of readings) {
    if (!result.reading) continue;
    const { row } = result.reading;
    const key = `${row.block}:${row.span.start}`;
    const held = rows.get(key) ?? [row, []];
    held[1].push(result);
    rows.set(key, held);
  }
  return new Map(rows.values());
}

function sayReading(result: ReadingResult): string {
  const {
    fibre,
    wavelength,
    direction,
    loss,
    lossBound,
    margin,
    verdict,
    attempt,
    current,
    because,
  } = result;
  const measured =
    loss === undefined ? (lossBound === undefined ? '' : `> ${inDb(lossBound)}`) : inDb(loss);
  const left = margin === undefined ? '' : `margin ${printExactDb(margin)}`;
  const past = current ? '' : `attempt ${attempt}, not standing`;
  const why = because ? `(${because})` : '';
  return [fibre, toNanometres(wavelength), direction, measured, verdict, left, past, why]
    .filter((part) => part !== '' && part !== undefined)
    .join(' ');
}

function inDb(loss: Parameters<typeof exactDb>[0]): string {
  return printExactDb(exactDb(loss));
}
