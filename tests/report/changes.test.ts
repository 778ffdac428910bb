/** A comparison as a page says it: folded, counted, on one scale, with its places and its words. */
import { describe, expect, test } from 'vitest';
import { type ExactDb, exactDb, microDb } from '../../grammar/src/quantity/index.ts';
import { sentence } from '../../server/src/cli/formats/changes/told.ts';
import { compareTexts } from '../../server/src/compare/index.ts';
import { verdicts } from '../../server/src/evaluate/result.ts';
import { parseInstant } from '../../server/src/project/instant.ts';
import { changesOf } from '../../server/src/report/changes/index.ts';
import { marginsApart, moveOf } from '../../server/src/report/changes/moves.ts';
import { plainDisplay } from '../../server/src/report/figures.ts';

const plan = `plan "Kestrel Quay" {
  limits      TIA-568.3-D
  measure     850 nm, 1300 nm for multimode
  directions  both
  reference   one-cord
  uncertainty 0.10 dB
}

link KQ-OPS-B1 "Operations room to berth 1" {
  fibres      1..12
  connector   LC
  segment     90 m OM4
  connector   LC
}

link KQ-OPS-B2 {
  fibres      1..2
  connector   LC
  segment     60 m OM4
  connector   LC
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED
  meter       "M-5"
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.07 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
  taken       2026-03-14 08:12 1300 nm -20.31 dBm
}

readings KQ-OPS-B1 {
  setup       MM-1
  tested      2026-03-14 09:05 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A, 1300 nm A>B, 1300 nm B>A
${Array.from({ length: 12 }, (_, index) => `  ${index + 1}  0.9${index % 10}  0.95  0.71  0.72`).join('\n')}
}
`;

function changed(
  edit: (text: string) => string,
  { root = 'file:///site/plans/terminal.lwl', before = plan } = {},
) {
  const [one] = compareTexts({
    before: { label: 'main', files: [{ path: 'terminal.lwl', text: before }] },
    after: { label: 'as it is', files: [{ path: 'terminal.lwl', text: edit(before) }] },
    asOf: parseInstant('2026-06-01 12:00')!,
  });
  return changesOf({ comparison: one!.comparison, display: plainDisplay, now: one!.after!, root });
}

const said = (pieces: readonly { readonly text: string }[]) =>
  pieces.map(({ text }) => text).join('');

describe('a plan that is as it was', () => {
  test('has nothing to say', () => {
    const view = changed((text) => text);
    expect(view.counted).toBe('no engineering change');
    expect(view.changes).toEqual([]);
    expect(view.asks).toEqual([]);
    expect(view.sentences.map(said)[0]).toBe('No verdict changes.');
    for (const { cells } of view.matrix!.rows) {
      for (const { same, count } of cells) if (!same) expect(count).toBe(0);
    }
  });

  test('in other lines is text only, and last', () => {
    const view = changed((text) => `# A word more.\n${text.replace('0.95  0.71', '0.96  0.71')}`);
    expect(view.changes.at(-1)?.label).toBe('text only');
    expect(view.counted).toBe('1 engineering change');
  });
});

describe('a reading that was edited', () => {
  const view = changed((text) => text.replace('9  0.98  0.95', '9  2.03  0.95'));
  const [change] = view.changes;

  test('says was and now, and asks for an answer first', () => {
    expect(change).toMatchObject({
      number: 1,
      label: 'evidence edited in place',
      alarming: true,
      was: '0.98 dB',
      now: '2.03 dB',
    });
    expect(view.asks).toMatchObject([{ name: 'reading-altered', change: 1 }]);
  });

  test('has its margin on both sides, and the mark of its direction', () => {
    expect(change?.effects[0]).toMatchObject({
      object: 'KQ-OPS-B1',
      fibres: '9',
      what: '850 nm A>B',
      before: 'pass',
      after: 'fail',
      moved: true,
      side: 'up',
    });
    const [effect] = change!.effects;
    expect(effect!.was!.margin - effect!.now!.margin).toBeCloseTo(1.05, 9);
    expect(effect!.spoken).toMatch(
      /^KQ-OPS-B1 fibre 9, 850 nm A>B, pass to fail, margin was \+\d\.\d\d, now −\d\.\d\d$/u,
    );
  });

  test('leads to its cell in both states', () => {
    const line = plan.split('\n').findIndex((each) => each.startsWith('  9  0.98')) + 1;
    expect(change?.places).toMatchObject([
      { side: 'now', label: `terminal.lwl, line ${line}` },
      { side: 'was', label: `terminal.lwl, line ${line} before` },
    ]);
    expect(change?.places[0]?.at?.uri).toBe('file:///site/plans/terminal.lwl');
    expect(change?.places[0]?.at?.range.start.line).toBe(line - 1);
  });

  test('is counted in one sentence and in the matrix', () => {
    expect(said(view.sentences[0]!)).toBe('1 of 56 readings change verdict: 1 worse.');
    const pass = view.matrix?.rows.find(({ before }) => before === 'pass');
    expect(pass?.cells.find(({ after }) => after === 'fail')?.count).toBe(1);
    expect(view.matrix?.total).toBe(56);
    for (const row of view.matrix!.rows) {
      expect(row.cells.reduce((sum, { count }) => sum + count, 0)).toBe(row.total);
    }
  });
});

test('an object that a new doubt keeps from being accepted says which', () => {
  const readings = plan.slice(plan.indexOf('readings KQ-OPS-B1'));
  const second = readings
    .replace('KQ-OPS-B1', 'KQ-OPS-B2')
    .replaceAll(/^ {2}(?:[3-9]|1\d) {2}.*\n/gmu, '');
  const before = `${plan}\n${second}`
    .replaceAll('fibres      1..12', 'fibres      1..2')
    .replace(readings, readings.replaceAll(/^ {2}(?:[3-9]|1\d) {2}.*\n/gmu, ''));
  const view = changed((text) => text.replace('TC-1 launch LC', 'TC-1 launch SC'), { before });
  expect(
    view.changes.flatMap(({ effects }) => effects.map(({ object, what }) => [object, what])),
  ).toEqual(
    ['KQ-OPS-B1', 'KQ-OPS-B2'].map((object) => [
      object,
      'not accepted any more before cord-connector-mismatch is answered',
    ]),
  );
});

describe('one figure of many readings', () => {
  const view = changed((text) => text.replace('segment     90 m OM4', 'segment     250 m OM4'));
  const length = view.changes.find(({ subject }) => /length/u.test(subject));

  test('is a row an object and verdict, never a row a reading', () => {
    expect(length?.was).toBe('90 m');
    expect(length?.now).toBe('250 m');
    const readings = length!.effects.reduce((sum, row) => sum + row.readings, 0);
    expect(readings).toBe(48);
    expect(length!.effects.length).toBeLessThanOrEqual(4);
    expect(length!.effects.map(({ fibres }) => fibres)).toContain('1..12');
  });

  test('stands on one scale that holds what they were and what they are', () => {
    for (const { was, now } of length!.effects) {
      for (const each of [was, now]) expect(each!.margin).toBeLessThanOrEqual(view.scale.reach);
    }
  });

  test('shows the worst of them', () => {
    const [row] = length!.effects;
    expect(row?.what).toMatch(/^worst of \d+, \d+ nm [AB]>[AB]$/u);
  });
});

describe('a note beside a sentence', () => {
  test('is a sentence of its own', () => {
    const view = changed((text) => text.replace(/^readings KQ-OPS-B1 \{[^}]*\}\n/mu, ''));
    const gone = view.changes.find(({ label }) => label === 'evidence gone');
    expect(sentence(gone!)).toMatch(/\. Tested 2026-03-14 \d\d:\d\d/u);
  });
});

describe('many objects of one cause', () => {
  const many = (count: number) =>
    `${plan}\npattern drop {\n  connector LC\n  segment <length> OM4\n  connector LC\n}\n\nlinks "Drops" as drop {\n  fibres 1..2\n  columns link, length in m\n${Array.from({ length: count }, (_, index) => `  KQ-D${index + 1}  ${20 + index}`).join('\n')}\n}\n`;
  const view = changed(
    (text) =>
      text.replace(
        'connector LC\n  segment <length>',
        'connector LC\n  splice fusion\n  segment <length>',
      ),
    { before: many(40) },
  );
  const change = view.changes.find(({ effects }) => effects.length > 5);

  test('show five effects, and say how many more', () => {
    expect(change?.shown).toBe(5);
    expect(change?.effects.length).toBe(40);
    expect(change?.rest).toBe('35 more effects, no verdict changes');
    expect(change?.left).toBe(0);
    expect(change?.notes).toContain('Reaches 40 objects.');
  });

  test('say of a loss that grows with its limit that the margin stays', () => {
    const [row] = change!.effects;
    expect(row?.words).toBe('by design, margin 0.00 stays');
    const [, was, now] = /worst loss ([\d.]+), now ([\d.]+) dB$/u.exec(row!.what)!;
    // TIA-568.3-D allows 0.3 dB a splice.
    expect(Number(now) - Number(was)).toBeCloseTo(0.3, 6);
  });
});

describe('readings that are gone', () => {
  const view = changed((text) => text.slice(0, text.indexOf('readings KQ-OPS-B1')));

  test('are to be made again, each object once', () => {
    expect(view.repeat).toBe(48);
    expect(view.retest).toMatchObject([{ object: 'KQ-OPS-B1', fibres: '1..12', readings: 48 }]);
    expect(said(view.sentences[0]!)).toBe(
      '48 of 56 readings change verdict: 48 no longer count and must be made again.',
    );
  });
});

describe('words', () => {
  const db = (value: number): ExactDb => exactDb(microDb(Math.round(value * 1e6)));

  test('two margins that differ never read alike', () => {
    expect(marginsApart(db(0.501), db(0.504), 2)).toEqual(['+0.501', '+0.504']);
    expect(marginsApart(db(-0.18), db(-0.27), 2)).toEqual(['−0.18', '−0.27']);
    expect(marginsApart(db(0.5), db(0.5), 2)).toEqual(['+0.50', '+0.50']);
    expect(marginsApart(undefined, db(1.02), 2)).toEqual(['none', '+1.02']);
  });

  test('a verdict moves one way, and the other way back', () => {
    const opposite = { better: 'worse', worse: 'better', same: 'same', new: 'gone', gone: 'new' };
    for (const before of [...verdicts, 'none'] as const) {
      expect(moveOf(before, before)).toBe('same');
      for (const after of [...verdicts, 'none'] as const) {
        const [there, back] = [moveOf(before, after), moveOf(after, before)];
        if (there !== 'again' && back !== 'again') expect(back).toBe(opposite[there]);
      }
    }
    expect(moveOf('pass', 'untested')).toBe('again');
    expect(moveOf('invalid', 'pass')).toBe('better');
    expect(moveOf('untested', 'fail')).toBe('worse');
  });

  test('a plan without an editor around it leads nowhere', () => {
    const view = changed((text) => text.replace('9  0.98', '9  2.03'), { root: '' });
    expect(view.changes[0]?.places.map(({ at }) => at)).toEqual([undefined, undefined]);
    expect(view.changes[0]?.places[0]?.label).toMatch(/^terminal\.lwl, line \d+$/u);
  });
});
