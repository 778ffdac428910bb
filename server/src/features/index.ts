/** All features of the server. The wiring registers each under its method and merges the capabilities. */
import type { Feature } from './feature.ts';

// biome-ignore lint/suspicious/noExplicitAny: the list holds features of all parameter types
export const features: readonly Feature<any, unknown>[] = [];
