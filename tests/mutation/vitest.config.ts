/**
 * What a changed line is shown: the tests that judge in one process, cheap ones
 * first, since the first that fails ends the matter. One worker keeps the modules
 * from file to file; a change is switched on in it, nothing is loaded anew.
 */

import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';
import base from '../../vitest.config.ts';

const shown = [
  'tests/optics/',
  'tests/evaluate/',
  'tests/published/',
  'tests/checks/examples.test.ts',
  'tests/examples/baselines.test.ts',
];

class CheapFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification) =>
      shown.findIndex((path) => moduleId.includes(path));
    return files.toSorted((a, b) => place(a) - place(b));
  }
}

export default defineConfig({
  plugins: base.plugins,
  test: {
    include: shown.map((path) => (path.endsWith('/') ? `${path}**/*.test.ts` : path)),
    isolate: false,
    testTimeout: 60_000,
    sequence: { sequencer: CheapFirst },
  },
});
