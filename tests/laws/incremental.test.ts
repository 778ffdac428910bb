/**
 * Whatever was typed, in whatever order, and however far the work had come in
 * between: the project says what a project says that reads the texts anew.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LiveProject } from '../../server/src/project/index.ts';
import { blocks, planBlock, slips } from '../project/plans.ts';
import { snapshot } from '../project/snapshot.ts';

const asOf = Date.UTC(2026, 3, 1) / 60_000;
const names = ['plan.lwl', 'links.lwl', 'readings.lwl', 'sub/more.lwl'] as const;
const uriOf = (name: string) => `file:///work/${name}`;

type Step =
  | { readonly kind: 'slip'; readonly file: number; readonly slip: number; readonly nth: number }
  | { readonly kind: 'insert'; readonly file: number; readonly block: number; readonly at: number }
  | { readonly kind: 'cut'; readonly file: number; readonly at: number; readonly length: number }
  | { readonly kind: 'letter'; readonly file: number; readonly at: number; readonly text: string }
  | { readonly kind: 'include'; readonly file: number; readonly target: number }
  | { readonly kind: 'remove'; readonly file: number }
  | { readonly kind: 'write'; readonly file: number; readonly blocks: readonly number[] }
  | { readonly kind: 'work'; readonly tasks: number }
  | { readonly kind: 'ask'; readonly nth: number };

const file = fc.nat(names.length - 1);
const block = fc.nat(blocks.length - 1);
const step: fc.Arbitrary<Step> = fc.oneof(
  {
    weight: 8,
    arbitrary: fc.record({
      kind: fc.constant('slip' as const),
      file,
      slip: fc.nat(slips.length - 1),
      nth: fc.nat(9),
    }),
  },
  {
    weight: 4,
    arbitrary: fc.record({ kind: fc.constant('insert' as const), file, block, at: fc.nat(20) }),
  },
  {
    weight: 3,
    arbitrary: fc.record({
      kind: fc.constant('cut' as const),
      file,
      at: fc.nat(5000),
      length: fc.nat(300),
    }),
  },
  {
    weight: 4,
    arbitrary: fc.record({
      kind: fc.constant('letter' as const),
      file,
      at: fc.nat(5000),
      text: fc.constantFrom(
        ...['{', '}', '"', '#', ',', '\n', '\r', '\r\n', 'x', '7', ' '],
        ...['\n<<<<<<< a\n', '\n=======\n', '\n>>>>>>> b\n'],
      ),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({ kind: fc.constant('include' as const), file, target: file }),
  },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('remove' as const), file }) },
  {
    weight: 2,
    arbitrary: fc.record({
      kind: fc.constant('write' as const),
      file,
      blocks: fc.array(block, { maxLength: 6 }),
    }),
  },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant('work' as const), tasks: fc.nat(12) }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant('ask' as const), nth: fc.nat(9) }) },
);

/** A project with an editor on every file, and the texts beside it. */
class Desk {
  readonly project = new LiveProject({ asOf });
  readonly texts = new Map<string, string>();
  #version = 1;

  constructor() {
    this.project.folders = ['file:///work'];
    this.write(0, `${planBlock}\ninclude "links.lwl"\ninclude "readings.lwl"\n`);
    this.write(1, blocks.slice(2, 10).join('\n'));
    this.write(2, blocks.slice(10).join('\n'));
  }

  write(index: number, text: string): void {
    const uri = uriOf(names[index]!);
    this.texts.set(uri, text);
    if (index % 2 === 0 && this.project.isOpen(uri)) {
      this.project.change(uri, ++this.#version, [{ text }]);
    } else if (index % 2 === 0) {
      this.project.open(uri, ++this.#version, text);
    } else {
      this.project.put(uri, { text });
    }
  }

  edit(index: number, start: number, end: number, text: string): void {
    const uri = uriOf(names[index]!);
    const before = this.texts.get(uri);
    if (before === undefined) return;
    // A position between the two halves of a line end is none that an editor can name.
    const from = splitsLineEnd(before, start) ? start - 1 : start;
    const to = Math.max(splitsLineEnd(before, end) ? end + 1 : end, from);
    const after = before.slice(0, from) + text + before.slice(to);
    if (!this.project.isOpen(uri)) {
      this.write(index, after);
      return;
    }
    this.texts.set(uri, after);
    const range = { start: positionAt(before, from), end: positionAt(before, to) };
    this.project.change(uri, ++this.#version, [{ range, text }]);
  }

  take(step: Step): void {
    const { project } = this;
    if (step.kind === 'work') {
      let left = step.tasks;
      project.work(() => --left <= 0);
      return;
    }
    if (step.kind === 'ask') {
      for (const plan of project.plans) {
        const { order } = plan.result;
        const name = order[step.nth % Math.max(order.length, 1)];
        if (name !== undefined) plan.result.link(name);
      }
      return;
    }
    const uri = uriOf(names[step.file]!);
    const text = this.texts.get(uri);
    if (step.kind === 'write') {
      this.write(step.file, step.blocks.map((each) => blocks[each]!).join('\n'));
    } else if (text === undefined) {
      return;
    } else if (step.kind === 'remove') {
      if (project.isOpen(uri)) project.close(uri);
      project.put(uri, undefined);
      this.texts.delete(uri);
    } else if (step.kind === 'slip') {
      const [pattern, replacement] = slips[step.slip]!;
      const places = [...text.matchAll(new RegExp(pattern, 'gu'))];
      const match = places[step.nth % Math.max(places.length, 1)];
      if (match) this.edit(step.file, match.index, match.index + match[0].length, replacement);
    } else if (step.kind === 'insert') {
      const starts = [...text.matchAll(/^(?=\S)/gmu)].map(({ index }) => index);
      const at = starts[step.at % Math.max(starts.length, 1)] ?? 0;
      this.edit(step.file, at, at, `${blocks[step.block]!}\n`);
    } else if (step.kind === 'include') {
      const up = step.file === 3 ? '../' : '';
      this.edit(step.file, 0, 0, `include "${up}${names[step.target]!}"\n`);
    } else {
      const at = Math.min(step.at, text.length);
      const length = step.kind === 'cut' ? step.length : 0;
      const put = step.kind === 'letter' ? step.text : '';
      this.edit(step.file, at, Math.min(at + length, text.length), put);
    }
  }

  /** A project that reads the texts as they are now, in another order. */
  fresh(): LiveProject {
    const project = new LiveProject({ asOf });
    for (const [uri, text] of [...this.texts].reverse()) project.put(uri, { text });
    project.folders = ['file:///work'];
    return project;
  }
}

function positionAt(text: string, offset: number): { line: number; character: number } {
  const lines = text.slice(0, offset).split(/\r\n|\r|\n/u);
  return { line: lines.length - 1, character: lines.at(-1)!.length };
}

function splitsLineEnd(text: string, offset: number): boolean {
  return text[offset - 1] === '\r' && text[offset] === '\n';
}

describe('a project after any edits', () => {
  // Two whole projects a case: a machine that did much else has needed six minutes for all of them.
  it('says what a fresh one says', { timeout: 1_200_000 }, () => {
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 14 }), (steps) => {
        const desk = new Desk();
        for (const each of steps) desk.take(each);
        expect(snapshot(desk.project)).toEqual(snapshot(desk.fresh()));
      }),
    );
  });
});
