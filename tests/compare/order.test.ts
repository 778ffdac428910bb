/** In what order changes and effects are told, and the figures above them. */
import { describe, expect, it } from 'vitest';
import { compareTwo } from '../support/compare.ts';

const plan = `plan "Kestrel Quay" {
  client      "Harbour board"
  limits      TIA-568.3-E
  measure     850 nm for multimode
  directions  A>B
  reference   one-cord
  uncertainty 0.05 dB
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
}

link KQ-1 {
  fibres      1..2
  connector   LC
  segment     120 m OM4
  connector   LC
}

link KQ-2 {
  fibres      1..2
  connector   LC
  segment     140 m OM4
  connector   LC
}

readings {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns link,  fibre, 850 nm A>B
  KQ-1               1        0.81
  KQ-1               2        0.87
  KQ-2               1        1.62
  KQ-2               2        0.95
}
`;

const told = (...steps: readonly (readonly [string | RegExp, string])[]) =>
  compareTwo(
    plan,
    steps.reduce((text, [from, to]) => text.replace(from, to), plan),
  );

const remark: readonly [string, string] = ['link KQ-1', '# the first\nlink KQ-1'];

describe('the order of changes', () => {
  it('is: what moves a verdict, then by kind, then by the text; layout last', () => {
    const { changes, engineering } = told(
      remark,
      ['"Harbour board"', '"Harbour trust"'],
      ['segment     120 m', 'segment     130 m'],
      ['limits      TIA-568.3-E', 'limits      TIA-568.3-E\n  margin      0.30 dB'],
      ['uncertainty 0.05 dB', 'uncertainty 0.06 dB'],
      ['KQ-2               2        0.95', 'KQ-2               2        2.95'],
    );
    const kinds = changes.map(({ kind, movesVerdict }) => `${kind}${movesVerdict ? '!' : ''}`);
    expect(kinds[0]).toBe('evidence!');
    expect(kinds.at(-1)).toBe('text');
    expect(kinds.filter((kind) => kind === 'text')).toHaveLength(1);
    expect(kinds.indexOf('medium')).toBeGreaterThan(kinds.indexOf('evidence!'));
    expect(kinds.indexOf('words')).toBeGreaterThan(kinds.indexOf('medium'));
    expect(engineering).toBe(kinds.filter((kind) => !['text', 'words'].includes(kind)).length);
  });

  it('of effects below a change is verdicts first, then how far margins move', () => {
    const { changes } = told([
      '  measure     850 nm for multimode',
      '  measure     850 nm for multimode\n  contract    1.40 dB',
    ]);
    const moving = changes.filter(({ effects }) => effects.length > 0);
    for (const { effects } of moving) {
      const verdicts = effects.map((effect) =>
        effect.kind === 'reading' || effect.kind === 'object'
          ? effect.before?.verdict !== effect.after?.verdict
          : false,
      );
      expect(verdicts).toEqual([...verdicts].sort((a, b) => Number(b) - Number(a)));
    }
  });
});

describe('the figures above', () => {
  it('say the worst margin, and which key has it, on both sides', () => {
    const { before, after } = told(['0.95', '1.75']);
    expect(before.summary.worst).toMatchObject({
      object: 'KQ-2',
      margin: 300_000_000_000_000n,
      key: { object: 'KQ-2', fibre: 1, wavelength: 850_000, direction: 'A>B', quantity: 'loss' },
    });
    expect(after.summary.worst).toMatchObject({
      object: 'KQ-2',
      margin: 170_000_000_000_000n,
      key: { fibre: 2 },
    });
    expect(before).toMatchObject({ label: 'before', title: 'Kestrel Quay' });
    expect(before.summary).toMatchObject({ objects: 2, expected: 4, present: 4 });
  });

  it('say how keys went from verdict to verdict, worst first', () => {
    const { matrix } = told(['0.95', '2.95'], ['  KQ-1               2        0.87\n', '']);
    expect(matrix).toEqual([
      { before: 'pass', after: 'fail', count: 1 },
      { before: 'pass', after: 'untested', count: 1 },
      { before: 'pass', after: 'pass', count: 2 },
    ]);
  });

  it('count keys of an object that comes or goes on one side', () => {
    const { matrix } = told([/link KQ-2 \{[^}]*\}\n/u, '']);
    expect(matrix).toEqual([
      { before: 'pass', after: 'pass', count: 2 },
      { before: 'pass', after: 'none', count: 2 },
    ]);
  });
});

describe('readings to make again', () => {
  const because = (...steps: readonly (readonly [string | RegExp, string])[]) =>
    told(...steps).retest.map((one) => `${one.key.object} ${one.key.fibre}: ${one.because}`);

  it('are those that were good and do not count any more, each with its reason', () => {
    expect(because(['  KQ-1               2        0.87\n', ''])).toEqual([
      'KQ-1 2: its reading was taken out of the text',
    ]);
    expect(
      because([/$/u, '\nwork KQ-2 {\n  done        cleaned\n  on          2026-04-01\n}\n']),
    ).toEqual([
      'KQ-2 1: cleaned on 2026-04-01, after it was measured',
      'KQ-2 2: cleaned on 2026-04-01, after it was measured',
    ]);
    expect(
      because([
        /$/u,
        '\nwithdraw KQ-2 {\n  fibres      2\n  because     "wrong port"\n  by          "R. Vale" on 2026-03-15\n}\n',
      ]),
    ).toEqual(['KQ-2 2: withdrawn by R. Vale: wrong port']);
    expect(because(['taken       2026-03-14 08:10', 'taken       2026-03-14 18:10'])).toHaveLength(
      4,
    );
  });

  it('are none where a good reading became a bad one, or was wanted no more', () => {
    expect(because(['0.95', '2.95'])).toEqual([]);
    expect(because([/link KQ-2 \{[^}]*\}\n/u, ''])).toEqual([]);
    expect(because(['directions  A>B', 'directions  both'])).toEqual([]);
  });
});

describe('an object that has another name', () => {
  const renamed: readonly (readonly [RegExp, string])[] = [
    [/link KQ-2 \{/u, 'link KQ-9 {\n  was         KQ-2'],
    [/segment {5}140 m/u, 'segment     150 m'],
  ];

  it('is compared with itself, under the name that it has now', () => {
    const { effects, matrix, before, after } = told(...renamed);
    expect(effects.length).toBeGreaterThan(0);
    for (const effect of effects) {
      expect(effect).toMatchObject({ object: 'KQ-9', formerly: 'KQ-2' });
      expect(effect.before).toBeDefined();
      expect(effect.after).toBeDefined();
      if (effect.kind === 'reading') expect(effect.key.object).toBe('KQ-9');
    }
    expect(matrix.some(({ before: was, after: is }) => was === 'none' || is === 'none')).toBe(
      false,
    );
    expect(before.summary.objects).toBe(after.summary.objects);
  });

  it('is so from the other side too, though the old side alone says it', () => {
    const now = renamed.reduce((text, [from, to]) => text.replace(from, to), plan);
    const { effects } = compareTwo(now, plan);
    expect(effects.length).toBeGreaterThan(0);
    for (const effect of effects) {
      expect(effect).toMatchObject({ object: 'KQ-2', formerly: 'KQ-9' });
    }
  });

  it('stands where the new text has it, and one that is gone behind what it stood behind', () => {
    const { effects } = told(
      [/link KQ-1 \{[^}]*\}\n/u, ''],
      [/segment {5}140 m/u, 'segment     150 m'],
      [
        /$/u,
        '\nlink KQ-3 {\n  fibres      1\n  connector   LC\n  segment     90 m OM4\n  connector   LC\n}\n',
      ],
    );
    expect([...new Set(effects.map(({ object }) => object))]).toEqual(['KQ-1', 'KQ-2', 'KQ-3']);
  });
});
