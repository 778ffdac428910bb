/** What is made from the vocabulary: it is fresh, and colours, folds and fills in as it should. */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import * as oniguruma from 'vscode-oniguruma';
import { INITIAL, parseRawGrammar, Registry } from 'vscode-textmate';
import { languageConfiguration } from '../../grammar/src/outputs/configuration.ts';
import { wordPages } from '../../grammar/src/outputs/pages.ts';
import { snippets } from '../../grammar/src/outputs/snippets.ts';
import { findingsOf } from './binding-marks.ts';

const grammar = join(import.meta.dirname, '../../grammar');

test('what is committed is what the vocabulary makes', () => {
  const check = () =>
    execFileSync(process.execPath, [join(grammar, 'generate.ts'), '--check'], { stdio: 'pipe' });
  expect(check).not.toThrow();
}, 300_000);

describe('highlighting', () => {
  const sample = `plan "Kestrel Quay" {
  measure     850 nm, 1300 nm for multimode
}

# berth displays
link KQ-OPS-B3 "Operations room to berth 3" {
  from        OPS/R2/A:01..12
  connector   LC            # panel A#2
  segment     C-101 fibres 1..23 step 2
  splice      fusion at "closure \\"3\\""
  segment     <length> OM4 map reversed
}

readings KQ-OPS-B3 {
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, remark
  1                1.12         "late {"
  2              dark
}

links "Leaf to spine" as leaf-spine {
}
`;

  test('colours a plan', async () => {
    const require = createRequire(import.meta.url);
    const wasm = readFileSync(require.resolve('vscode-oniguruma/release/onig.wasm'));
    await oniguruma.loadWASM(wasm);
    const path = join(grammar, 'highlighting/linkwright.tmLanguage.json');
    const registry = new Registry({
      onigLib: Promise.resolve({
        createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
        createOnigString: (text) => new oniguruma.OnigString(text),
      }),
      loadGrammar: async () => parseRawGrammar(readFileSync(path, 'utf8'), path),
    });
    const textmate = await registry.loadGrammar('source.linkwright');
    if (!textmate) throw new Error('the grammar does not load');
    let stack = INITIAL;
    const lines: string[] = [];
    for (const line of sample.split('\n')) {
      const { tokens, ruleStack } = textmate.tokenizeLine(line, stack);
      stack = ruleStack;
      lines.push(line);
      for (const { startIndex, endIndex, scopes } of tokens) {
        const text = line.slice(startIndex, endIndex);
        const scope = scopes.at(-1) ?? '';
        if (scope !== 'source.linkwright' && text.trim() !== '') {
          lines.push(`    ${text.trim()} = ${scope.replace('.linkwright', '')}`);
        }
      }
    }
    await expect(lines.join('\n')).toMatchFileSnapshot('snapshots/highlighting.txt');
  });
});

describe('the language configuration', () => {
  const configuration = languageConfiguration() as {
    wordPattern: { pattern: string; flags: string };
    folding: { markers: { start: string; end: string } };
    indentationRules: Record<string, { pattern: string }>;
  };

  test('takes a name whole', () => {
    const { pattern, flags } = configuration.wordPattern;
    const words = (text: string) => text.match(new RegExp(pattern, `g${flags}`));
    expect(words('  from  OPS/R2/A:01..12, 10GBASE-SR')).toEqual([
      'from',
      'OPS/R2/A:01..12',
      '10GBASE-SR',
    ]);
  });

  test('indents behind a brace that opens, not behind one in a text or comment', () => {
    const { increaseIndentPattern, decreaseIndentPattern } = configuration.indentationRules;
    const opens = new RegExp(increaseIndentPattern?.pattern ?? '', 'u');
    expect(opens.test('link A "x" {')).toBe(true);
    expect(opens.test('link A "a # b" { # so far')).toBe(true);
    expect(opens.test('  note        "{"')).toBe(false);
    expect(opens.test('# link A {')).toBe(false);
    expect(new RegExp(decreaseIndentPattern?.pattern ?? '', 'u').test('  }')).toBe(true);
  });

  test('folds from brace to brace', () => {
    const { start, end } = configuration.folding.markers;
    expect(new RegExp(start, 'u').test('link A {')).toBe(true);
    expect(new RegExp(end, 'u').test('}')).toBe(true);
  });
});

test('every snippet, taken as it comes, reads without a finding', () => {
  const all = Object.entries(snippets() as Record<string, { body: string[] }>);
  expect(all.length).toBeGreaterThan(20);
  for (const [name, { body }] of all) {
    const text = body
      .join('\n')
      .replace(/\$\{\d+:((?:\\.|[^\\}])*)\}/gu, (_, place: string) =>
        place.replace(/\\(.)/gu, '$1'),
      )
      .replace('$0', '');
    expect({ name, text, found: findingsOf(`${text}\n`) }).toEqual({ name, text, found: [] });
  }
});

test('links of the word pages lead somewhere', () => {
  const pages = wordPages();
  for (const [name, text] of pages) {
    for (const [, file = '', anchor] of text.matchAll(/\]\(([\w.-]+\.md)(?:#([\w-]+))?\)/gu)) {
      const target = pages.get(file);
      expect(target, `${name} links to ${file}`).toBeDefined();
      if (anchor) expect(target).toContain(`## ${anchor}\n`);
    }
  }
  expect(existsSync(join(grammar, 'README.md'))).toBe(true);
});
