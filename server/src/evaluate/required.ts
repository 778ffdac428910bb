/**
 * What the contract asks for besides losses: traces, inspected end faces,
 * lengths, ports where light was seen. What is missing is listed as for
 * readings, by key and not by count, and keeps the object from being accepted.
 */
import type { Direction, LinkModel, Requirement } from '../model/types.ts';
import type { Context } from './context.ts';
import { numbersInWords } from './doubts.ts';
import type { JudgedEvent } from './events.ts';
import { expectedKeys, keyText } from './expected.ts';
import { nm } from './reasons.ts';
import type { Doubt, InspectionResult, LengthResult } from './result.ts';
import { fibresSeen } from './seen.ts';

export interface Shown {
  readonly events: readonly JudgedEvent[];
  readonly inspections: readonly InspectionResult[];
  readonly lengths: readonly LengthResult[];
}

export function* doubtsOfRequired(context: Context, shown: Shown): Iterable<Doubt> {
  const { link } = context;
  const asked = new Map(link.terms.require.map((required) => [required.kind, required]));
  const missing: readonly [Requirement['kind'], string, readonly Missing[]][] = [
    ['events', 'trace-missing', asked.has('events') ? tracesMissing(link, shown.events) : []],
    [
      'inspection',
      'inspection-missing',
      asked.has('inspection') ? facesMissing(link, shown.inspections) : [],
    ],
    ['length', 'length-unmeasured', asked.has('length') ? lengthsMissing(link, shown.lengths) : []],
    ['seen', 'port-unseen', asked.has('seen') ? unseen(context) : []],
  ];
  for (const [kind, name, list] of missing) {
    const required = asked.get(kind);
    if (list.length === 0 || !required) continue;
    const listed = list.slice(0, 6).map(({ what }) => what);
    yield {
      name,
      place: link.namePlace,
      related: [{ place: required.place, message: 'what asks for it' }],
      details: {
        missing: list.length,
        fibres: numbersInWords(list.map(({ fibre }) => fibre)),
        list: listed.join('; '),
        more: list.length - listed.length,
      },
    };
  }
}

interface Missing {
  readonly fibre: number;
  readonly what: string;
}

function wantedFibres(link: LinkModel): readonly number[] {
  const dead = new Set(link.dead.map(({ fibre }) => fibre));
  return link.fibres.filter((fibre) => !dead.has(fibre));
}

/** A trace of each fibre at each wavelength; both ways where splices lie in the path, for their average. */
function tracesMissing(link: LinkModel, events: readonly JudgedEvent[]): readonly Missing[] {
  const there = new Set<string>();
  for (const { cells, result } of events) {
    if (result.verdict === 'stale' || result.verdict === 'invalid') continue;
    for (const { fibre, wavelength, direction } of cells) {
      there.add(keyText(fibre, wavelength, direction));
    }
  }
  const spliced = [...link.path, ...link.ways.flatMap(({ path }) => path)].some(
    ({ kind }) => kind === 'splice',
  );
  const both: readonly Direction[] = ['A>B', 'B>A'];
  const wanted = spliced
    ? wantedFibres(link).flatMap((fibre) =>
        link.terms.measure.flatMap((wavelength) =>
          both.map((direction) => ({ fibre, wavelength, direction })),
        ),
      )
    : expectedKeys(link);
  return wanted.flatMap(({ fibre, wavelength, direction }) =>
    there.has(keyText(fibre, wavelength, direction))
      ? []
      : [{ fibre, what: `fibre ${fibre}, ${nm(wavelength)} nm ${direction}` }],
  );
}

/** Both end faces of each fibre; of a tree, whose fibres part, those at its ends. */
function facesMissing(link: LinkModel, faces: readonly InspectionResult[]): readonly Missing[] {
  const sides = link.ways.some(({ kind }) => kind === 'branch') ? ['B'] : ['A', 'B'];
  const passed = new Set(
    faces.flatMap(({ fibre, side, verdict }) =>
      // One that fails is said for itself, and is not missing.
      verdict === 'pass' || verdict === 'fail' ? [`${fibre} ${side}`] : [],
    ),
  );
  return wantedFibres(link).flatMap((fibre) =>
    sides.flatMap((side) =>
      passed.has(`${fibre} ${side}`) ? [] : [{ fibre, what: `fibre ${fibre}, end ${side}` }],
    ),
  );
}

function lengthsMissing(link: LinkModel, lengths: readonly LengthResult[]): readonly Missing[] {
  const measured = new Set(
    lengths.flatMap(({ fibre, verdict }) => (verdict === 'stale' ? [] : [fibre])),
  );
  return wantedFibres(link)
    .filter((fibre) => !measured.has(fibre))
    .map((fibre) => ({ fibre, what: `fibre ${fibre}` }));
}

function unseen(context: Context): readonly Missing[] {
  const seen = fibresSeen(context);
  return wantedFibres(context.link)
    .filter((fibre) => !seen.has(fibre))
    .map((fibre) => ({ fibre, what: `fibre ${fibre}` }));
}
