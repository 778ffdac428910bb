/** A link of 5 km that was traced from both ends at 850 nm: pair, splice, pair. */
import type {
  EventCell,
  LinkModel,
  PathElement,
  Setup,
  Terms,
} from '../../server/src/model/types.ts';
import {
  db,
  evaluate,
  evidence,
  link,
  mated,
  metres,
  nm,
  place,
  settings,
  setup,
  stretch,
  welded,
  when,
} from '../support/build.ts';

/** A set-up: a reflectometer with a launch and a tail cord. */
export const using = setup({
  otdr: true,
  reference: undefined,
  cords: setup().cords.map((cord) => ({
    ...cord,
    role: cord.role === 'receive' ? ('tail' as const) : cord.role,
  })),
});

/** 5 km between two pairs, a splice at 2 km. */
const path = (): PathElement[] => [
  mated(),
  stretch(2000),
  { ...welded(), at: 'pit 4' } as PathElement,
  stretch(3000),
  mated(),
];

/** What a trace shows of fibre 1 at so many kilometres. */
export const event = (
  kind: EventCell['kind'],
  kilometres: number,
  value: number,
  direction: 'A>B' | 'B>A' | undefined = 'A>B',
  more: Partial<EventCell> = {},
): EventCell => ({
  object: 'KQ-1',
  fibre: 1,
  distance: metres(kilometres * 1000),
  kind,
  quantity: 'loss',
  wavelength: nm(850),
  direction,
  typed: { digits: String(value), unit: 'dB' },
  value: db(value),
  setup: 'ONE',
  trace: [],
  at: when(500),
  place: place(),
  row: { ...place(), block: 40 },
  ...more,
});

/** The same place, seen A>B and B>A. */
export const both = (
  kind: EventCell['kind'],
  kilometres: number,
  a: number,
  b: number,
  more: Partial<EventCell> = {},
) => [event(kind, kilometres, a, 'A>B', more), event(kind, kilometres, b, 'B>A', more)];

/** The link with these events, judged, and with what else is said of it. */
export const judged = (
  events: readonly EventCell[],
  {
    terms = {},
    of = using,
    model = {},
    also = {},
  }: {
    terms?: Partial<Terms>;
    of?: Setup;
    model?: Partial<LinkModel>;
    also?: Parameters<typeof evidence>[0];
  } = {},
) => {
  const whole = { ...link(path(), { measure: [], ...terms }, 2), ...model };
  return evaluate(whole, evidence({ events, ...also }), of, settings());
};

/** What is told of it. */
export const told = (...asked: Parameters<typeof judged>) => judged(...asked).doubts;

/** The names of that alone. */
export const names = (...asked: Parameters<typeof judged>) => told(...asked).map((one) => one.name);
