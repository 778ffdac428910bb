export * from './attenuation.ts';
export * from './dispersion.ts';
export * from './joints.ts';
export * from './power.ts';
export * from './statistics.ts';
