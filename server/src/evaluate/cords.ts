/**
 * Test cords: which are in force at a time, whether they are proven, and
 * whether they fit the ends they mate with.
 *
 * A reference-grade joint must be earned: declared for both plugs, and the
 * check of the pair within the figure of that grade (ISO/IEC 14763-3 asks for
 * at most 0.1 dB on multimode and 0.2 dB on single-mode).
 */

import type { MicroDb, Picometres } from '../../../grammar/src/quantity/index.ts';
import type { Direction, LimitsSet, LinkModel, Setup, TestCord } from '../model/types.ts';
import { arrangementOf } from './arrangement.ts';
import { ownLoss, setFigures } from './figures.ts';
import { type FlatPath, fibresOf } from './path.ts';
import { db, inDb, type Reason, reason } from './reasons.ts';

export type Cords = ReadonlyMap<TestCord['role'], TestCord>;

/** Cords in force at an instant: the last `since` not after it, else the one with no `since`. */
export function cordsAt(setup: Setup, minute: number): Cords {
  const cords = new Map<TestCord['role'], TestCord>();
  for (const cord of setup.cords) {
    const old = cords.get(cord.role);
    if (cord.since && cord.since.from > minute) continue;
    if (old?.since && (!cord.since || cord.since.from < old.since.from)) continue;
    cords.set(cord.role, cord);
  }
  return cords;
}

/** Roles whose cords take part in the reference itself. */
export function rolesInReference(setup: Setup): readonly TestCord['role'][] {
  switch (setup.reference) {
    case 'two-cord':
    case 'three-cord':
      return ['launch', 'receive'];
    case 'one-cord':
      return ['launch'];
    default:
      return [];
  }
}

/** What a check of the pair with this cord may read at most, by the grade that is declared. */
export function pairFigure(
  cord: TestCord,
  link: LinkModel,
  wavelength: Picometres,
): MicroDb | undefined {
  const grade = cord.grade === 'reference-grade' ? 'reference' : 'installed';
  const sets: readonly LimitsSet[] = [...link.terms.limits, ...link.terms.compare];
  for (const set of sets) {
    const found = setFigures(set, wavelength, link.mode).pair(
      cord.connector,
      cord.connectorType,
      grade,
    );
    if (found) return found.each as MicroDb;
  }
  const own = ownLoss(cord.connectorType, cord.connectorType?.loss, wavelength, 'max');
  return own?.each as MicroDb | undefined;
}

/** The last check of a cord that is recorded, before or after the readings. */
function lastCheck(setup: Setup, cord: TestCord): MicroDb | undefined {
  const later = setup.events.filter(
    (event) => event.kind === 'verified' && event.cord === cord.name,
  );
  const last = later.at(-1);
  return last?.kind === 'verified' ? last.loss : cord.verified;
}

/** Why a cord is not proven; undefined if it is. */
function unproven(
  setup: Setup,
  cord: TestCord,
  link: LinkModel,
  wavelength: Picometres,
): Reason | undefined {
  const check = lastCheck(setup, cord);
  const figure = pairFigure(cord, link, wavelength);
  const related = [{ place: cord.place, message: `${cord.name} in set-up ${setup.name}` }];
  const details = { setup: setup.name, cord: cord.name, role: cord.role };
  if (check === undefined) {
    const because = `${cord.name} has no check in set-up ${setup.name}`;
    return reason(
      'cord-not-verified',
      because,
      figure === undefined ? details : { ...details, figure: db(figure) },
      related,
    );
  }
  if (figure !== undefined && check > figure) {
    const because = `the check of ${cord.name}, ${inDb(check, figure)}, is over the ${inDb(figure, check)} of its grade`;
    return reason(
      'cord-out-of-spec',
      because,
      { ...details, check: db(check), figure: db(figure) },
      related,
    );
  }
  return undefined;
}

export interface CordQuestion {
  readonly setup: Setup;
  readonly link: LinkModel;
  readonly path: FlatPath;
  readonly cords: Cords;
  readonly direction: Direction | undefined;
  readonly wavelength: Picometres;
  /** Some limit in force takes figures of reference-grade pairs. */
  readonly gradeNeeded: boolean;
}

/** Everything about the cords that makes a reading invalid; the first found. */
export function cordFault(question: CordQuestion): Reason | undefined {
  const { setup, link, cords, wavelength } = question;
  const method = setup.reference;
  if (!method || method === 'equipment-cord') return undefined;
  const receive = cords.get('receive');
  if (method === 'one-cord' && !setup.direct && !receive) {
    const because = `set-up ${setup.name} has no receive cord, so the far pair is not in the reading`;
    return reason('receive-cord-missing', because, { setup: setup.name }, atSetup(setup));
  }
  const socket = method === 'one-cord' && setup.direct ? farSocket(question) : undefined;
  if (socket) {
    const because = `set-up ${setup.name} says that the far plug goes into the meter, and ${link.name} ends in a socket at ${socket}`;
    const details = { setup: setup.name, end: socket };
    return reason('receive-cord-missing', because, details, atSetup(setup));
  }
  const misfit = misfitOf(question);
  if (misfit) return misfit;
  const added = method === 'one-cord' && !setup.direct ? receive : undefined;
  const fault = added && unproven(setup, added, link, wavelength);
  if (fault) return fault;
  return gradeFault(question);
}

/** The end at which light comes out, where that is a socket: no plug is there for the meter. */
function farSocket({ path, direction }: CordQuestion): 'A' | 'B' | undefined {
  const end = direction === 'B>A' ? 'A' : 'B';
  return path.ends[end].kind === 'socket' ? end : undefined;
}

function gradeFault(question: CordQuestion): Reason | undefined {
  const { setup, link, cords, wavelength, gradeNeeded } = question;
  const method = setup.reference;
  if (!method || (method === 'one-cord' && !gradeNeeded)) return undefined;
  const { grade } = arrangementOf(setup, method, cords, question.direction);
  const details = { setup: setup.name, method, grade: grade ?? 'not said' };
  if (grade === undefined) {
    const because = `the grade of the test cords of set-up ${setup.name} is not said, and the limit depends on it`;
    return reason('cord-grade-missing', because, details, atSetup(setup));
  }
  if (!gradeNeeded) return undefined;
  if (grade === 'ordinary') {
    const because = `the limit grants reference-grade pairs, and the cords of set-up ${setup.name} are ordinary`;
    return reason('cord-grade-missing', because, details, atSetup(setup));
  }
  if (setup.direct) return undefined;
  // A check proves both plugs of the pair: that of the receive cord proves the launch cord with it.
  const receive = cords.get('receive');
  const launch = cords.get('launch');
  const checked = [receive, launch].find((cord) => cord && lastCheck(setup, cord) !== undefined);
  const proof = checked ?? receive ?? launch;
  return proof && unproven(setup, proof, link, wavelength);
}

/** Core, mode and polish of each test cord against the end it mates with. */
function misfitOf(question: CordQuestion): Reason | undefined {
  const { setup, path, cords } = question;
  const fibres = fibresOf(path.pieces);
  const ends = {
    A: { fibre: fibres[0]?.type, end: path.ends.A },
    B: { fibre: fibres.at(-1)?.type, end: path.ends.B },
  };
  const [near, far] = question.direction === 'B>A' ? [ends.B, ends.A] : [ends.A, ends.B];
  for (const [role, at] of [
    ['launch', near],
    ['receive', far],
  ] as const) {
    const cord = cords.get(role);
    if (!cord || (role === 'receive' && setup.direct)) continue;
    const related = [{ place: cord.place, message: `${cord.name}, ${cord.fibre}` }];
    const details = { setup: setup.name, cord: cord.name, role };
    const type = cord.fibreType;
    const differs =
      type &&
      at.fibre &&
      ((type.mode && at.fibre.mode && type.mode !== at.fibre.mode) ||
        (type.core && at.fibre.core && type.core !== at.fibre.core));
    if (differs) {
      const because = `test cord ${cord.name} is ${type.name} and the fibre it mates with ${at.fibre?.name}`;
      return reason(
        'cord-fibre-mismatch',
        because,
        { ...details, cordFibre: type.name, pathFibre: at.fibre?.name ?? '' },
        related,
      );
    }
    const polish = cord.connectorType?.polish;
    const port =
      at.end.kind === 'socket' || at.end.kind === 'plug' ? at.end.type?.polish : undefined;
    if (polish && port && (polish === 'APC') !== (port === 'APC')) {
      const because = `test cord ${cord.name} is polished ${polish} and the end it mates with ${port}`;
      return reason('cord-polish-mismatch', because, { ...details, polish, port }, related);
    }
  }
  return undefined;
}

function atSetup(setup: Setup): Reason['related'] {
  return [{ place: setup.referencePlace ?? setup.place, message: `set-up ${setup.name}` }];
}
