/**
 * Killed at any moment, a command leaves the old file or the new one, and what it leaves beside
 * disturbs nobody. The moments are random from a seed; `npm run prove -- kills` takes more.
 */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, watch, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { dist } from '../../client/build/paths.ts';
import { Folder } from './run.ts';

const kills = Number(process.env.LINKWRIGHT_KILLS ?? 3);
const random = randomFrom(Number(process.env.LINKWRIGHT_SEED ?? 20260314));
/** A write of a large file takes some milliseconds; the first of them are the dangerous ones. */
const longestWrite = 30;
const asOf = ['--as-of', '2026-03-15'];

const example = readFileSync('examples/first-link/first-link.lwl', 'utf8');
const fibres = 288;
const plan = example
  .slice(0, example.indexOf('readings KQ'))
  .replaceAll('01..04', '001..288')
  .replace('\n\nlink', '\n\ninclude "berths.lwl"\n\nlink');
/** Nothing to judge, much to write: so long a write that a kill meets it. */
const ballast = '# Kestrel Quay, berth by berth\n'.repeat(30_000);
const saved = `${ballast}
readings KQ-OPS-B3 {
  setup       MM-1
  tested      2026-03-14 08:30 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1                0.91
}
`;
const table = [
  'link,fibre,850 A>B,850 B>A',
  ...Array.from({ length: fibres }, (_, at) => `KQ-OPS-B3,${at + 1},0.9${at % 10},0.8${at % 10}`),
].join('\n');
const mapping = JSON.stringify({
  values: { what: 'loss', unit: 'dB', sign: 'positive' },
  columns: {
    link: 'link',
    fibre: 'fibre',
    setup: { always: 'MM-1' },
    tested: { always: '2026-03-14 09:05' },
    readings: [
      { column: '850 A>B', wavelength: 850, direction: 'A>B' },
      { column: '850 B>A', wavelength: 850, direction: 'B>A' },
    ],
  },
});

/** A command, the file that it writes and what stands there before. */
const writers = [
  {
    name: 'import',
    words: ['import', 'berths.csv', '--mapping', 'berths.json', '--into', 'berths.lwl', ...asOf],
    target: 'berths.lwl',
    before: saved,
  },
  {
    name: 'format',
    words: ['format', 'berths.lwl'],
    target: 'berths.lwl',
    before: saved.replace('fibre, 850', 'fibre,  850'),
  },
  {
    name: 'record',
    words: ['record', '.', ...asOf, '--out', 'record.html'],
    target: 'record.html',
    before: 'the record of last week',
  },
  {
    name: 'results',
    words: ['results', '.', ...asOf, '--format', 'json', '--out', 'results.json'],
    target: 'results.json',
    before: 'the results of last week',
  },
] as const;

describe.each(writers)('$name', ({ words, target, before }) => {
  const folder = new Folder({
    'plan.lwl': plan,
    'berths.lwl': target === 'berths.lwl' ? before : saved,
    'berths.csv': table,
    'berths.json': mapping,
    [target]: before,
  });
  const path = join(folder.path, target);
  const text = () => readFileSync(path, 'utf8');
  const beside = () => readdirSync(folder.path).filter((name) => name.startsWith('.'));
  let after = '';
  let lasts = 0;

  beforeAll(() => {
    const begun = performance.now();
    expect(folder.run(...words).code).toBe(0);
    lasts = performance.now() - begun;
    after = text();
    expect(after === before).toBe(false);
  }, 60_000);
  afterAll(() => folder.remove());

  /** Starts it anew and kills it when `moment` has come, unless it has ended by itself. */
  async function killed(moment: (child: ChildProcess) => Promise<unknown>): Promise<void> {
    writeFileSync(path, before);
    const child = spawn(process.execPath, [join(dist, 'linkwright.cjs'), ...words], {
      cwd: folder.path,
      stdio: 'ignore',
    });
    const ended = new Promise<void>((done) => child.on('exit', () => done()));
    await Promise.race([moment(child), ended]);
    child.kill('SIGKILL');
    await ended;
    // Compared here: a difference of megabytes is nothing to print.
    expect(text() === before || text() === after).toBe(true);
  }

  it('leaves the old file or the new one, whenever it is killed', async () => {
    for (let time = 0; time < kills; time += 1) await killed(() => pause(random() * lasts));
  }, 600_000);

  it('leaves the old file or the new one, killed while it writes', async () => {
    let met = 0;
    for (let time = 0; time < kills; time += 1) {
      const known = beside().length;
      // The first at once, so that some write is met however quick the disk.
      const wait = time === 0 ? 0 : random() * longestWrite;
      await killed(() => written(folder.path).then(() => pause(wait)));
      if (beside().length > known) met += 1;
    }
    if (target === 'berths.lwl') expect(met).toBeGreaterThan(0);
  }, 600_000);

  it('does its work afterwards, whatever was left beside', () => {
    writeFileSync(path, before);
    writeFileSync(join(folder.path, `.${target}.0123456789ab`), 'link KQ-HALF {');
    expect(folder.run(...words).code).toBe(0);
    expect(text() === after).toBe(true);
  });
});

/** When something that is hidden is written into a folder. */
function written(folder: string): Promise<void> {
  return new Promise((done) => {
    const watcher = watch(folder, (_, name) => {
      if (!name?.startsWith('.')) return;
      watcher.close();
      done();
    });
  });
}

/** Numbers from 0 to below 1, the same for a seed: a counter whose bits are mixed. */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x9e3779b9) | 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return ((mixed ^ (mixed >>> 16)) >>> 0) / 2 ** 32;
  };
}

describe.skipIf(process.platform === 'win32')('a place that takes no more', () => {
  const files = { 'plan.lwl': plan, 'berths.lwl': saved, 'berths.csv': table };
  /** Ran as somebody who is not root where we are, since root may write everywhere. */
  const other = process.getuid?.() === 0 ? { uid: 65534, gid: 65534 } : {};

  it.each(writers)('$name: no room for the file', ({ words, target, before }) => {
    const folder = new Folder({ ...files, 'berths.json': mapping, [target]: before });
    const limited = ['-c', 'ulimit -f 4; exec "$0" "$@"', process.execPath];
    const ran = spawnSync('/bin/sh', [...limited, join(dist, 'linkwright.cjs'), ...words], {
      cwd: folder.path,
      encoding: 'utf8',
    });
    expect(ran.status).toBe(2);
    expect(ran.stderr).toContain('a file may not grow so large here');
    expect(ran.stderr).toContain('The file is as it was.');
    expect(readFileSync(join(folder.path, target), 'utf8') === before).toBe(true);
    expect(readdirSync(folder.path).filter((name) => name.startsWith('.'))).toEqual([]);
    folder.remove();
  });

  it.each(writers)('$name: a folder that may only be read', ({ words, target, before }) => {
    const folder = new Folder({ ...files, 'berths.json': mapping, [target]: before });
    spawnSync('chmod', ['555', folder.path]);
    const ran = spawnSync(process.execPath, [join(dist, 'linkwright.cjs'), ...words], {
      cwd: folder.path,
      encoding: 'utf8',
      ...other,
    });
    spawnSync('chmod', ['755', folder.path]);
    expect(ran.status).toBe(2);
    expect(ran.stderr).toContain('you may not write in the folder');
    expect(readFileSync(join(folder.path, target), 'utf8') === before).toBe(true);
    expect(readdirSync(folder.path).filter((name) => name.startsWith('.'))).toEqual([]);
    folder.remove();
  });
});
