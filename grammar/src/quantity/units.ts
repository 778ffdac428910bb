/**
 * The units of the notation: their spellings, their dimension and their size
 * in the integer base unit in which a value of that dimension is held.
 */

/** What a quantity measures. Two quantities can be compared only within one dimension. */
export type Dimension =
  | 'length'
  | 'size'
  | 'wavelength'
  | 'loss'
  | 'rate'
  | 'power'
  | 'bandwidth'
  | 'dispersion'
  | 'total-dispersion'
  | 'slope'
  | 'pmd'
  | 'frequency'
  | 'time'
  | 'share'
  | 'temperature';

/** One written unit: `scale` is the number of base units in it, as a fraction of two integers. */
export interface Unit {
  readonly name: string;
  readonly dimension: Dimension;
  /** Base units per written unit: `numerator / denominator`. */
  readonly numerator: bigint;
  readonly denominator: bigint;
  /** True for W, mW, uW, nW: converted to dBm by a logarithm, once, at the border. */
  readonly logarithmic?: true;
}

function unit(
  name: string,
  dimension: Dimension,
  numerator: bigint,
  denominator = 1n,
  logarithmic?: true,
): Unit {
  return logarithmic
    ? { name, dimension, numerator, denominator, logarithmic }
    : { name, dimension, numerator, denominator };
}

/**
 * Base units: length micrometre; size and wavelength picometre; loss and power
 * micro-decibel (dBm); rate micro-decibel per kilometre; bandwidth kHz·km;
 * dispersion 1e-6 ps/(nm·km); total dispersion 1e-6 ps/nm; slope
 * 1e-6 ps/(nm²·km); pmd 1e-6 ps/√km; frequency Hz; time ps; share parts per
 * million; temperature milli-degree Celsius. A foot is 304,800 µm exactly
 * (international foot, ISO 80000-3 and NIST SP 811).
 */
export const units: readonly Unit[] = [
  unit('m', 'length', 1_000_000n),
  unit('km', 'length', 1_000_000_000n),
  unit('cm', 'length', 10_000n),
  unit('ft', 'length', 304_800n),
  unit('kft', 'length', 304_800_000n),
  unit('um', 'size', 1_000_000n),
  unit('mm', 'size', 1_000_000_000n),
  unit('nm', 'wavelength', 1_000n),
  unit('dB', 'loss', 1_000_000n),
  unit('dB/km', 'rate', 1_000_000n),
  unit('dB/m', 'rate', 1_000_000_000n),
  // 1 dB/kft = 1 dB per 0.3048 km; rounded once to a micro-decibel per kilometre.
  unit('dB/kft', 'rate', 1_000_000n * 10_000n, 3_048n),
  unit('dBm', 'power', 1_000_000n),
  unit('W', 'power', 1_000_000_000n, 1n, true),
  unit('mW', 'power', 1_000_000n, 1n, true),
  unit('uW', 'power', 1_000n, 1n, true),
  unit('nW', 'power', 1n, 1n, true),
  unit('MHz.km', 'bandwidth', 1_000n),
  unit('GHz.km', 'bandwidth', 1_000_000n),
  unit('ps/nm/km', 'dispersion', 1_000_000n),
  unit('ps/nm', 'total-dispersion', 1_000_000n),
  unit('ps/nm2/km', 'slope', 1_000_000n),
  unit('ps/sqrt-km', 'pmd', 1_000_000n),
  unit('MHz', 'frequency', 1_000_000n),
  unit('GHz', 'frequency', 1_000_000_000n),
  unit('THz', 'frequency', 1_000_000_000_000n),
  unit('ps', 'time', 1n),
  unit('ns', 'time', 1_000n),
  unit('us', 'time', 1_000_000n),
  unit('s', 'time', 1_000_000_000_000n),
  unit('h', 'time', 3_600_000_000_000_000n),
  unit('%', 'share', 10_000n),
  unit('degC', 'temperature', 1_000n),
];

const byName = new Map(units.map((u) => [u.name, u]));

/** The ASCII spelling of a unit: `µ` and `μ` are `u`, `·` is `.`, `²` is `2`, `√` is `sqrt-`, `°` is `deg`. */
export function asciiUnit(text: string): string {
  return text
    .replace(/[µμ]/gu, 'u')
    .replace(/·/gu, '.')
    .replace(/²/gu, '2')
    .replace(/√/gu, 'sqrt-')
    .replace(/°/gu, 'deg');
}

/** The unit that a text spells, or undefined. Case counts. */
export function findUnit(text: string): Unit | undefined {
  const known = byName.get(text);
  if (known || isAscii(text)) return known;
  return byName.get(asciiUnit(text));
}

function isAscii(text: string): boolean {
  for (let at = 0; at < text.length; at++) if (text.charCodeAt(at) > 127) return false;
  return true;
}
