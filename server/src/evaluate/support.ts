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
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import type { ApplicationRow, Carried, LinkModel, Way } from '../model/types.ts';
import type { Context } from './context.ts';
import { numbersInWords } from './doubts.ts';
import { outsideOn } from './light-paths.ts';
import { hasUnknownLength, livingOf, pathsOf } from './living.ts';
import { fibresOf, lengthsOf } from './path.ts';
import { type Foretold, predictedFromLinks } from './prediction.ts';
import type { ApplicationResult, SupportWord, Term } from './result.ts';
import { brokenTerms, limitingRow, type RowTerm, rowInWords, usableRows } from './rows.ts';
import type { Settled } from './settle.ts';
import { designFacts, refused, sumInWords, worstFacts } from './support-design.ts';
import { byReadings, type Known, knownLosses, type Question } from './support-read.ts';

/** The application's answer and what a finding needs if it is no. */
export interface Support extends ApplicationResult {
  readonly carried: Carried;
  readonly broken: readonly RowTerm[];
  readonly length?: number;
  readonly reach?: number;
  /** Greatest loss that was compared, and where it came from. */
  readonly loss?: ExactDb;
  readonly from?: 'design' | 'reading';
  /** Of a design that loses too much: what its loss is the sum of. */
  readonly terms?: readonly Term[];
  /** And how much of its one fibre some row would bear. */
  readonly longest?: Micrometres;
  readonly wavelength?: Picometres;
  readonly fibres: readonly number[];
  /** Where it may lose too little: the least, and what is wanted. */
  readonly least?: ExactDb;
  readonly lossMin?: MicroDb;
  /** Fibres that state no least attenuation, and so count as nothing in that least. */
  readonly uncounted?: readonly string[];
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
  return link.terms.carries.flatMap((carried) => {
    const { application } = carried;
    if (!application) return [];
    const answers = outsideOn(context, carried, way).map(
      ({ pieces: outside, fibres: only, channel }): Support => {
        const paths = (
          way ? [{ context, fibres: [] }] : pathsOf(context, [...(only ?? link.fibres)])
        ).map((path) => ({
          ...path,
          application,
          pieces: [...path.context.path.pieces, ...outside],
        }));
        const [longest, ...others] = paths;
        const found = answer({
          context: longest!.context,
          carried,
          application,
          pieces: longest!.pieces,
          only,
          known: knownLosses(context, settled, application, outside),
          way,
          others,
        });
        const named = others.length > 0 && found.from === 'design';
        const { fibres: meant } = pathMeant(paths, found);
        const on = `${meant.length === 1 ? 'fibre' : 'fibres'} ${numbersInWords(meant)}`;
        return {
          ...found,
          ...(named && { way: on, because: `${on}: ${found.because}` }),
          ...(named && { tooMuch: found.tooMuch && `${on}: ${found.tooMuch}` }),
          ...(channel && sameService(channel, carried) && { channel: channel.name }),
        };
      },
    );
    const worst = worstSupport(answers);
    return worst ? [worst] : [];
  });
}

/** Of several paths the one that is meant: by its least loss, its greatest, or one that is not known, else the longest. */
function pathMeant<Path extends Parameters<typeof designFacts>[0]>(
  paths: readonly Path[],
  { broken, loss, least }: Support,
): Path {
  const byLoss = broken.every((term) => term === 'loss') ? loss : undefined;
  const byLeast = broken.every((term) => term === 'least loss') ? least : undefined;
  const meant = paths.find((path) =>
    designFacts(path).some((facts) => facts.loss === byLoss || facts.least === byLeast),
  );
  return meant ?? paths[0]!;
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

/**
 * The weakest of several answers; of equals the one with the greatest loss, or
 * where all that is wrong is too little loss the one with the least, then the first.
 */
export function worstSupport(answers: readonly Support[]): Support | undefined {
  let worst: Support | undefined;
  for (const one of answers) {
    const weaker = worst === undefined ? -1 : strength[one.support] - strength[worst.support];
    if (weaker < 0 || (weaker === 0 && worst && isFurther(one, worst))) worst = one;
  }
  return worst;
}

function isFurther(one: Support, other: Support): boolean {
  const [a, b] = [onlyTooLittle(one), onlyTooLittle(other)];
  if (a !== undefined && b !== undefined) return a < b;
  return (one.loss ?? zeroDb) > (other.loss ?? zeroDb);
}

/** The least loss of what fails by nothing else. */
function onlyTooLittle({ broken, least }: Support): ExactDb | undefined {
  return broken.every((term) => term === 'least loss') ? least : undefined;
}

const strength: Readonly<Record<SupportWord, number>> = {
  'not supported': 0,
  'by design': 1,
  predicted: 2,
  'by measurement': 3,
};

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
    light: design.map(({ wavelength, direction, loss, terms, least }) => ({
      wavelength,
      direction,
      greatest: loss,
      terms,
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
  if (!nearest) {
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
    const [min, least] = [nearest.min, over?.loss];
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
      fibres: read.failing.map((known) => known.fibre),
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
      .filter(({ least }) => nearest.min !== undefined && least < exactDb(nearest.min))
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

/** What is made of links: where it has no readings of its own, theirs foretell it. */
function crossesLinks({ kind }: LinkModel): boolean {
  return kind === 'channel' || kind === 'ring';
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
