/** A single-mode link of 10 km with a transceiver at each end. */
import { ratePerKm } from '../../grammar/src/quantity/index.ts';
import type {
  ApplicationType,
  Carried,
  FibreType,
  LinkModel,
  PathElement,
  Terms,
  TransceiverType,
} from '../../server/src/model/types.ts';
import {
  application,
  carried,
  connector,
  db,
  dbm,
  declared,
  evaluate,
  evidence,
  link,
  metres,
  nm,
  place,
  splice,
} from '../support/build.ts';

/** Fibre that states all that a signal depends on, at 1550 nm. */
export const plant: FibreType = {
  ...declared('PLANT'),
  kind: 'fibre',
  mode: 'single-mode',
  core: nm(9_000),
  attenuation: [{ wavelength: nm(1550), min: ratePerKm(180_000), max: ratePerKm(220_000) }],
  meets: [],
  bandwidth: [],
  index: [{ wavelength: nm(1550), value: 1.468, trust: 'read' }],
  modeField: [],
  dispersion: [{ kind: 'greatest', wavelength: nm(1550), max: 18_000_000, trust: 'recalled' }],
  pmd: { max: 200_000, trust: 'read' },
};

export const segment = (
  length: number | undefined,
  type: FibreType = plant,
  more: object = {},
): PathElement => ({
  kind: 'segment',
  length: length === undefined ? undefined : metres(length),
  deliberate: false,
  fibre: type,
  fibreName: type.name,
  place: place(),
  ...more,
});

export const pair = (): PathElement => ({
  kind: 'connector',
  name: 'PAIR',
  type: { ...connector, loss: [{ max: db(0.5) }] },
  place: place(),
});

export const weld = (loss = 0.1): PathElement => ({
  kind: 'splice',
  name: `WELD-${loss}`,
  type: { ...splice, name: `WELD-${loss}`, loss: [{ max: db(loss) }] },
  place: place(),
});

/** 10 km between two pairs, one splice: 2.2 + 1.0 + 0.1 dB at most, 1.8 dB at least. */
export const path = (): PathElement[] => [pair(), segment(4000), weld(), segment(6000), pair()];

/** Sends −4 to 1 dBm at 1550 nm and takes −20 to −3 dBm. */
export const transceiver = (
  name: string,
  more: Partial<TransceiverType> = {},
): TransceiverType => ({
  ...declared(name),
  kind: 'transceiver',
  applications: [],
  wavelength: { nominal: nm(1550) },
  output: { min: dbm(-4), max: dbm(1) } as never,
  input: { min: dbm(-20), max: dbm(-3) } as never,
  ...more,
});

/** Bears 800 ps/nm at a penalty of 2 dB. */
export const far = transceiver('FAR', {
  penalty: { loss: db(2) },
  dispersion: 800_000_000,
  damage: dbm(3),
});

const service: ApplicationType = {
  ...application([]),
  count: 2,
  wavelengths: [{ wavelength: nm(1550) }],
  rows: [{ fibre: 'PLANT', reach: metres(80_000), loss: db(25), place: place() }],
};

export interface Asked {
  readonly modules?: readonly TransceiverType[];
  readonly elements?: readonly PathElement[];
  readonly terms?: Partial<Terms>;
  readonly model?: Partial<LinkModel>;
  readonly more?: Partial<Carried>;
  readonly type?: Partial<ApplicationType>;
}

/** The link that carries a service of two fibres, lit by these transceivers, judged. */
export function judged({
  modules = [far],
  elements = path(),
  terms,
  model,
  more,
  type,
}: Asked = {}) {
  const carries: Carried = {
    ...carried({ ...service, ...type }),
    modules,
    transceivers: modules.map(({ name }) => ({ name })) as never,
    ...more,
  };
  const whole = {
    ...link(elements, { measure: [nm(1550)], limits: [], carries: [carries], ...terms }, 2),
    mode: 'single-mode' as const,
    ...model,
  };
  return { ...evaluate(whole, evidence()), carries };
}
