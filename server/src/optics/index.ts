export * from './attenuation.ts';
export * from './joints.ts';
export * from './power.ts';
export * from './statistics.ts';
