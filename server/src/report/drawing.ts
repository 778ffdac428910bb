/**
 * The drawing of a link: its path over distance, what each element may lose
 * and should lose, and where the readings lie against the limit at the end.
 */
import {
  addDb,
  type ExactDb,
  type Picometres,
  picometres,
  toNanometres,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import type { LimitKind, LinkResult, SupportWord, WavelengthResult } from '../evaluate/result.ts';
import { type Allocation, allocate } from './allocation.ts';
import { type BesideTable, besideOf } from './beside.ts';
import { decibels, length, microToDb, toDb, wavelength } from './figures.ts';
import { type DrawnReading, type GaugeLabel, labelsOf, readingsAt } from './gauge.ts';
import { type LaidElement, layOut } from './path.ts';
import { type RingDrawing, ringOf } from './ring.ts';
import { judgedAt, wavelengthsOf } from './strip.ts';
import type { Subject } from './subject.ts';
import { type TreeDrawing, treeOf } from './tree.ts';
import type { Severity, TextPlace } from './view.ts';

export type Sign = 'pair' | 'plug' | 'fusion' | 'splice' | 'part' | 'splitter' | 'segment' | 'cord';

interface DrawnFigure {
  readonly text: string;
  /** dB, summed from A up to and with this element. */
  readonly upTo: number;
}

export interface DrawnElement {
  readonly sign: Sign;
  /** A name of the plan, set like text of the file; empty where it has none. */
  readonly name: string;
  readonly kind: string;
  /** Metres from A, and metres it takes. */
  readonly at: number;
  readonly length: number;
  readonly allowed?: DrawnFigure;
  readonly expected?: DrawnFigure;
  /** A pair that the reference holds too: it is not in the reading. */
  readonly counted: boolean;
  /** Fibres come out in another order than they went in. */
  readonly crossing: boolean;
  readonly severity?: Severity;
  readonly place?: TextPlace;
}

interface Bracket {
  readonly what: 'link' | 'channel';
  readonly name: string;
  readonly length: string;
  readonly from: number;
  readonly to: number;
}

export interface Drawing {
  readonly object: string;
  readonly title: string;
  readonly length: string;
  readonly at?: TextPlace;
  readonly lines: 1 | 2;
  readonly wavelengths: readonly { readonly nanometres: number; readonly label: string }[];
  readonly chosen: number;
  readonly elements: readonly DrawnElement[];
  /** Metres from A to B. */
  readonly metres: number;
  readonly brackets: readonly Bracket[];
  readonly setup: { readonly sentence: string; readonly launch: string; readonly receive: string };
  readonly allowed?: {
    readonly loss: number;
    readonly figure: string;
    readonly kind: LimitKind;
    readonly name: string;
  };
  readonly limit?: { readonly loss: number; readonly figure: string; readonly kind: LimitKind };
  readonly expected?: { readonly loss: number; readonly figure: string };
  /** Parts of the sum that stand at no element. */
  readonly rest: readonly { readonly what: string; readonly figure: string }[];
  readonly readings: readonly DrawnReading[];
  readonly labels: readonly GaugeLabel[];
  readonly applications: readonly {
    readonly name: string;
    readonly support: SupportWord;
    readonly row: string;
    readonly because: string;
  }[];
  /** What is known beside the losses. */
  readonly beside: readonly BesideTable[];
  /** Where light has several ways, they are drawn in place of the path. */
  readonly tree?: TreeDrawing;
  readonly ring?: RingDrawing;
}

export function drawingOf(
  subject: Subject,
  object: string,
  nanometres: number | undefined,
): Drawing | undefined {
  const result = subject.plan.result.link(object);
  if (!result) return undefined;
  const waves = wavelengthsOf(result);
  const chosen = chosenWavelength(result, waves, nanometres);
  const at = chosen === undefined ? undefined : judgedAt(result, chosen);
  const { precision } = subject.display;
  const laid = layOut(result.link);
  const sum = at?.limits.find(
    ({ kind, beside, value }) => kind === 'components' && !beside && value !== undefined,
  );
  const terms = sum?.terms ?? at?.worstTerms ?? [];
  const allowed = allocate(terms);
  const expected = allocate(at?.expected === undefined ? [] : at.expectedTerms);
  const drawn = drawElements(subject, laid.elements, allowed, expected, referencePairs(at));
  const ways = chosen === undefined ? {} : waysOf(subject, result, chosen);
  const most = sum?.value ?? at?.worst;
  const limit = at?.governing;
  const place = subject.plan.locate(result.link.namePlace);
  const readings = chosen === undefined ? [] : readingsAt(result, chosen);
  return {
    object,
    title: result.link.title ?? '',
    length: result.length === undefined ? '' : length(result.length, subject.display),
    ...(place ? { at: place } : {}),
    lines: result.link.mode === 'single-mode' ? 1 : 2,
    wavelengths: waves.map((each) => ({ nanometres: toNanometres(each), label: wavelength(each) })),
    chosen: chosen === undefined ? 0 : toNanometres(chosen),
    elements: drawn,
    metres: laid.length,
    brackets: bracketsOf(subject, result, laid.elements, laid.length),
    setup: setupOf(at),
    ...(most === undefined
      ? {}
      : {
          allowed: {
            loss: toDb(most),
            figure: decibels(most, precision),
            kind: sum?.kind ?? 'components',
            name: sum?.name ?? '',
          },
        }),
    ...(limit?.value === undefined
      ? {}
      : {
          limit: {
            loss: toDb(limit.value),
            figure: decibels(limit.value, precision),
            kind: limit.kind,
          },
        }),
    ...(at?.expected === undefined
      ? {}
      : { expected: { loss: toDb(at.expected), figure: decibels(at.expected, precision) } }),
    rest: allowed.rest().map(({ what, total }) => ({ what, figure: decibels(total, precision) })),
    readings: readings.map(({ loss, side, verdict }) => ({ loss: microToDb(loss), side, verdict })),
    labels: labelsOf(result.link, at, readings, precision),
    applications: result.applications.map(({ name, support, row = '', because }) => ({
      name,
      support,
      row,
      because,
    })),
    beside: besideOf(subject, result),
    ...ways,
  };
}

function waysOf(
  subject: Subject,
  result: LinkResult,
  at: Picometres,
): Pick<Drawing, 'tree' | 'ring'> {
  if (result.link.kind === 'ring') return { ring: ringOf(subject, result, at) };
  if (!result.ways.some(({ kind }) => kind === 'branch')) return {};
  return {
    tree: treeOf(subject, result, at, ({ way }, wave) => {
      const { elements: laid } = layOut({ ...result.link, path: way.path });
      const allowed = allocate(wave?.worstTerms ?? []);
      const expected = allocate(wave?.expectedTerms ?? []);
      return {
        laid,
        drawn: drawElements(subject, laid, allowed, expected, referencePairs(wave)),
      };
    }),
  };
}

/** The one asked for, else that of the worst reading or design, else the shortest. */
function chosenWavelength(
  result: LinkResult,
  waves: readonly Picometres[],
  nanometres: number | undefined,
): Picometres | undefined {
  const asked = nanometres === undefined ? undefined : picometres(Math.round(nanometres * 1000));
  if (asked !== undefined && waves.includes(asked)) return asked;
  return result.worstMargin?.reading.wavelength ?? tightest(result) ?? waves[0];
}

/** Of a tree or a ring that nobody has read, the wavelength at which the design has least left. */
function tightest(result: LinkResult): Picometres | undefined {
  if (result.ways.length === 0) return undefined;
  let least: WavelengthResult | undefined;
  for (const each of result.wavelengths) {
    if (each.designMargin === undefined) continue;
    if (least?.designMargin === undefined || each.designMargin < least.designMargin) least = each;
  }
  return least?.wavelength;
}

/** How many end pairs the reference takes out of the reading. */
function referencePairs(at: WavelengthResult | undefined): number {
  if (at?.reference === 'two-cord') return 1;
  return at?.reference === 'three-cord' ? 2 : 0;
}

function drawElements(
  subject: Subject,
  laid: readonly LaidElement[],
  allowed: Allocation,
  expected: Allocation,
  inReference: number,
): readonly DrawnElement[] {
  const { precision } = subject.display;
  const severities = severitiesOf(subject);
  let allowedUpTo: ExactDb = zeroDb;
  let expectedUpTo: ExactDb = zeroDb;
  return laid.map((each, index) => {
    const { element } = each;
    const end = index === 0 || index === laid.length - 1;
    const counted = !end || element.kind !== 'connector' || inReference < (index === 0 ? 2 : 1);
    const wanted = wantedOf(each, end);
    const may = wanted && allowed.take(wanted);
    const should = wanted && expected.take(wanted);
    if (may !== undefined && counted) allowedUpTo = addDb(allowedUpTo, may);
    if (should !== undefined && counted) expectedUpTo = addDb(expectedUpTo, should);
    const place = subject.plan.locate(element.place);
    const severity = severities(element.place.block, element.place.span);
    return {
      ...labelOf(subject, each),
      sign: signOf(element),
      at: each.at,
      length: each.length,
      ...(may === undefined
        ? {}
        : { allowed: { text: decibels(may, precision), upTo: toDb(allowedUpTo) } }),
      ...(should === undefined
        ? {}
        : { expected: { text: decibels(should, precision), upTo: toDb(expectedUpTo) } }),
      counted,
      crossing: crosses(element),
      ...(severity ? { severity } : {}),
      ...(place ? { place } : {}),
    };
  });
}

function wantedOf(
  { element }: LaidElement,
  end: boolean,
): Parameters<Allocation['take']>[0] | undefined {
  switch (element.kind) {
    case 'segment':
    case 'cord':
      return element.length === undefined
        ? undefined
        : { roles: ['fibre', 'cord'], name: element.fibreName, length: element.length };
    case 'connector':
      return { roles: end ? ['end-pair', 'pair'] : ['pair', 'end-pair'], name: element.name };
    case 'splice':
      return { roles: ['splice'], name: element.name };
    case 'component':
      return { roles: ['part'], name: element.name };
    case 'split':
      return { roles: ['part'], name: element.splitter };
    case 'plug':
      return undefined;
  }
}

function signOf(element: LaidElement['element']): Sign {
  switch (element.kind) {
    case 'connector':
      return 'pair';
    case 'component':
      return 'part';
    case 'splice':
      return /fusion/iu.test(element.type?.name ?? element.name) ? 'fusion' : 'splice';
    case 'split':
      return 'splitter';
    default:
      return element.kind;
  }
}

function labelOf(
  subject: Subject,
  { element }: LaidElement,
): { readonly name: string; readonly kind: string } {
  switch (element.kind) {
    case 'connector':
      return { name: element.at ?? '', kind: `${element.name} pair` };
    case 'plug':
      return { name: '', kind: `${element.name} plug` };
    case 'splice':
      return { name: element.at ?? '', kind: `${element.name} splice` };
    case 'component':
      return { name: element.at ?? '', kind: element.name };
    case 'split':
      return { name: element.name, kind: element.splitter };
    case 'cord':
      return {
        name: '',
        kind:
          element.length === undefined ? 'cord' : `cord ${length(element.length, subject.display)}`,
      };
    case 'segment': {
      const fibres = element.cableFibres?.length ? runOf(element.cableFibres) : undefined;
      return {
        name: [element.cable?.name, element.reel].filter(Boolean).join(' '),
        kind: [
          element.fibreName,
          element.length === undefined ? 'no length' : length(element.length, subject.display),
          fibres ? `fibres ${fibres}` : '',
        ]
          .filter(Boolean)
          .join(', '),
      };
    }
  }
}

/** `1..12`, or how many where they do not follow each other. */
function runOf(numbers: readonly number[]): string {
  const [first = 0] = numbers;
  const runs = numbers.every((each, index) => each === first + index);
  if (runs) return numbers.length === 1 ? `${first}` : `${first}..${numbers.at(-1)}`;
  return numbers.length <= 4 ? numbers.join(', ') : `${numbers.length} of the cable`;
}

function crosses(element: LaidElement['element']): boolean {
  if (element.kind === 'cord') {
    return element.map === 'crossed' || (Array.isArray(element.map) && moved(element.map));
  }
  return element.kind === 'segment' && element.map !== undefined && moved(element.map);
}

function moved(map: readonly number[]): boolean {
  return map.some((to, index) => to !== index + 1);
}

/** The worst severity of what is found in an element's own text. */
function severitiesOf({ plan }: Subject) {
  const found = [...plan.allFindings().values()]
    .flat()
    .filter(({ severity, silenced }) => severity !== 'note' && silenced === undefined);
  return (
    block: number,
    span: { readonly start: number; readonly end: number },
  ): Severity | undefined => {
    const here = found.filter(
      ({ place }) =>
        place.block === block && place.span.start >= span.start && place.span.end <= span.end,
    );
    return here.find(({ severity }) => severity === 'error')?.severity ?? here[0]?.severity;
  };
}

function bracketsOf(
  subject: Subject,
  result: LinkResult,
  laid: readonly LaidElement[],
  metres: number,
): readonly Bracket[] {
  const { link } = result;
  const whole = (what: Bracket['what'], of: LinkResult, from: number, to: number): Bracket => ({
    what,
    name: of.link.name,
    length: of.length === undefined ? '' : length(of.length, subject.display),
    from,
    to,
  });
  if (link.kind === 'link') return [whole('link', result, 0, metres)];
  const inner = [...new Set(laid.flatMap((each) => each.link ?? []))].flatMap((name) => {
    const own = laid.filter((each) => each.link === name);
    const of = subject.plan.result.link(name);
    const last = own.at(-1);
    return of && last ? [whole('link', of, own[0]!.at, last.at + last.length)] : [];
  });
  return [whole('channel', result, 0, metres), ...inner];
}

function setupOf(at: WavelengthResult | undefined): Drawing['setup'] {
  if (!at?.reference) return { sentence: 'reference method not said', launch: '', receive: '' };
  const receive = at.receiveCord ? 'receive cord' : 'straight into the meter';
  const sentences = {
    'one-cord': at.receiveCord
      ? 'one-cord reference: both end pairs are in the reading'
      : 'one-cord reference: the pair at A is in the reading',
    'two-cord': 'two-cord reference: one end pair is in the reading',
    'three-cord': 'three-cord reference: no end pair is in the reading',
    'equipment-cord':
      'reference over the equipment cords: only what lies between is in the reading',
  } as const;
  return { sentence: sentences[at.reference], launch: 'launch cord, not counted', receive };
}
