/**
 * Losses over a short link, and what is told of them. Two pairs of 0.75 dB and 100 m of
 * 3.0 dB/km (TIA-568.3-E) are held to 1.8 dB; an uncertainty of 0.15 dB makes readings marginal.
 */
import { ratePerKm } from '../../grammar/src/quantity/index.ts';
import type {
  Evidence,
  FibreType,
  LinkModel,
  PathElement,
  PlanSettings,
  ReadingCell,
  Setup,
  Terms,
} from '../../server/src/model/types.ts';
import {
  betweenPairs,
  evaluate,
  evidence,
  fibre,
  link,
  mated,
  nm,
  oneWay,
  settings,
  setup,
  stretch,
  taken,
} from '../support/build.ts';

/** A path over fibre that loses so many dB/km at least. */
export const pathOver = (least: number, length: number): PathElement[] => {
  const min = ratePerKm(Math.round(least * 1e6));
  const attenuation = [{ wavelength: nm(850), min, max: ratePerKm(3_000_000) }];
  const glass: FibreType = { ...fibre, attenuation };
  return [mated(), { ...stretch(length), fibre: glass } as PathElement, mated()];
};
export const references = [taken(480, -20), taken(480, -20, 1300)];

/** What is otherwise than as a rule. */
interface Asked {
  readonly elements?: readonly PathElement[];
  readonly terms?: Partial<Terms>;
  readonly model?: Partial<LinkModel>;
  readonly using?: Setup;
  readonly by?: Partial<PlanSettings>;
  readonly also?: Partial<Evidence>;
  readonly fibres?: number;
  readonly more?: Parameters<typeof evaluate>[4];
}

export function judged(readings: readonly ReadingCell[], asked: Asked = {}) {
  const { elements = betweenPairs(100), terms, model, using, by, also, more } = asked;
  const fibres = asked.fibres ?? Math.max(1, ...readings.map((one) => one.fibre));
  const whole = { ...link(elements, { ...oneWay, ...terms }, fibres), ...model };
  return evaluate(
    whole,
    evidence({ readings, ...also }),
    using ?? setup({}, references),
    settings(by),
    more,
  );
}
export const told = (name: string, ...asked: Parameters<typeof judged>) =>
  judged(...asked).doubts.filter((one) => one.name === name);
export const doubt = (...asked: Parameters<typeof told>) => told(...asked)[0];
export const names = (...asked: Parameters<typeof judged>) =>
  judged(...asked).doubts.map((one) => one.name);
/** What became of the first reading. */
export const first = (...asked: Parameters<typeof judged>) => {
  const { verdict, because, reason, loss, lossBound, margin } = judged(...asked).readings[0] ?? {};
  return { verdict, because, reason, loss, lossBound, margin };
};
/** Where most readings here belong. */
export const key = { fibre: 1, wavelength: 850, direction: 'A>B' };
