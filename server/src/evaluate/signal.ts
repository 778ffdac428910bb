/**
 * What a path does to the signal, by design: how late it comes, how far fibres
 * of one application differ in that, the modal bandwidth that is left, and
 * chromatic and polarisation mode dispersion at most. It judges nothing here;
 * what a transceiver bears of dispersion is held against it with its powers.
 * Lengths are along the fibre, with the excess of its cable.
 */
import type { Micrometres, Picometres } from '../../../grammar/src/quantity/index.ts';
import type {
  ApplicationType,
  Carried,
  Direction,
  Place,
  TransceiverType,
  Way,
} from '../model/types.ts';
import { skewOf } from '../optics/index.ts';
import type { Context } from './context.ts';
import { lightPathsOf } from './light-paths.ts';
import { hasUnknownLength } from './living.ts';
import { fibresOf, lengthsOf, type Piece } from './path.ts';
import type { SignalResult } from './result.ts';
import {
  bandOf,
  delayAlong,
  dispersionOf,
  modalBandwidths,
  polarisationSpread,
  type Summed,
  trustOf,
} from './signal-along.ts';
import { sameWindow } from './thresholds.ts';

/**
 * One per wavelength of the link as it is, without cords, then one per light of
 * each application with what lies outside. Of a tree or a ring it is asked way
 * by way, with the context of that way.
 */
export function signalOf(
  context: Context,
  wavelengths: readonly Picometres[],
  way?: Way,
): readonly SignalResult[] {
  const { link } = context;
  if (!way && link.ways.length > 0) return [];
  if (hasUnknownLength(way ?? link)) return [];
  const own = wavelengths.map((wavelength) => {
    const question = { wavelength, place: link.namePlace };
    return along(context.path.pieces, question);
  });
  return [...own, ...link.terms.carries.flatMap((carried) => ofCarried(context, carried, way))];
}

function ofCarried(context: Context, carried: Carried, way: Way | undefined) {
  const paths = lightPathsOf(context, carried, way);
  const { application } = carried;
  if (!application) return [];
  return lightsOf(carried, application, context.link.wavelength).flatMap((light) => {
    const question = { ...light, application: carried.name, place: carried.place };
    const found = paths.map(({ pieces, fibres }) => ({ fibres, one: along(pieces, question) }));
    const [first, ...others] = found.map(({ one }) => one);
    if (!first) return [];
    const groups = way ? [] : groupsOf(carried, context.link.fibres, application.count);
    return [{ ...others.reduce(worseOf, first), skew: skewOver(groups, found) }];
  });
}

interface Light {
  readonly wavelength: Picometres;
  readonly direction?: Direction;
  readonly sender?: TransceiverType;
}

/** What is sent, and by which transceiver where some are named; both directions only where they differ. */
function lightsOf(
  carried: Carried,
  application: ApplicationType,
  onLine: Picometres | undefined,
): readonly Light[] {
  const [a, b = a] = carried.modules;
  return application.wavelengths.flatMap(({ wavelength, direction }) => {
    const both: readonly (Direction | undefined)[] =
      direction || a === b ? [direction] : ['A>B', 'B>A'];
    return both.map((each): Light => {
      const named = each === 'B>A' ? b : a;
      const nominal = named?.wavelength?.nominal;
      const sends = nominal !== undefined && sameWindow(nominal, onLine ?? wavelength);
      return {
        wavelength: onLine ?? (sends ? nominal : wavelength),
        direction: each,
        ...(sends && { sender: named }),
      };
    });
  });
}

interface Question extends Light {
  readonly application?: string;
  readonly place: Place;
}

function along(pieces: readonly Piece[], question: Question): SignalResult {
  const { wavelength, direction, application, sender, place } = question;
  const modes = new Set(fibresOf(pieces).map(({ type }) => type?.mode));
  const unknown: string[] = [];
  const known = (sum: Summed): Known | undefined => {
    if ('value' in sum) return sum;
    unknown.push(sum.because);
    return undefined;
  };
  const single = modes.size === 1 && modes.has('single-mode');
  const bandwidths = single ? [] : modalBandwidths(pieces, wavelength);
  if (modes.has('multimode') && bandwidths.length === 0)
    unknown.push('no fibre of the path states a bandwidth at this wavelength');
  const delay = known(delayAlong(pieces, wavelength));
  const bandwidth = bandwidths.flatMap(({ launch, sum }) => {
    const least = known(sum);
    return least && Number.isFinite(least.value) ? [{ launch, ...least }] : [];
  });
  const band = bandOf(sender, wavelength);
  const dispersion = single ? known(dispersionOf(pieces, band, wavelength)) : undefined;
  const pmd = single ? known(polarisationSpread(pieces)) : undefined;
  return {
    application,
    wavelength,
    direction,
    length: lengthsOf(pieces).along,
    delay: delay?.value,
    bandwidth,
    dispersion: dispersion?.value,
    pmd: pmd?.value,
    trust: { delay: delay?.trust, dispersion: dispersion?.trust, pmd: pmd?.trust },
    unknown: [...new Set(unknown)],
    place,
  };
}

type Known = Extract<Summed, { readonly value: number }>;

/** Of two paths the worse at each figure; what one does not know, both do not. */
function worseOf(a: SignalResult, b: SignalResult): SignalResult {
  const most = (x: number | undefined, y: number | undefined) =>
    x === undefined || y === undefined ? undefined : Math.max(x, y);
  const both = (figure: keyof SignalResult['trust']) =>
    trustOf([{ trust: a.trust[figure] }, { trust: b.trust[figure] }]);
  const length = most(a.length, b.length);
  return {
    ...a,
    length: length as Micrometres | undefined,
    delay: most(a.delay, b.delay),
    dispersion: most(a.dispersion, b.dispersion),
    pmd: most(a.pmd, b.pmd),
    bandwidth: a.bandwidth.flatMap((one) => {
      const other = b.bandwidth.find(({ launch }) => launch === one.launch);
      const value = Math.min(one.value, other?.value ?? one.value);
      return other ? [{ launch: one.launch, value, trust: trustOf([one, other]) }] : [];
    }),
    trust: {
      delay: both('delay'),
      dispersion: both('dispersion'),
      pmd: both('pmd'),
    },
    unknown: [...new Set([...a.unknown, ...b.unknown])],
  };
}

/** Fibres that work together: as many as the application needs, in order. */
function groupsOf(
  { fibres }: Carried,
  all: readonly number[],
  count: number,
): readonly (readonly number[])[] {
  const taken = fibres ?? all;
  if (count < 2) return [];
  return Array.from({ length: Math.ceil(taken.length / count) }, (_, index) =>
    taken.slice(index * count, (index + 1) * count),
  );
}

/** The most that fibres of one group differ in delay; undefined where one delay is not known. */
function skewOver(
  groups: readonly (readonly number[])[],
  paths: readonly { readonly fibres: readonly number[]; readonly one: SignalResult }[],
): number | undefined {
  if (paths.some(({ one }) => one.delay === undefined)) return undefined;
  const skews = groups.flatMap((group) => {
    const delays = group.flatMap((fibre) =>
      paths.flatMap(({ fibres, one }) => (fibres.includes(fibre) ? [one.delay ?? 0] : [])),
    );
    return skewOf(delays) ?? [];
  });
  return skews.length > 0 ? Math.max(...skews) : undefined;
}
