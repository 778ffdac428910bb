/**
 * Columns of losses over one link whose parts say what they lose as a rule, and what
 * is told of them together.
 */
import { ratePerKm } from '../../grammar/src/quantity/index.ts';
import type {
  Direction,
  FibreType,
  LinkModel,
  PathElement,
  ReadingCell,
  Setup,
  Terms,
} from '../../server/src/model/types.ts';
import {
  cell,
  connector,
  db,
  evaluate,
  evidence,
  fibre,
  link,
  mated,
  nm,
  settings,
  setup,
  stretch,
  taken,
} from '../support/build.ts';

/** Of a fibre at a wavelength in nm: dB/km as a rule, and at most. */
export const rate = (wavelength: number, typ: number, max: number) => ({
  wavelength: nm(wavelength),
  typ: ratePerKm(Math.round(typ * 1e6)),
  max: ratePerKm(Math.round(max * 1e6)),
});
/** Fibre of 2.5 and 0.6 dB/km as a rule; pairs of 0.3 dB. */
export const glass: FibreType = {
  ...fibre,
  attenuation: [rate(850, 2.5, 3), rate(1300, 0.6, 1.5)],
};
/** The same glass with a greater core. */
export const wide: FibreType = { ...glass, name: 'WIDE', core: nm(62_500) };
export const pair = () =>
  ({ ...mated(), type: { ...connector, loss: [{ typ: db(0.3), max: db(0.75) }] } }) as PathElement;
export const piece = (length: number, type: FibreType = glass) =>
  ({ ...stretch(length), fibre: type, fibreName: type.name }) as PathElement;

/** What is otherwise than as a rule: 1 km between two pairs, held to no limit. */
export interface Asked {
  readonly elements?: readonly PathElement[];
  readonly terms?: Partial<Terms>;
  readonly model?: Partial<LinkModel>;
  readonly using?: Setup;
  readonly by?: Parameters<typeof settings>[0];
  readonly work?: readonly object[];
  /** Set-ups of any name, all alike. */
  readonly anySetup?: boolean;
}

/** A set-up of cords of any fibre, with a reference at each wavelength in nm. */
export const setupAt = (...wavelengths: readonly number[]): Setup =>
  setup(
    { cords: setup().cords.map((cord) => ({ ...cord, fibreType: undefined })) },
    wavelengths.map((wavelength) => taken(480, -20, wavelength)),
  );

function judged(readings: readonly ReadingCell[], asked: Asked = {}) {
  const { elements = [pair(), piece(1000), pair()], terms, model, by, work = [] } = asked;
  const using = asked.using ?? setupAt(850, 1300, 1310, 1550);
  const most = Math.max(...readings.map((one) => one.fibre));
  const whole = { ...link(elements, { limits: [], ...terms }, most), ...model };
  return evaluate(
    whole,
    evidence({ readings, work } as never),
    using,
    settings(by),
    asked.anySetup ? { setup: (name) => ({ ...using, name }) } : {},
  );
}
export const told = (name: string, ...asked: Parameters<typeof judged>) =>
  judged(...asked).doubts.filter((one) => one.name === name);
export const said = (name: string, ...asked: Parameters<typeof judged>) =>
  told(name, ...asked).length > 0;

/** One reading of each fibre, a minute apart. */
export const column = (losses: readonly number[], direction: Direction = 'A>B', wavelength = 850) =>
  losses.map((loss, at) => cell(at + 1, loss, direction, 500 + at, wavelength));
export const many = (count: number, loss: number | ((at: number) => number)) =>
  Array.from({ length: count }, (_, at) => (typeof loss === 'number' ? loss : loss(at)));
export const round = (value: number, places: number) => Number(value.toFixed(places));
