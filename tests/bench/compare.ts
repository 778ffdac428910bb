/**
 * What a comparison costs beside the check of the plan that it is of, in one
 * run: nothing changed, one link of all, a reading, and a figure that every link
 * uses. Ratios are what counts; milliseconds are this machine's.
 *
 * `node tests/bench/compare.ts 1000 10000` (Node 24) takes these sizes; 1,000 links if none is said.
 */
import { readFileSync } from 'node:fs';
import { registerHooks } from 'node:module';
import { fileURLToPath } from 'node:url';
import { head, links, planText } from './plan.ts';

// The library is text, which a bundle would hold.
registerHooks({
  load(url, context, next) {
    if (!url.endsWith('.lwl')) return next(url, context);
    const text = JSON.stringify(readFileSync(fileURLToPath(url), 'utf8'));
    return { format: 'module', shortCircuit: true, source: `export default ${text};` };
  },
});
const { compareTexts } = await import('../../server/src/compare/index.ts');
const { LiveProject } = await import('../../server/src/project/index.ts');

const sizes = process.argv.slice(2).map(Number).filter(Boolean);
const asOf = Date.UTC(2026, 3, 1) / 60_000;

type Files = readonly { readonly path: string; readonly text: string }[];

function filesOf(count: number): Files {
  const perFile = 500;
  const starts = Array.from({ length: Math.ceil(count / perFile) }, (_, index) => index * perFile);
  const parts = starts.map((start, index) => ({
    path: `links-${index}.lwl`,
    text: planText(links(Math.min(perFile, count - start), start)),
  }));
  const includes = parts.map(({ path }) => `include "${path}"\n`).join('');
  return [{ path: 'plan.lwl', text: `${head}\n${includes}` }, ...parts];
}

function changed(files: Files, path: string, from: string, to: string): Files {
  return files.map((file) => {
    if (file.path !== path) return file;
    if (!file.text.includes(from)) throw new Error(`${path} has no ${from}`);
    return { path, text: file.text.replace(from, to) };
  });
}

/** Of the processor, since others may work on the machine meanwhile. */
function milliseconds(work: () => void): number {
  const start = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000;
}

function check(files: Files): void {
  const project = new LiveProject({ asOf });
  project.folders = ['file:///site'];
  project.putAll(files.map(({ path, text }) => [`file:///site/${path}`, { text }]));
  for (const plan of project.plans) plan.allFindings();
}

for (const count of sizes.length > 0 ? sizes : [1000]) {
  const files = filesOf(count);
  check(files.slice(0, 2));
  const alone = milliseconds(() => check(files));
  console.log(`${count} links: check ${alone.toFixed(0)} ms`);
  const cases: readonly (readonly [string, Files])[] = [
    ['nothing', files],
    ['one link', changed(files, 'links-0.lwl', 'segment     20 m', 'segment     25 m')],
    ['one reading', changed(files, 'links-0.lwl', '0.97', '1.97')],
    ['a figure of all', changed(files, 'plan.lwl', 'max 2.7 dB/km', 'max 2.9 dB/km')],
  ];
  for (const [what, after] of cases) {
    let said = '';
    const took = milliseconds(() => {
      const [one] = compareTexts({
        before: { label: 'before', files },
        after: { label: 'after', files: after },
        asOf,
      });
      said = `${one?.comparison.changes.length} changes, ${one?.comparison.effects.length} effects`;
    });
    console.log(`  ${what}: ${took.toFixed(0)} ms, ${(took / alone).toFixed(2)} times; ${said}`);
  }
}
