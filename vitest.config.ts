/**
 * One run for everything: `npm test` calls vitest once, and its closing lines
 * are vitest's own. The sources and the laws come first, then the server over its
 * protocol, then the real VS Code, so that nothing competes with it for the machine.
 */
import { readFileSync } from 'node:fs';
import { defineConfig, type Plugin } from 'vitest/config';

/** Plans and library files are imported as their text, as esbuild bundles them. */
const plansAsText: Plugin = {
  name: 'plans-as-text',
  enforce: 'pre',
  load(id) {
    const [path = ''] = id.split('?');
    if (!path.endsWith('.lwl')) return null;
    return `export default ${JSON.stringify(readFileSync(path, 'utf8'))};`;
  },
};

export default defineConfig({
  plugins: [plansAsText],
  test: {
    // By itself the runner leaves one core to itself, which on two cores is half of them.
    maxWorkers: '100%',
    projects: [
      {
        extends: true,
        test: {
          name: 'sources',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: ['tests/{cli,laws,protocol,workbench,bench,preview}/**'],
          // No measure of speed: a busy machine takes ten times as long, and what hangs still fails.
          testTimeout: 60_000,
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          name: 'laws',
          include: ['tests/laws/**/*.test.ts'],
          setupFiles: ['tests/laws/runs.ts'],
          testTimeout: 300_000,
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          name: 'protocol',
          // What is shipped: the server and the command line, as processes.
          include: ['tests/{protocol,cli,preview}/**/*.test.ts'],
          globalSetup: ['tests/protocol/harness/build.ts'],
          testTimeout: 60_000,
          // A busy machine draws late; a state that never comes still fails.
          expect: { poll: { timeout: 15_000 } },
          sequence: { groupOrder: 1 },
        },
      },
      {
        extends: true,
        test: {
          name: 'workbench',
          include: ['tests/workbench/**/*.test.ts'],
          globalSetup: ['tests/workbench/host/setup.ts'],
          // One editor, one page: files take turns.
          fileParallelism: false,
          testTimeout: 120_000,
          hookTimeout: 120_000,
          expect: { poll: { timeout: 40_000 } },
          sequence: { groupOrder: 2 },
        },
      },
    ],
  },
});
