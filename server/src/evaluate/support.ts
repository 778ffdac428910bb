/**
 * The four words of support. By design: the greatest figures of all parts hold
 * a row. Predicted: readings of the link and the greatest figures of what is
 * not in them do. By measurement: readings of the channel itself do. Not
 * supported: none of that. Duplex needs one fibre each way, parallel all lanes.
 */
import {
  type ExactDb,
  exactDb,
  type MicroDb,
  type Picometres,
  placesApart,
  printProse,
  subtractDb,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import type {
  ApplicationRow,
  ApplicationType,
  Carried,
  Direction,
  LinkModel,
  Way,
} from '../model/types.ts';
import type { Context } from './context.ts';
import { type Figures, onLine, ownFigures, withPartsAt } from './figures.ts';
import { leastLoss } from './least.ts';
import { outsidePieces, takenAway } from './limits.ts';
import { fibresOf, lengthsOf, type Piece } from './path.ts';
import { predictedFromLinks } from './prediction.ts';
import type { ApplicationResult, SupportWord } from './result.ts';
import {
  brokenTerms,
  lengthInWords,
  limitingRow,
  type RowTerm,
  rowInWords,
  usableRows,
} from './rows.ts';
import type { Settled } from './settle.ts';
import { connectionsSum, type Sum, wholeSum } from './sums.ts';
import { sameWindow } from './thresholds.ts';

/** The application's answer and what a finding needs if it is no. */
export interface Support extends ApplicationResult {
  readonly carried: Carried;
  readonly broken: readonly RowTerm[];
  readonly length?: number;
  readonly reach?: number;
  /** Greatest loss that was compared, and where it came from. */
  readonly loss?: ExactDb;
  readonly from?: 'design' | 'reading';
  readonly wavelength?: Picometres;
  readonly fibres: readonly number[];
  /** Where it may lose too little: the least, and what is wanted. */
  readonly least?: ExactDb;
  readonly lossMin?: MicroDb;
}

/** Loss at one wavelength and direction for one fibre of the object, brought to the whole channel. */
interface Known {
  readonly fibre: number;
  readonly wavelength: Picometres;
  readonly direction: Direction;
  /** Undefined: no light, more than could be seen. */
  readonly loss?: ExactDb;
}

interface Question {
  readonly context: Context;
  readonly carried: Carried;
  readonly application: ApplicationType;
  readonly pieces: readonly Piece[];
  /** Fibres that the answer is about; undefined: all that the application was given. */
  readonly only?: ReadonlySet<number>;
  readonly known: readonly Known[];
  /** The way that is asked about, where light has several. */
  readonly way?: Way;
}

/** Of a tree or a ring it is asked way by way, with the context of that way. */
export function supportOf(
  context: Context,
  settled: ReadonlyMap<string, Settled>,
  way?: Way,
): readonly Support[] {
  const { link } = context;
  if (!way && link.ways.length > 0) return [];
  const end = way?.fibre;
  return link.terms.carries.flatMap((carried) => {
    const { application } = carried;
    if (!application || (end !== undefined && carried.fibres?.includes(end) === false)) return [];
    const channels = context.input.channels ?? [];
    const answers = outsidePieces(carried, link, context.path, channels)
      .filter(({ fibres }) => end === undefined || !fibres || fibres.has(end))
      .map((outside) =>
        answer({
          context,
          carried,
          application,
          pieces: [...context.path.pieces, ...outside.pieces],
          only: end === undefined ? outside.fibres : new Set([end]),
          known: knownLosses(context, settled, application, outside.pieces),
          way,
        }),
      );
    const worst = worstSupport(answers);
    return worst ? [worst] : [];
  });
}

/** The answer as results show it. */
export function applicationOf(support: Support): ApplicationResult {
  const { name, row, because, lengthLimit, lossLimit, lossMin, light, way, differential } = support;
  return {
    name,
    support: support.support,
    row,
    because,
    lengthLimit,
    lossLimit,
    lossMin,
    light,
    ...(way !== undefined && { way }),
    ...(differential && { differential }),
    place: support.place,
    recalled: support.recalled,
  };
}

/** The weakest of several answers; of equals the one with the greatest loss, then the first. */
export function worstSupport(answers: readonly Support[]): Support | undefined {
  let worst: Support | undefined;
  for (const one of answers) {
    const weaker = worst === undefined ? -1 : strength[one.support] - strength[worst.support];
    const alike = weaker === 0 && (one.loss ?? zeroDb) > (worst?.loss ?? zeroDb);
    if (weaker < 0 || alike) worst = one;
  }
  return worst;
}

const strength: Readonly<Record<SupportWord, number>> = {
  'not supported': 0,
  'by design': 1,
  predicted: 2,
  'by measurement': 3,
};

/** Whether some stretch of the path was written as unknown; in a channel also one of its links. */
export function hasUnknownLength({ path }: Pick<LinkModel, 'path'>): boolean {
  return path.some(
    (element) =>
      (element.kind === 'segment' && element.deliberate) ||
      (element.kind === 'link' && element.link !== undefined && hasUnknownLength(element.link)),
  );
}

function answer(question: Question): Support {
  const { context, carried, application, pieces, way } = question;
  const rows = usableRows(application, pieces);
  const { along: length } = lengthsOf(pieces);
  const nearest = limitingRow(rows, length) ?? rows[0];
  const design = designFacts(question);
  const base = {
    carried,
    name: application.name,
    place: carried.place,
    length,
    reach: rows.reduce((most, row) => Math.max(most, row.reach ?? 0), 0) || undefined,
    fibres: [] as readonly number[],
    broken: [] as readonly RowTerm[],
    light: design.map(({ wavelength, direction, loss, least }) => ({
      wavelength,
      direction,
      greatest: loss,
      least,
    })),
  };
  const withRow = (row: ApplicationRow | undefined) => ({
    row: row && rowInWords(row),
    recalled: row?.trust === 'recalled',
    lengthLimit: row?.reach,
    lossLimit: row?.loss,
    lossMin: row?.min,
  });
  if (rows.length === 0) {
    const names = [...new Set(fibresOf(pieces).map((piece) => piece.name))].join(', ');
    const because = `${application.name} has no row that ${names || 'this path'} meets`;
    const broken: readonly RowTerm[] = ['fibre'];
    return { ...base, ...withRow(undefined), support: 'not supported', because, broken };
  }
  const given = way?.fibre === undefined ? (carried.fibres ?? context.link.fibres).length : 1;
  if (given < application.count) {
    const because = `it needs ${application.count} fibres and has ${given}`;
    return { ...base, ...withRow(nearest), support: 'not supported', because };
  }
  if (hasUnknownLength(way ?? context.link) && rows.some((row) => row.reach !== undefined)) {
    const because = 'the length of the path is not known, and so neither is whether it reaches';
    return { ...base, ...withRow(nearest), support: 'not supported', because };
  }
  const byDesign = rows.find((row) =>
    design.every((facts) => brokenTerms(row, facts).length === 0),
  );
  const read = byReadings(question, rows);
  const word: SupportWord = context.link.kind === 'channel' ? 'by measurement' : 'predicted';

  if (read.row) {
    const only = byDesign
      ? 'also by design'
      : 'this mating only: not by design at the greatest figures';
    const because = `${greatestInWords(read.greatest, read.row)} at most, ${only}`;
    const row = withRow(read.row);
    return { ...base, ...row, support: word, because, loss: read.greatest?.loss, from: 'reading' };
  }
  if (read.failing.length > 0) {
    const over = read.failing[0];
    const named = way?.fibre === undefined ? `fibre ${over?.fibre}` : way.name;
    const because =
      over?.loss === undefined
        ? `no light on ${named}`
        : `${named} ${over.direction} would lose ${sumInWords(over.loss, nearest)}`;
    const [min, least] = [nearest?.min, over?.loss];
    const weak = min !== undefined && least !== undefined && least < exactDb(min);
    return {
      ...base,
      ...withRow(nearest),
      support: 'not supported',
      because,
      broken: [weak ? 'least loss' : 'loss'],
      loss: over?.loss,
      ...(weak && { least }),
      from: 'reading',
      wavelength: over?.wavelength,
      fibres: [...new Set(read.failing.map((known) => known.fibre))],
    };
  }
  const foretold = crossesLinks(context.link)
    ? predictedFromLinks(context, carried, way ?? context.link)
    : undefined;
  if (foretold?.complete) {
    const row = rows.find((candidate) =>
      foretold.losses.every(
        (loss) =>
          brokenTerms({ ...candidate, connections: undefined, min: undefined }, { length, loss })
            .length === 0,
      ),
    );
    if (row) {
      const greatest = greatestOf(foretold.losses);
      const because = `${sumInWords(greatest, row)} at most, from the readings of its links and the greatest figures of its cords`;
      return {
        ...base,
        ...withRow(row),
        support: 'predicted',
        because,
        loss: greatest,
        from: 'reading',
      };
    }
  }
  if (byDesign) {
    const greatest = design.reduce<ExactDb>(
      (a, facts) => (facts.loss !== undefined && facts.loss > a ? facts.loss : a),
      zeroDb,
    );
    const because = `${sumInWords(greatest, byDesign)} at the greatest figures of all parts`;
    return {
      ...base,
      ...withRow(byDesign),
      support: 'by design',
      because,
      loss: greatest,
      from: 'design',
    };
  }
  return { ...base, ...withRow(nearest), ...refused(question, rows, nearest, design) };
}

/** Why no row holds by design: what breaks the row that comes nearest. */
function refused(
  question: Question,
  rows: readonly ApplicationRow[],
  nearest: ApplicationRow | undefined,
  design: ReturnType<typeof designFacts>,
): Pick<Support, 'support' | 'because' | 'broken' | 'loss' | 'from' | 'wavelength' | 'least'> {
  const row = nearest ?? rows[0];
  const broken = [...new Set(row ? design.flatMap((facts) => brokenTerms(row, facts)) : [])];
  const worst = design.reduce<(typeof design)[number] | undefined>(
    (a, facts) => (a?.loss === undefined || (facts.loss ?? 0n) > a.loss ? facts : a),
    undefined,
  );
  const weakest = design.reduce<(typeof design)[number] | undefined>(
    (a, facts) => (a === undefined || facts.least < a.least ? facts : a),
    undefined,
  );
  const { along } = lengthsOf(question.pieces);
  const parts = broken.map((term) => {
    if (term === 'reach') {
      return along === undefined
        ? 'its length is not known'
        : `${lengthInWords(along)} is longer than its reach`;
    }
    if (term === 'loss') {
      return worst?.loss === undefined
        ? 'its loss is not known'
        : `${sumInWords(worst.loss, row)} at the greatest figures is more than its loss`;
    }
    if (term === 'connections') return 'its connections may lose too much';
    const least = weakest === undefined ? '' : `, ${sumInWords(weakest.least, row)} at the least`;
    return `it may lose too little${least}`;
  });
  const tooWeak = broken.length === 1 && broken[0] === 'least loss';
  return {
    support: 'not supported',
    because: parts.join('; '),
    broken,
    loss: worst?.loss,
    ...(broken.includes('least loss') && { least: weakest?.least }),
    from: 'design',
    wavelength: (tooWeak ? weakest : worst)?.wavelength,
  };
}

/** What is made of links: where it has no readings of its own, theirs foretell it. */
function crossesLinks({ kind }: LinkModel): boolean {
  return kind === 'channel' || kind === 'ring';
}

type Facts = ReturnType<typeof factsOn>;

const knownFacts = new WeakMap<Context, Map<ApplicationType, Facts>>();

/** Ends of a tree that share a context share these, too, unless something else lies outside of each. */
function designFacts(question: Question): Facts {
  const { context, application, pieces } = question;
  if (pieces.length > context.path.pieces.length) return factsOn(question);
  const known = knownFacts.get(context) ?? new Map<ApplicationType, Facts>();
  knownFacts.set(context, known);
  const facts = known.get(application) ?? factsOn(question);
  known.set(application, facts);
  return facts;
}

/** Length, greatest loss, connections and least loss of the whole channel at each wavelength of the application. */
function factsOn({ context, application, pieces }: Question) {
  const { link } = context;
  const length = lengthsOf(pieces).along;
  const directions: readonly Direction[] = ['A>B', 'B>A'];
  return application.wavelengths.flatMap((light) =>
    (light.direction ? [light.direction] : directions).map((direction) => {
      const wavelength = figuresAt(context, pieces, light.wavelength);
      const line = onLine(link, light.wavelength);
      const figures = withPartsAt(
        ownFigures(link.terms.limits, wavelength, link.mode, 'max'),
        ownFigures(link.terms.limits, line, link.mode, 'max'),
      );
      const sum = wholeSum(pieces, figures, direction, wavelength);
      return {
        wavelength: light.wavelength,
        direction,
        length,
        loss: 'value' in sum ? sum.value : undefined,
        connections: connectionsSum(pieces, figures),
        least: leastLoss(pieces, link.wavelength === line ? line : wavelength),
      };
    }),
  );
}

/** The wavelength at which figures are known: the application's own, else one that is measured in the same window. */
export function figuresAt(
  context: Context,
  pieces: readonly Piece[],
  wavelength: Picometres,
): Picometres {
  const { link } = context;
  const complete = (figures: Figures) =>
    pieces.every(
      (piece) =>
        (piece.kind !== 'fibre' || figures.rate(piece.name, piece.type) !== undefined) &&
        (piece.kind !== 'split' || figures.split(piece) !== undefined),
    );
  const candidates = [
    wavelength,
    ...link.terms.measure.filter((measured) => sameWindow(measured, wavelength)),
    ...fibresOf(pieces)
      .flatMap((piece) => piece.type?.attenuation.map((entry) => entry.wavelength) ?? [])
      .filter((stated) => sameWindow(stated, wavelength))
      .sort((a, b) => Math.abs(a - wavelength) - Math.abs(b - wavelength)),
    ...link.terms.limits
      .flatMap((set) => set.fibre.map((entry) => entry.wavelength))
      .filter((known) => sameWindow(known, wavelength)),
  ];
  return (
    candidates.find((candidate) =>
      complete(ownFigures(link.terms.limits, candidate, link.mode, 'max')),
    ) ?? wavelength
  );
}

/** Standing readings of the application's windows, with what lies outside them added. */
function knownLosses(
  context: Context,
  settled: ReadonlyMap<string, Settled>,
  application: ApplicationType,
  outside: readonly Piece[],
): readonly Known[] {
  const known: Known[] = [];
  const takenAt = new Map<string, Sum>();
  for (const { current } of settled.values()) {
    if (!current?.valid || current.result.verdict === 'stale') continue;
    const { fibre, wavelength, direction } = current.measurement.cell;
    const { loss, lossBound } = current.result;
    if (direction === undefined || !current.arrangement) continue;
    if (!application.wavelengths.some((light) => sameWindow(light.wavelength, wavelength)))
      continue;
    if (loss === undefined) {
      if (lossBound !== undefined) known.push({ fibre, wavelength, direction });
      continue;
    }
    const key = `${current.arrangement.key}|${wavelength}|${direction}`;
    let taken = takenAt.get(key);
    if (!taken) {
      taken = takenAway(
        outside,
        ownFigures(context.link.terms.limits, wavelength, context.link.mode, 'max'),
        {
          link: context.link,
          path: context.path,
          arrangement: current.arrangement,
          wavelength,
          direction,
          settings: context.settings,
          channels: [],
        },
      );
      takenAt.set(key, taken);
    }
    if ('because' in taken) continue;
    known.push({ fibre, wavelength, direction, loss: subtractDb(exactDb(loss), taken.value) });
  }
  return known;
}

function byReadings(
  question: Question,
  rows: readonly ApplicationRow[],
): {
  readonly row?: ApplicationRow;
  readonly failing: readonly Known[];
  readonly greatest?: Known;
} {
  const units = unitsOf(question);
  const lit = new Set(units.flat());
  const known = question.known.filter((one) => lit.has(one.fibre));
  const length = lengthsOf(question.pieces).along;
  // Connections are within a measured loss already; a least loss is asked of the reading itself.
  const breaks = (row: ApplicationRow, one: Known) =>
    one.loss === undefined ||
    brokenTerms({ ...row, connections: undefined }, { length, loss: one.loss, least: one.loss })
      .length > 0;
  const holding = rows.find((row) => known.every((one) => !breaks(row, one)));
  if (!holding) {
    const overLoss = rows.filter(
      (row) => row.reach === undefined || (length ?? Infinity) <= row.reach,
    );
    const failing = known.filter((one) => overLoss.every((row) => breaks(row, one)));
    return { failing: overLoss.length > 0 ? failing : [] };
  }
  const complete = units.length > 0 && units.every((unit) => isRead(unit, question, known));
  const greatest = known.reduce<Known | undefined>(
    (a, b) => (a?.loss === undefined || (b.loss ?? 0n) > a.loss ? b : a),
    undefined,
  );
  return complete ? { row: holding, failing: [], greatest } : { failing: [] };
}

/** Groups of fibres that one service takes: as many as the application needs, in order. */
function unitsOf({
  context,
  carried,
  application,
  only,
  way,
}: Question): readonly (readonly number[])[] {
  const { link } = context;
  const out = new Set([
    ...link.dead.map((entry) => entry.fibre),
    ...(carried.fibres ? [] : link.spare),
  ]);
  // To an end of a tree leads one fibre: which of those carried was asked before.
  const asked = way?.fibre === undefined ? (carried.fibres ?? link.fibres) : [way.fibre];
  const fibres = asked.filter((fibre) => !out.has(fibre) && (only?.has(fibre) ?? true));
  const units: (readonly number[])[] = [];
  for (let at = 0; at + application.count <= fibres.length; at += application.count) {
    units.push(fibres.slice(at, at + application.count));
  }
  return units;
}

/** Whether a unit was read in the directions its light takes: half of its fibres each way, or as each wavelength goes. */
function isRead(
  unit: readonly number[],
  { application }: Question,
  known: readonly Known[],
): boolean {
  const has = (fibre: number, wavelength: Picometres, direction: Direction) =>
    known.some(
      (one) =>
        one.fibre === fibre &&
        one.direction === direction &&
        sameWindow(one.wavelength, wavelength),
    );
  const half = Math.ceil(unit.length / 2);
  return application.wavelengths.every((light) => {
    const { wavelength, direction } = light;
    if (direction) return unit.every((fibre) => has(fibre, wavelength, direction));
    if (unit.length === 1) {
      return unit.every((fibre) => has(fibre, wavelength, 'A>B') && has(fibre, wavelength, 'B>A'));
    }
    const way = (first: Direction, second: Direction) =>
      unit.every((fibre, place) => has(fibre, wavelength, place < half ? first : second));
    return way('A>B', 'B>A') || way('B>A', 'A>B');
  });
}

function greatestOf(losses: readonly ExactDb[]): ExactDb {
  let greatest = zeroDb;
  for (const loss of losses) if (loss > greatest) greatest = loss;
  return greatest;
}

function greatestInWords(known: Known | undefined, row: ApplicationRow): string {
  return known?.loss === undefined ? 'nothing read' : sumInWords(known.loss, row);
}

/** A sum of a path to a thousandth, and with as many places as keep it apart from the loss of its row. */
function sumInWords(loss: ExactDb, row: ApplicationRow | undefined): string {
  const beside = row?.loss === undefined ? [] : [exactDb(row.loss)];
  return `${printProse(loss, placesApart([loss, ...beside], 3))} dB`;
}
