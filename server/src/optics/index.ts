export * from './attenuation.ts';
export * from './dispersion.ts';
export * from './joints.ts';
export * from './power.ts';
export * from './pulses.ts';
export * from './signal.ts';
export * from './statistics.ts';
export * from './trend.ts';
