/**
 * The limits of one reading side by side: components, contract, application,
 * each brought to what the reading holds; and which of them governs.
 */
import {
  addDb,
  type ExactDb,
  exactDb,
  fibreLoss,
  floorDb,
  type MicroDb,
  type Picometres,
  printMicro,
  type RatePerKm,
  roundLimit,
  subtractDb,
  timesDb,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import type {
  Carried,
  Direction,
  JointGrade,
  LimitsSet,
  LinkModel,
  PlanSettings,
  Requirement,
} from '../model/types.ts';
import { type Arrangement, endsMated } from './arrangement.ts';
import { type Figures, type Found, ownFigures, setFigures } from './figures.ts';
import { type FlatPath, lengthsOf, outsideOf, type Piece } from './path.ts';
import type { Limit, LimitKind, Term } from './result.ts';
import { limitingRow, rowInWords, usableRows } from './rows.ts';
import { readingSum, type Sum, wholeSum } from './sums.ts';
import { sameWindow } from './thresholds.ts';

/** A limit with what only judging needs to know of it. */
export interface ReadingLimit extends Limit {
  /** Fibres it holds for; undefined: all. */
  readonly fibres?: ReadonlySet<number>;
  /** Up to it a reading passes; above it the others decide. */
  readonly sufficient?: boolean;
}

export interface LimitQuestion {
  readonly link: LinkModel;
  readonly path: FlatPath;
  readonly arrangement: Arrangement;
  readonly wavelength: Picometres;
  readonly direction: Direction;
  readonly settings: PlanSettings;
  readonly channels: readonly LinkModel[];
}

export function limitsOf(question: LimitQuestion): readonly ReadingLimit[] {
  const { link, settings } = question;
  const limits: ReadingLimit[] = [
    ...link.terms.require.flatMap((required) => requiredLimit(required, question.wavelength)),
    ...link.terms.carries.flatMap((carried) => applicationLimit(carried, question)),
    ...link.terms.limits.map((set) => setLimit(set, question, false)),
    ...link.terms.compare.map((set) => setLimit(set, question, true)),
  ];
  const step = settings.decision.rounded;
  return step === undefined ? limits : limits.map((limit) => roundedLimit(limit, step));
}

/**
 * The smallest of the limits that hold for a fibre; on a tie contract before
 * application before components. Limits that only stand beside never govern.
 */
export function governing(
  limits: readonly ReadingLimit[],
  fibre?: number,
): ReadingLimit | undefined {
  let best: ReadingLimit | undefined;
  for (const limit of limits) {
    if (limit.beside || limit.value === undefined) continue;
    if (fibre !== undefined && limit.fibres && !limit.fibres.has(fibre)) continue;
    if (best?.value === undefined) best = limit;
    else if (limit.value < best.value) best = limit;
    else if (limit.value === best.value && tieOrder[limit.kind] < tieOrder[best.kind]) best = limit;
  }
  return best;
}

const tieOrder: Readonly<Record<LimitKind, number>> = {
  contract: 0,
  application: 1,
  components: 2,
};

/** Limit of components, or of a contract that is written like one. */
function setLimit(set: LimitsSet, question: LimitQuestion, beside: boolean): ReadingLimit {
  const { link, path, arrangement, wavelength, direction } = question;
  const policy = set.policy ?? link.terms.policy ?? question.settings.policy;
  const kind = set.contract ? 'contract' : 'components';
  if (!policy) {
    const because = `how pairs with test cords count is not said: ${set.name} and the plan have no policy`;
    return { kind, name: set.name, because, terms: [], beside, recalled: false };
  }
  const figures = setFigures(set, wavelength, link.mode);
  const sum = readingSum(path, arrangement, figures, policy, direction, wavelength);
  return limitOfSum(kind, set.name, sum, beside);
}

function limitOfSum(kind: LimitKind, name: string, sum: Sum, beside: boolean): ReadingLimit {
  const recalled = sum.terms.some((term) => term.trust === 'recalled');
  if ('because' in sum)
    return { kind, name, because: sum.because, terms: sum.terms, beside, recalled };
  return {
    kind,
    name,
    value: sum.value,
    floor: floorDb(sum.value),
    terms: sum.terms,
    beside,
    recalled,
  };
}

/** A loss that the contract asks of a reading as it stands. A mean or a share is judged on the batch, not here. */
function requiredLimit(required: Requirement, wavelength: Picometres): readonly ReadingLimit[] {
  if (required.kind !== 'loss' || required.statistic !== undefined) return [];
  if (required.wavelength !== undefined && required.wavelength !== wavelength) return [];
  const value = exactDb(required.loss);
  const name = `${required.sufficient ? 'sufficient' : 'required'} loss ${printMicro(required.loss)} dB`;
  const term: Term = {
    what: 'loss as the contract states it',
    role: 'part',
    count: 1,
    each: required.loss,
    total: value,
    source: name,
    place: required.place,
  };
  return [
    {
      kind: 'contract',
      name,
      value,
      floor: required.loss,
      terms: [term],
      beside: required.sufficient,
      sufficient: required.sufficient,
      recalled: false,
    },
  ];
}

/** What lies outside the link for some of its fibres, or for all. */
export interface Outside {
  readonly pieces: readonly Piece[];
  readonly fibres?: ReadonlySet<number>;
  /** The channel that these fibres are part of; undefined: cords that are planned. */
  readonly channel?: LinkModel;
}

/**
 * Stretches outside the link for one application: for the fibres that a channel
 * crosses the channel's own, for the others the planned cords.
 */
export function outsidePieces(
  carried: Carried,
  link: LinkModel,
  path: FlatPath,
  channels: readonly LinkModel[],
): readonly Outside[] {
  if (link.kind === 'channel' || link.kind === 'ring')
    return [{ pieces: [], fibres: carried.fibres && new Set(carried.fibres) }];
  if (channels.length === 0) {
    const some = carried.fibres && new Set(carried.fibres);
    const none = (carried.fibres ?? link.fibres).length === 0;
    return none ? [] : [{ pieces: plannedCords(carried, path), fibres: some }];
  }
  const rest = new Set(carried.fibres ?? link.fibres);
  const crossing = channels.flatMap((channel): Outside[] => {
    const pieces = outsideOf(channel, link.name);
    const fibres = crossedFibres(channel, link).filter((fibre) =>
      (carried.fibres ?? link.fibres).includes(fibre),
    );
    for (const fibre of fibres) rest.delete(fibre);
    return pieces && fibres.length > 0 ? [{ pieces, fibres: new Set(fibres), channel }] : [];
  });
  if (rest.size === 0) return crossing;
  const fibres = crossing.length > 0 ? rest : carried.fibres && rest;
  return [...crossing, { pieces: plannedCords(carried, path), fibres }];
}

/** Fibres of the link that the channel takes. */
function crossedFibres(channel: LinkModel, link: LinkModel): readonly number[] {
  return channel.path.flatMap((element) =>
    element.kind === 'link' && element.name === link.name ? (element.fibres ?? link.fibres) : [],
  );
}

function plannedCords(carried: Carried, path: FlatPath): readonly Piece[] {
  const fibres = path.pieces.filter((piece) => piece.kind === 'fibre');
  const [first, last] = [fibres[0], fibres.at(-1)];
  if (!first || !last) return [];
  return carried.cords.map((length, index): Piece => {
    const near = index === 0 ? first : last;
    return { ...near, length, along: length, cord: true, apart: true, place: carried.place };
  });
}

/**
 * An application's limit brought to the reading: less what of the channel lies
 * outside the object, less the pairs that a port will have and the reference
 * took, less the fibre of cords that the reference had and the reading has not.
 * It never gains pairs of test cords.
 */
function applicationLimit(carried: Carried, question: LimitQuestion): readonly ReadingLimit[] {
  const { link, path, wavelength, channels } = question;
  const { application } = carried;
  if (!application) return [];
  if (!application.wavelengths.some((light) => sameWindow(light.wavelength, wavelength))) return [];
  return outsidePieces(carried, link, path, channels).flatMap(({ pieces: outside, fibres }) => {
    const all = [...path.pieces, ...outside];
    const row = limitingRow(usableRows(application, all), lengthsOf(all).along);
    if (row?.loss === undefined) return [];
    const figures = ownFigures(link.terms.limits, wavelength, link.mode, 'max');
    const taken = takenAway(outside, figures, question);
    const head: Term = {
      what: `${application.name}, ${rowInWords(row)}`,
      role: 'application',
      count: 1,
      each: row.loss,
      total: exactDb(row.loss),
      source: application.edition ?? application.name,
      trust: row.trust,
      place: row.place,
    };
    const terms = [head, ...taken.terms];
    const sum: Sum =
      'because' in taken
        ? { because: taken.because, terms }
        : { value: addDb(head.total, taken.value), terms };
    const limit = limitOfSum('application', head.what, sum, carried.beside);
    return [{ ...limit, fibres }];
  });
}

export function takenAway(
  outside: readonly Piece[],
  figures: Figures,
  question: LimitQuestion,
): Sum {
  const { link, path, arrangement, wavelength, direction } = question;
  const sum = wholeSum(outside, figures, direction, wavelength);
  const terms: Term[] = sum.terms.map((term) => ({
    ...term,
    role: 'outside',
    count: -term.count,
    total: subtractDb(zeroDb, term.total),
  }));
  if ('because' in sum) return { because: sum.because, terms };
  const sockets = (['A', 'B'] as const).filter((end) => path.ends[end].kind === 'socket');
  const missing = sockets.length + arrangement.referencePairs - endsMated(arrangement, path);
  const set = link.terms.limits[0];
  const policy = set?.policy ?? link.terms.policy ?? question.settings.policy;
  if (missing > 0 && arrangement.method !== 'equipment-cord' && policy !== 'enhanced') {
    const grade = policy === 'reference-grade' ? 'reference' : 'installed';
    const pairs = pairsTaken(path, missing, figures, grade);
    if (!pairs) return { because: 'no figure for the pairs that the reference took', terms };
    for (const { found, count } of pairs) {
      terms.push({
        what: 'pairs in the reference',
        role: 'reference-pair',
        count: -count,
        each: found.each,
        total: timesDb(exactDb(found.each as MicroDb), -count),
        source: found.source,
        trust: found.trust,
        place: found.place,
      });
    }
  }
  for (const cord of arrangement.away) {
    const rate = figures.rate(cord.fibre, cord.fibreType);
    if (!cord.length) continue;
    if (!rate) {
      // A metre of glass is next to nothing; one of plastic is not.
      if (cord.fibreType?.mode !== 'plastic') continue;
      return {
        because: `no figure for ${cord.fibre} of ${cord.name}, which was taken away`,
        terms,
      };
    }
    terms.push({
      what: 'fibre of cords taken away',
      role: 'cord',
      count: -1,
      length: cord.length,
      each: rate.each,
      total: subtractDb(zeroDb, fibreLoss(rate.each as RatePerKm, cord.length)),
      source: rate.source,
      trust: rate.trust,
      place: rate.place,
    });
  }
  return { value: addDb(...terms.map((term) => term.total)), terms };
}

/** So many pairs as the sockets of the path have them, the one that loses more first: one is never taken for less than it may be. */
function pairsTaken(
  { ends }: FlatPath,
  missing: number,
  figures: Figures,
  grade: JointGrade,
): readonly { readonly found: Found; readonly count: number }[] | undefined {
  const sockets = [ends.A, ends.B].filter((end) => end.kind === 'socket');
  const kinds = sockets.length > 0 ? sockets : [undefined];
  const known = kinds.flatMap((end) => figures.pair(end?.name, end?.type, grade) ?? []);
  const [most, least] = known.sort((a, b) => b.each - a.each);
  if (!most || known.length < kinds.length) return undefined;
  if (!least || least.each === most.each) return [{ found: most, count: missing }];
  const lesser = Math.floor(missing / 2);
  return [
    { found: most, count: missing - lesser },
    ...(lesser > 0 ? [{ found: least, count: lesser }] : []),
  ];
}

/** A named policy of some contracts: the limit is rounded half up first, and the working shows it. */
function roundedLimit(limit: ReadingLimit, step: MicroDb): ReadingLimit {
  if (limit.value === undefined) return limit;
  const value: ExactDb = roundLimit(limit.value, step);
  const difference = subtractDb(value, limit.value);
  if (difference === 0n) return limit;
  const term: Term = {
    what: `rounded to ${printMicro(step)} dB`,
    role: 'rounding',
    count: 1,
    each: 0,
    total: difference,
    source: 'the plan’s decision',
  };
  return { ...limit, value, floor: floorDb(value), terms: [...limit.terms, term] };
}
