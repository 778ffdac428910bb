/** A segment that takes fibres of a cable: one element, or its reels and the splices between them. */
import { addLengths, type Micrometres, micrometres } from '../../../grammar/src/quantity/index.ts';
import { K } from '../../../grammar/src/vocabulary/index.ts';
import { buildCable, fibresOfTube } from './cable.ts';
import type { Declaration } from './declaration.ts';
import type { Built, ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import type { PathLine } from './placing.ts';
import { looseSlack } from './reels.ts';
import { nearestSpelling, type Scope } from './scope.ts';
import type { Cable, PathElement } from './types.ts';
import { lengthOf, namesOf, placeOf, valuePlace, wholesOf } from './values.ts';

type Segment = Extract<PathElement, { kind: 'segment' }>;
type CableBuilder = (declaration: Declaration, scope: Scope) => Built<Cable>;

/** Elements of one line share its place; a map written behind it is left to whoever knows what lies beside it. */
export function cableSegment(
  line: PathLine,
  declaration: Declaration | undefined,
  scope: Scope,
  findings: ModelFinding[],
  build: CableBuilder = buildCable,
): readonly PathElement[] {
  const { slots } = line.entry;
  const cable = declaration && build(declaration, scope).model;
  const place = placeOf(line);
  const whole: Segment = {
    kind: 'segment',
    length: lengthOf(slots[K.length]) ?? cable?.length,
    deliberate: false,
    fibre: cable?.fibre,
    fibreName: cable?.fibreName ?? '',
    cable,
    cableFibres: cable && fibresTaken(line, cable, findings),
    place,
  };
  const taken = cable && reelsTaken(line, cable, findings);
  if (!taken) return [whole];
  const [own] = slots[K.length] ?? [];
  if (own && taken.length > 1) {
    const details = { what: cable.name, reels: taken.length };
    findings.push(finding('length-beside-reels', valuePlace(line, own), details));
  }
  const elements = reelElements(cable, taken, whole, lengthOf(slots[K.length]));
  return line.turned ? elements.toReversed() : elements;
}

/** A whole cable with all its fibres: what a test of the cable itself sees. */
export function wholeCable(cable: Cable): readonly PathElement[] {
  const whole: Segment = {
    kind: 'segment',
    length: cable.length,
    deliberate: false,
    fibre: cable.fibre,
    fibreName: cable.fibreName,
    cable,
    cableFibres: Array.from({ length: cable.count }, (_, index) => index + 1),
    place: cable.place,
  };
  if (cable.reels.length === 0) return [whole];
  const all = cable.reels.map((_, index) => index);
  return reelElements(cable, all, whole, undefined);
}

/** Positions of the reels taken, in order; undefined where the cable is one piece. */
function reelsTaken(
  line: PathLine,
  cable: Cable,
  findings: ModelFinding[],
): readonly number[] | undefined {
  const values = line.entry.slots[K.reels];
  const { reels, joints } = cable;
  if (!values) return reels.length > 0 ? reels.map((_, index) => index) : undefined;
  const names = reels.map(({ name }) => name);
  const taken: number[] = [];
  for (const value of values) {
    for (const name of namesOf([value])) {
      const index = names.indexOf(name);
      const before = taken.at(-1);
      if (index < 0) {
        const nearest = nearestSpelling(name, names);
        findings.push(
          finding('reel-unknown', valuePlace(line, value), {
            cable: cable.name,
            reel: name,
            reels: names.join(', '),
            ...(nearest !== undefined && { nearest }),
          }),
        );
      } else if (before !== undefined && Math.abs(index - before) !== 1) {
        findings.push(
          finding('reels-apart', valuePlace(line, value), {
            cable: cable.name,
            first: names[before]!,
            second: name,
            between: joints.length > 0 ? between(names, before, index) : '',
          }),
        );
      }
      if (index >= 0) taken.push(index);
    }
  }
  return reels.length > 0 ? taken : undefined;
}

function between(names: readonly string[], a: number, b: number): string {
  return names.slice(Math.min(a, b) + 1, Math.max(a, b)).join(', ');
}

/** `own` is the length of a single reel that is not taken to its end. */
function reelElements(
  cable: Cable,
  taken: readonly number[],
  whole: Segment,
  own: Micrometres | undefined,
): readonly PathElement[] {
  const { reels, joints } = cable;
  // What is taken is not known: of unknown length, so that no sum over it comes out.
  if (taken.length === 0) return [{ ...whole, length: undefined, reel: '' }];
  const loose = taken.length === reels.length ? looseSlack(cable) : micrometres(0);
  return taken.flatMap((index, position): PathElement[] => {
    const reel = reels[index]!;
    const slack = position === 0 ? addLengths(reel.slack, loose) : reel.slack;
    const length = reel.length === undefined ? undefined : addLengths(reel.length, slack);
    const segment: Segment = {
      ...whole,
      length: taken.length === 1 ? (own ?? length) : length,
      reel: reel.name,
    };
    const next = taken[position + 1];
    const joint =
      next !== undefined && Math.abs(next - index) === 1
        ? joints[Math.min(index, next)]
        : undefined;
    return joint ? [segment, joint] : [segment];
  });
}

/** Fibres of the cable in the order of the link's places: listed, all of some tubes, or all there are. */
function fibresTaken(line: PathLine, cable: Cable, findings: ModelFinding[]): readonly number[] {
  const { slots } = line.entry;
  const listed = wholesOf(slots[K.fibres]);
  if (listed) return listed;
  const tubes = wholesOf(slots[K.tube]);
  if (!tubes) return Array.from({ length: cable.count }, (_, index) => index + 1);
  return tubes.flatMap((tube) => {
    const fibres = fibresOfTube(cable, tube);
    if (fibres) return fibres;
    findings.push(
      finding('tube-out-of-range', placeOf(line), {
        cable: cable.name,
        tube,
        tubes: cable.tubes ?? 0,
      }),
    );
    return [];
  });
}
