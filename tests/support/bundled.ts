/** What is shipped, built once in a run of tests: the setups of several groups of them ask for it. */
import { bundle } from '../../client/build/bundle.ts';

// Each group loads its setup anew, so that what they share is known to the process.
const shared = globalThis as { linkwrightBundled?: Promise<void> };

export default function bundled(): Promise<void> {
  shared.linkwrightBundled ??= bundle();
  return shared.linkwrightBundled;
}
