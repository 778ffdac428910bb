/**
 * Changes of a design with what each brings: the edited plan is judged by the
 * same functions that judge the plan, and the difference is told. Worked out
 * when somebody asks, and remembered for as long as the result stands.
 */
import {
  type ExactDb,
  type Micrometres,
  printExactDb,
  printRounded,
  subtractDb,
  toMetres,
} from '../../../grammar/src/quantity/index.ts';
import type { PlacedEdit } from '../checks/finding.ts';
import {
  type EvaluationInput,
  evaluateLink,
  type LinkResult,
  type Room,
  roomOf,
  type WavelengthResult,
} from '../evaluate/index.ts';
import { lengthInWords } from '../evaluate/rows.ts';
import type { Place } from '../model/types.ts';
import type { Plan, Project } from '../project/types.ts';
import { type Change, changesOf, lengthOfStretch, shorter } from './design-changes.ts';
import { type PathLine, pathLines } from './design-lines.ts';

/** What is short, and so what a change is measured by. */
export type Aim =
  | { readonly kind: 'limit' }
  /** With `margin`, so that not only nothing is short, but what should be left is. */
  | { readonly kind: 'application'; readonly name: string; readonly margin?: true }
  | { readonly kind: 'light'; readonly application: string };

export interface Offer {
  readonly title: string;
  readonly edits: readonly PlacedEdit[];
  /** Nothing of what is aimed at is short any more. */
  readonly passes: boolean;
  /** Decibels left with it by the aim, negative where they are short. */
  readonly left?: ExactDb;
  /** Decibels that it brings. */
  readonly gain?: ExactDb;
}

/** How a plan stands by an aim. */
interface Standing {
  readonly passes: boolean;
  readonly left?: ExactDb;
  /** How much longer the stretch may be; negative where it is too long. */
  readonly spare?: number;
  /** The stretch that is asked about, and micro-decibel of it per kilometre. */
  readonly stretch?: Place;
  readonly rate?: number;
}

/** Most changes that are judged for one question, and most that are offered. */
const mostTried = 40;
const mostOffered = 8;

const known = new WeakMap<LinkResult, Map<string, readonly Offer[]>>();

/** What would bring an object nearer to its aim: first what makes it hold, then what brings most. */
export function offersFor(
  project: Project,
  plan: Plan,
  result: LinkResult,
  aim: Aim,
): readonly Offer[] {
  const remembered = known.get(result) ?? new Map<string, readonly Offer[]>();
  known.set(result, remembered);
  const key = JSON.stringify(aim);
  const before = remembered.get(key);
  if (before) return before;
  const offers = offered(project, plan, result, aim);
  remembered.set(key, offers);
  return offers;
}

function offered(project: Project, plan: Plan, { link }: LinkResult, aim: Aim): readonly Offer[] {
  const input = plan.tried(link.name);
  const now = input && standingOf(input, aim);
  if (!now) return [];
  const lines = pathLines(project, plan, link);
  const offers = changesOf(project, plan, link, lines)
    .slice(0, mostTried)
    .flatMap((change) => offerOf(plan, link.name, aim, now, change) ?? []);
  const cut = now.passes ? undefined : shortened(project, plan, lines, link.name, aim, now);
  return [...offers, ...(cut ? [cut] : [])].sort(nearest).slice(0, mostOffered);
}

function nearest(a: Offer, b: Offer): number {
  if (a.passes !== b.passes) return a.passes ? -1 : 1;
  const [first, second] = [a.gain ?? (0n as ExactDb), b.gain ?? (0n as ExactDb)];
  return first > second ? -1 : first < second ? 1 : 0;
}

/** Undefined where it brings nothing, or cannot be judged. */
function offerOf(
  plan: Plan,
  name: string,
  aim: Aim,
  now: Standing,
  { what, edits, everywhere }: Change,
): Offer | undefined {
  const input = plan.tried(name, edits);
  const then = input && standingOf(input, aim);
  if (!then) return undefined;
  const gain =
    then.left === undefined || now.left === undefined ? undefined : subtractDb(then.left, now.left);
  const further = then.spare === undefined || now.spare === undefined ? 0 : then.spare - now.spare;
  const gains = gain !== undefined && gain > 0n;
  // Where it is too long, what takes no metre off that is no help.
  const helps = further > 0 || (gains && (now.spare === undefined || now.spare >= 0));
  if (!(helps || (then.passes && !now.passes))) return undefined;
  // What mends the loss and takes away the reach mends nothing.
  if (now.passes && !then.passes) return undefined;
  const also = alsoChanged(plan, name, edits, everywhere);
  return {
    title: `Take ${what}: ${broughtInWords(aim, gain, then, now)}${also}`,
    edits,
    passes: then.passes,
    ...(then.left !== undefined && { left: then.left }),
    ...(gain !== undefined && { gain }),
  };
}

/** The stretch cut to what holds; what one light allows may still be too long for another. */
function shortened(
  project: Project,
  plan: Plan,
  lines: readonly PathLine[],
  name: string,
  aim: Aim,
  now: Standing,
): Offer | undefined {
  const place = now.stretch ?? longestLine(lines)?.element.place;
  const written = place && lengthOfStretch(project, plan, lines, place);
  if (!written) return undefined;
  let by = 0;
  let then: Standing | undefined = now;
  for (let tries = 0; tries < 3 && then && !then.passes; tries += 1) {
    const more = excessOf(then);
    if (more === undefined || more <= 0) return undefined;
    by += more;
    const change = shorter(written, by);
    const offer = change && offerOf(plan, name, aim, now, change);
    if (offer?.passes) return offer;
    const input: EvaluationInput | undefined = change && plan.tried(name, change.edits);
    then = input && standingOf(input, aim);
  }
  return undefined;
}

function longestLine(lines: readonly PathLine[]): PathLine | undefined {
  const lengthOf = ({ element }: PathLine) =>
    element.kind === 'segment' ? (element.length ?? -1) : -1;
  return lines.reduce<PathLine | undefined>(
    (a, b) => (lengthOf(b) > (a ? lengthOf(a) : -1) ? b : a),
    undefined,
  );
}

/** How much too long a stretch is: by reach as it stands, by loss as dB short ÷ α, rounded up. */
function excessOf({ left, spare, rate }: Standing): number | undefined {
  if (spare !== undefined) return -spare;
  if (left === undefined || !rate) return undefined;
  return lengthFor(-left as ExactDb, rate);
}

// ---- where a plan stands

function standingOf(input: EvaluationInput, aim: Aim): Standing | undefined {
  if (aim.kind === 'limit') return byLimit(evaluateLink({ ...input, readingLimit: 0 }));
  if (aim.kind === 'light') return byLight(evaluateLink({ ...input, readingLimit: 0 }), aim);
  const room = roomOf(input).find(({ application }) => application === aim.name);
  return room && byRoom(room, aim.margin);
}

/** Where the limit that governs leaves least. */
export function leastLeft({ wavelengths, ways }: LinkResult): WavelengthResult | undefined {
  const all = [...wavelengths, ...ways.flatMap((way) => way.wavelengths)];
  return smallest(all, ({ designMargin }) => designMargin);
}

/** By the limit that governs, where it leaves least. */
function byLimit(result: LinkResult): Standing | undefined {
  const least = leastLeft(result);
  if (least?.designMargin === undefined) return undefined;
  return {
    passes: least.designMargin >= 0n,
    left: least.designMargin,
    ...longestIn(least.worstTerms),
  };
}

/** By power that arrives. */
function byLight({ power, ways }: LinkResult, aim: Aim & { kind: 'light' }): Standing | undefined {
  const all = [...power, ...ways.flatMap((way) => way.power)].filter(
    ({ application }) => application === aim.application,
  );
  const least = smallest(all, ({ margin }) => margin);
  if (least?.margin === undefined) return undefined;
  return { passes: least.margin >= 0n, left: least.margin, ...longestIn(least.terms) };
}

function byRoom({ longest, stretch, never, left, byLoss }: Room, margin = false): Standing {
  const spare = longest === undefined ? undefined : longest - stretch.length;
  const holds = never === undefined && (spare === undefined || spare >= 0);
  const short = margin && left && left.loss < left.wanted ? left : undefined;
  const base = {
    passes: holds && !short,
    ...(left && { left: left.loss }),
    stretch: stretch.place,
  };
  // Where no length would do, a shorter stretch is no way out.
  if (never !== undefined || spare === undefined) return base;
  if (!holds || !short || !byLoss) return { ...base, spare };
  return { ...base, spare: -lengthFor(subtractDb(short.wanted, short.loss), byLoss.rate) };
}

/** So much of a stretch loses at least so much: loss ÷ α, rounded up. */
function lengthFor(loss: ExactDb, rate: number): number {
  const size = BigInt(rate);
  return Number((loss + size - 1n) / size);
}

/** The longest stretch of fibre among the terms of a sum. */
function longestIn(terms: LinkResult['wavelengths'][number]['worstTerms']): Partial<Standing> {
  const fibre = terms
    .filter(({ role, length }) => role === 'fibre' && length !== undefined)
    .sort((a, b) => (b.length ?? 0) - (a.length ?? 0))[0];
  return fibre ? { rate: fibre.each } : {};
}

function smallest<Item>(
  items: readonly Item[],
  sizeOf: (item: Item) => ExactDb | undefined,
): Item | undefined {
  let best: { readonly item: Item; readonly value: ExactDb } | undefined;
  for (const item of items) {
    const value = sizeOf(item);
    if (value !== undefined && (!best || value < best.value)) best = { item, value };
  }
  return best?.item;
}

// ---- in words

function broughtInWords(
  aim: Aim,
  gain: ExactDb | undefined,
  then: Standing,
  now: Standing,
): string {
  const parts: string[] = [];
  if (gain !== undefined && gain !== 0n) {
    parts.push(gain > 0n ? `gains ${inDb(gain)}` : `costs ${inDb(-gain as ExactDb)}`);
  }
  if (then.left !== undefined) {
    parts.push(
      then.left >= 0n
        ? `${inDb(then.left)} left ${aimInWords(aim)}`
        : `${inDb(-then.left as ExactDb)} still short ${aimInWords(aim)}`,
    );
  }
  const { spare } = then;
  if (spare !== undefined && now.spare !== undefined && (now.spare < 0 || spare < 0)) {
    parts.push(spare >= 0 ? `${metres(spare)} to spare` : `${metres(-spare)} still too long`);
  }
  return parts.join(', ');
}

function aimInWords(aim: Aim): string {
  if (aim.kind === 'application') return `for ${aim.name}`;
  return aim.kind === 'light' ? `of the light of ${aim.application}` : 'under its limit';
}

/** What else is made of the text that is changed. */
function alsoChanged(
  plan: Plan,
  name: string,
  edits: readonly PlacedEdit[],
  everywhere: string | undefined,
): string {
  const blocks = new Set(edits.map(({ place }) => place.block));
  const others = new Set(
    everywhere === undefined
      ? [...blocks].flatMap((block) => plan.madeOf(block))
      : plan.madeWith('connector', everywhere),
  );
  others.delete(name);
  const [first, ...more] = others;
  if (first === undefined) return '';
  return more.length === 0 ? ` (changes ${first}, too)` : ` (changes ${others.size} others, too)`;
}

/** A hundredth of a decibel where that is all of it, else every digit. */
function inDb(value: ExactDb): string {
  const whole = printExactDb(value);
  const places = whole.includes('.') ? whole.length - whole.indexOf('.') - 1 : 0;
  return `${places <= 2 ? printRounded(value, 2) : whole} dB`;
}

function metres(length: number): string {
  const whole = toMetres(length as Micrometres);
  return Number.isInteger(whole)
    ? lengthInWords(length as Micrometres)
    : `${Math.floor(whole * 100) / 100} m`;
}
