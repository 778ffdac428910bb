/**
 * `npm run bench -- day`: what a tester's day costs beside what cannot be done
 * without. A table of 100,000 rows beside plain tables in the same browser, the
 * import of as many rows beside parsing them alone, a record of 5,000 readings
 * beside judging them and beside a PDF that is one plain table. Ratios are what
 * counts. In one process and in commands the time of the processor is taken, since
 * others may work on the machine meanwhile; in the browser frames are timed. One of
 * the parts alone: `npm run bench -- day import`, `record` or `table`.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire, registerHooks } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import type { Page } from 'playwright-core';
import { dist } from '../../client/build/paths.ts';
import { launchChromium } from '../support/chromium.ts';
import { head, links, planText } from './plan.ts';

// The library is text, which a bundle would hold.
registerHooks({
  load(url, context, next) {
    if (!url.endsWith('.lwl')) return next(url, context);
    const text = JSON.stringify(readFileSync(fileURLToPath(url), 'utf8'));
    return { format: 'module', shortCircuit: true, source: `export default ${text};` };
  },
});
const { judge, planUri } = await import('../support/judge.ts');
const { frame } = await import('../preview/host.ts');
const { results } = await import('../../server/src/features/results.ts');
const { defaultSettings } = await import('../../server/src/features/feature.ts');
const { importReadings, unwatched } = await import('../../server/src/import/index.ts');

const asOf = ['--as-of', '2026-04-01'];
const manyFibres = 288;

const parts: Readonly<Record<string, () => unknown>> = {
  import: () => measureImport(100_000),
  record: () => measureRecord(5000),
  table: () => measureTable(350),
};
const only = parts[process.argv.at(-1) ?? ''];
for (const part of only ? [only] : Object.values(parts)) await part();

/** Rows with one reading each: the whole of an import beside a parser that keeps every cell. */
async function measureImport(count: number): Promise<void> {
  const number = Math.ceil(count / manyFibres / 4);
  const names = Array.from({ length: number }, (_, at) => `KQ-${String(at).padStart(3, '0')}`);
  const ways = ['850,A>B', '850,B>A', '1300,A>B', '1300,B>A'];
  const rows = names.flatMap((name) =>
    Array.from({ length: manyFibres }, (_, at) =>
      ways.map((way, of) => `${name},${at + 1},${way},0.${60 + ((at * 7 + of) % 39)}`),
    ).flat(),
  );
  const text = `Link,Fibre,Wavelength,Direction,Loss\n${rows.slice(0, count).join('\n')}\n`;
  const { plan } = judge(`${head}\n${names.map(linkOf).join('\n')}`);
  const always = (what: string) => ({ always: what });
  const mapping = JSON.stringify({
    values: { what: 'loss', unit: 'dB', sign: 'positive' },
    columns: {
      ...{ link: 'Link', fibre: 'Fibre', wavelength: 'Wavelength', direction: 'Direction' },
      ...{ value: 'Loss', setup: always('MM-1'), tested: always('2026-03-14 09:05') },
    },
  });
  const bytes = new TextEncoder().encode(text);
  const parsed = await milliseconds(() => parse(text));
  const whole = await milliseconds(async () => {
    const done = await importReadings({ plan, name: 'quay.csv', bytes, mapping }, unwatched);
    if ('problems' in done || done.readings !== count) throw new Error('not all rows were taken');
  });
  print(`import of ${count} rows`, whole, 'csv-parse alone', parsed);
}

/** A record as a page and as a PDF, as a person writes it. */
function measureRecord(readings: number): void {
  const folder = mkdtempSync(join(tmpdir(), 'linkwright-bench-'));
  try {
    const plan = `${head}\n${planText(links(readings / 8))}`;
    writeFileSync(join(folder, 'plan.lwl'), plan);
    const command = (...words: string[]) =>
      processorOf(process.execPath, [join(dist, 'linkwright.cjs'), ...words, ...asOf], folder);
    const judged = command('results', '.', '--format', 'json', '--out', 'results.json');
    const page = command('record', '.', '--out', 'record.html');
    const pdf = command('record', '.', '--out', 'record.pdf');
    const plain = processorOf(process.execPath, ['-e', plainPdf(readings)], folder);
    print(`record of ${readings} readings as a page`, page, 'their results as JSON', judged);
    print('the same as a PDF', pdf, 'a PDF that is one table of as many rows', plain);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** A program that sets one table by the same library and does nothing else. */
function plainPdf(rows: number): string {
  const library = createRequire(import.meta.url).resolve('pdfmake');
  return `const maker = require(${JSON.stringify(library)});
    maker.setFonts({ Times: { normal: 'Times-Roman' } });
    const row = (at) => ['KQ', at, '850 nm', 'A>B', 0.97, 1.8, 0.83, 'pass'].map(String);
    const body = Array.from({ length: ${rows} }, (_, at) => row(at));
    const content = [{ table: { headerRows: 1, body } }];
    maker.createPdf({ defaultStyle: { font: 'Times', fontSize: 7.5 }, content }).getBuffer();`;
}

/** Links whose rows are all open, beside plain tables of 1,000 rows and of as many. */
async function measureTable(count: number): Promise<void> {
  const names = Array.from({ length: count }, (_, at) => `KQ-${String(at).padStart(3, '0')}`);
  const { project } = judge(`${head}\n${names.map(linkOf).join('\n')}`);
  const session = { project, settings: defaultSettings, snippets: true };
  const browser = await launchChromium();
  try {
    const begun = performance.now();
    const { page } = await frame(browser, {
      bundle: 'preview',
      data: { plan: planUri },
      kept: { open: names, order: 'plan' },
      ready: '.row.fibre',
      answer: (question) => results.answer(session, { uri: planUri, question } as never),
    });
    const shown = performance.now() - begun;
    const grid = page.locator('[role=treegrid]');
    const rows = Number(await grid.getAttribute('aria-rowcount'));
    const plain = await plainTable(1000);
    const whole = await plainTable(rows);
    print(
      `table of ${rows} rows until it is shown`,
      shown,
      'a plain table of as many',
      whole.shown,
    );
    const [near, far] = [await framesOf(page, 400), await framesOf(page, 1_200_000)];
    const beside = await framesOf(plain.page, 0);
    print('a frame while it scrolls, at its top', near, 'a plain table of 1,000', beside);
    print('a frame while it scrolls, in its middle', far, 'a plain table of 1,000', beside);
  } finally {
    await browser.close();
  }

  async function plainTable(
    rows: number,
  ): Promise<{ readonly page: Page; readonly shown: number }> {
    const page = await browser.newPage({ viewport: { width: 1200, height: 900 } });
    const cells = '<td>KQ-001</td><td>pass</td><td>0.84</td>'.repeat(3);
    const begun = performance.now();
    await page.setContent(`<table>${`<tr>${cells}</tr>`.repeat(rows)}</table>`, { timeout: 0 });
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(done)));
    return { page, shown: performance.now() - begun };
  }
}

/** The middle frame of sixty, each 40 px further; milliseconds. */
async function framesOf(page: Page, from: number): Promise<number> {
  await page.bringToFront();
  const times = await page.evaluate(async (top) => {
    const next = () => new Promise<number>((done) => requestAnimationFrame(done));
    window.scrollTo(0, top);
    await next();
    const times: number[] = [];
    let before = await next();
    for (let step = 1; step <= 60; step += 1) {
      window.scrollTo(0, top + step * 40);
      const now = await next();
      times.push(now - before);
      before = now;
    }
    return times;
  }, from);
  return times.sort((a, b) => a - b)[times.length >> 1] ?? 0;
}

function linkOf(name: string, at: number): string {
  return `link ${name} {
  fibres      1..${manyFibres}
  connector   LC
  segment     ${20 + at} m OM4
  connector   LC
}
`;
}

/** Of the processor. */
async function milliseconds(work: () => unknown): Promise<number> {
  const start = process.cpuUsage();
  await work();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000;
}

/** Milliseconds of the processor that a command takes, on Linux; elsewhere those of the clock. */
function processorOf(command: string, words: readonly string[], folder: string): number {
  if (process.platform !== 'linux') {
    const begun = performance.now();
    execFileSync(command, words, { cwd: folder, stdio: 'ignore' });
    return performance.now() - begun;
  }
  // A process is told what its ended children took.
  const timed = `const { spawnSync } = require('node:child_process');
    const { status } = spawnSync(${JSON.stringify(command)}, ${JSON.stringify(words)}, { stdio: 'ignore' });
    const usage = require('node:fs').readFileSync('/proc/self/stat', 'utf8').split(') ')[1].split(' ');
    process.stdout.write(JSON.stringify({ status, ticks: Number(usage[13]) + Number(usage[14]) }));`;
  const told = execFileSync(process.execPath, ['-e', timed], { cwd: folder, encoding: 'utf8' });
  const { status, ticks } = JSON.parse(told) as { status: number; ticks: number };
  if (status !== 0) throw new Error(`${words.join(' ').slice(0, 200)} ended with ${status}`);
  return ticks * 10;
}

function print(what: string, took: number, beside: string, itTook: number): void {
  const ratio = (took / itTook).toFixed(took / itTook < 10 ? 1 : 0);
  process.stdout.write(
    `${what}: ${took.toFixed(0)} ms; ${beside}: ${itTook.toFixed(0)} ms; ${ratio} times\n`,
  );
}
