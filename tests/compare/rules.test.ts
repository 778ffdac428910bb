/** Rules of a plan for its changes, each broken and kept by real plans: what is told, and where. */
import { describe, expect, it } from 'vitest';
import { changed, type Swap } from './catalogue/pair.ts';
import { berth, works } from './catalogue/plans.ts';
import { compared } from './catalogue/told.ts';

/** The plan with a block of rules. */
const ruled = (text: string, ...rules: readonly string[]) =>
  text.replace('{\n', `{\n  changes {\n${rules.map((rule) => `    ${rule}\n`).join('')}  }\n`);

/** What is told where a plan under these rules changes so. */
function broken(rules: readonly string[], text: string, ...swaps: readonly Swap[]) {
  const before = ruled(text, ...rules);
  return compared({ before, after: changed(before, ...swaps) }).breaches;
}

const messages = (breaches: ReturnType<typeof broken>) => breaches.map(({ message }) => message);
const names = (breaches: ReturnType<typeof broken>) => breaches.map(({ rule }) => rule);

describe('the least margin of a change', () => {
  const worse: Swap = [
    'segment     300 m QUAY-SM',
    'segment     300 m QUAY-SM\n  splice      fusion\n  segment     5 m QUAY-SM\n  splice      fusion\n  segment     5 m QUAY-SM',
  ];

  it('is held against a design that loses more', () => {
    // Two splices more of 0.30 dB each against an allowance of 0.20 dB take 0.20 dB of the margin.
    const [found, ...more] = broken(['margin      0.7 dB'], works, worse);
    expect(found?.message).toMatch(
      /^KQ-MOLE: by design at 1310 nm it leaves a margin of 0\.61 dB\. A change has to leave at least 0\.70 dB: /u,
    );
    expect(more).toEqual([]);
    expect(found?.stands.after?.range.start.line).toBe(2);
    expect(found?.at.after?.range.start.line).toBe(
      ruled(works, 'margin      0.7 dB')
        .split('\n')
        .findIndex((line) => line.startsWith('link KQ-MOLE')),
    );
  });

  it('is kept at the margin itself', () => {
    expect(broken(['margin      0.6 dB'], works, worse)).toEqual([]);
  });

  it('does not hold against a change what was below it before and has not come down', () => {
    expect(broken(['margin      0.9 dB'], works, ['spares      20 %', 'spares      10 %'])).toEqual(
      [],
    );
    expect(
      broken(['margin      0.9 dB'], works, ['splice      any 0.20 dB', 'splice      any 0.25 dB']),
    ).toEqual([]);
  });

  it('holds against a first reading what it leaves', () => {
    const open = changed(berth, ['1          0.82         0.85 ', '1          -            0.85 ']);
    const [found] = broken(['margin      1.1 dB'], open, [
      '1          -            0.85 ',
      '1          0.82         0.85 ',
    ]);
    expect(found?.message).toMatch(
      /^KQ-OPS-G1: fibre 1 at 850 nm A>B leaves a margin of 1\.00 dB\. /u,
    );
  });

  it('leaves alone what a concession accepts', () => {
    const rules = ['margin      0.05 dB'];
    const swap: Swap = ['fibre       OM4 850 nm 3.5 dB/km', 'fibre       OM4 850 nm 3.4 dB/km'];
    const concerned = broken(rules, berth, swap).filter(({ message }) =>
      message.includes('fibre 3'),
    );
    expect(concerned).toEqual([]);
  });
});

describe('no verdict worse', () => {
  it('tells a reading that passed and is marginal, once for each object', () => {
    const found = broken(['no-worse'], berth, [
      'connector   any 0.75 dB',
      'connector   any 0.62 dB',
    ]);
    expect(messages(found)).toEqual([
      'KQ-OPS-B3: fibre 2 at 850 nm A>B was pass and is marginal pass now, and so for 1 more of its readings. No verdict may get worse by a change: undo what moves it, or put right what it shows.',
    ]);
    expect(found[0]?.at.after?.path).toBe('plan.lwl');
  });

  it('tells what is invalid now', () => {
    const found = broken(['no-worse'], berth, [
      '  checked     2026-03-14 12:00 850 nm',
      '  disturbed   2026-03-14 11:00\n  checked     2026-03-14 12:00 850 nm',
    ]);
    expect(messages(found)).toEqual([
      'KQ-OPS-G1: fibre 1 at 850 nm A>B was pass and is invalid now, and so for 7 more of its readings. No verdict may get worse by a change: undo what moves it, or put right what it shows.',
    ]);
  });

  it('tells an application that is not supported any more', () => {
    const found = broken(['no-worse'], works, ['KQ-C3           140', 'KQ-C3           440']);
    expect(messages(found)).toEqual([
      'KQ-C3: 10GBASE-SR was supported (by design) and is not any more. No verdict may get worse by a change: undo what moves it, or put right what it shows.',
    ]);
  });

  it('lets a first reading be of any verdict, and a verdict get better', () => {
    const open = changed(berth, ['1          0.82         0.85 ', '1          -            0.85 ']);
    expect(
      broken(['no-worse'], open, [
        '1          -            0.85 ',
        '1          2.82         0.85 ',
      ]),
    ).toEqual([]);
    expect(
      broken(['no-worse'], berth, ['connector   any 0.75 dB', 'connector   any 0.95 dB']),
    ).toEqual([]);
  });
});

describe('signed answers', () => {
  const rules = ['signed      "M. Ashdown", "P. Orme"'];
  const withdrawn = (by: string): Swap => [
    'concession KQ-OPS-B3 {',
    `withdraw KQ-OPS-G1 {\n  fibres      2\n  because     "wrong panel"\n  by          "${by}" on 2026-03-21\n}\n\nconcession KQ-OPS-B3 {`,
  ];

  it('may be of those whom the plan names', () => {
    expect(broken(rules, berth, withdrawn('P. Orme'))).toEqual([]);
  });

  it('are told where somebody else signs, or nobody', () => {
    expect(messages(broken(rules, berth, withdrawn('R. Vale')))).toEqual([
      'The withdrawal of KQ-OPS-G1 is new or says something else, and is signed by R. Vale. It has to be signed by M. Ashdown or P. Orme: let them write it, with their name behind `by`.',
    ]);
    const silenced: Swap = [
      '  segment     90 m OM4\n',
      '  segment     90 m OM4\n  silence     loss-too-good because "seen by eye"\n',
    ];
    expect(messages(broken(rules, berth, silenced))).toEqual([
      'The answer to loss-too-good is new or says something else, and is signed by nobody. It has to be signed by M. Ashdown or P. Orme: let them write it, with their name behind `by`.',
    ]);
  });

  it('are told where an answer that stood says something else under another name', () => {
    expect(
      names(
        broken(rules, berth, [
          'by          "M. Ashdown" on 2026-03-20',
          'by          "R. Vale" on 2026-03-20',
        ]),
      ),
    ).toEqual(['signed']);
    expect(broken(rules, berth, ['accepted    2.75 dB', 'accepted    2.80 dB'])).toEqual([]);
  });

  it('are not asked for again where only layout or comments change, or other lines of their block', () => {
    const old = changed(berth, [
      'by          "M. Ashdown" on 2026-03-20',
      'by          "R. Vale" on 2026-03-20',
    ]);
    expect(broken(rules, old, ['accepted    2.75 dB', 'accepted 2.75 dB  # agreed'])).toEqual([]);
    const silenced = changed(berth, [
      '  segment     90 m OM4\n',
      '  segment     90 m OM4\n  silence     loss-too-good because "seen"\n',
    ]);
    expect(broken(rules, silenced, ['segment     90 m OM4', 'segment     91 m OM4'])).toEqual([]);
  });
});

describe('limits, evidence and retests', () => {
  it('tells each figure of what is accepted that changed', () => {
    const found = broken(
      ['same-limits'],
      berth,
      ['fibre       OM4 850 nm 3.5 dB/km', 'fibre       OM4 850 nm 3.6 dB/km'],
      ['uncertainty 0.05 dB', 'uncertainty 0.04 dB'],
    );
    expect(messages(found)).toEqual([
      'What is accepted changed: uncertainty of the plan was 0.05 dB and is 0.04 dB now. Limits are to stay as they are: put it back, or have the new one agreed first.',
      expect.stringMatching(
        /^What is accepted changed: fibre allowance of OM4 at 850 nm in KQ-OWNER was 3\.5 dB\/km and is 3\.6 dB\/km now\./u,
      ),
    ]);
  });

  it('leaves words, parts and layout alone', () => {
    expect(
      broken(
        ['same-limits'],
        berth,
        ['segment     90 m OM4', 'segment     95 m OM4'],
        ['fibre       OM4 850 nm 3.5 dB/km', 'fibre OM4 850 nm 3.50 dB/km'],
      ),
    ).toEqual([]);
  });

  it('does not take another rule for a limit', () => {
    expect(
      broken(['same-limits', 'margin      0.1 dB'], berth, [
        'margin      0.1 dB',
        'margin      0.2 dB',
      ]),
    ).toEqual([]);
  });

  it('tells evidence that is edited or gone, and what is recorded of work and withdrawals', () => {
    expect(names(broken(['unedited'], berth, ['2          2.31 ', '2          2.21 ']))).toEqual([
      'unedited',
    ]);
    expect(
      names(broken(['unedited'], berth, ['0.82          0.85', '-             0.85'])),
    ).toEqual(['unedited']);
    expect(
      names(
        broken(['unedited'], berth, [
          'on          2026-03-14 10:10',
          'on          2026-03-14 10:15',
        ]),
      ),
    ).toEqual(['unedited']);
  });

  it('takes no answer in words for an edit', () => {
    const answered: Swap = [
      'readings KQ-OPS-B3 {\n  setup       MM-1\n  tested      2026-03-14 09:05',
      'readings KQ-OPS-B3 {\n  silence     reading-altered because "typed wrong"\n  setup       MM-1\n  tested      2026-03-14 09:05',
    ];
    const found = broken(['unedited'], berth, ['2          2.31 ', '2          2.21 '], answered);
    expect(names(found)).toEqual(['unedited']);
  });

  it('lets a withdrawal with its reason and a better reading be added', () => {
    const added =
      'withdraw KQ-OPS-G1 {\n  fibres      2\n  because     "wrong panel"\n  by          "P. Orme"\n}\n\nconcession KQ-OPS-B3 {';
    expect(broken(['unedited'], berth, ['concession KQ-OPS-B3 {', added])).toEqual([]);
  });

  it('tells what is left to make again', () => {
    const work =
      'work KQ-OPS-G1 {\n  done        re-terminated\n  on          2026-04-02\n  fibres      1\n}\n\nconcession KQ-OPS-B3 {';
    expect(messages(broken(['retested'], berth, ['concession KQ-OPS-B3 {', work]))).toEqual([
      expect.stringMatching(
        /^KQ-OPS-G1: 4 readings are to make again, of fibre 1 \(.+\)\. Measure them again in the same change\.$/u,
      ),
    ]);
  });
});

describe('the rules themselves', () => {
  const loosened: Swap = ['connector   any 0.75 dB', 'connector   any 0.62 dB'];

  it('hold against the change that takes them away, and that is told', () => {
    const found = broken(['no-worse'], berth, ['    no-worse\n', ''], loosened);
    expect(messages(found)).toEqual([
      'KQ-OPS-B3: fibre 2 at 850 nm A>B was pass and is marginal pass now, and so for 1 more of its readings. No verdict may get worse by a change: undo what moves it, or put right what it shows.',
      'The rule `no-worse` was taken away, or cannot be read any more. This change is still held against it; put it back, or have its end agreed first.',
    ]);
    expect(found.map(({ stands }) => stands)).toMatchObject([
      { before: { range: { start: { line: 2 } } } },
      { before: { range: { start: { line: 2 } } } },
    ]);
  });

  it('hold as they were against the change that makes them weaker, and that is told', () => {
    const found = broken(
      ['signed      "M. Ashdown"'],
      berth,
      ['signed      "M. Ashdown"', 'signed      "M. Ashdown", "R. Vale"'],
      ['by          "M. Ashdown" on', 'by          "R. Vale" on'],
    );
    expect(messages(found)).toEqual([
      'The concession of KQ-OPS-B3 is new or says something else, and is signed by R. Vale. It has to be signed by M. Ashdown: let them write it, with their name behind `by`.',
      'R. Vale may sign answers from now on. In this change only the names of before count: M. Ashdown.',
    ]);
    expect(
      messages(broken(['margin      0.5 dB'], berth, ['margin      0.5 dB', 'margin      0.1 dB'])),
    ).toEqual([
      'The least margin of a change was 0.50 dB and is 0.10 dB now. This change is still held against 0.50 dB; have the new bound agreed first.',
    ]);
  });

  it('hold from the change on that writes them', () => {
    const after = ruled(changed(berth, loosened), 'no-worse');
    expect(names(compared({ before: berth, after }).breaches)).toEqual(['no-worse']);
  });

  it('are taken away by a line that cannot be read any more', () => {
    expect(
      names(broken(['margin      0.5 dB'], berth, ['margin      0.5 dB', 'margin      wide'])),
    ).toEqual(['margin']);
  });

  it('say nothing where nothing breaks them', () => {
    const rules = [
      'margin      0.5 dB',
      'no-worse',
      'signed      "M. Ashdown"',
      'same-limits',
      'unedited',
      'retested',
    ];
    expect(
      broken(rules, berth, ['# Operations room to the gate', '# Operations room to gate 1']),
    ).toEqual([]);
  });
});
