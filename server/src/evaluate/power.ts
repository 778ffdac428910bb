/**
 * Windows of power, by design: what light of a named transceiver gives another.
 *
 *   lowest launch − greatest loss − penalty − reserves ≥ least input
 *   highest launch − least loss ≤ greatest input
 *
 * The first of these is asked of the average power and, where both ends state
 * it, of the optical modulation amplitude too: a loss takes the same share of
 * both (IEEE 802.3 states launch and sensitivity as amplitudes, from memory).
 * Least loss is fibre and components at `min` (none: 0), splitters at `min`
 * (none: 10 log N), joints and splices at nothing. Penalty and ageing that are
 * in end-of-life figures already are not taken again: only what is written is.
 * Source: power budget with both ends of the receiver's window, ITU-T G.957
 * clause 8 and G.Sup39 clause 9 (worst case), as equipment makers print it.
 */
import {
  addDb,
  type ExactDb,
  exactDb,
  type MicroDbm,
  microDb,
  type Picometres,
  subtractDb,
  toNanometres,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import type { Carried, Direction, Sourced, TransceiverType, Way } from '../model/types.ts';
import { modulationAmplitude } from '../optics/index.ts';
import type { Context } from './context.ts';
import { type Figures, type Found, onLine, ownFigures, withPartsAt } from './figures.ts';
import { leastLoss, uncountedIn } from './least.ts';
import { type LightPath, lightPathsOf } from './light-paths.ts';
import type { Piece } from './path.ts';
import type { PowerResult, Term } from './result.ts';
import { bandOf, dispersionOf, trustOf } from './signal-along.ts';
import { TermList, wholeSum } from './sums.ts';
import { figuresAt } from './support-design.ts';
import { sameColour, sameWindow } from './thresholds.ts';

/**
 * One result per `carries … with …` and direction: of all its fibres and what
 * lies outside them the one that is worst at each end of the window. Of a tree
 * or a ring it is asked way by way, with the context of that way.
 */
export function powerOf(context: Context, way?: Way): readonly PowerResult[] {
  if (!way && context.link.ways.length > 0) return [];
  return context.link.terms.carries.flatMap((carried) => {
    const [a, b = a] = carried.modules;
    if (!a || !b || carried.modules.length < carried.transceivers.length) return [];
    return directionsOf(carried).flatMap((direction) => {
      const [sender, receiver] = direction === 'A>B' ? [a, b] : [b, a];
      const found = lightPathsOf(context, carried, way).map((path) =>
        windowOf({ carried, direction, sender, receiver, ...path }),
      );
      const [first, ...others] = found;
      return first ? [others.reduce(worseOf, first)] : [];
    });
  });
}

/** What one attenuator must take, if it is to serve all of these: `least` above `most` where none does. */
export function attenuatorOver(
  results: readonly PowerResult[],
): { readonly least: ExactDb; readonly most: ExactDb } | undefined {
  let [least, most]: [ExactDb, ExactDb | undefined] = [zeroDb, undefined];
  for (const { margin, overloadMargin } of results) {
    if (margin === undefined || overloadMargin === undefined) return undefined;
    least = greater(least, subtractDb(zeroDb, overloadMargin));
    most = most === undefined ? margin : lesser(most, margin);
  }
  return most === undefined ? undefined : { least, most };
}

/** Both ways, but for an application that sends in one direction only. */
function directionsOf({ application }: Carried): readonly Direction[] {
  const both: readonly Direction[] = ['A>B', 'B>A'];
  if (!application) return both;
  return both.filter((direction) =>
    application.wavelengths.some((light) => (light.direction ?? direction) === direction),
  );
}

interface Question extends LightPath {
  readonly carried: Carried;
  readonly direction: Direction;
  readonly sender: TransceiverType;
  readonly receiver: TransceiverType;
}

function windowOf(question: Question): PowerResult {
  const { context, carried, direction, sender, receiver, pieces } = question;
  const { link } = context;
  const wavelength = sentBy(sender, carried, direction);
  const known = {
    application: carried.name,
    direction,
    wavelength: wavelength ?? (0 as Picometres),
    from: sender.name,
    to: receiver.name,
    launch: sender.output,
    input: receiver.input,
    mismatches: mismatchesOf(question),
    recalled: false,
    uncounted: [],
    place: carried.place,
  };
  if (wavelength === undefined || !sender.output || !receiver.input) {
    const who = !sender.output || wavelength === undefined ? sender.name : receiver.name;
    return { ...known, terms: [], because: `${who} does not say all that a window needs` };
  }
  const figured = figuresAt(context, pieces, wavelength);
  const own = (at: Picometres) => ownFigures(link.terms.limits, at, link.mode, 'max');
  const figures = withPartsAt(own(figured), own(onLine(link, wavelength)));
  const sum = wholeSum(pieces, figures, direction, figured);
  const least = leastLoss(pieces, onLine(link, wavelength));
  const strongest = subtractDb(dbm(sender.output.max), least);
  const allowances = allowancesOf(question, figures);
  const base = {
    ...known,
    leastLoss: least,
    uncounted: uncountedIn(pieces, wavelength),
    overloadMargin: subtractDb(dbm(receiver.input.max), strongest),
    damageMargin:
      receiver.damage === undefined ? undefined : subtractDb(dbm(receiver.damage), strongest),
    dispersion:
      receiver.dispersion === undefined
        ? undefined
        : { ...dispersionOn(pieces, sender, wavelength), bears: receiver.dispersion },
    terms: [...sum.terms, ...allowances.terms],
    recalled: [sender.output, receiver.input, ...sum.terms, ...allowances.terms].some(
      ({ trust }) => trust === 'recalled',
    ),
  };
  const because =
    (context.path.unknown && `${context.path.unknown} is not known`) ??
    ('because' in sum ? sum.because : 'because' in allowances ? allowances.because : undefined);
  if (because !== undefined || 'because' in sum || 'because' in allowances)
    return { ...base, because };
  const taken = addDb(sum.value, allowances.value);
  const average = leftOf(sender.output.min, taken, receiver.input.min);
  const modulated = amplitudeOf(sender, receiver, taken);
  const margin = modulated ? lesser(average, modulated.margin) : average;
  return {
    ...base,
    greatestLoss: sum.value,
    margin,
    ...(modulated && { amplitude: modulated }),
    attenuator:
      base.overloadMargin < zeroDb
        ? { least: subtractDb(zeroDb, base.overloadMargin), most: margin }
        : undefined,
  };
}

/** What is left of the least that is sent over the least that is taken. */
function leftOf(launch: MicroDbm, taken: ExactDb, input: MicroDbm): ExactDb {
  return subtractDb(subtractDb(dbm(launch), taken), dbm(input));
}

/**
 * The window of modulation amplitudes: what is stated, else what the least
 * average power and the extinction of the sender make of it.
 */
function amplitudeOf(
  { output, extinction }: TransceiverType,
  { input }: TransceiverType,
  taken: ExactDb,
): PowerResult['amplitude'] {
  const least = input?.amplitude;
  if (!output || least === undefined) return undefined;
  const derived =
    extinction === undefined ? undefined : modulationAmplitude(output.min, extinction);
  const launch = output.amplitude ?? derived;
  if (launch === undefined) return undefined;
  return { launch, input: least, margin: leftOf(launch, taken, least) };
}

/** What the sender says it sends, else what the application sends in that direction. */
function sentBy(
  sender: TransceiverType,
  carried: Carried,
  direction: Direction,
): Picometres | undefined {
  return (
    sender.wavelength?.nominal ??
    carried.application?.wavelengths.find((light) => (light.direction ?? direction) === direction)
      ?.wavelength
  );
}

function mismatchesOf({ context, carried, direction, sender, receiver }: Question): string[] {
  const found: string[] = [];
  const { application } = carried;
  for (const module of new Set([sender, receiver])) {
    if (module.applications.length === 0 || module.applications.includes(carried.name)) continue;
    found.push(`${module.name} is made for ${module.applications.join(', ')}`);
  }
  const light = sender.wavelength;
  if (!light) return found;
  const nominal = toNanometres(light.nominal);
  const own = context.link.wavelength;
  // On a shared line the channel says which light it has; what the application sends by itself is no matter there.
  if (own !== undefined) {
    const through =
      light.min !== undefined && light.max !== undefined
        ? light.min <= own && own <= light.max
        : sameColour(light.nominal, own);
    if (!through) {
      const line = `${context.link.name} has ${toNanometres(own)} nm on its line`;
      found.push(`${sender.name} sends ${nominal} nm, and ${line}`);
    }
    return found;
  }
  const sent = (application?.wavelengths ?? [])
    .filter((one) => (one.direction ?? direction) === direction)
    .map(({ wavelength }) => wavelength);
  const fits = (wavelength: Picometres) =>
    sameWindow(light.nominal, wavelength) ||
    ((light.min ?? Infinity) <= wavelength && wavelength <= (light.max ?? -Infinity));
  if (sent.length > 0 && !sent.some(fits)) {
    const wanted = sent.map(toNanometres).join(', ');
    found.push(
      `${sender.name} sends ${nominal} nm, and ${carried.name} is sent at ${wanted} nm ${direction}`,
    );
  }
  return found;
}

/** Penalty of the light, splices held in reserve, repairs that are left, and ageing: once a light path. */
function allowancesOf(
  { context, receiver, pieces, fibres }: Question,
  figures: Figures,
):
  | { readonly value: ExactDb; readonly terms: readonly Term[] }
  | { readonly because: string; readonly terms: readonly Term[] } {
  const { repairs, terms: asked } = context.link;
  const { reserve } = asked;
  const terms = new TermList();
  const amount = (what: string, role: Term['role'], found: Found) => {
    if (found.each > 0) terms.count(what, role, 1, found);
  };
  const { penalty } = receiver;
  if (penalty) {
    const source = `transceiver ${receiver.name}`;
    amount('penalty', 'penalty', { each: penalty.loss, source, trust: penalty.trust });
  }
  // Fibres of one path have the same repairs, each of which uses up one that is reserved.
  const done = repairs.filter((repair) => repair.fibres.some((fibre) => fibre === fibres[0]));
  const splices = reserve.splices + 2 * Math.max(0, reserve.repairs - done.length);
  if (splices > 0) {
    const each = reservedSplice(pieces, figures);
    if (each) terms.count('splices held in reserve', 'reserve', splices, each);
    else terms.missing('no figure for the splices that are held in reserve');
  }
  amount('ageing', 'reserve', { each: reserve.ageing, source: 'reserve of the plan' });
  return terms.sum();
}

/** The worst splice of the path; where it has none, any splice that the limits name. */
function reservedSplice(pieces: readonly Piece[], figures: Figures) {
  const splices = pieces.filter((piece) => piece.kind === 'splice');
  const [worst] = splices
    .flatMap((piece) => figures.splice(piece) ?? [])
    .sort((a, b) => b.each - a.each);
  const [first] = pieces;
  return (
    worst ?? (first && figures.splice({ kind: 'splice', name: 'in reserve', place: first.place }))
  );
}

/** In 1e-6 ps/nm; without a path where a fibre says nothing. */
function dispersionOn(
  pieces: readonly Piece[],
  sender: TransceiverType,
  wavelength: Picometres,
): Sourced & { readonly path?: number } {
  const sum = dispersionOf(pieces, bandOf(sender, wavelength), wavelength);
  return 'value' in sum ? { path: sum.value, trust: sum.trust } : {};
}

/** The worse of two at each end; what is said of the sum is that of the lesser margin, or of one that is not known. */
function worseOf(a: PowerResult, b: PowerResult): PowerResult {
  const unknown = [a, b].find((one) => one.margin === undefined);
  const worse = unknown ?? (a.margin! <= b.margin! ? a : b);
  const least = (x: ExactDb | undefined, y: ExactDb | undefined) =>
    x === undefined || y === undefined ? undefined : lesser(x, y);
  const brighter = (a.leastLoss ?? zeroDb) <= (b.leastLoss ?? zeroDb) ? a : b;
  const overloadMargin = least(a.overloadMargin, b.overloadMargin);
  const margin = least(a.margin, b.margin);
  const [one, other] = [a.dispersion?.path, b.dispersion?.path];
  return {
    ...worse,
    recalled: a.recalled || b.recalled,
    margin,
    overloadMargin,
    leastLoss: least(a.leastLoss, b.leastLoss),
    uncounted: brighter.uncounted,
    damageMargin: least(a.damageMargin, b.damageMargin),
    attenuator:
      overloadMargin !== undefined && overloadMargin < zeroDb && margin !== undefined
        ? { least: subtractDb(zeroDb, overloadMargin), most: margin }
        : undefined,
    dispersion: worse.dispersion && {
      bears: worse.dispersion.bears,
      trust: trustOf([a.dispersion ?? {}, b.dispersion ?? {}]),
      path: one === undefined || other === undefined ? undefined : Math.max(one, other),
    },
  };
}

/** A power against one milliwatt, on the scale of exact decibels. */
function dbm(power: MicroDbm): ExactDb {
  return exactDb(microDb(power));
}

function greater(a: ExactDb, b: ExactDb): ExactDb {
  return a > b ? a : b;
}

function lesser(a: ExactDb, b: ExactDb): ExactDb {
  return a < b ? a : b;
}
