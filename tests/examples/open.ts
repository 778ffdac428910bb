/** An example as the tool opens it, judged as of a day after its last reading. */
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { decodeFile, LiveProject } from '../../server/src/project/index.ts';
import { parseInstant } from '../../server/src/project/instant.ts';

export const root = join(import.meta.dirname, '../../examples');

const asOf = '2026-03-26';

export function openExample(example: string) {
  const instant = parseInstant(asOf);
  if (instant === undefined) throw new Error(`not an instant: ${asOf}`);
  const files = globSync('*.lwl', { cwd: join(root, example) }).sort();
  const project = new LiveProject({ asOf: instant });
  project.folders = [`file:///examples/${example}`];
  project.putAll(
    files.map(
      (file) =>
        [addressOf(example, file), decodeFile(readFileSync(join(root, example, file)))] as const,
    ),
  );
  return { project, plans: project.plans, files };
}

export function addressOf(example: string, file: string): string {
  return `file:///examples/${example}/${file}`;
}
