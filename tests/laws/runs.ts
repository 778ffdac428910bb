/**
 * How much generated input each law meets. `npm test` takes a fixed sample, the
 * same in every run; `npm run prove` takes far more, from a new seed that is
 * printed, so that whatever it finds can be run again.
 */
import fc from 'fast-check';

const runs = Number(process.env.LINKWRIGHT_RUNS ?? 100);
const seed = Number(process.env.LINKWRIGHT_SEED ?? 20260314);

fc.configureGlobal({ numRuns: runs, seed });
