/**
 * What is shown after a key is put together from what was shown before. It has
 * to be what a session says that opens the text anew, to the last byte.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DocumentSymbol } from 'vscode-languageserver-protocol';
import { codeLens } from '../../server/src/features/code-lens.ts';
import { defaultSettings } from '../../server/src/features/feature.ts';
import { folding } from '../../server/src/features/folding.ts';
import { documentSymbols } from '../../server/src/features/symbols.ts';
import { LiveProject } from '../../server/src/project/index.ts';
import { Publishing } from '../../server/src/session/publish.ts';
import { MessageText } from '../../server/src/session/writer.ts';
import { head, links, planText } from '../bench/plan.ts';
import { blocks, slips } from './plans.ts';

const uri = 'file:///work/plan.lwl';
const asOf = Date.UTC(2026, 3, 1) / 60_000;

class Editor {
  readonly project = new LiveProject({ asOf });
  readonly #publishing = new Publishing(this.project);
  readonly #writer = new MessageText();
  #text: string;
  #version = 1;

  constructor(text: string) {
    this.#text = text;
    this.project.open(uri, 1, text);
  }

  get text(): string {
    return this.#text;
  }

  replace(start: number, end: number, text: string): void {
    const range = { start: positionIn(this.#text, start), end: positionIn(this.#text, end) };
    this.#text = this.#text.slice(0, start) + text + this.#text.slice(end);
    this.project.change(uri, ++this.#version, [{ range, text }]);
  }

  /** Everything about the whole file once it is judged, as messages. */
  shown(): readonly object[] {
    this.project.work(() => false);
    const session = { project: this.project, settings: defaultSettings, snippets: true };
    const params = { textDocument: { uri } };
    const answers = [documentSymbols, documentSymbols, folding, codeLens].map((each) => ({
      jsonrpc: '2.0',
      id: 7,
      result: each.answer(session, params),
    }));
    const diagnostics = this.#publishing.diagnostics(this.project.findings(uri), {});
    const method = 'textDocument/publishDiagnostics';
    return [...answers, { jsonrpc: '2.0', method, params: { uri, diagnostics, version: 3 } }];
  }

  /** The same, as it is written. */
  written(): readonly string[] {
    return this.shown().map((message) =>
      Buffer.concat(this.#writer.of({ jsonrpc: '2.0', ...message })).toString(),
    );
  }
}

function positionIn(text: string, offset: number): { line: number; character: number } {
  const lines = text.slice(0, offset).split('\n');
  return { line: lines.length - 1, character: lines.at(-1)!.length };
}

/** What two texts say where they part; empty if they never do. */
function difference(a: string, b: string): string {
  let at = 0;
  while (at < a.length && a[at] === b[at]) at += 1;
  return a === b ? '' : `${a.slice(at - 200, at + 200)} | ${b.slice(at, at + 200)}`;
}

function outlineOf(text: string): readonly DocumentSymbol[] {
  const { project } = new Editor(text);
  const session = { project, settings: defaultSettings, snippets: true };
  return documentSymbols.answer(session, { textDocument: { uri } });
}

const start = `${blocks.join('\n')}\n${planText(links(25))}`;

describe('what is shown after edits', () => {
  it('is what a new session shows', () => {
    const slip = fc.record({ slip: fc.nat(slips.length - 1), nth: fc.nat(200), ask: fc.boolean() });
    fc.assert(
      fc.property(fc.array(slip, { minLength: 1, maxLength: 8 }), (steps) => {
        const editor = new Editor(start);
        editor.written();
        for (const step of steps) {
          const [pattern, replacement] = slips[step.slip]!;
          const places = [...editor.text.matchAll(new RegExp(pattern, 'gu'))];
          const match = places[step.nth % Math.max(places.length, 1)];
          if (match) editor.replace(match.index, match.index + match[0].length, replacement);
          if (step.ask) editor.written();
        }
        const fresh = new Editor(editor.text);
        const wanted = fresh.shown().map((each) => JSON.stringify(each));
        expect(editor.written().map((each, at) => difference(each, wanted[at]!))).toEqual(
          wanted.map(() => ''),
        );
      }),
      // A fixed sample, as of all laws, after a case that did not hold: the plan's own OM4 is called
      // OM3, so that the library's is meant again, and was taken for another fibre beside itself.
      {
        numRuns: 15,
        seed: Number(process.env.LINKWRIGHT_SEED ?? 20260314),
        examples: [
          [
            [
              { slip: 1, nth: 1, ask: true },
              { slip: 0, nth: 0, ask: false },
            ],
          ],
        ],
      },
    );
  }, 300_000);

  it('is the very list given before, while the text is the same', () => {
    const editor = new Editor(start);
    const session = { project: editor.project, settings: defaultSettings, snippets: true };
    const ask = () => documentSymbols.answer(session, { textDocument: { uri } });
    const first = ask();
    expect(ask()).toBe(first);
    const at = editor.text.lastIndexOf('connector   LC');
    editor.replace(at, at, '# a remark\n  ');
    const second = ask();
    expect(second).not.toEqual(first);
    expect(second.slice(0, -2).every((symbol, index) => symbol === first[index])).toBe(true);
  });
});

describe('the outline of a large file', () => {
  it('leaves evidence out where all is too much, and says so', () => {
    const symbols = outlineOf(`${head}\n${planText(links(520))}`);
    const names = symbols.map(({ name }) => name);
    expect(names).toContain('link KQ-00519');
    expect(names.filter((name) => name.startsWith('readings'))).toEqual([]);
    expect(symbols.at(-1)?.detail).toContain('readings and other evidence are left out');
  });

  it('ends after a thousand declarations, and says so', () => {
    const cables = Array.from({ length: 1100 }, (_, at) => `cable K-${at} {\n  count 4\n}\n`);
    const symbols = outlineOf(cables.join('\n'));
    expect(symbols).toHaveLength(1000);
    expect(symbols.at(-1)).toMatchObject({
      name: 'cable K-999',
      detail: 'the outline ends here, after 1000',
    });
  });
});

describe('a message', () => {
  it('is written as JSON is, whatever it holds', () => {
    const member = fc.oneof(fc.jsonValue(), fc.constant(undefined));
    const message = fc.record({ jsonrpc: fc.constant('2.0'), id: fc.nat(), result: member });
    const long = fc.record({
      jsonrpc: fc.constant('2.0'),
      result: fc.array(fc.record({ name: fc.string(), of: fc.jsonValue() }), { minLength: 150 }),
    });
    fc.assert(
      fc.property(fc.array(fc.oneof(message, long), { minLength: 1, maxLength: 3 }), (messages) => {
        const writer = new MessageText();
        for (const each of [...messages, ...messages]) {
          expect(Buffer.concat(writer.of(each)).toString()).toBe(JSON.stringify(each));
        }
      }),
      { numRuns: 30 },
    );
  });

  it('of a list that grew or shrank holds what the list holds now', () => {
    const writer = new MessageText();
    const members = Array.from({ length: 300 }, (_, at) => ({ at }));
    for (const length of [300, 200, 192, 191, 193, 300, 64, 128, 0]) {
      const message = { jsonrpc: '2.0', id: 1, result: members.slice(0, length) };
      expect(Buffer.concat(writer.of(message)).toString()).toBe(JSON.stringify(message));
    }
  });
});
