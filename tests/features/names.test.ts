import { describe, expect, test } from 'vitest';
import { definition } from '../../server/src/features/definition.ts';
import { documentHighlight } from '../../server/src/features/document-highlight.ts';
import { references } from '../../server/src/features/references.ts';
import { prepareRename, rename } from '../../server/src/features/rename.ts';
import { answer, applyEdits, ask, textIn } from '../support/ask.ts';

const plan = (link: string, use: string) => `plan "Names" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  reference   one-cord
}

link ${link} {
  fibres      1
  connector   LC
  segment     90 m OM4
  connector   LC
}

setup MM-1 {
  reference   one-cord
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
}

readings ${use} {
  setup       MM-1
  tested      2026-03-14 09:05 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1  0.52
}
`;

describe('definition', () => {
  test('goes from evidence to the link it is about', () => {
    const asked = ask(plan('KQ-1', 'KQ$0-1'));
    const [target] = answer(definition, asked) ?? [];
    expect(target && textIn(asked.text, target.targetSelectionRange)).toBe('KQ-1');
    expect(target?.targetSelectionRange.start.line).toBe(6);
  });

  test('goes from a proof of a cord to the line of the set-up that has it', () => {
    const proved = plan('KQ-1', 'KQ-1').replace(
      '  taken',
      '  verified    2026-03-14 10:00 TC$0-2 0.07 dB\n  taken',
    );
    const asked = ask(proved);
    const [target] = answer(definition, asked) ?? [];
    expect(target && asked.text.split('\n')[target.targetSelectionRange.start.line]).toContain(
      'cord        TC-2 receive',
    );
  });

  test('goes to the library, read-only, for its names', () => {
    const asked = ask(plan('KQ-1', 'KQ-1').replace('90 m OM4', '90 m OM$04'));
    const [target] = answer(definition, asked) ?? [];
    expect(target?.targetUri).toMatch(/^linkwright-library:.*fibres\.lwl$/u);
    expect(
      asked.session.project.libraryText(target?.targetUri ?? '')?.split('\n')[
        target?.targetRange.start.line ?? -1
      ],
    ).toBe('fibre OM4 {');
  });
});

test('references are the declaration and every use', () => {
  const asked = ask(plan('KQ$0-1', 'KQ-1'));
  const lines = (answer(references, asked, { context: { includeDeclaration: true } }) ?? []).map(
    ({ range }) => range.start.line,
  );
  expect(lines).toEqual([6, 20]);
});

test('highlights stay in the file', () => {
  const asked = ask(plan('KQ-1', 'KQ$0-1'));
  expect(
    (answer(documentHighlight, asked) ?? []).map(({ range }) => textIn(asked.text, range)),
  ).toEqual(['KQ-1', 'KQ-1']);
});

describe('rename', () => {
  test('changes declaration and evidence, and nothing else', () => {
    const asked = ask(plan('KQ-1', 'KQ$0-1'));
    expect(answer(prepareRename, asked)?.placeholder).toBe('KQ-1');
    const edit = answer(rename, asked, { newName: 'KQ-7' });
    expect(applyEdits(asked.text, edit?.changes?.[asked.uri] ?? [])).toBe(plan('KQ-7', 'KQ-7'));
  });

  test('quotes a name that cannot stand bare', () => {
    const asked = ask(plan('KQ-1', 'KQ$0-1'));
    const edit = answer(rename, asked, { newName: 'north gate' });
    expect(applyEdits(asked.text, edit?.changes?.[asked.uri] ?? [])).toBe(
      plan('"north gate"', '"north gate"'),
    );
  });

  test('refuses what stands in the library, and a name that is taken', () => {
    expect(
      answer(prepareRename, ask(plan('KQ-1', 'KQ-1').replace('90 m OM4', '90 m OM$04'))),
    ).toBeNull();
    const two = `${plan('KQ-1', 'KQ$0-1')}\nlink KQ-2 {\n  fibres      1\n  connector   LC\n  segment     9 m OM4\n  connector   LC\n}\n`;
    expect(() => answer(rename, ask(two), { newName: 'KQ-2' })).toThrow('KQ-2 is taken');
  });
});
