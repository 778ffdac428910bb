/** Cost follows the change: what is judged again after an edit is what read something that changed. */
import { beforeEach, describe, expect, it } from 'vitest';
import { LiveProject } from '../../server/src/project/index.ts';
import { head, links, planText } from '../bench/plan.ts';

const uri = 'file:///work/plan.lwl';
const count = 60;

let project: LiveProject;
let text: string;

beforeEach(() => {
  project = new LiveProject({ asOf: Date.UTC(2026, 3, 1) / 60_000 });
  text = `${head}\n${planText(links(count))}`;
  project.open(uri, 1, text);
  project.work(() => false);
  project.takeChangedResults();
});

/** Names of links judged again after replacing the first text that a pattern finds. */
function judgedAfter(pattern: RegExp | string, replacement: string): readonly string[] {
  const changed = text.replace(pattern, replacement);
  expect(changed).not.toBe(text);
  let start = 0;
  while (text[start] === changed[start]) start += 1;
  let tail = 0;
  while (
    text.at(-1 - tail) === changed.at(-1 - tail) &&
    tail < Math.min(text.length, changed.length) - start
  ) {
    tail += 1;
  }
  const at = (offset: number) => {
    const lines = text.slice(0, offset).split('\n');
    return { line: lines.length - 1, character: lines.at(-1)!.length };
  };
  project.change(uri, 2, [
    {
      range: { start: at(start), end: at(text.length - tail) },
      text: changed.slice(start, changed.length - tail),
    },
  ]);
  expect(project.document(uri)!.text()).toBe(changed);
  project.work(() => false);
  return project.takeChangedResults().flatMap(({ objects }) => objects);
}

describe('an edit', () => {
  it.each([
    ['of the client of the plan', 'Harbour board', 'Harbour office'],
    ['of the title of the plan', 'Kestrel Quay, measured', 'Kestrel Quay'],
    ['of a comment', 'cable C-0 {', '# the ramp\ncable C-0 {'],
    ['of blanks', 'connector   LC', 'connector     LC'],
    ['that adds an empty line', '\nlink KQ-00003', '\n\nlink KQ-00003'],
  ])('%s judges nothing again', (_, before, after) => {
    expect(judgedAfter(before, after)).toEqual([]);
  });

  it('of a reading judges its link again', () => {
    expect(judgedAfter(/(?<=readings KQ-00007 [\s\S]*?\n {2}1 {16})\d/u, '7')).toEqual([
      'KQ-00007',
    ]);
  });

  it('of a path judges its link again', () => {
    expect(judgedAfter(/(?<=link KQ-00007 [\s\S]*?segment {5})\d/u, '9')).toEqual(['KQ-00007']);
  });

  it('of a cable judges the links again that take its fibres', () => {
    const names = judgedAfter(/(?<=cable C-1 [\s\S]*?length {6})142/u, '150');
    expect([...names].sort()).toEqual(links(12, 12).map(({ name }) => name));
  });

  it('of a figure that all use judges all again', () => {
    expect(judgedAfter('max 2.7', 'max 2.8')).toHaveLength(count);
  });

  it('that breaks off in the middle is taken up again by a question about one link', () => {
    judgedAfter('Harbour board', 'Harbour office');
    project.change(uri, 3, [{ text: text.replace('max 2.7', 'max 2.8') }]);
    project.work(() => true);
    expect(project.waiting).toBeGreaterThan(0);
    const fresh = project.plans[0]!.result.link('KQ-00050');
    project.work(() => false);
    expect(project.plans[0]!.result.link('KQ-00050')).toBe(fresh);
  });
});
