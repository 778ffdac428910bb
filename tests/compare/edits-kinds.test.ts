/** Every word of the vocabulary is of a kind of change wherever it may stand. */
import { describe, expect, it } from 'vitest';
import { vocabulary } from '../../grammar/src/vocabulary/index.ts';
import { kindOf, kindOfBlock } from '../../server/src/compare/edits/kinds.ts';
import { phraseOf } from '../../server/src/compare/edits/subjects.ts';
import { changeKinds } from '../../server/src/compare/types.ts';

const standing = vocabulary.flatMap((entry) =>
  entry.contexts.map((context) => ({ entry, context })),
);

describe('the kinds of changes', () => {
  it('hold every word where it may stand: classify a new one in server/src/compare/edits/kinds.ts', () => {
    const missing = standing
      .filter(({ entry, context }) => kindOf(context, entry.word) === undefined)
      .map(({ entry, context }) => `${entry.word} in ${context}`);
    expect(missing).toEqual([]);
  });

  it('hold every block that something is declared in', () => {
    const blocks = new Set(vocabulary.flatMap(({ block }) => block ?? []));
    expect([...blocks].filter((block) => kindOfBlock(block) === 'text')).toEqual([]);
  });

  it('are those of the list', () => {
    for (const { entry, context } of standing) {
      const slots = entry.forms.flatMap((form) => form.slots.map(({ name }) => name));
      for (const slot of [undefined, ...slots]) {
        expect(changeKinds).toContain(kindOf(context, entry.word, slot));
      }
    }
  });

  it('have words of the trade for each', () => {
    for (const { entry, context } of standing) {
      expect(phraseOf(context, entry.word, new Map())).not.toBe('');
    }
  });

  it('part what one line says of several things', () => {
    expect(kindOf('link', 'segment')).toBe('medium');
    expect(kindOf('link', 'segment', 'map')).toBe('connection');
    expect(kindOf('pattern', 'segment', 'map')).toBe('shared');
    expect(kindOf('setup', 'source', 'due')).toBe('instrument');
    expect(kindOf('setup', 'source', 'light')).toBe('method');
  });
});
