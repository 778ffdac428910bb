/**
 * What meets what where no fibre lies between: kinds of connector that do not
 * fit each other, angled end faces on straight ones, and pins of arrays. Only
 * what is written is judged. How keys lie is held against the map between two
 * pairs in `keys.ts`: by itself a pair is straight unless a map says otherwise.
 */
import type { ConnectorType, LinkModel, PathElement, Place } from '../model/types.ts';
import type { Doubt } from './result.ts';

/** A kind of connector as it faces a neighbour. */
interface Face {
  readonly name: string;
  readonly type?: ConnectorType;
}

/** One thing that mates, as light from A meets it: what it shows to its two sides. */
interface Mating {
  readonly kind: 'pair' | 'plug' | 'part' | 'cord';
  readonly before: Face;
  readonly after: Face;
  /** Side of a pair with the pins; of a plug, whether it has them. */
  readonly pins?: 'A' | 'B';
  readonly pinned?: boolean;
  readonly place: Place;
}

type Step = Mating | 'gap';

export function* doubtsOfMating(link: LinkModel): Iterable<Doubt> {
  // Between two spans of a ring stands equipment, or the cord that lets light by.
  if (link.kind !== 'link' && link.kind !== 'channel') return;
  const steps = stepsOf(link, false);
  for (const [index, step] of steps.entries()) {
    const next = steps[index + 1];
    if (step === 'gap' || next === undefined || next === 'gap') continue;
    yield* doubtsOfKinds(step, next, link);
    const third = steps[index + 2];
    if (next.kind === 'pair' && step.kind === 'plug' && third !== undefined && third !== 'gap') {
      yield* doubtsOfPlugs(step, next, third, link);
    }
    yield* doubtsOfPins(step, next, link);
  }
}

function* doubtsOfKinds(step: Mating, next: Mating, link: LinkModel): Iterable<Doubt> {
  const why = misfit(step.after, next.before);
  if (!why) return;
  yield {
    name: 'connectors-do-not-fit',
    place: next.place,
    related: [{ place: step.place, message: `${step.after.name} before it` }],
    details: { link: link.name, before: step.after.name, after: next.before.name, why },
  };
}

/** Why two kinds do not go into one adapter; undefined where they do, or where it is not known. */
function misfit(a: Face, b: Face): string | undefined {
  if (!a.type || !b.type) return undefined;
  const [few, many] = [a.type.positions ?? 1, b.type.positions ?? 1];
  if (few !== many) return `${a.name} holds ${inFibres(few)}, ${b.name} ${inFibres(many)}`;
  const angled = [a.type.polish, b.type.polish].map((polish) => polish && polish === 'APC');
  if (angled[0] !== undefined && angled[1] !== undefined && angled[0] !== angled[1]) {
    return 'one end face is angled, the other is not';
  }
  // A kind of the plan's own may be one of the library by another name.
  const own = a.type.origin === 'plan' || b.type.origin === 'plan';
  return own || family(a.name) === family(b.name) ? undefined : 'their housings differ';
}

const inFibres = (number: number) => (number === 1 ? 'one fibre' : `${number} fibres`);

/** The plug family without its polish: `LC` of `LC-APC`. */
function family(name: string): string {
  return name.replace(/-(?:PC|UPC|APC)$/u, '');
}

/** Two statements about the pins of one pair: by it, and by a plug or by the pair of a neighbour at the same adapter. */
function* doubtsOfPins(step: Mating, next: Mating, link: LinkModel): Iterable<Doubt> {
  const say = (both: boolean): Doubt => ({
    name: 'pins-do-not-mate',
    place: next.place,
    related: [{ place: step.place, message: 'What it meets.' }],
    details: { link: link.name, connector: next.before.name, both: both ? 1 : 0 },
  });
  if (!isArray(step.after) || !isArray(next.before)) return;
  if (step.kind === 'pair' && next.kind === 'pair') {
    if (!step.pins || !next.pins || step.pins === next.pins) return;
    yield say(step.pins === 'A');
  }
  const pair = step.kind === 'pair' ? step : next;
  const plug = step.kind === 'plug' ? step : next;
  if (pair.kind !== 'pair' || plug.kind !== 'plug' || !pair.pins) return;
  const side = plug === step ? 'A' : 'B';
  if (plug.pinned !== (pair.pins === side)) yield say(plug.pinned === true);
}

/** Two plugs in an adapter that says nothing of pins itself. */
function* doubtsOfPlugs(
  plug: Mating,
  pair: Mating,
  other: Mating,
  link: LinkModel,
): Iterable<Doubt> {
  if (pair.pins || other.kind !== 'plug' || plug.pinned !== other.pinned) return;
  if (!isArray(pair.before)) return;
  yield {
    name: 'pins-do-not-mate',
    place: other.place,
    related: [{ place: plug.place, message: 'The plug it meets.' }],
    details: { link: link.name, connector: pair.before.name, both: plug.pinned ? 1 : 0 },
  };
}

function isArray({ type }: Face): boolean {
  return (type?.positions ?? 1) > 1;
}

function stepsOf(link: LinkModel, turned: boolean): readonly Step[] {
  const last = link.path.length - 1;
  const steps = link.path.flatMap((element, index): readonly Step[] => {
    if (element.kind === 'cord') return stepsOfCord(element);
    if (element.kind !== 'link') return [stepOf(element, index === 0 && last > 0)];
    if (!element.link) return ['gap'];
    const inner = stepsOf(element.link, element.turned);
    // A finding about what two links do to each other stands where the channel takes them.
    const at = (step: Step | undefined): Step[] =>
      step === undefined || step === 'gap' ? ['gap'] : [{ ...step, place: element.place }];
    return inner.length > 1 ? [...at(inner[0]), 'gap', ...at(inner.at(-1))] : [...at(inner[0])];
  });
  return turned ? steps.toReversed().map(turnedStep) : steps;
}

/** Its two plugs with the fibre between them, where they are named. */
function stepsOfCord({ plugs, place }: Extract<PathElement, { kind: 'cord' }>): readonly Step[] {
  if (!plugs) return ['gap'];
  const [a, b] = plugs.map((face): Step => ({ kind: 'cord', before: face, after: face, place }));
  return [a ?? 'gap', 'gap', b ?? 'gap'];
}

function turnedStep(step: Step): Step {
  if (step === 'gap') return step;
  const pins = step.pins && (step.pins === 'A' ? 'B' : 'A');
  return { ...step, before: step.after, after: step.before, pins };
}

function stepOf(element: Exclude<PathElement, { kind: 'link' | 'cord' }>, begins: boolean): Step {
  const { place } = element;
  switch (element.kind) {
    case 'connector': {
      const face = { name: element.name, type: element.type };
      return { kind: 'pair', before: face, after: face, pins: element.pins, place };
    }
    case 'plug': {
      const face = { name: element.name, type: element.type };
      return { kind: 'plug', before: face, after: face, pinned: element.pinned === true, place };
    }
    case 'component': {
      const { joins, joined } = element.type ?? {};
      if (!joins) return 'gap';
      const first = { name: joins[0], type: joined?.[0] };
      const second = { name: joins[1], type: joined?.[1] };
      const secondFirst = begins !== (element.turned ?? false);
      const [before, after] = secondFirst ? [second, first] : [first, second];
      return { kind: 'part', before, after, place };
    }
    default:
      return 'gap';
  }
}
