/**
 * What the stretches of a path add up to for the signal: delay, modal bandwidth,
 * chromatic and polarisation mode dispersion. A fibre that states no figure at
 * the wavelength leaves the sum unknown; none is ever assumed.
 */
import {
  type Micrometres,
  type Picometres,
  toNanometres,
} from '../../../grammar/src/quantity/index.ts';
import type { FibreType, Sourced, TransceiverType, Trust } from '../model/types.ts';
import {
  delayOver,
  dispersionAlong,
  dispersionBounds,
  modalBandwidthOver,
  polarisationSpreadOver,
} from '../optics/index.ts';
import { fibresOf, type Piece } from './path.ts';
import { indexAt } from './stations.ts';
import { sameWindow } from './thresholds.ts';

/** A sum with the trust its figures deserve, or why there is none. */
export type Summed = (Sourced & { readonly value: number }) | { readonly because: string };

type Stretch = Extract<Piece, { kind: 'fibre' }>;

/** Light between two wavelengths; both are the same where no band is stated. */
export interface Band {
  readonly min: Picometres;
  readonly max: Picometres;
}

export function bandOf(sender: TransceiverType | undefined, wavelength: Picometres): Band {
  return {
    min: sender?.wavelength?.min ?? wavelength,
    max: sender?.wavelength?.max ?? wavelength,
  };
}

/** Femtoseconds from end to end, by the group index that each fibre states. */
export function delayAlong(pieces: readonly Piece[], wavelength: Picometres): Summed {
  return over(
    pieces,
    ({ type }) => indexAt(type?.index ?? [], wavelength),
    () => `group index at ${toNanometres(wavelength)} nm`,
    (all) => delayOver(all.map(({ figure, length }) => ({ index: figure.value, length }))),
  );
}

/** Sum of what each fibre adds at most, in 1e-6 ps/nm, without its sign. */
export function dispersionOf(
  pieces: readonly Piece[],
  light: Band,
  wavelength: Picometres,
): Summed {
  return over(
    pieces,
    ({ type }) => dispersionRates(type, wavelength, light),
    () => `dispersion at ${toNanometres(wavelength)} nm`,
    (all) => {
      let [least, most] = [0, 0];
      for (const { figure, length } of all) {
        least += dispersionAlong(figure.least, length);
        most += dispersionAlong(figure.most, length);
      }
      return Math.max(Math.abs(least), Math.abs(most));
    },
  );
}

/** In 1e-6 ps. */
export function polarisationSpread(pieces: readonly Piece[]): Summed {
  return over(
    pieces,
    ({ type }) => type?.pmd,
    () => 'polarisation mode dispersion',
    (all) =>
      polarisationSpreadOver(all.map(({ figure, length }) => ({ rate: figure.max, length }))),
  );
}

/** Modal bandwidth in kHz, of figures in MHz·km, for each launch that a fibre of the path states one for. */
export function modalBandwidths(
  pieces: readonly Piece[],
  wavelength: Picometres,
): readonly { readonly launch: string; readonly sum: Summed }[] {
  const at = (type: FibreType | undefined) => nearest(type?.bandwidth ?? [], wavelength);
  const launches = new Set(
    fibresOf(pieces).flatMap(({ type }) => at(type).map(({ launch }) => launch)),
  );
  return [...launches].sort().map((launch) => ({
    launch,
    sum: over(
      pieces,
      ({ type }) => at(type).find((one) => one.launch === launch),
      () => `${launch} bandwidth at ${toNanometres(wavelength)} nm`,
      (all) =>
        modalBandwidthOver(
          all.map(({ figure, length }) => ({ product: figure.min * 1000, length })),
        ) ?? Number.POSITIVE_INFINITY,
    ),
  }));
}

/** Of the entries in the nominal window of a wavelength those nearest to it: its own, where there are any. */
function nearest<Entry extends { readonly wavelength: Picometres }>(
  entries: readonly Entry[],
  wavelength: Picometres,
): readonly Entry[] {
  const away = ({ wavelength: own }: Entry) => Math.abs(own - wavelength);
  const fitting = entries.filter((entry) => sameWindow(entry.wavelength, wavelength));
  const least = Math.min(...fitting.map(away));
  return fitting.filter((entry) => away(entry) === least);
}

function over<Figure extends Sourced>(
  pieces: readonly Piece[],
  figureOf: (stretch: Stretch) => Figure | undefined,
  what: () => string,
  sum: (all: readonly { readonly figure: Figure; readonly length: Micrometres }[]) => number,
): Summed {
  const all: { readonly figure: Figure; readonly length: Micrometres }[] = [];
  for (const stretch of fibresOf(pieces)) {
    const figure = figureOf(stretch);
    if (figure === undefined) return { because: `${stretch.name} states no ${what()}` };
    if (stretch.along === undefined)
      return { because: `the length of a stretch of ${stretch.name} is not known` };
    all.push({ figure, length: stretch.along });
  }
  return { value: sum(all), trust: trustOf(all.map(({ figure }) => figure)) };
}

/** One figure from memory makes the sum so; it is read where all of them are. */
export function trustOf(figures: readonly Sourced[]): Trust | undefined {
  if (figures.some(({ trust }) => trust === 'recalled')) return 'recalled';
  return figures.length > 0 && figures.every(({ trust }) => trust === 'read') ? 'read' : undefined;
}

/** As the fibre states it at that wavelength; over a band, and where it states none, from its zero and slope. */
function dispersionRates(
  type: FibreType | undefined,
  wavelength: Picometres,
  light: Band,
): (Sourced & { readonly least: number; readonly most: number }) | undefined {
  const stated = type?.dispersion.find(
    (entry) => entry.kind === 'greatest' && entry.wavelength === wavelength,
  );
  const most = stated?.kind === 'greatest' ? stated.max : undefined;
  const zero = type?.dispersion.find((entry) => entry.kind === 'zero');
  const known = zero?.kind === 'zero' ? zero : undefined;
  const min = known?.min ?? known?.max;
  const computed =
    min === undefined || known?.slope === undefined
      ? undefined
      : dispersionBounds(light, { min, max: known.max ?? min }, known.slope);
  if (stated === undefined || most === undefined)
    return computed && { ...computed, trust: known?.trust };
  if (light.min === light.max || !computed) return { least: most, most, trust: stated.trust };
  return {
    least: computed.least,
    most: Math.max(most, computed.most),
    trust: trustOf([stated, known ?? stated]),
  };
}
