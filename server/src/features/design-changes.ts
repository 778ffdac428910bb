/**
 * What could be said otherwise in a design: a better pair, a splice for a pair,
 * a pair fewer, another fibre, a shorter stretch. Each is edits of the text;
 * what it brings is for whoever judges the edited plan to say.
 */
import type { BoundEntry, Value } from '../../../grammar/src/bound.ts';
import { type Micrometres, micrometres, type Unit } from '../../../grammar/src/quantity/index.ts';
import { spelt } from '../../../grammar/src/spelt.ts';
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { PlacedEdit } from '../checks/finding.ts';
import type { ConnectorType, FibreType, LinkModel, PathElement, Place } from '../model/types.ts';
import type { Catalogue, Plan, Project } from '../project/types.ts';
import { edit, entryAt, type PathLine, written } from './design-lines.ts';

export interface Change {
  /** `SC-LOW in place of LC for the pair in line 12`. */
  readonly what: string;
  readonly edits: readonly PlacedEdit[];
  /** A kind of connector that is declared anew, and so changed wherever it is used. */
  readonly everywhere?: string;
}

type Segment = Extract<PathElement, { kind: 'segment' }>;

/** Changes of joints and fibres, in no order of use. */
export function changesOf(
  project: Project,
  plan: Plan,
  link: LinkModel,
  lines: readonly PathLine[],
): readonly Change[] {
  const catalogue = plan.catalogue();
  return [
    ...betterPairs(lines, catalogue),
    ...gradesOf(project, plan, lines, link, catalogue),
    ...splicesForPairs(lines, catalogue),
    ...pairsLess(lines),
    ...otherFibres(project, plan, lines, catalogue),
  ];
}

// ---- pairs

/** Every pair of a kind by itself, and all of them together, as each kind that fits the same adapter. */
function betterPairs(lines: readonly PathLine[], { connectors }: Catalogue): readonly Change[] {
  const byName = new Map<string, { type: ConnectorType; of: PathLine[] }>();
  for (const line of lines) {
    const { element, entry } = line;
    if (element.kind !== 'connector' || !element.type || !written(entry, 'connector')) continue;
    const known = byName.get(element.name) ?? { type: element.type, of: [] };
    known.of.push(line);
    byName.set(element.name, known);
  }
  return [...byName].flatMap(([name, { type, of }]) =>
    connectors
      .filter((other) => other.name !== name && fitsAdapter(type, other))
      .flatMap((other): Change[] => {
        const edits = of.map(({ entry, block }) => {
          const { span } = written(entry, 'connector')!;
          return edit(block, span.start, span.end, spelt(other.name));
        });
        const one = `${other.name} in place of ${name} for the pair in line ${of[0]!.line}`;
        const all = `${other.name} in place of ${name} for all ${of.length} pairs`;
        return [
          { what: one, edits: edits.slice(0, 1) },
          ...(of.length > 1 ? [{ what: all, edits }] : []),
        ];
      }),
  );
}

/**
 * A kind of the library held to a grade of the library in the whole plan. A
 * grade says nothing of housing and end face, which stay as they are. On
 * multimode a loss depends on launch and wavelength: a grade that names no
 * wavelength is of single-mode.
 */
function gradesOf(
  project: Project,
  plan: Plan,
  lines: readonly PathLine[],
  { place, mode }: LinkModel,
  { connectors }: Catalogue,
): readonly Change[] {
  const owner = entryAt(project, plan, place);
  const types = new Map(
    lines.flatMap(({ element }) =>
      element.kind === 'connector' && element.type?.origin === 'library'
        ? [[element.name, element.type] as const]
        : [],
    ),
  );
  if (!owner || mode === undefined) return [];
  const grades = connectors.filter(
    ({ origin, polish, positions, loss }) =>
      origin === 'library' &&
      polish === undefined &&
      positions === undefined &&
      loss.some(({ max }) => max !== undefined) &&
      loss.every(({ wavelength }) => (wavelength === undefined) === (mode === 'single-mode')),
  );
  return [...types].flatMap(([name, { polish, positions, returnLoss }]) =>
    // What is known of its return loss is not given up for a grade that says none.
    grades
      .filter((grade) => returnLoss.length === 0 || grade.returnLoss.length > 0)
      .map((grade) => {
        const lines = [
          `${W.connector} ${spelt(name)} {`,
          `  ${W.like.padEnd(12)}${spelt(grade.name)}`,
          ...(polish === undefined ? [] : [`  ${W.polish.padEnd(12)}${polish}`]),
          ...(positions === undefined ? [] : [`  ${W.positions.padEnd(12)}${positions}`]),
          '}',
        ];
        const { block, entry } = owner;
        return {
          what: `${grade.name} for every ${name} of the plan`,
          edits: [edit(block, entry.span.end, entry.span.end, `\n\n${lines.join('\n')}`)],
          everywhere: name,
        };
      }),
  );
}

/** Another grade of the same kind: as many places, the end face alike, and not known to have another housing. */
function fitsAdapter(one: ConnectorType, other: ConnectorType): boolean {
  if ((one.positions ?? 1) !== (other.positions ?? 1) || other.loss.length === 0) return false;
  if ((one.polish === angled) !== (other.polish === angled)) return false;
  return other.origin === 'plan' || familyOf(one.name) === familyOf(other.name);
}

const angled = 'APC';

function familyOf(name: string): string {
  return name.replace(/-(?:PC|UPC|APC)$/u, '');
}

/** Between two stretches a pair can be a splice; at an end it cannot. */
function splicesForPairs(lines: readonly PathLine[], { splices }: Catalogue): readonly Change[] {
  const used = lines.flatMap(({ element }) => (element.kind === 'splice' ? element.name : []));
  const name = used.find((each) => each !== '') ?? splices[0]?.name;
  if (name === undefined) return [];
  return lines.flatMap(({ element, entry, block, line, before, after }): Change[] => {
    const kind = element.kind === 'connector' && written(entry, 'connector');
    if (!kind || before?.kind !== 'segment' || after?.kind !== 'segment') return [];
    if (entry.slots[K.pins] || entry.slots[K.key]) return [];
    const text = `${W.splice.padEnd(12)}${spelt(name)}`;
    return [
      {
        what: `splice ${name} in place of the pair ${element.name} in line ${line}`,
        edits: [edit(block, entry.wordSpan.start, kind.span.end, text)],
      },
    ];
  });
}

/** A pair between two stretches of one fibre goes where the fibre can come in one piece. */
function pairsLess(lines: readonly PathLine[]): readonly Change[] {
  return lines.flatMap(({ element, entry, block, line, before, after }): Change[] => {
    if (element.kind !== 'connector' || !isPlain(before) || !isPlain(after)) return [];
    if (before.fibreName !== after.fibreName) return [];
    const first = lines.find((each) => each.element === before);
    const second = lines.find((each) => each.element === after);
    if (first?.block !== block || second?.block !== block) return [];
    const [a, b] = [lengthIn(first.entry, 'length'), lengthIn(second.entry, 'length')];
    // Read from top to bottom: a pattern that is turned round is not.
    if (!a || !b || a.unit.name !== b.unit.name || first.entry.span.end > entry.span.start)
      return [];
    if (entry.span.end > second.entry.span.start) return [];
    const between = block.text.slice(first.entry.span.end, second.entry.span.end);
    if (between.includes('#')) return [];
    const sum = micrometres(a.base + b.base);
    return [
      {
        what: `one pair ${element.name} fewer, the fibre in one piece (line ${line})`,
        edits: [
          edit(block, a.span.start, a.span.end, lengthText(sum, a.unit)),
          edit(block, first.entry.span.end, second.entry.span.end, ''),
        ],
      },
    ];
  });
}

/** A stretch of fibre by its own length, in no cable and with no map. */
function isPlain(element: PathElement | undefined): element is Segment {
  return (
    element?.kind === 'segment' &&
    !element.cable &&
    element.map === undefined &&
    element.length !== undefined &&
    !element.deliberate
  );
}

// ---- fibres

/** Each category that meets all that the path's own does, for every stretch of it. */
function otherFibres(
  project: Project,
  plan: Plan,
  lines: readonly PathLine[],
  { fibres }: Catalogue,
): readonly Change[] {
  const stretches = lines.filter(
    ({ element }) => element.kind === 'segment' || element.kind === 'cord',
  );
  const types = new Map<string, FibreType>();
  for (const { element } of stretches)
    if ((element.kind === 'segment' || element.kind === 'cord') && element.fibre)
      types.set(element.fibreName, element.fibre);
  return [...types].flatMap(([name, type]) => {
    const spans = fibreSpans(project, plan, stretches, name);
    if (!spans) return [];
    return fibres
      .filter(
        (other) =>
          other.name !== name &&
          other.mode === type.mode &&
          other.core === type.core &&
          other.meets.includes(name),
      )
      .map((other) => ({
        what: `${other.name} in place of ${name}`,
        edits: spans.map(({ block, value }) =>
          edit({ id: block }, value.span.start, value.span.end, spelt(other.name)),
        ),
      }));
  });
}

/** Where a fibre is named, for stretches and for the cables they are taken of; undefined where a hole names it. */
function fibreSpans(
  project: Project,
  plan: Plan,
  stretches: readonly PathLine[],
  name: string,
): readonly { readonly block: number; readonly value: Value }[] | undefined {
  const spans = new Map<string, { block: number; value: Value }>();
  for (const { element, entry, block } of stretches) {
    if (element.kind !== 'segment' && element.kind !== 'cord') continue;
    if (element.fibreName !== name) continue;
    const cable = element.kind === 'segment' ? element.cable : undefined;
    const at = cable ? lineIn(project, plan, cable.place, W.fibre) : { block: block.id, entry };
    const value = at && written(at.entry, 'fibre');
    if (!at || !value) return undefined;
    spans.set(`${at.block} ${value.span.start}`, { block: at.block, value });
  }
  return [...spans.values()];
}

/** A line of a declaration by its word. */
function lineIn(
  project: Project,
  plan: Plan,
  place: Place,
  word: string,
): { readonly block: number; readonly entry: BoundEntry } | undefined {
  const found = entryAt(project, plan, place);
  const entry = found?.entry.body?.entries.find((each) => each.word === word);
  return found && entry && { block: found.block.id, entry };
}

// ---- lengths

/** Where the length of a stretch is written: in its line, or in the cable that it takes whole. */
export function lengthOfStretch(
  project: Project,
  plan: Plan,
  lines: readonly PathLine[],
  place: Place,
): Stretch | undefined {
  const line = lines.find(
    ({ element }) =>
      element.kind === 'segment' &&
      element.place.block === place.block &&
      element.place.span.start === place.span.start,
  );
  if (!line) return undefined;
  const { element, entry, block } = line;
  const cable = element.kind === 'segment' ? element.cable : undefined;
  const own = lengthIn(entry, 'length') ?? lengthIn(entry, K.length);
  if (own) return { block: block.id, value: own, what: nameOfStretch(line) };
  if (!cable || cable.reels.length > 0) return undefined;
  const at = lineIn(project, plan, cable.place, W.length);
  const value = at && lengthIn(at.entry, 'length');
  return value && { block: at.block, value, what: `the cable ${cable.name}` };
}

export interface Stretch {
  readonly block: number;
  readonly value: Length;
  readonly what: string;
}

/** The stretch shorter by so much; down to the last digit that is written. Undefined where nothing is left. */
export function shorter({ block, value, what }: Stretch, by: number): Change | undefined {
  const { unit, digits } = value;
  const places = digits.includes('.') ? digits.length - digits.indexOf('.') - 1 : 0;
  const step = Number(unit.numerator / unit.denominator) / 10 ** places;
  const length = micrometres(Math.floor((value.base - by) / step) * step);
  if (length <= 0 || !Number.isInteger(length)) return undefined;
  const text = lengthText(length, unit);
  return {
    what: `${text} of ${what}`,
    edits: [edit({ id: block }, value.span.start, value.span.end, text)],
  };
}

type Length = Extract<Value, { kind: 'quantity' }>;

function lengthIn(entry: BoundEntry, slot: string): Length | undefined {
  const value = written(entry, slot);
  return value?.kind === 'quantity' && value.dimension === 'length' ? value : undefined;
}

function nameOfStretch({ element, line }: PathLine): string {
  return element.kind === 'segment' ? `the ${element.fibreName} in line ${line}` : '';
}

/** All digits of a length in a unit, no more. */
function lengthText(length: Micrometres, unit: Unit): string {
  const scaled = (BigInt(length) * unit.denominator * 1_000_000_000n) / unit.numerator;
  const whole = scaled / 1_000_000_000n;
  const rest = (scaled % 1_000_000_000n).toString().padStart(9, '0').replace(/0+$/u, '');
  return `${whole}${rest ? `.${rest}` : ''} ${unit.name}`;
}
