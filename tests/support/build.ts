/** Small models for tests that ask evaluation itself: a part, a link, a set-up, evidence, with plain numbers in dB, m, nm and minutes. */
import {
  microDb,
  microDbm,
  micrometres,
  picometres,
  ratePerKm,
} from '../../grammar/src/quantity/index.ts';
import {
  type EvaluationInput,
  evaluateLink,
  type LinkResult,
} from '../../server/src/evaluate/index.ts';
import type {
  ApplicationType,
  Carried,
  ConnectorType,
  Direction,
  Evidence,
  FibreType,
  LimitsSet,
  LinkModel,
  PathElement,
  Place,
  PlanSettings,
  ReadingCell,
  Setup,
  SetupEvent,
  SpliceType,
  Terms,
  When,
  Withdrawal,
  WorkEvent,
} from '../../server/src/model/types.ts';

export const db = (value: number) => microDb(Math.round(value * 1e6));
export const dbm = (value: number) => microDbm(Math.round(value * 1e6));
export const metres = (value: number) => micrometres(Math.round(value * 1e6));
export const nm = (value: number) => picometres(Math.round(value * 1000));

let span = 0;
/** A fresh place: no two are equal, as in a text. */
export function place(block = 1): Place {
  span += 1;
  return { block, span: { start: span, end: span + 1 } };
}

export function when(from: number, to = from): When {
  return { from, to, text: `minute ${from}`, place: place() };
}
/** A minute as the plan writes it. */
export const worded = (minute: number, text: string) => ({ ...when(minute), text });

/** What every declaration of a plan has. */
export function declared(name: string) {
  return {
    name,
    place: place(),
    namePlace: place(),
    origin: 'plan' as const,
    basis: [],
    notes: [],
  };
}

export const fibre: FibreType = {
  ...declared('GLASS'),
  kind: 'fibre',
  mode: 'multimode',
  core: picometres(50_000_000),
  attenuation: [
    { wavelength: nm(850), max: ratePerKm(3_000_000) },
    { wavelength: nm(1300), max: ratePerKm(1_500_000) },
  ],
  meets: [],
  bandwidth: [],
  index: [],
  modeField: [],
  dispersion: [],
};

export const connector: ConnectorType = {
  ...declared('PAIR'),
  kind: 'connector',
  loss: [{ max: db(0.75) }],
  shares: [],
  returnLoss: [],
};

export const splice: SpliceType = {
  ...declared('WELD'),
  kind: 'splice',
  loss: [{ max: db(0.3) }],
  shares: [],
  returnLoss: [],
};

export function limitsSet(
  name: string,
  pair: number,
  rate: number,
  more: Partial<LimitsSet> = {},
): LimitsSet {
  return {
    ...declared(name),
    kind: 'limits',
    contract: false,
    policy: 'counting',
    fibre: [850, 1300].map((wavelength) => ({
      fibre: 'GLASS',
      wavelength: nm(wavelength),
      rate: ratePerKm(Math.round(rate * 1e6)),
      place: place(),
    })),
    connector: [
      { connector: 'any', grade: 'installed', loss: db(pair), place: place() },
      { connector: 'any', grade: 'end', loss: db(pair * 0.6), place: place() },
      { connector: 'any', grade: 'reference', loss: db(0.1), place: place() },
    ],
    splice: [{ splice: 'any', loss: db(0.3), place: place() }],
    part: [],
    coreStep: [],
    reject: [],
    returnLoss: [],
    ...more,
  };
}

export const mated = (): PathElement => ({
  kind: 'connector',
  name: 'PAIR',
  type: connector,
  place: place(),
});
export const welded = (): PathElement => ({
  kind: 'splice',
  name: 'WELD',
  type: splice,
  place: place(),
});
export const stretch = (length: number): PathElement => ({
  kind: 'segment',
  length: metres(length),
  deliberate: false,
  fibre,
  fibreName: 'GLASS',
  place: place(),
});
/** A stretch of so many metres between two pairs. */
export const betweenPairs = (length: number): PathElement[] => [mated(), stretch(length), mated()];

export function application(rows: readonly { reach: number; loss: number }[]): ApplicationType {
  return {
    ...declared('SERVICE'),
    kind: 'application',
    count: 2,
    wavelengths: [{ wavelength: nm(850) }],
    rows: rows.map(({ reach, loss }) => ({
      fibre: 'GLASS',
      reach: metres(reach),
      loss: db(loss),
      place: place(),
    })),
  };
}

export function carried(type: ApplicationType, cords: readonly number[] = []): Carried {
  return {
    name: type.name,
    application: type,
    transceivers: [],
    modules: [],
    cords: cords.map(metres),
    beside: false,
    place: place(),
  };
}

/** Terms that ask for readings A>B alone. */
export const oneWay = { directions: { wanted: ['A>B' as const], average: false } };

export function link(
  path: readonly PathElement[],
  terms: Partial<Terms> = {},
  fibres = 4,
): LinkModel {
  return {
    kind: 'link',
    name: 'KQ-1',
    was: [],
    place: place(),
    namePlace: place(),
    from: [],
    to: [],
    fibres: Array.from({ length: fibres }, (_, index) => index + 1),
    spare: [],
    dead: [],
    path,
    ways: [],
    repairs: [],
    terms: {
      measure: [nm(850)],
      directions: { wanted: ['A>B', 'B>A'], average: false },
      reference: 'one-cord',
      limits: [limitsSet('SET', 0.75, 3)],
      compare: [],
      require: [],
      carries: [],
      reserve: { splices: 0, repairs: 0, ageing: db(0) },
      ...terms,
    },
    silence: [],
    notes: [],
    mode: 'multimode',
  };
}

export function setup(
  more: Partial<Setup> = {},
  events: readonly SetupEvent[] = [taken(480, -20)],
): Setup {
  const cord = (name: string, role: 'launch' | 'receive') => ({
    name,
    role,
    connector: 'PAIR',
    connectorType: connector,
    fibre: 'GLASS',
    fibreType: fibre,
    grade: 'reference-grade' as const,
    verified: role === 'receive' ? db(0.08) : undefined,
    place: place(),
  });
  return {
    ...declared('ONE'),
    kind: 'setup',
    reference: 'one-cord',
    direct: false,
    meter: { text: 'M', wavelengths: [], floor: dbm(-60), place: place() },
    cords: [cord('L', 'launch'), cord('R', 'receive')],
    events,
    index: [],
    ...more,
  };
}

export function taken(minute: number, power: number, wavelength = 850): SetupEvent {
  return {
    kind: 'taken',
    at: when(minute),
    wavelength: nm(wavelength),
    power: dbm(power),
    place: place(),
  };
}

export function checked(minute: number, power: number, wavelength = 850): SetupEvent {
  return { ...taken(minute, power, wavelength), kind: 'checked' } as SetupEvent;
}

export function disturbed(minute: number): SetupEvent {
  return { kind: 'disturbed', at: when(minute), place: place() };
}

let order = 0;
export function cell(
  number: number,
  loss: number | 'dark',
  direction: Direction,
  minute: number,
  wavelength = 850,
): ReadingCell {
  order += 1;
  return {
    object: 'KQ-1',
    fibre: number,
    quantity: 'loss',
    wavelength: nm(wavelength),
    direction,
    typed: loss === 'dark' ? 'dark' : { digits: String(loss), unit: 'dB' },
    loss: loss === 'dark' ? undefined : db(loss),
    setup: 'ONE',
    at: when(minute),
    place: place(order),
    row: place(order),
    order,
  };
}

/** Ends were cleaned then. */
export const cleaned = (on: When, more: Partial<WorkEvent> = {}): WorkEvent[] => [
  { object: 'KQ-1', done: 'cleaned', on, place: place(), ...more },
];
/** Readings were taken back: all, or as said. */
export const withdrawn = (more: Partial<Withdrawal> = {}): Withdrawal[] => [
  { object: 'KQ-1', because: 'slip', by: 'R. Vale', place: place(), ...more },
];

export function evidence(more: Partial<Evidence> = {}): Evidence {
  return {
    readings: [],
    absences: [],
    work: [],
    withdrawals: [],
    concessions: [],
    lengths: [],
    seen: [],
    events: [],
    inspections: [],
    ...more,
  };
}

export function settings(more: Partial<PlanSettings> = {}): PlanSettings {
  return {
    uncertainty: [{ loss: db(0.15), place: place() }],
    decision: { rule: 'flagged', accepting: 'marginal-pass' },
    drift: { loss: db(0.1), extended: false, closing: false, widening: false },
    doubts: {},
    changes: [],
    adopt: [],
    silence: [],
    identify: [],
    ...more,
  };
}

/** Settings whose reference may drift by 0.1 dB, and what else of drift. */
export function drift(more: Partial<PlanSettings['drift']> = {}): PlanSettings {
  return settings({ drift: { ...settings().drift, ...more } });
}

export function evaluate(
  model: LinkModel,
  found: Evidence,
  using: Setup = setup(),
  by: PlanSettings = settings(),
  more: Partial<EvaluationInput> = {},
): LinkResult {
  return evaluateLink({
    link: model,
    evidence: found,
    setup: (name) => (name === using.name ? using : undefined),
    settings: by,
    asOf: 1_000_000,
    ...more,
  });
}
