/** Every name that stands in an example leads to its declaration, in the plan or in the library. */
import { globSync } from 'node:fs';
import { dirname } from 'node:path';
import { describe, expect, it } from 'vitest';
import { definition } from '../../server/src/features/definition.ts';
import { defaultSettings, type Session } from '../../server/src/features/feature.ts';
import { addressOf, openExample, root } from './open.ts';

/** Names of the world outside, which no line of a plan declares. */
const undeclared: ReadonlySet<string> = new Set(['port', 'closure', 'colour', 'finding']);

const examples = [...new Set(globSync('*/*.lwl', { cwd: root }).map(dirname))]
  .filter((example) => example !== 'mistakes')
  .sort();

describe.each(examples)('%s', (example) => {
  const { project, plans, files } = openExample(example);
  const session: Session = { project, settings: defaultSettings, snippets: true };

  it.each(files)('%s', (file) => {
    const uri = addressOf(example, file);
    const document = project.document(uri);
    const [plan] = plans;
    if (!document || !plan) throw new Error(`${file} is not open`);
    const lost: string[] = [];
    let asked = 0;
    for (const block of document.blocks()) {
      for (const { kind, name, place, declares } of plan.namesIn(block.id)) {
        if (undeclared.has(kind) || declares) continue;
        asked++;
        const { start } = document.rangeOf(block, place.span);
        const answer = definition.answer(session, { textDocument: { uri }, position: start });
        if (!answer?.length) lost.push(`line ${start.line + 1}: ${kind} ${name}`);
      }
    }
    expect(lost).toEqual([]);
    expect(asked).toBeGreaterThan(0);
  });
});
