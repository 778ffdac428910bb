/** Builds sets of limits and applications: a row for each name of a list; the nearest entry of a key holds. */
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration } from './declaration.ts';
import type { Built } from './finding.ts';
import { keeping } from './kept.ts';
import { entriesOf } from './like.ts';
import { allOf, declaredOf, firstOf } from './lines.ts';
import type { PlacedEntry, Scope } from './scope.ts';
import type {
  ApplicationRow,
  ApplicationType,
  JointGrade,
  LimitsSet,
  Mode,
  PairPolicy,
} from './types.ts';
import {
  directionOf,
  has,
  lengthOf,
  lossOf,
  nameOf,
  nameOfValue,
  placeOf,
  rateOf,
  wavelengthOf,
  wholeOf,
} from './values.ts';

export const buildLimits = keeping((declaration: Declaration, scope: Scope): Built<LimitsSet> => {
  const { lines, findings } = entriesOf(declaration, scope);
  const listed = (word: string, slot: string) =>
    allOf(lines, word).flatMap((line) =>
      namesIn(line, slot).map((name) => ({ line, name, place: placeOf(line), trust: line.trust })),
    );
  const edition = firstOf(lines, W.edition)?.entry;

  const model: LimitsSet = {
    kind: 'limits',
    ...declaredOf(declaration, lines),
    contract: edition ? has(edition, K.contract) : false,
    policy: nameOf(firstOf(lines, W.policy)?.entry.slots.policy) as PairPolicy | undefined,
    fibre: nearest(
      listed(W.fibre, 'fibre').flatMap(({ line, name, place, trust }) => {
        const wavelength = wavelengthOf(line.entry.slots.wavelength);
        const rate = rateOf(line.entry.slots.rate);
        return wavelength === undefined || rate === undefined
          ? []
          : [{ fibre: name, wavelength, rate, place, trust }];
      }),
      (row) => `${row.fibre} ${row.wavelength}`,
    ),
    connector: nearest(
      listed(W.connector, 'connector').flatMap(({ line, name, place, trust }) => {
        const loss = lossOf(line.entry.slots.loss);
        const grade = (nameOf(line.entry.slots.grade) ?? 'installed') as JointGrade;
        return loss === undefined
          ? []
          : [{ connector: name, grade, mode: modeOf(line), loss, place, trust }];
      }),
      (row) => `${row.connector} ${row.grade} ${row.mode}`,
    ),
    splice: nearest(
      listed(W.splice, 'splice').flatMap(({ line, name, place, trust }) => {
        const loss = lossOf(line.entry.slots.loss);
        const objective = lossOf(line.entry.slots[K.objective]);
        return loss === undefined
          ? []
          : [{ splice: name, mode: modeOf(line), loss, objective, place, trust }];
      }),
      (row) => `${row.splice} ${row.mode}`,
    ),
    part: nearest(
      listed(W.part, 'part').flatMap(({ line, name, place, trust }) => {
        const loss = lossOf(line.entry.slots[K.objective]) ?? lossOf(line.entry.slots.loss);
        return loss === undefined ? [] : [{ part: name, mode: modeOf(line), loss, place, trust }];
      }),
      (row) => `${row.part} ${row.mode}`,
    ),
    coreStep: allOf(lines, W.coreStep).flatMap((line) => {
      const from = nameOf(line.entry.slots.first);
      const to = nameOf(line.entry.slots[K.to]);
      const loss = lossOf(line.entry.slots.loss);
      return from === undefined || to === undefined || loss === undefined
        ? []
        : [{ from, to, loss, place: placeOf(line), trust: line.trust }];
    }),
    reject: allOf(lines, W.reject).flatMap(({ entry }) => {
      const over = lossOf(entry.slots.loss);
      const object = nameOf(entry.slots[K.for]) as LimitsSet['reject'][number]['object'];
      return over === undefined ? [] : [{ over, after: wholeOf(entry.slots[K.after]), object }];
    }),
    returnLoss: nearest(
      listed(W.returnLoss, 'connector').flatMap(({ line, name, place, trust }) => {
        const min = lossOf(line.entry.slots[K.min]);
        return min === undefined ? [] : [{ connector: name, min, place, trust }];
      }),
      (row) => row.connector,
    ),
  };
  return { model, findings };
});

export const buildApplication = keeping(
  (declaration: Declaration, scope: Scope): Built<ApplicationType> => {
    const { lines, findings } = entriesOf(declaration, scope);
    const rows = allOf(lines, W.fibre).flatMap((line): ApplicationRow[] => {
      const { entry } = line;
      const fibre = nameOf(entry.slots.fibre);
      if (fibre === undefined) return [];
      return [
        {
          fibre,
          reach: lengthOf(entry.slots[K.reach]),
          loss: lossOf(entry.slots[K.loss]),
          min: lossOf(entry.slots[K.min]),
          differential: lossOf(entry.slots[K.differential]),
          connections: lossOf(entry.slots[K.connections]),
          conditioned: has(entry, K.conditioned),
          place: placeOf(line),
          trust: line.trust,
        },
      ];
    });
    return {
      model: {
        kind: 'application',
        ...declaredOf(declaration, lines),
        // A missing count and one of nothing have been reported; without it no fibre is short.
        count: wholeOf(firstOf(lines, W.count)?.entry.slots.number) ?? 1,
        wavelengths: allOf(lines, W.wavelength).flatMap(({ entry }) => {
          const wavelength = wavelengthOf(entry.slots.wavelength);
          const direction = directionOf(entry.slots.direction);
          return wavelength === undefined ? [] : [{ wavelength, direction }];
        }),
        rows,
      },
      findings,
    };
  },
);

/** The first row of each key: own entries stand before those taken over. */
function nearest<Row>(rows: readonly Row[], keyOf: (row: Row) => string): Row[] {
  const known = new Set<string>();
  return rows.filter((row) => {
    const key = keyOf(row);
    if (known.has(key)) return false;
    known.add(key);
    return true;
  });
}

function namesIn(line: PlacedEntry, slot: string): string[] {
  return (line.entry.slots[slot] ?? []).flatMap((value) => nameOfValue(value) ?? []);
}

function modeOf({ entry }: PlacedEntry): Mode | undefined {
  return nameOf(entry.slots[K.for]) as Mode | undefined;
}
