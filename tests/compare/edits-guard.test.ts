/** The guard of evidence: what was recorded is not rewritten, a path that is another one needs work, and how each is answered. */
import { describe, expect, it } from 'vitest';
import { evidenceGuards } from '../../server/src/checks/evidence-guard.ts';
import type { Edit } from '../../server/src/compare/types.ts';
import { kindOfFinding, otherFindings } from '../../server/src/project/finding-pages.ts';
import { edits, said } from './edited.ts';
import { berth, hall } from './edits-plans.ts';

const guards = (all: readonly Edit[]) =>
  all.flatMap(({ guard }) =>
    guard ? [`${guard.finding}${guard.answered ? `: ${guard.answered}` : ''}`] : [],
  );
const changed = (...changes: readonly (readonly [string, string])[]) =>
  edits(berth, said(berth, ...changes));

const altered = ['1                1.12 ', '1                1.02 '] as const;
const longer = ['38 m OM4', '48 m OM4'] as const;

describe('the guard of evidence', () => {
  it('has a page for each of its findings, and each can be answered in words', () => {
    for (const { name } of evidenceGuards) {
      expect(kindOfFinding(name)).toBe('doubt');
      expect(otherFindings.find((page) => page.name === name)?.severity).toBe('error');
    }
  });

  it.each([
    ['a reading is altered', [altered], 'reading-altered'],
    [
      'a reading is gone',
      [['2                1.31 ', '2                -    ']],
      'reading-removed',
    ],
    ['readings have another time', [['09:05 to 09:40', '09:15 to 09:50']], 'reading-altered'],
    ['a reference is altered', [['-20.05', '-20.15']], 'reference-altered'],
    ['a verified loss is altered', [['verified 0.08', 'verified 0.05']], 'reference-altered'],
    [
      'a check is gone',
      [['  checked     2026-03-14 09:45 850 nm -20.06 dBm\n', '']],
      'reference-removed',
    ],
    ['a path is longer', [longer], 'path-changed-without-work'],
    ['a cable is longer', [['142 m', '152 m']], 'path-changed-without-work'],
    [
      'a pair is of another kind',
      [['38 m OM4\n  connector   LC', '38 m OM4\n  connector   SC']],
      'path-changed-without-work',
    ],
    ['an end is another port', [['B3/R1/A:01..12', 'B3/R2/A:01..12']], 'path-changed-without-work'],
  ] as const)('points where %s', (_, changes, finding) => {
    expect(guards(changed(...changes))).toEqual([finding]);
  });

  it.each([
    ['a reading is new', [['1.31        - ', '1.31        1.29 ']]],
    [
      'a reference is new',
      [
        [
          '1300 nm -20.31 dBm\n',
          '1300 nm -20.31 dBm\n  taken       2026-03-14 10:25 850 nm -20.07 dBm\n',
        ],
      ],
    ],
    ['a limit is another', [['850 nm 3.0 dB/km', '850 nm 2.9 dB/km']]],
    [
      'a path is another of which nothing was measured',
      [['SPINE-1:01       23', 'SPINE-1:01       33']],
    ],
    ['the tester is another', [['R. Vale', 'T. Holm']]],
    ['a digit more says the same', [['1.12 ', '1.120']]],
  ] as const)('says nothing where %s', (_, changes) => {
    expect(guards(changed(...changes))).toEqual([]);
  });

  it.each([
    ['is gone', [berth.slice(berth.indexOf('\nwork KQ-1')), ''], 'work-removed'],
    ['was on another day', ['2026-03-14 10:20', '2026-03-13 10:20'], 'work-altered'],
    ['was of other fibres', ['  fibres      3\n  on', '  fibres      2\n  on'], 'work-altered'],
    ['was of all fibres', ['  fibres      3\n  on', '  on'], 'work-altered'],
  ] as const)('points at work that %s now', (_, change, finding) => {
    expect(guards(changed(change))).toEqual([finding]);
    // Work of all fibres that is said to be of one is altered; the other way round work is new, or corrected.
    const back = edits(said(berth, change), berth);
    expect(guards(back)).toEqual(finding === 'work-removed' ? [] : [finding]);
  });

  it('takes who did the work, written later, for no edit', () => {
    const signed = ['10:20\n}', '10:20\n  by          "R. Vale"\n}'] as const;
    expect(guards(changed(signed))).toEqual([]);
  });

  it('says nothing of a reference by which nothing was measured', () => {
    const alone = said(berth, [
      'readings KQ-1 {\n  setup       MM-1',
      'readings KQ-1 {\n  setup       MM-2',
    ]);
    expect(guards(edits(alone, said(alone, ['-20.05', '-20.15'])))).toEqual([]);
  });

  it('says nothing of evidence that goes with its link to another name', () => {
    expect(guards(changed(['KQ-1', 'KQ-9']))).toEqual([]);
    expect(
      guards(
        changed(['link KQ-1 "', 'link KQ-9 "'], ['berth 3" {', 'berth 3" {\n  was         KQ-1']),
      ),
    ).toEqual([]);
  });

  it('points at a path that is another one under another name', () => {
    expect(
      guards(
        changed(
          ['link KQ-1 "', 'link KQ-9 "'],
          ['berth 3" {', 'berth 3" {\n  was         KQ-1'],
          longer,
        ),
      ),
    ).toEqual(['path-changed-without-work']);
  });

  it('points at traces that stand from before', () => {
    expect(guards(edits(hall, said(hall, ['310 m G.652.D', '320 m G.652.D'])))).toEqual([
      'path-changed-without-work',
    ]);
  });

  it('says how many readings stand, and what to do', () => {
    const [one] = changed(longer);
    expect(one?.guard?.message).toBe(
      '15 readings of KQ-1 stand from before the path changed, and no work is recorded. Write work or repair with its day; if the path is as it was, answer in words.',
    );
  });
});

describe('an answer', () => {
  it('is work that is new', () => {
    const work = '\nwork KQ-1 {\n  done        inserted\n  on          2026-04-02\n}\n';
    expect(guards(edits(berth, said(berth, longer) + work))).toEqual([]);
    const elsewhere = work.replace('KQ-1', 'L01-S1');
    expect(guards(edits(berth, said(berth, longer) + elsewhere))).toEqual([
      'path-changed-without-work',
    ]);
  });

  it('is a repair that is new', () => {
    const repair = `length      152 m
  repair REP-1 {
    fibres      3
    at          40 m
    on          2026-05-02
    splice      fusion
    segment     2 m OM4
    splice      fusion
  }`;
    expect(guards(changed(['length      142 m', repair]))).toEqual([]);
  });

  it('is a reading anew of all that was measured', () => {
    const block = berth.slice(berth.indexOf('readings KQ-1'), berth.indexOf('work KQ-1'));
    const again = said(block, ['2026-03-14 09:05 to 09:40', '2026-04-02 09:05 to 09:40']);
    expect(guards(edits(berth, `${said(berth, longer)}\n${again}`))).toEqual([]);
    const some = said(again, [
      '  4              dark        dark        dark         dark         "patched elsewhere?"\n',
      '',
    ]);
    expect(
      edits(berth, `${said(berth, longer)}\n${some}`).find(({ guard }) => guard)?.guard?.message,
    ).toContain('4 readings of KQ-1 stand');
  });

  it.each([
    [
      'the plan',
      [
        '  uncertainty 0.15 dB\n',
        '  uncertainty 0.15 dB\n  silence     reading-altered because "slip of typing"\n',
      ],
      altered,
    ],
    [
      'the evidence itself',
      [
        'readings KQ-1 {\n',
        'readings KQ-1 {\n  silence     reading-altered because "slip of typing"\n',
      ],
      altered,
    ],
    [
      'the link',
      [
        '  carries     10GBASE-SR\n}',
        '  carries     10GBASE-SR\n  silence     reading-altered because "slip of typing"\n}',
      ],
      altered,
    ],
  ] as const)('in words stands in %s', (_, silence, change) => {
    expect(guards(changed(silence, change))).toEqual(['reading-altered: slip of typing']);
  });

  it('in words stands in the set-up', () => {
    const silence = [
      'setup MM-1 {\n',
      'setup MM-1 {\n  silence     reference-altered because "sign was left out"\n',
    ] as const;
    expect(guards(changed(silence, ['-20.05', '-20.15']))).toEqual([
      'reference-altered: sign was left out',
    ]);
  });

  it('of one link is none for others that were changed alike', () => {
    const block = berth.slice(berth.indexOf('link KQ-1'), berth.indexOf('pattern leaf-spine'));
    const read = berth.slice(berth.indexOf('readings KQ-1'), berth.indexOf('work KQ-1'));
    const both = `${berth}\n${said(block, ['KQ-1 ', 'KQ-2 '])}\n${said(read, ['KQ-1', 'KQ-2'])}`;
    const silence = '  silence     path-changed-without-work because "as built" \n';
    const after = said(both, longer).replace(
      '  carries     10GBASE-SR\n}',
      `  carries     10GBASE-SR\n${silence}}`,
    );
    expect(guards(edits(both, after))).toEqual(['path-changed-without-work']);
    const answered = said(said(both, longer), [
      '  connector   LC\n  carries     10GBASE-SR\n}',
      `  connector   LC\n  carries     10GBASE-SR\n${silence}}`,
    ]);
    expect(guards(edits(both, answered))).toEqual(['path-changed-without-work: as built']);
  });

  it.each([
    ['the plan', '  uncertainty 0.15 dB\n'],
    ['the evidence', 'readings KQ-1 {\n'],
    ['the link', 'link KQ-1 "Operations room to berth 3" {\n'],
  ])('of %s that stood before is none for what is altered now', (_, line) => {
    const reason = (because: string) =>
      [line, `${line}  silence     reading-altered because "${because}"\n`] as const;
    const stood = said(berth, reason('slip of January'));
    expect(guards(edits(stood, said(stood, altered)))).toEqual(['reading-altered']);
    const anew = said(berth, reason('slip of March'), altered);
    expect(guards(edits(stood, anew))).toEqual(['reading-altered: slip of March']);
  });

  it('to something else is none', () => {
    const silence = [
      '  uncertainty 0.15 dB\n',
      '  uncertainty 0.15 dB\n  silence     reading-removed because "slip"\n',
    ] as const;
    expect(guards(changed(silence, altered))).toEqual(['reading-altered']);
  });

  it('is the withdrawal of that very reading', () => {
    const withdrawal = (fibre: number) => `
withdraw KQ-1 {
  fibres      ${fibre}
  wavelength  850 nm
  because     "far plug was elsewhere"
  by          "R. Vale" on 2026-03-14
}
`;
    const gone = said(berth, ['2                1.31 ', '2                -    ']);
    expect(guards(edits(berth, gone + withdrawal(2)))).toEqual([
      'reading-removed: withdrawn: far plug was elsewhere',
    ]);
    expect(guards(edits(berth, gone + withdrawal(3)))).toEqual(['reading-removed']);
  });

  it('needs no words to be no contradiction: the plan is accepted with it', () => {
    const silence = [
      '  uncertainty 0.15 dB\n',
      '  uncertainty 0.15 dB\n  silence     path-changed-without-work because "corrected from the drawing"\n',
    ] as const;
    expect(guards(changed(silence, longer))).toEqual([
      'path-changed-without-work: corrected from the drawing',
    ]);
  });
});
