/** What two fibres that differ lose where they meet, and what a glass surface throws back. */
import {
  type MicroDb,
  type Picometres,
  roundToMicroDb,
} from '../../../grammar/src/quantity/index.ts';

/**
 * Light that fills the first core and meets a narrower one: 20·log10(a ÷ b)
 * for the diameters, and as much again for the apertures where both are known.
 * Nothing is lost into a wider core. All modes are taken as filled, so this is
 * the most that the step can take; with a restricted launch it is less.
 * Source: area and aperture ratio of an overfilled joint, e.g. 62.5 µm 0.275 into 50 µm 0.200 gives 4.70 dB.
 */
export function coreStepLoss(
  from: { readonly core: Picometres; readonly aperture?: number },
  to: { readonly core: Picometres; readonly aperture?: number },
): MicroDb {
  const area = Math.max(0, 20 * Math.log10(from.core / to.core));
  const aperture =
    from.aperture && to.aperture ? Math.max(0, 20 * Math.log10(from.aperture / to.aperture)) : 0;
  return roundToMicroDb(area + aperture);
}

/**
 * Joint of two single-mode fibres with mode fields a and b, otherwise perfect:
 * −20·log10(2ab ÷ (a² + b²)). The same in both directions.
 * Source: Gaussian-field coupling (Marcuse 1977), as printed in textbooks of fibre optics.
 */
export function modeFieldLoss(a: number, b: number): MicroDb {
  return roundToMicroDb(-20 * Math.log10((2 * a * b) / (a * a + b * b)));
}

/**
 * One surface between two indices at a right angle: R = ((n1 − n2) ÷ (n1 + n2))²,
 * lost in passing −10·log10(1 − R). A dry gap has two. Source: Fresnel equations.
 */
export function surfaceLoss(n1: number, n2: number): MicroDb {
  return roundToMicroDb(-10 * Math.log10(1 - ((n1 - n2) / (n1 + n2)) ** 2));
}
