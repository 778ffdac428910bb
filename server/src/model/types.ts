/**
 * The model: declarations bound to names. Everything an evaluation needs and
 * nothing of how it was written. Figures keep their source; values keep their
 * place in the text.
 *
 * Units: lengths in micrometres, wavelengths and sizes in picometres, losses
 * in micro-decibels, powers in micro-dBm, rates in micro-decibels per
 * kilometre, times as minutes of the site's clock since 1970-01-01.
 */
export type * from './types/common.ts';
export type * from './types/evidence.ts';
export type * from './types/limits.ts';
export type * from './types/parts.ts';
export type * from './types/path.ts';
export type * from './types/setup.ts';
export type * from './types/terms.ts';
