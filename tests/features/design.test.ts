/** What would make a design hold: each change is judged before it is offered, and brings what it says. */

import { expect, test } from 'vitest';
import { CodeActionKind, CodeActionTriggerKind } from 'vscode-languageserver-protocol';
import { roomOf } from '../../server/src/evaluate/index.ts';
import { codeActions } from '../../server/src/features/code-actions.ts';
import { answer, applyEdits, ask } from '../support/ask.ts';
import { judge, planUri } from '../support/judge.ts';

const plan = `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  reference   one-cord
}
`;

const low = `
connector LC-LOW {
  like        LC
  loss        typ 0.15 dB max 0.35 dB
}
`;

interface Offered {
  readonly title: string;
  readonly kind: string;
  readonly after: Readonly<Record<string, string>>;
}

function offered(marked: string, more: object = {}): readonly Offered[] {
  const asked = ask(marked);
  const context = { diagnostics: diagnosticsOf(asked.text), ...more };
  const range = { start: asked.position, end: asked.position };
  return answer(codeActions, asked, { range, context }).map(({ title, kind, edit }) => ({
    title,
    kind: kind ?? '',
    after: Object.fromEntries(
      Object.entries(edit?.changes ?? {}).map(([uri, edits]) => [
        uri,
        applyEdits(asked.text, edits),
      ]),
    ),
  }));
}

/** What an editor shows of a plan. */
function diagnosticsOf(text: string) {
  const { plan: judged } = judge(text);
  return judged.findings(planUri).map((finding) => ({
    code: finding.name,
    message: finding.message,
    range: judged.locate(finding.place)!.range,
  }));
}

const titles = (all: readonly Offered[]) => all.map(({ title, kind }) => `${kind}: ${title}`);

/** 3.0 × 0.190 + 3 × 0.75 = 2.82 dB of 2.9; with 60 m more 3.0 dB, 0.10 dB too many. */
const crowded = (mark: string) => `${plan}${low}
link KQ-1 {
  fibres      1..2
  connector   LC
  segment     130 m OM4
  connector   LC
  segment     120 m OM4
  connector   LC
  carries     10GBASE${mark}-SR
}
`;

test('an application that loses too much is mended by a splice, a pair fewer, a better pair, or a shorter stretch', () => {
  expect(titles(offered(crowded('$0')))).toEqual([
    'quickfix: Take LC-LOW in place of LC for all 3 pairs: gains 1.20 dB, 1.10 dB left for 10GBASE-SR, 150 m to spare',
    'quickfix: Take one pair LC fewer, the fibre in one piece (line 16): gains 0.75 dB, 0.65 dB left for 10GBASE-SR, 150 m to spare',
    'quickfix: Take MM-GRADE-BM for every LC of the plan: gains 0.45 dB, 0.35 dB left for 10GBASE-SR, 116.66 m to spare',
    'quickfix: Take splice fusion in place of the pair LC in line 16: gains 0.45 dB, 0.35 dB left for 10GBASE-SR, 116.66 m to spare',
    'quickfix: Take LC-LOW in place of LC for the pair in line 14: gains 0.40 dB, 0.30 dB left for 10GBASE-SR, 100 m to spare',
    'quickfix: Take 96 m of the OM4 in line 15: gains 0.102 dB, 0.002 dB left for 10GBASE-SR, 0.66 m to spare',
  ]);
});

test('the edits stand where the line says it, and nothing else is touched', () => {
  const all = offered(crowded('$0'));
  const text = (title: string) =>
    all.find((one) => one.title.includes(title))?.after[planUri] ?? '';
  expect(text('splice fusion')).toBe(
    crowded('').replace('130 m OM4\n  connector   LC', '130 m OM4\n  splice      fusion'),
  );
  expect(text('one pair LC fewer')).toBe(
    crowded('').replace('130 m OM4\n  connector   LC\n  segment     120 m OM4', '250 m OM4'),
  );
  expect(text('for the pair in line')).toBe(
    crowded('').replace('1..2\n  connector   LC', '1..2\n  connector   LC-LOW'),
  );
});

test('a reach that is exceeded is mended by another category or a shorter stretch, no joint helps', () => {
  const text = `${plan}${low}
cable C-101 {
  fibre       OM3
  count       2
  length      320 m
}

link KQ-1 {
  fibres      1..2
  connector   LC
  segment     C-101
  connector   LC
  carries     10GBASE$0-SR
}

link KQ-2 {
  fibres      1..2
  connector   LC
  segment     C-101
  connector   LC
}
`;
  const all = offered(text);
  expect(titles(all).filter((title) => title.startsWith('quickfix'))).toEqual([
    'quickfix: Take OM4 in place of OM3: gains 0.30 dB, 0.44 dB left for 10GBASE-SR, 80 m to spare (changes KQ-2, too)',
    'quickfix: Take OM5 in place of OM3: gains 0.30 dB, 0.44 dB left for 10GBASE-SR, 80 m to spare (changes KQ-2, too)',
    'quickfix: Take 300 m of the cable C-101: gains 0.06 dB, 0.20 dB left for 10GBASE-SR, 0 m to spare (changes KQ-2, too)',
  ]);
  expect(titles(all).join()).not.toContain('LC-LOW');
  expect(all[0]?.after[planUri]).toContain('cable C-101 {\n  fibre       OM4\n');
});

test('nothing is worked out for an editor that asks by itself, after a key', () => {
  const context = { triggerKind: CodeActionTriggerKind.Automatic };
  expect(offered(crowded('$0'), context)).toEqual([]);
});

test('somebody who asks for refactorings at a link that holds is told what it would gain', () => {
  const text = crowded('').replace('120 m', '20 m').replace('KQ-1', 'KQ$0-1');
  const all = titles(offered(text, { only: [CodeActionKind.Refactor], diagnostics: [] }));
  expect(all).toEqual([
    'refactor: Take LC-LOW in place of LC for all 3 pairs: gains 1.20 dB, 1.20 dB left under its limit',
    'refactor: Take MM-GRADE-BM for every LC of the plan: gains 0.45 dB, 0.45 dB left under its limit',
    'refactor: Take LC-LOW in place of LC for the pair in line 14: gains 0.40 dB, 0.40 dB left under its limit',
    'refactor: Take LC-LOW in place of LC for all 3 pairs: gains 1.20 dB, 1.40 dB left for 10GBASE-SR',
    'refactor: Take one pair LC fewer, the fibre in one piece (line 16): gains 0.75 dB, 0.95 dB left for 10GBASE-SR',
    'refactor: Take MM-GRADE-BM for every LC of the plan: gains 0.45 dB, 0.65 dB left for 10GBASE-SR',
    'refactor: Take splice fusion in place of the pair LC in line 16: gains 0.45 dB, 0.65 dB left for 10GBASE-SR',
    'refactor: Take LC-LOW in place of LC for the pair in line 14: gains 0.40 dB, 0.60 dB left for 10GBASE-SR',
  ]);
});

test('where what is carried is the limit that governs, each change is offered once', () => {
  const text = crowded('').replace('KQ-1', 'KQ$0-1');
  const all = titles(offered(text, { only: [CodeActionKind.Refactor], diagnostics: [] }));
  expect(all.length).toBeGreaterThan(2);
  for (const title of all) expect(title).toMatch(/(?:left|short) for 10GBASE-SR/u);
});

test('a line of a pattern says how many links it changes', () => {
  const text = `${plan}${low}
pattern row {
  fibres      1..2
  connector   LC
  segment     <length> OM4
  connector   LC
  segment     20 m OM4
  connector   LC
}

links as row {
  carries     10GBASE$0-SR
  columns link,   length in m
  KQ-1             240
  KQ-2             40
  KQ-3             50
}
`;
  const all = titles(offered(text));
  expect(all).toEqual([
    'quickfix: Take LC-LOW in place of LC for all 3 pairs: gains 1.20 dB, 1.07 dB left for 10GBASE-SR, 140 m to spare (changes 2 others, too)',
    'quickfix: Take splice fusion in place of the pair LC in line 16: gains 0.45 dB, 0.32 dB left for 10GBASE-SR, 106.66 m to spare (changes 2 others, too)',
    'quickfix: Take LC-LOW in place of LC for the pair in line 14: gains 0.40 dB, 0.27 dB left for 10GBASE-SR, 90 m to spare (changes 2 others, too)',
  ]);
  expect(all.join()).not.toContain('fewer');
});

test('light that does not arrive is mended by a shorter path', () => {
  const text = `${plan.replace('850 nm for multimode', '1310 nm')}
link KQ-1 {
  fibres      1..2
  connector   LC
  segment     15 km OS2
  connector   LC
  carries     10GBASE-LR$0 with 10GBASE-LR-PORT
}
`;
  const all = titles(offered(text));
  expect(all.join('\n')).toContain(' km of the OS2 in line');
});

test('a grade of the library is declared for the kind, and holds wherever that is used', () => {
  const text = `${plan.replace('850 nm for multimode', '1310 nm')}
application QUAY-CAMERAS {
  count       1
  wavelength  1310 nm
  fibre       OS2 reach 10 km loss 2 dB
}

# Along the quay wall
link KQ-1 {
  fibres      1
  connector   LC
  segment     2 km OS2
  connector   LC
  carries     QUAY-CAMERAS$0
}

link KQ-2 {
  fibres      1
  connector   LC
  segment     1 km OS2
  connector   LC
}
`;
  const all = offered(text);
  const grade = all.find(({ title }) => title.includes('SM-GRADE-B'));
  expect(grade?.title).toBe(
    'Take SM-GRADE-B for every LC of the plan: gains 1.00 dB, 0.70 dB left for QUAY-CAMERAS, 1.75 km to spare (changes KQ-2, too)',
  );
  expect(grade?.after[planUri]).toContain(
    'QUAY-CAMERAS\n}\n\nconnector LC {\n  like        SM-GRADE-B\n  polish      UPC\n  positions   1\n}\n\nlink KQ-2',
  );
  const [room] = roomOf(judge(grade!.after[planUri]!).plan.tried('KQ-1')!);
  expect(room?.left?.loss).toBe(700_000_000_000_000n);
  expect(titles(all).join()).not.toContain('MM-GRADE');
});

test('where little is left, a change mends it only if enough is left then', () => {
  // 3.0 × 0.380 + 2 × 0.75 = 2.64 dB of 2.9: 0.26 dB left, 0.29 dB is wanted.
  const text = `${plan}${low.replace('0.35 dB', '0.74 dB')}
link KQ-1 {
  fibres      1..2
  connector   LC
  segment     380 m OM4
  connector   LC
  carries     10GBASE$0-SR
}
`;
  const all = titles(offered(text));
  expect(all).toContain(
    'refactor: Take LC-LOW in place of LC for all 2 pairs: gains 0.02 dB, 0.28 dB left for 10GBASE-SR, 3.33 m still too long',
  );
  expect(all).toContain(
    'quickfix: Take 370 m of the OM4 in line 15: gains 0.03 dB, 0.29 dB left for 10GBASE-SR, 30 m to spare',
  );
});
