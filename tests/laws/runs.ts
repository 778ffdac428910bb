/**
 * How much generated input each law meets. `npm test` takes a fixed sample, the
 * same in every run; `npm run prove` takes far more, from a new seed that is
 * printed, so that whatever it finds can be run again, and for a limited time.
 */
import fc from 'fast-check';

const runs = Number(process.env.LINKWRIGHT_RUNS ?? 100);
const seed = Number(process.env.LINKWRIGHT_SEED ?? 20260314);
/** A law that has held for so long is left; what it met until then counts. */
const seconds = Number(process.env.LINKWRIGHT_SECONDS ?? 0);

fc.configureGlobal({
  numRuns: runs,
  seed,
  ...(seconds > 0 ? { interruptAfterTimeLimit: seconds * 1000 } : {}),
});

/** Cases of a law that are cheap: so many in every run, and more where more are asked for. */
export function atLeast(least: number): number {
  return Math.max(least, runs);
}

/** Cases of a law that are dear, such as plans judged several times: one in so many. */
export function oneIn(part: number): number {
  return Math.ceil(runs / part);
}
