/** The elements of a path as a drawing shows them: a sign, words, and their share of the sums. */
import {
  addDb,
  type ExactDb,
  exactDb,
  type MicroDb,
  type Picometres,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import type { ComponentType } from '../model/types.ts';
import type { Allocation } from './allocation.ts';
import { decibels, length, toDb, wavelength } from './figures.ts';
import type { LaidElement } from './path.ts';
import type { Subject } from './subject.ts';
import type { Severity, TextPlace } from './view.ts';

export type Sign =
  | 'pair'
  | 'plug'
  | 'fusion'
  | 'splice'
  | 'part'
  | 'splitter'
  | 'mux-in'
  | 'mux-out'
  | 'attenuator'
  | 'segment'
  | 'cord';

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
  /** What stands over the sign: the ratio of a splitter, the wavelength of a branch, the dB of an attenuator. */
  readonly mark: string;
  /** What the sign stands for, where its words do not say it. */
  readonly what: string;
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

export interface Drawn {
  readonly laid: readonly LaidElement[];
  readonly allowed: Allocation;
  readonly expected: Allocation;
  /** How many end pairs the reference takes out of the reading. */
  readonly inReference: number;
  /** Ports at A and B, where they are named. */
  readonly ends?: readonly [string, string];
  /** The wavelength that is drawn. */
  readonly light: Picometres | undefined;
}

export function drawElements(subject: Subject, drawn: Drawn): readonly DrawnElement[] {
  const { laid, allowed, expected, inReference, ends } = drawn;
  const { precision } = subject.display;
  const severities = severitiesOf(subject);
  let allowedUpTo: ExactDb = zeroDb;
  let expectedUpTo: ExactDb = zeroDb;
  return laid.map((each, index): DrawnElement => {
    const { element } = each;
    const end = index === 0 || index === laid.length - 1;
    const joint = end && (element.kind === 'connector' || element.kind === 'plug');
    const held = joint && inReference >= (index === 0 ? 2 : 1);
    const may = shareOf(allowed, each, end, held);
    const should = shareOf(expected, each, end, held);
    // What the reference holds in full is not in the reading; of another grade, a difference stays.
    const counted = !held || (may !== undefined && may !== zeroDb);
    if (may !== undefined && counted) allowedUpTo = addDb(allowedUpTo, may);
    if (should !== undefined && counted) expectedUpTo = addDb(expectedUpTo, should);
    const place = subject.plan.locate(element.place);
    const severity = severities(element.place.block, element.place.span);
    const sign = signOf(each, laid.slice(0, index));
    const label = labelOf(subject, each);
    const port = index === 0 ? ends?.[0] : index === laid.length - 1 ? ends?.[1] : undefined;
    return {
      ...label,
      ...(port && !label.name && element.kind !== 'cord' ? { name: port } : {}),
      sign,
      mark: markOf(element, sign, drawn.light),
      what: inWords[sign] ?? '',
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

/** Share of an element; of an end pair that the reference holds, what is left of it. */
function shareOf(
  sum: Allocation,
  each: LaidElement,
  end: boolean,
  held: boolean,
): ExactDb | undefined {
  const wanted = wantedOf(each, end);
  const own = wanted && sum.take(wanted);
  if (held && own !== undefined) {
    return addDb(own, sum.take({ roles: ['reference-pair'], name: '' }) ?? zeroDb);
  }
  if (own !== undefined || each.element.kind !== 'component') return own;
  // A part without a figure of its own counts as the pairs at its faces.
  const faces = [
    ...(end ? [sum.take({ roles: ['end-pair'], name: '' })] : []),
    sum.take({ roles: ['pair'], name: '' }),
  ].flatMap((pair) => pair ?? []);
  return faces.length > 0 ? addDb(...faces) : undefined;
}

/** What a sign says that its words may leave open. */
const inWords: Partial<Readonly<Record<Sign, string>>> = {
  splitter: 'splitter',
  'mux-in': 'multiplexer',
  'mux-out': 'demultiplexer',
  attenuator: 'attenuator',
};

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
      return end ? { roles: ['end-pair', 'pair'], name: element.name } : undefined;
  }
}

function signOf({ element }: LaidElement, before: readonly LaidElement[]): DrawnElement['sign'] {
  switch (element.kind) {
    case 'connector':
      return 'pair';
    case 'component':
      if (element.port !== undefined) {
        // Wavelengths are put together before the line begins, and parted behind it.
        return before.some((each) => each.element.kind === 'segment') ? 'mux-out' : 'mux-in';
      }
      return element.type && takesAway(element.type) ? 'attenuator' : 'part';
    case 'splice':
      return /fusion/iu.test(element.type?.name ?? element.name) ? 'fusion' : 'splice';
    case 'split':
      return 'splitter';
    default:
      return element.kind;
  }
}

/** A part that joins nothing and states the least it takes is there for its loss: an attenuator. */
function takesAway({ joins, map, loss }: ComponentType): boolean {
  return (
    joins === undefined &&
    map === undefined &&
    loss.length > 0 &&
    loss.every(({ min, port }) => min !== undefined && port === undefined)
  );
}

function markOf(
  element: LaidElement['element'],
  sign: Sign,
  light: Picometres | undefined,
): string {
  if (element.kind === 'split') return ratioOf(element.splitter);
  if (element.kind !== 'component') return '';
  if (sign === 'attenuator') {
    const figure = element.type?.loss.find(({ typ, max }) => (typ ?? max) !== undefined);
    const loss = figure?.typ ?? figure?.max;
    return loss === undefined ? '' : `${decibels(exactDb(loss as MicroDb), 1)} dB`;
  }
  if (element.port === undefined) return '';
  const own = (element.type?.loss ?? []).flatMap(({ port, wavelength: of }) =>
    port === element.port && of !== undefined ? [of] : [],
  );
  const [only] = own.length === 1 ? own : own.filter((each) => each === light);
  return only === undefined ? element.port : wavelength(only);
}

/** `1:8` of `PLC-1x8`; a splitter whose name holds no ratio has none to show. */
export function ratioOf(splitter: string): string {
  const found = /(?:^|\D)(\d{1,3})[x:×](\d{1,3})(?:\D|$)/iu.exec(splitter);
  return found ? `${found[1]}:${found[2]}` : '';
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
