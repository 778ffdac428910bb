export * from './exact.ts';
export * from './prose.ts';
export * from './units.ts';
