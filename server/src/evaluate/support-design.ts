/**
 * What a design says of a service: length, greatest and least loss of the whole
 * path by its parts' own figures, and which terms of a row these break.
 */
import {
  compareDb,
  type ExactDb,
  exactDb,
  type Micrometres,
  micrometres,
  type Picometres,
  placesApart,
  printProse,
  type RatePerKm,
  subtractDb,
} from '../../../grammar/src/quantity/index.ts';
import type { ApplicationRow, ApplicationType, Direction } from '../model/types.ts';
import { longestFibre } from '../optics/index.ts';
import type { Context } from './context.ts';
import { type Figures, onLine, ownFigures, withPartsAt } from './figures.ts';
import { leastLoss, uncountedIn } from './least.ts';
import { fibresOf, lengthsOf, type Piece } from './path.ts';
import { nm } from './reasons.ts';
import type { Term } from './result.ts';
import { brokenTerms, lengthInWords, type RowTerm } from './rows.ts';
import { connectionsSum, figureLacking, wholeSum } from './sums.ts';
import type { Question } from './support-read.ts';
import { sameWindow } from './thresholds.ts';

type Facts = readonly Fact[];

/** What the whole channel has at one wavelength of the application, one way. */
interface Fact {
  readonly wavelength: Picometres;
  readonly direction: Direction;
  readonly length: Micrometres | undefined;
  readonly loss: ExactDb | undefined;
  /** What the loss is the sum of. */
  readonly terms: readonly Term[];
  readonly connections: ExactDb | undefined;
  readonly least: ExactDb;
  /** The figure that the loss lacks, in words. */
  readonly missing?: string;
}

/** Of several paths the worst at each wavelength and direction; what is not known of one is not known of all. */
export function worstFacts([first, ...others]: readonly Facts[]): Facts {
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
    terms: greaterOf(a.loss, b.loss) === a.loss ? a.terms : b.terms,
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
export function designFacts(question: Asked): Facts {
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
        terms: sum.terms,
        missing: 'because' in sum ? figureLacking(sum.because, figures) : undefined,
        connections: connectionsSum(pieces, figures),
        least: leastLoss(pieces, line),
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

/** What breaks the row that comes nearest, and by how much. */
interface Refusal {
  readonly support: 'not supported';
  readonly because: string;
  readonly broken: readonly RowTerm[];
  readonly from: 'design';
  readonly loss?: ExactDb;
  readonly terms?: readonly Term[];
  /** How long its fibre may be for some row to hold, where it is of one kind. */
  readonly longest?: Micrometres;
  readonly wavelength?: Picometres;
  readonly least?: ExactDb;
  readonly uncounted?: readonly string[];
  readonly missing?: string;
  readonly tooMuch?: string;
}

/** Why no row holds by design: what breaks the row that comes nearest. */
export function refused(
  question: Question,
  rows: readonly ApplicationRow[],
  nearest: ApplicationRow | undefined,
  design: Facts,
): Refusal {
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
    ...(worst?.loss !== undefined &&
      broken.includes('loss') && {
        terms: worst.terms,
        longest: longestOf(rows, worst, lengthsOf(question.pieces)),
      }),
    ...(weakest !== undefined &&
      broken.includes('least loss') && {
        least: weakest.least,
        uncounted: uncountedIn(question.pieces, weakest.wavelength),
      }),
    ...(worst?.missing !== undefined && broken.includes('loss') && { missing: worst.missing }),
    from: 'design',
    wavelength: (tooWeak ? weakest : worst)?.wavelength,
  };
}

/** The most of its one fibre that some row bears: by its loss beside what else is lost, and no more than its reach. */
function longestOf(
  rows: readonly ApplicationRow[],
  { loss, terms, connections }: Fact,
  { cable, along }: ReturnType<typeof lengthsOf>,
): Micrometres | undefined {
  const fibres = terms.filter(({ role }) => role === 'fibre');
  const [only] = fibres;
  if (loss === undefined || !only || fibres.length > 1 || !cable || !along) return undefined;
  const fixed = subtractDb(loss, only.total);
  const lengths = rows.map((row) => {
    const allowed = row.connections === undefined ? undefined : exactDb(row.connections);
    if (allowed !== undefined && (connections === undefined || connections > allowed)) return 0;
    // Reach counts fibre, which is longer than its cable.
    const reach = row.reach === undefined ? Infinity : (row.reach * cable) / along;
    const left =
      row.loss === undefined
        ? Infinity
        : longestFibre(exactDb(row.loss), fixed, only.each as RatePerKm);
    return Math.min(reach, left ?? Infinity);
  });
  const longest = Math.max(0, ...lengths);
  return longest > 0 && longest < Infinity ? micrometres(Math.floor(longest)) : undefined;
}

/** A sum of a path to a thousandth, and with as many places as keep it apart from the loss of its row. */
export function sumInWords(loss: ExactDb, row: ApplicationRow | undefined): string {
  const beside = row?.loss === undefined ? [] : [exactDb(row.loss)];
  return `${printProse(loss, placesApart([loss, ...beside], 3))} dB`;
}
