export * from './exact.ts';
export * from './units.ts';
