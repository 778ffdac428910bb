/**
 * A service over 100 m between two pairs. Fibre of 3.0 dB/km at 850 nm and pairs of
 * 0.75 dB (TIA-568.3-E): they lose 1.8 dB at most.
 */
import type {
  ApplicationRow,
  ApplicationType,
  LinkModel,
  PathElement,
  ReadingCell,
  Setup,
  Terms,
} from '../../server/src/model/types.ts';
import {
  application,
  betweenPairs,
  carried,
  db,
  evaluate,
  evidence,
  link,
  metres,
  place,
} from '../support/build.ts';

export type Segment = Extract<PathElement, { kind: 'segment' }>;

/** A service of two fibres at 850 nm with these rows. */
export const service = (
  rows: readonly Partial<ApplicationRow>[],
  more: Partial<ApplicationType> = {},
): ApplicationType => ({
  ...application([]),
  rows: rows.map((row) => ({ fibre: 'GLASS', place: place(), ...row })),
  ...more,
});

/** A row of metres and decibels. */
export const row = (reach: number, loss: number, more: Partial<ApplicationRow> = {}) => ({
  reach: metres(reach),
  loss: db(loss),
  ...more,
});

export interface Asked {
  readonly type?: Partial<ApplicationType>;
  readonly elements?: readonly PathElement[];
  readonly readings?: readonly ReadingCell[];
  readonly using?: Setup;
  readonly terms?: Partial<Terms>;
  readonly model?: Partial<LinkModel>;
  readonly cords?: readonly number[];
}

/** A link that carries the service of these rows: its result, and what it answers. */
export function judged(rows: readonly Partial<ApplicationRow>[], asked: Asked = {}) {
  const { type, elements = betweenPairs(100), readings = [], using, terms, model, cords } = asked;
  const carries = carried(service(rows, type), cords);
  const whole = { ...link(elements, { carries: [carries], ...terms }, 2), ...model };
  const result = evaluate(whole, evidence({ readings }), using);
  const [answer] = result.applications;
  return { result, answer, carries };
}

/** Whether it carries the service, and why. */
export const answered = (...asked: Parameters<typeof judged>) => {
  const { answer } = judged(...asked);
  return `${answer?.support}: ${answer?.because}`;
};

/** What is said of what is carried: name and details. */
export const told = (...asked: Parameters<typeof judged>) => {
  const { result, carries } = judged(...asked);
  return result.doubts
    .filter((doubt) => doubt.place === carries.place)
    .map(({ name, details }): Record<string, unknown> => ({ name, ...details }));
};
