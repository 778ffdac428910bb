/**
 * What a changed line is shown: the tests that judge in one process, cheap ones
 * first, since the first that fails ends the matter. Left out are those that ask
 * hundreds of plans, or the same plan again and again, for what must never be said
 * or must stay equal: each change that lives would pay for all of them. So are those
 * that judge nothing. One worker keeps the modules from file to file; a change is
 * switched on in it, nothing is loaded anew.
 */

import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';
import base from '../../vitest.config.ts';

const shown = [
  'tests/optics/',
  'tests/evaluate/',
  'tests/published/',
  'tests/checks/',
  'tests/examples/',
  'tests/features/',
  'tests/report/',
];

const left = [
  'tests/checks/{clean-*,names,pages,said-once,severities,silenced}.test.ts',
  'tests/examples/{names,round-trip,vocabulary-use}.test.ts',
  'tests/features/{names,word-help}.test.ts',
  'tests/report/{colours,heights,workbook}.test.ts',
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
    include: shown.map((path) => `${path}**/*.test.ts`),
    exclude: left,
    isolate: false,
    testTimeout: 60_000,
    sequence: { sequencer: CheapFirst },
  },
});
