/**
 * How a reading is arranged: which ends mate with a test cord, which pairs the
 * reference took, which cords came in after it and which went away.
 */
import type { CordGrade, Direction, ReferenceMethod, Setup, TestCord } from '../model/types.ts';
import type { FlatPath } from './path.ts';

export interface Arrangement {
  readonly method: ReferenceMethod;
  readonly receiveCord: boolean;
  /** Ends that mate with a test cord. */
  readonly mates: { readonly A: boolean; readonly B: boolean };
  /** Connector of the test cord at each end; undefined where none is known. */
  readonly connectors: { readonly A?: TestCord; readonly B?: TestCord };
  /** Pairs inside the reference: the cords in it, less one. */
  readonly referencePairs: number;
  /** Cords that came after the reference, and those that were in it and went away. */
  readonly added: readonly TestCord[];
  readonly away: readonly TestCord[];
  /** Declared grade of what mates in the test, the worse of launch and receive; undefined: not said. */
  readonly grade?: CordGrade;
  /** Equal texts mean equal limits: figures depend on nothing else of a set-up. */
  readonly key: string;
}

/** Cords in the reference, less one: 0, 1, 2 and, for a channel with its own cords, 0. */
const pairsInReference: Readonly<Record<ReferenceMethod, number>> = {
  'one-cord': 0,
  'two-cord': 1,
  'three-cord': 2,
  'equipment-cord': 0,
};

/** What is planned, before anyone has set instruments up: a receive cord wherever one is needed. */
export function plannedArrangement(method: ReferenceMethod): Arrangement {
  const mated = method !== 'equipment-cord';
  return withKey({
    method,
    receiveCord: mated,
    mates: { A: mated, B: mated },
    connectors: {},
    referencePairs: pairsInReference[method],
    added: [],
    away: [],
    grade: 'reference-grade',
  });
}

/** The arrangement of a set-up for light that goes one way, with the cords in force at the time. */
export function arrangementOf(
  setup: Setup,
  method: ReferenceMethod,
  cords: ReadonlyMap<TestCord['role'], TestCord>,
  direction: Direction | undefined,
): Arrangement {
  const launch = cords.get('launch');
  const receive = method === 'one-cord' && setup.direct ? undefined : cords.get('receive');
  const substitution = cords.get('substitution');
  const own = method === 'equipment-cord';
  const farMates = !own && !(method === 'one-cord' && setup.direct);
  const atLaunch = { mates: !own, cord: launch };
  const atReceive = { mates: farMates, cord: receive };
  const [A, B] = direction === 'B>A' ? [atReceive, atLaunch] : [atLaunch, atReceive];
  return withKey({
    method,
    receiveCord: farMates && (receive !== undefined || method !== 'one-cord'),
    mates: { A: A.mates, B: B.mates },
    connectors: { A: A.cord, B: B.cord },
    referencePairs: pairsInReference[method],
    added: method === 'one-cord' && receive ? [receive] : [],
    away: method === 'three-cord' && substitution ? [substitution] : [],
    grade: worseGrade(launch, farMates ? (receive ?? launch) : launch),
  });
}

function withKey(arrangement: Omit<Arrangement, 'key'>): Arrangement {
  const cord = (c: TestCord | undefined) =>
    c ? `${c.connector}/${c.fibre}/${c.length ?? ''}` : '';
  const key = [
    arrangement.method,
    arrangement.mates.A,
    arrangement.mates.B,
    cord(arrangement.connectors.A),
    cord(arrangement.connectors.B),
    arrangement.added.map(cord).join('+'),
    arrangement.away.map(cord).join('+'),
    arrangement.grade ?? '',
  ].join('|');
  return { ...arrangement, key };
}

/** Number of link ends that mate with a test cord. */
export function endsMated(arrangement: Arrangement, path: FlatPath): number {
  return (['A', 'B'] as const).filter(
    (end) => arrangement.mates[end] && path.ends[end].kind !== 'open',
  ).length;
}

/** The worse of two plugs decides; one that is not graded leaves the pair ungraded. */
function worseGrade(a: TestCord | undefined, b: TestCord | undefined): CordGrade | undefined {
  if (!a?.grade || !b?.grade) return undefined;
  return a.grade === 'ordinary' || b.grade === 'ordinary' ? 'ordinary' : 'reference-grade';
}
