/**
 * `npm run bench`: what a key costs, and what it costs with the language
 * servers of two data languages on the same facts in the same run. Ratios are
 * what counts; milliseconds are this machine's.
 *
 * `npm run bench -- 100 1000` takes other sizes than 100, 1,000 and 10,000 links;
 * `npm run bench -- day` measures a tester's day instead, see `day.ts`.
 */
import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { bundle } from '../../client/build/bundle.ts';
import { dist, extensionStage } from '../../client/build/paths.ts';
import { Desk, type Timing } from './desk.ts';
import { type Peer, peers } from './peers.ts';
import { head, links, planData, planText, schema, toYaml } from './plan.ts';

const sizes = process.argv.slice(2).map(Number).filter(Boolean);
const counts = sizes.length > 0 ? sizes : [100, 1000, 10_000];
/** Links in one file: under 2 MB and 20,000 lines. */
const perFile = 800;
/** Before a server has met its code a few dozen times it is not yet as quick as while somebody types. */
const warmUp = 25;
const keys = 21;

interface Measured {
  readonly alone: number;
  readonly burst: Timing;
}

await bundle();
if (process.argv[2] === 'day') {
  await import('./day.ts');
  process.exit();
}
const [ours, json, yaml] = peers as readonly [Peer, Peer, Peer];
const results = new Map<number, ReadonlyMap<Peer['name'], Measured>>();
for (const count of counts) {
  const measured = new Map<Peer['name'], Measured>();
  for (const peer of peers) measured.set(peer.name, await measureKeys(peer, count));
  results.set(count, measured);
}

print('A key until its findings have come, and until the whole burst is answered (median, ms)');
print('links   server                       findings  own work  burst');
for (const [count, measured] of results) {
  for (const peer of peers) {
    const { alone, burst } = measured.get(peer.name)!;
    print(
      `${String(count).padEnd(8)}${peer.title.padEnd(29)}${ms(alone)}${ms(alone - peer.delay)}${ms(burst.burst)}`,
    );
  }
}
print('');
print('The same as ratios: the peer over this one (above 1: this one is quicker)');
print('links   peer                         findings  own work  burst');
for (const [count, measured] of results) {
  const own = measured.get('ours')!;
  for (const peer of [json, yaml]) {
    const its = measured.get(peer.name)!;
    print(
      `${String(count).padEnd(8)}${peer.title.padEnd(29)}${ratio(its.alone, own.alone)}${ratio(its.alone - peer.delay, own.alone)}${ratio(its.burst.burst, own.burst.burst)}`,
    );
  }
}
const least = results.get(Math.min(...counts))!.get('ours')!;
const most = results.get(Math.max(...counts))!.get('ours')!;
print('');
print(
  `A key at ${Math.max(...counts)} links over one at ${Math.min(...counts)}: findings ${(most.alone / least.alone).toFixed(2)}, burst ${(most.burst.burst / least.burst.burst).toFixed(2)} (wanted: at most 2)`,
);
print('');
for (const count of counts) await measureChanges(count);
await measureMemory();
await measureStart();
measureCheck();
measureSize();

/** Types digits into the tail length of a link in the middle of the open file. */
async function measureKeys(peer: Peer, count: number): Promise<Measured> {
  const site = layOut(peer, count);
  const { desk } = await Desk.open(peer, site.folder, site.uri, site.text, site.schemaFile);
  try {
    const at = placeOf(site.text, peer);
    const alone: number[] = [];
    const burst: Timing[] = [];
    for (let key = 0; key < warmUp + keys; key++) {
      const time = await desk.keyAlone(at, 1, String(1 + (key % 9)));
      if (key >= warmUp) alone.push(time);
    }
    for (let key = 0; key < warmUp + keys; key++) {
      const time = await desk.key(at, 1, String(1 + (key % 9)));
      if (key >= warmUp) burst.push(time);
    }
    return {
      alone: median(alone),
      burst: {
        findings: median(burst.map(({ findings }) => findings)),
        burst: median(burst.map((each) => each.burst)),
      },
    };
  } finally {
    await desk.stop();
    rmSync(site.path, { recursive: true });
  }
}

/** What kind of change costs what: each typed into this server, until the open file's findings have come. */
async function measureChanges(count: number): Promise<void> {
  const site = layOut(ours, count);
  const { desk } = await Desk.open(ours, site.folder, site.uri, site.text, site.schemaFile);
  const changes: readonly (readonly [string, RegExp, number, (key: number) => string])[] = [
    ['a reading', /^ {2}1 {16}\d\.\d(?=\d)/mu, 1, (key) => String(key % 10)],
    ['a path', /^ {2}segment {5}(?=\d)/mu, 1, (key) => String(1 + (key % 9))],
    ['a figure that all links use', /max 2\.(?=7)/u, 1, (key) => String(5 + (key % 5))],
    ['a plan default that none reads', /client {6}"Harbour boar(?=d)/u, 1, (key) => 'de'[key % 2]!],
  ];
  print(
    `At ${count} links, one change: until the open file's findings, until all are judged (median, ms)`,
  );
  for (const [what, pattern, length, text] of changes) {
    const found = pattern.exec(site.text);
    if (!found) throw new Error(`no place for ${what}`);
    const before = site.text.slice(0, found.index + found[0].length).split('\n');
    const at = { line: before.length - 1, character: before.at(-1)!.length };
    const shown: number[] = [];
    const judged: number[] = [];
    const judgesNone = what.endsWith('none reads');
    for (let key = 0; key < 7; key++) shown.push(await desk.keyAlone(at, length, text(key)));
    for (let key = 7; key < 10 && !judgesNone; key++) {
      judged.push(await desk.keySettled(at, length, text(key)));
    }
    const all = judgesNone ? '     none' : ms(median(judged));
    print(`  ${what.padEnd(34)}${ms(median(shown.slice(2)))}${all}`);
  }
  print('');
  await desk.stop();
  rmSync(site.path, { recursive: true });
}

async function measureMemory(): Promise<void> {
  const count = counts.includes(1000) ? 1000 : counts[0]!;
  print(`Memory of the process at ${count} links, open and after 200 edits (MB)`);
  for (const peer of peers) {
    const site = layOut(peer, count);
    const { desk } = await Desk.open(peer, site.folder, site.uri, site.text, site.schemaFile);
    const at = placeOf(site.text, peer);
    const opened = residentMemory(desk.client.process.pid);
    // Keys faster than a peer's delay count as one for it; each waits for its findings.
    const edits = peer.delay > 0 ? 20 : 200;
    for (let key = 0; key < edits; key++) {
      for (let quick = 1; quick < 200 / edits; quick++)
        void desk.keyAlone(at, 1, String(1 + (quick % 9)));
      await desk.keyAlone(at, 1, String(1 + (key % 9)));
    }
    const after = residentMemory(desk.client.process.pid);
    print(`  ${peer.title.padEnd(34)}${mb(opened)}${mb(after)}`);
    await desk.stop();
    rmSync(site.path, { recursive: true });
  }
  print('');
}

async function measureStart(): Promise<void> {
  print('Start of the process to first findings, one small file (median, ms)');
  for (const peer of peers) {
    const times: number[] = [];
    for (let run = 0; run < 5; run++) {
      const site = layOut(peer, 3);
      const { desk, started } = await Desk.open(
        peer,
        site.folder,
        site.uri,
        site.text,
        site.schemaFile,
      );
      times.push(started - peer.delay);
      await desk.stop();
      rmSync(site.path, { recursive: true });
    }
    print(`  ${peer.title.padEnd(34)}${ms(median(times))}`);
  }
  print('');
}

/** The command line's whole check of 1,000 links against reading the equal data in one breath. */
function measureCheck(): void {
  const site = layOut(ours, 1000);
  const command = (...words: string[]) => {
    const begin = performance.now();
    spawnSync(process.execPath, words, { encoding: 'utf8' });
    return performance.now() - begin;
  };
  const dataFile = join(site.path, 'plan.json');
  writeFileSync(dataFile, JSON.stringify(planData(links(1000))));
  const empty = command('-e', '0');
  const parse =
    command('-e', `JSON.parse(require('fs').readFileSync(${JSON.stringify(dataFile)},'utf8'))`) -
    empty;
  const whole = command(join(dist, 'linkwright.cjs'), 'check', site.path) - empty;
  print('A check of 1,000 links from the command line, beyond starting the process (ms)');
  print(`  check${' '.repeat(29)}${ms(whole)}`);
  print(`  JSON.parse of the equal data${' '.repeat(6)}${ms(parse)}`);
  print(`  ratio${' '.repeat(29)}${ratio(whole, parse)}`);
  print('');
  rmSync(site.path, { recursive: true });
}

function measureSize(): void {
  const packaged = existsSync(dist)
    ? readdirSync(dist).find((name) => name.endsWith('.vsix'))
    : undefined;
  if (packaged) {
    print(`Packaged extension: ${mb(statSync(join(dist, packaged)).size).trim()} MB`);
  } else {
    print(`Extension unpacked: ${mb(sizeOf(extensionStage)).trim()} MB`);
  }
}

interface Site {
  readonly path: string;
  readonly folder: string;
  readonly uri: string;
  /** Of the file that is open. */
  readonly text: string;
  readonly schemaFile: string;
}

/** Writes a plan into a folder. A peer gets the file that is open in ours; the other files only we read. */
function layOut(peer: Peer, count: number): Site {
  const path = mkdtempSync(join(tmpdir(), 'linkwright-bench-'));
  const schemaFile = join(path, 'schema', 'schema.schema');
  mkdirSync(join(path, 'schema'));
  writeFileSync(schemaFile, JSON.stringify(schema));
  const files = Math.ceil(count / perFile);
  const first = links(Math.min(count, perFile));
  const name = join(path, `plan.${peer.ending}`);
  let text = '';
  if (peer.name === 'ours') {
    const others = Array.from({ length: files - 1 }, (_, index) => `links-${index + 1}.lwl`);
    for (const [index, file] of others.entries()) {
      const from = (index + 1) * perFile;
      writeFileSync(join(path, file), planText(links(Math.min(perFile, count - from), from)));
    }
    const includes = others.map((file) => `include "${file}"\n`).join('');
    text = `${includes}\n${head}\n${planText(first)}`;
  } else if (peer.name === 'json') {
    text = JSON.stringify(planData(first), null, 2);
  } else {
    text = toYaml(planData(first)).trimStart();
  }
  writeFileSync(name, text);
  return {
    path,
    folder: pathToFileURL(path).href,
    uri: pathToFileURL(name).href,
    text,
    schemaFile,
  };
}

/** The first digit of a tail's length, in the middle of the open file. */
function placeOf(text: string, peer: Peer): { line: number; character: number } {
  const pattern =
    peer.name === 'ours' ? /^ {2}segment +(?=\d)/gmu : /"?length_m"?: (?=\d\d[,\s])/gu;
  const found = [...text.matchAll(pattern)];
  const middle = found[Math.floor(found.length / 2)];
  if (!middle) throw new Error(`no place to type in for ${peer.title}`);
  const before = text.slice(0, middle.index + middle[0].length).split('\n');
  return { line: before.length - 1, character: before.at(-1)!.length };
}

function residentMemory(pid: number | undefined): number {
  const file = `/proc/${pid}/statm`;
  if (!existsSync(file)) return Number.NaN;
  return Number(readFileSync(file, 'utf8').split(' ')[1]) * 4096;
}

function sizeOf(path: string): number {
  if (!existsSync(path)) return Number.NaN;
  const entry = statSync(path);
  if (!entry.isDirectory()) return entry.size;
  return readdirSync(path).reduce((sum, name) => sum + sizeOf(join(path, name)), 0);
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}

function ms(value: number): string {
  return value.toFixed(1).padStart(9);
}

function mb(bytes: number): string {
  return (bytes / 1e6).toFixed(1).padStart(9);
}

function ratio(a: number, b: number): string {
  return (a / b).toFixed(1).padStart(9);
}

function print(line: string): void {
  process.stdout.write(`${line}\n`);
}
