/**
 * The four words of support. By design: the greatest figures of all parts hold
 * a row. Predicted: readings of the link and the greatest figures of what is
 * not in them do. By measurement: readings of the channel itself do. Not
 * supported: none of that. Duplex needs one fibre each way, parallel all lanes.
 */
import {
  addDb,
  compareDb,
  type ExactDb,
  exactDb,
  type MicroDb,
  type Micrometres,
  type Picometres,
  placesApart,
  printProse,
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
import { numbersInWords } from './doubts.ts';
import { type Figures, onLine, ownFigures, withPartsAt } from './figures.ts';
import { leastLoss } from './least.ts';
import { outsidePieces } from './limits.ts';
import { fibresOf, lengthsOf, type Piece } from './path.ts';
import { type Foretold, predictedFromLinks } from './prediction.ts';
import { nm } from './reasons.ts';
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
import { connectionsSum, figureLacking, wholeSum } from './sums.ts';
import { byReadings, type Known, knownLosses, type Question } from './support-read.ts';
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
  /** The row holds for light that enters by a mode-conditioning cord. */
  readonly conditioned?: boolean;
  /** It is only the lack of this figure that leaves its loss open. */
  readonly missing?: string;
  /** Why its loss is too much, alone: `because` names whatever else breaks the row as well. */
  readonly tooMuch?: string;
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
      .map(({ pieces: outside, fibres, channel }): Support => {
        const only = end === undefined ? fibres : new Set([end]);
        const [longest, ...others] = way
          ? [{ context, fibres: [] }]
          : pathsOf(context, [...(only ?? carried.fibres ?? link.fibres)]);
        const piecesOf = (own: Context) => [...own.path.pieces, ...outside];
        const found = answer({
          context: longest!.context,
          carried,
          application,
          pieces: piecesOf(longest!.context),
          only,
          known: knownLosses(context, settled, application, outside),
          way,
          others: others.map((other) => ({
            context: other.context,
            application,
            pieces: piecesOf(other.context),
          })),
        });
        const named = others.length > 0 && found.from === 'design';
        const on = `${longest!.fibres.length === 1 ? 'fibre' : 'fibres'} ${numbersInWords(longest!.fibres)}`;
        return {
          ...found,
          ...(named && { way: on, because: `${on}: ${found.because}` }),
          ...(named && found.tooMuch !== undefined && { tooMuch: `${on}: ${found.tooMuch}` }),
          ...(channel && sameService(channel, carried) && { channel: channel.name }),
        };
      });
    const worst = worstSupport(answers);
    return worst ? [worst] : [];
  });
}

/**
 * The paths that fibres take, the longest first: a repair puts a piece into
 * some of them. Each with its fibres; dead ones take none.
 */
export function pathsOf(
  context: Context,
  fibres: readonly number[],
): readonly { readonly context: Context; readonly fibres: readonly number[] }[] {
  const dead = new Set(context.link.dead.map(({ fibre }) => fibre));
  const paths = new Map<Context, number[]>();
  for (const fibre of fibres) {
    if (dead.has(fibre)) continue;
    const own = context.along(fibre, Infinity);
    paths.set(own, [...(paths.get(own) ?? []), fibre]);
  }
  if (paths.size === 0) paths.set(context, []);
  const lengthOf = (own: Context) => lengthsOf(own.path.pieces).along ?? Infinity;
  return [...paths]
    .map(([own, numbers]) => ({ context: own, fibres: numbers }))
    .sort((a, b) => lengthOf(b.context) - lengthOf(a.context));
}

/** A channel that carries the same is asked of it itself. */
function sameService({ terms }: LinkModel, { name }: Carried): boolean {
  return terms.carries.some((carried) => carried.name === name);
}

/** The answer as results show it. */
export function applicationOf(support: Support): ApplicationResult {
  const { name, row, because, lengthLimit, lossLimit, lossMin, light, way, differential, channel } =
    support;
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
    ...(channel !== undefined && { channel }),
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
  const paths = [question, ...(question.others ?? [])];
  const rows = usableRows(
    application,
    paths.flatMap((path) => path.pieces),
  );
  const { along: length } = lengthsOf(pieces);
  const nearest = limitingRow(rows, length) ?? rows[0];
  const design = worstFacts(paths.map(designFacts));
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
    ...(row?.conditioned && { conditioned: true }),
  });
  if (rows.length === 0) {
    const names = [...new Set(fibresOf(pieces).map((piece) => piece.name))].join(', ');
    const because = `${application.name} has no row that ${names || 'this path'} meets`;
    const broken: readonly RowTerm[] = ['fibre'];
    return { ...base, ...withRow(undefined), support: 'not supported', because, broken };
  }
  const given = way?.fibre === undefined ? livingOf(carried, context.link).length : 1;
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
    const because = `${greatestInWords(read.greatest, read.row)} at most, ${only}${withOrdinaryCords(read.greatest, read.row, byDesign !== undefined)}`;
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
  if (foretold && foretold.losses.length > 0) {
    // What connections take is within the readings already.
    const holds = (row: ApplicationRow, { loss, least }: Foretold) =>
      brokenTerms({ ...row, connections: undefined }, { length, loss, least }).length === 0;
    const reaching = rows.filter(
      (row) => row.reach === undefined || (length ?? Infinity) <= row.reach,
    );
    const row = rows.find((candidate) => foretold.losses.every((one) => holds(candidate, one)));
    const greatest = greatestOf(foretold.losses.map(({ loss }) => loss));
    const by = 'from the readings of its links and the greatest figures of its cords';
    const because = `${sumInWords(greatest, row ?? nearest)} at most, ${by}`;
    if (foretold.complete && row) {
      return {
        ...base,
        ...withRow(row),
        support: 'predicted',
        because,
        loss: greatest,
        from: 'reading',
      };
    }
    const failing = foretold.losses.filter((one) => !reaching.some((each) => holds(each, one)));
    const [weakest] = failing
      .filter(({ least }) => nearest?.min !== undefined && least < exactDb(nearest.min))
      .sort((a, b) => compareDb(a.least, b.least));
    if (reaching.length > 0 && failing.length > 0) {
      const refusal = weakest
        ? {
            because: `${sumInWords(weakest.least, nearest)} at the least, from the readings of its links`,
            broken: ['least loss'] as const,
            loss: weakest.loss,
            least: weakest.least,
          }
        : { because, broken: ['loss'] as const, loss: greatest };
      return {
        ...base,
        ...withRow(nearest),
        support: 'not supported',
        ...refusal,
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

/** Fibres that a service may take: those that it is given, less the dead. */
export function livingOf(carried: Carried, link: LinkModel): readonly number[] {
  const dead = new Set(link.dead.map(({ fibre }) => fibre));
  return (carried.fibres ?? link.fibres).filter((fibre) => !dead.has(fibre));
}

/** Why no row holds by design: what breaks the row that comes nearest. */
function refused(
  question: Question,
  rows: readonly ApplicationRow[],
  nearest: ApplicationRow | undefined,
  design: ReturnType<typeof designFacts>,
): Pick<
  Support,
  | 'support'
  | 'because'
  | 'broken'
  | 'loss'
  | 'from'
  | 'wavelength'
  | 'least'
  | 'missing'
  | 'tooMuch'
> {
  const row = nearest ?? rows[0];
  const broken = [...new Set(row ? design.flatMap((facts) => brokenTerms(row, facts)) : [])];
  // A loss that is known and small enough does not answer for one at a wavelength where none is known.
  const over = design.filter((facts) => row && brokenTerms(row, facts).includes('loss'));
  const worst = (over.length > 0 ? over : design).reduce<(typeof design)[number] | undefined>(
    (a, facts) => (a?.loss === undefined || (facts.loss ?? 0n) > a.loss ? facts : a),
    undefined,
  );
  const weakest = design.reduce<(typeof design)[number] | undefined>(
    (a, facts) => (a === undefined || facts.least < a.least ? facts : a),
    undefined,
  );
  const { along } = lengthsOf(question.pieces);
  const reasonOf = (term: RowTerm): string => {
    if (term === 'reach') {
      return along === undefined
        ? 'its length is not known'
        : `${lengthInWords(along)} is longer than its reach`;
    }
    if (term === 'loss') {
      return worst?.loss === undefined
        ? `its loss ${worst === undefined ? '' : `at ${nm(worst.wavelength)} nm `}is not known`
        : `${sumInWords(worst.loss, row)} at the greatest figures is more than its loss`;
    }
    if (term === 'connections') return 'its connections may lose too much';
    const least = weakest === undefined ? '' : `, ${sumInWords(weakest.least, row)} at the least`;
    return `it may lose too little${least}`;
  };
  const tooMuch = broken.filter((term) => term === 'loss' || term === 'connections');
  const tooWeak = broken.length === 1 && broken[0] === 'least loss';
  return {
    support: 'not supported',
    because: broken.map(reasonOf).join('; '),
    ...(tooMuch.length > 0 && { tooMuch: tooMuch.map(reasonOf).join('; ') }),
    broken,
    loss: worst?.loss,
    ...(broken.includes('least loss') && { least: weakest?.least }),
    ...(worst?.missing !== undefined && broken.includes('loss') && { missing: worst.missing }),
    from: 'design',
    wavelength: (tooWeak ? weakest : worst)?.wavelength,
  };
}

/** What is made of links: where it has no readings of its own, theirs foretell it. */
function crossesLinks({ kind }: LinkModel): boolean {
  return kind === 'channel' || kind === 'ring';
}

type Facts = readonly Fact[];

/** What the whole channel has at one wavelength of the application, one way. */
interface Fact {
  readonly wavelength: Picometres;
  readonly direction: Direction;
  readonly length: Micrometres | undefined;
  readonly loss: ExactDb | undefined;
  readonly connections: ExactDb | undefined;
  readonly least: ExactDb;
  /** The figure that the loss lacks, in words. */
  readonly missing?: string;
}

/** Of several paths the worst at each wavelength and direction; what is not known of one is not known of all. */
function worstFacts([first, ...others]: readonly Facts[]): Facts {
  return others.reduce<Facts>(
    (all, facts) => all.map((fact, index) => worseFact(fact, facts[index]!)),
    first ?? [],
  );
}

function worseFact(a: Fact, b: Fact): Fact {
  return {
    wavelength: a.wavelength,
    direction: a.direction,
    length: greaterOf(a.length, b.length),
    loss: greaterOf(a.loss, b.loss),
    connections: greaterOf(a.connections, b.connections),
    least: compareDb(a.least, b.least) < 0 ? a.least : b.least,
    missing: a.missing ?? b.missing,
  };
}

function greaterOf<Value extends bigint | number>(
  a: Value | undefined,
  b: Value | undefined,
): Value | undefined {
  return a === undefined || b === undefined ? undefined : a < b ? b : a;
}

type Asked = Pick<Question, 'context' | 'application' | 'pieces'>;

const knownFacts = new WeakMap<Context, Map<ApplicationType, Facts>>();

/** Ends of a tree that share a context share these, too, unless something else lies outside of each. */
function designFacts(question: Asked): Facts {
  const { context, application, pieces } = question;
  if (pieces.length > context.path.pieces.length) return factsOn(question);
  const known = knownFacts.get(context) ?? new Map<ApplicationType, Facts>();
  knownFacts.set(context, known);
  const facts = known.get(application) ?? factsOn(question);
  known.set(application, facts);
  return facts;
}

/** Length, greatest loss, connections and least loss of the whole channel at each wavelength of the application. */
function factsOn({ context, application, pieces }: Asked): Facts {
  const { link } = context;
  const length = lengthsOf(pieces).along;
  const directions: readonly Direction[] = ['A>B', 'B>A'];
  return application.wavelengths.flatMap((light) =>
    (light.direction ? [light.direction] : directions).map((direction) => {
      const { wavelength, line, figures } = figuresFor(context, pieces, light.wavelength);
      const sum = wholeSum(pieces, figures, direction, wavelength);
      return {
        wavelength: light.wavelength,
        direction,
        length,
        loss: 'value' in sum ? sum.value : undefined,
        missing:
          'because' in sum ? missingFigure(pieces, figureLacking(sum.because, figures)) : undefined,
        connections: connectionsSum(pieces, figures),
        least: leastLoss(pieces, link.wavelength === line ? line : wavelength),
      };
    }),
  );
}

/** The greatest figures that a path has for some light, and the wavelengths that they are of. */
export function figuresFor(context: Context, pieces: readonly Piece[], light: Picometres) {
  const { link } = context;
  const wavelength = figuresAt(context, pieces, light);
  const line = onLine(link, light);
  const figures = withPartsAt(
    ownFigures(link.terms.limits, wavelength, link.mode, 'max'),
    ownFigures(link.terms.limits, line, link.mode, 'max'),
  );
  return { wavelength, line, figures };
}

/** A figure that is missing; of what has no length, or a name that nobody declares, that is told at its place. */
function missingFigure(pieces: readonly Piece[], lacking: string | undefined): string | undefined {
  const told = pieces.some((piece) =>
    piece.kind === 'fibre'
      ? piece.length === undefined || !piece.type
      : piece.kind === 'split'
        ? piece.out === undefined || !piece.type
        : !piece.type,
  );
  return told ? undefined : lacking;
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

function greatestOf(losses: readonly ExactDb[]): ExactDb {
  let greatest = zeroDb;
  for (const loss of losses) if (loss > greatest) greatest = loss;
  return greatest;
}

function greatestInWords(known: Known | undefined, row: ApplicationRow): string {
  return known?.loss === undefined ? 'nothing read' : sumInWords(known.loss, row);
}

/** Whether what was read with cords of reference grade would hold with any; by design it would, up to the design. */
function withOrdinaryCords(
  known: Known | undefined,
  row: ApplicationRow,
  byDesign: boolean,
): string {
  if (known?.loss === undefined || known.ordinary === undefined) return '';
  const loss = addDb(known.loss, known.ordinary);
  const over = row.loss !== undefined && loss > exactDb(row.loss);
  const words = sumInWords(loss, row);
  if (over) return `; not guaranteed: ${words} with ordinary cords`;
  return byDesign ? '' : `; ${words} with ordinary cords`;
}

/** A sum of a path to a thousandth, and with as many places as keep it apart from the loss of its row. */
function sumInWords(loss: ExactDb, row: ApplicationRow | undefined): string {
  const beside = row?.loss === undefined ? [] : [exactDb(row.loss)];
  return `${printProse(loss, placesApart([loss, ...beside], 3))} dB`;
}
