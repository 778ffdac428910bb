/** The formatter on whole plans that are already in canonical form. */
import { globSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { splitBlocks } from '../../grammar/src/blocks.ts';
import { formatLine, formatText } from '../../grammar/src/format.ts';
import { parseBlock } from '../../grammar/src/parser.ts';

const shapes = globSync(join(import.meta.dirname, 'shapes/*.lwl')).sort();

describe('whole plans', () => {
  it.each(shapes.map((path) => [basename(path), path]))('%s is canonical', (_, path) => {
    const text = readFileSync(path, 'utf8');
    expect(formatText(text)).toEqual({ text, refused: [] });
  });

  it.each(shapes.map((path) => [basename(path), path]))('%s has no finding', (_, path) => {
    for (const block of splitBlocks(readFileSync(path, 'utf8'))) {
      expect(parseBlock(block).findings).toEqual([]);
    }
  });

  it.each(shapes.map((path) => [basename(path), path]))(
    '%s comes back from its words',
    (_, path) => {
      const text = readFileSync(path, 'utf8');
      const loose = text.replace(/(?<=[^\s"]) {2,}(?=\S)/gu, ' ').replace(/^ +/gmu, '    ');
      expect(formatText(loose).text).toBe(text);
    },
  );

  it.each(shapes.map((path) => [basename(path), path]))('%s is right line by line', (_, path) => {
    for (const block of splitBlocks(readFileSync(path, 'utf8'))) {
      for (const line of block.split('\n').keys()) expect(formatLine(block, line)).toBeUndefined();
    }
  });
});
