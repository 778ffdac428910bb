import { describe, expect, test } from 'vitest';
import { completion } from '../../server/src/features/completion.ts';
import { signatureHelp } from '../../server/src/features/signature-help.ts';
import { answer, ask } from '../support/ask.ts';

const head = `plan "Typing" {
  limits      TIA-568.3-E
  measure     850 nm, 1300 nm for multimode
  directions  both
}

cable C-101 {
  fibre       OM4
  count       24
  length      142 m
}

`;

function labels(text: string): string[] {
  return (answer(completion, ask(head + text))?.items ?? []).map(({ label }) => label);
}

describe('completion', () => {
  test('offers declarations at the margin and words of the block inside it', () => {
    expect(labels('$0\n')).toEqual(expect.arrayContaining(['link', 'readings', 'setup']));
    const inside = labels('link KQ-1 {\n  $0\n}\n');
    expect(inside).toEqual(expect.arrayContaining(['connector', 'segment', 'splice', 'carries']));
    expect(inside).not.toContain('columns');
    expect(inside).not.toContain('setup');
  });

  test('offers the names that fit, those of the plan before the library', () => {
    const fibres = labels('link KQ-1 {\n  segment     90 m $0\n}\n');
    expect(fibres).toContain('OM4');
    expect(fibres).not.toContain('LC');
    expect(labels('link KQ-1 {\n  segment     $0\n}\n')).toContain('C-101');
    expect(labels('link KQ-1 {\n  carries     10G$0\n}\n')).toContain('10GBASE-SR');
  });

  test('offers keywords that the line may still take', () => {
    const offered = labels('link KQ-1 {\n  segment     C-101 $0\n}\n');
    expect(offered).toEqual(expect.arrayContaining(['fibres', 'tube', 'length']));
  });

  test('offers the columns that a link still wants', () => {
    const text =
      'link KQ-1 {\n  fibres      1\n  connector   LC\n  segment     90 m OM4\n  connector   LC\n}\n\nreadings KQ-1 {\n  columns fibre, $0\n}\n';
    expect(labels(text)).toEqual(expect.arrayContaining(['850 nm A>B', '1300 nm B>A', 'remark']));
  });

  test('is silent in quotes and comments', () => {
    expect(labels('link KQ-1 "a $0"')).toEqual([]);
    expect(labels('# seg$0')).toEqual([]);
  });
});

test('signature help marks the argument that comes next', () => {
  const help = answer(signatureHelp, ask(`${head}link KQ-1 {\n  splice      fusion at $0\n}\n`));
  const signature = help?.signatures[help.activeSignature ?? 0];
  expect(signature?.label).toContain('splice');
  const range = signature?.parameters?.[help?.activeParameter ?? -1]?.label as [number, number];
  expect(signature?.label.slice(...range)).toContain('at');
});
