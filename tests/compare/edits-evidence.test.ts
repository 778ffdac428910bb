/** Evidence said otherwise: a value at the same key and time, gone, new, or under another heading, time or set-up. */
import { describe, expect, it } from 'vitest';
import { edits, said, told } from './edited.ts';
import { berth, hall } from './edits-plans.ts';

type Case = readonly [string, readonly (readonly [string, string])[], readonly string[]];

describe('a reading', () => {
  it.each<Case>([
    [
      'of another value',
      [['1                1.12 ', '1                1.02 ']],
      ['evidence changed: KQ-1 fibre 1, 850 nm A>B: 1.12 dB -> 1.02 dB'],
    ],
    [
      'that was dark and is a value',
      [['4              dark        dark ', '4              2.11        dark ']],
      ['evidence changed: KQ-1 fibre 4, 850 nm A>B: dark -> 2.11 dB'],
    ],
    [
      'gone from its row',
      [['2                1.31 ', '2                -    ']],
      ['evidence gone: KQ-1 fibre 2, 850 nm A>B: 1.31 dB ->'],
    ],
    [
      'typed where none was',
      [['1.31        - ', '1.31        1.29 ']],
      ['readings new: KQ-1 fibre 2, 850 nm B>A: -> 1.29 dB'],
    ],
    [
      'of another time, with all of its block',
      [['09:05 to 09:40', '10:05 to 10:40']],
      [
        'evidence changed: time of readings of KQ-1, 4 fibres at 850 nm, 1300 nm: 2026-03-14 09:05 to 09:40 -> 2026-03-14 10:05 to 10:40 (15)',
      ],
    ],
    [
      'under another set-up',
      [['  setup       MM-1', '  setup       MM-2']],
      [
        'evidence changed: set-up of readings of KQ-1, 4 fibres at 850 nm, 1300 nm: MM-1 -> MM-2 (15)',
      ],
    ],
    [
      'under another heading',
      [['1300 nm A>B, 1300 nm B>A, remark', '1310 nm A>B, 1300 nm B>A, remark']],
      [
        'evidence changed: column of readings of KQ-1, 4 fibres at 1310 nm: loss 1300 nm A>B -> loss 1310 nm A>B (4)',
      ],
    ],
    [
      'of another object',
      [['readings KQ-1 {', 'readings KQ-2 {']],
      [
        'evidence changed: object of readings of KQ-2, 4 fibres at 850 nm, 1300 nm: KQ-1 -> KQ-2 (15)',
      ],
    ],
    [
      'made by somebody else',
      [['R. Vale', 'T. Holm']],
      ['instrument changed: who tested KQ-1, 4 fibres at 850 nm, 1300 nm: R. Vale -> T. Holm (15)'],
    ],
    [
      'of which it is not said what it is any more',
      [['  values      loss in dB\n', '']],
      ['evidence gone: unit of loss of readings of KQ-1: in dB ->'],
    ],
    [
      'with another remark',
      [['patched elsewhere?', 'patched at rack 3']],
      [
        'words changed: remark on KQ-1 fibre 4 at 850 nm, 1300 nm: "patched elsewhere?" -> "patched at rack 3"',
      ],
    ],
  ])('%s', (_, changes, wanted) => {
    expect(told(edits(berth, said(berth, ...changes)))).toEqual(wanted);
  });

  it('is the same wherever its column and row stand, and however its sign is written', () => {
    const turned = said(
      berth,
      ['850 nm A>B, 850 nm B>A,', '850 nm B>A, 850 nm A>B,'],
      ['1.12        1.15', '1.15        1.12'],
      ['1.31        - ', '-           1.31 '],
      ['2.66        2.63', '2.63        2.66'],
    );
    expect(edits(berth, turned)).toMatchObject([{ kind: 'text' }]);
    const signed = said(
      hall,
      ['18.9', '-18.9'],
      ['18.7', '-18.7'],
      ['loss in dB\n  columns end', 'loss in dB sign negative\n  columns end'],
    );
    expect(edits(hall, signed)).toMatchObject([{ kind: 'text' }]);
  });

  it('is the same in two blocks of the same time', () => {
    const rows = '  3                2.66        2.63        1.44         1.41\n';
    const block = berth.slice(
      berth.indexOf('readings KQ-1'),
      berth.indexOf('  1                1.12'),
    );
    const after = said(said(berth, [rows, '']), ['\nwork KQ-1', `\n${block}${rows}}\n\nwork KQ-1`]);
    expect(edits(berth, after)).toMatchObject([{ kind: 'text' }]);
  });

  it('tells its key, its place on both sides, and reaches its object', () => {
    const [one] = edits(berth, said(berth, ['1                1.12 ', '1                1.02 ']));
    expect(one).toMatchObject({
      readings: [
        { object: 'KQ-1', fibre: 1, quantity: 'loss', wavelength: 850_000, direction: 'A>B' },
      ],
      before: { range: { start: { line: 63, character: 19 } } },
      after: { range: { start: { line: 63, character: 19 } } },
      reach: ['KQ-1'],
      count: 1,
    });
  });

  it('of a tree is known by the number of its end', () => {
    const [one] = edits(hall, said(hall, ['18.7', '18.5']));
    expect(one).toMatchObject({
      subject: 'HALL-1 end HALL/KIOSK-02, 1310 nm A>B',
      readings: [{ object: 'HALL-1', fibre: 2 }],
    });
  });

  it('is one of many in a new block, told as one', () => {
    const block = `
readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 10:30 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A, 1300 nm A>B, 1300 nm B>A
  3                2.60        2.57        1.40         1.38
}
`;
    const [one, ...others] = edits(berth, berth + block);
    expect(others).toEqual([]);
    expect(one).toMatchObject({
      kind: 'readings',
      form: 'new',
      subject: 'KQ-1 fibre 3 at 850 nm, 1300 nm',
      now: '4 readings',
      note: 'tested 2026-03-14 10:30 by R. Vale',
      count: 4,
    });
    expect(one?.readings).toHaveLength(4);
    expect(one?.before).toBeUndefined();
  });

  it('is one of many that are altered in one block, told with the span of them', () => {
    const after = said(
      berth,
      ['1.12        1.15        0.84         0.80', '1.02        1.05        0.74         0.70'],
      ['2.66        2.63        1.44         1.41', '2.06        2.03        1.34         1.31'],
    );
    expect(told(edits(berth, after))).toEqual([
      'evidence changed: KQ-1, 2 fibres at 850 nm, 1300 nm: 0.80 dB to 2.66 dB -> 0.70 dB to 2.06 dB (8)',
    ]);
  });
});

describe('a reference', () => {
  it.each<Case>([
    [
      'of another power',
      [['-20.05', '-20.15']],
      [
        'evidence changed: reference at 850 nm of 2026-03-14 08:10 of set-up MM-1: -20.05 dBm -> -20.15 dBm',
      ],
    ],
    [
      'gone',
      [['  taken       2026-03-14 08:10 1300 nm -20.31 dBm\n', '']],
      ['evidence gone: reference at 1300 nm of 2026-03-14 08:10 of set-up MM-1: -20.31 dBm ->'],
    ],
    [
      'that was checked with another power',
      [['-20.06', '-20.16']],
      [
        'evidence changed: drift check at 850 nm of 2026-03-14 09:45 of set-up MM-1: -20.06 dBm -> -20.16 dBm',
      ],
    ],
    [
      'of which a cord was verified with another loss',
      [['verified 0.08', 'verified 0.05']],
      ['evidence changed: verified loss of receive cord TC-2 of set-up MM-1: 0.08 dB -> 0.05 dB'],
    ],
    [
      'taken anew',
      [
        [
          '1300 nm -20.31 dBm\n',
          '1300 nm -20.31 dBm\n  taken       2026-03-14 10:25 850 nm -20.07 dBm\n',
        ],
      ],
      ['method new: reference at 850 nm of 2026-03-14 10:25 of set-up MM-1: -> -20.07 dBm'],
    ],
  ])('%s', (_, changes, wanted) => {
    expect(told(edits(berth, said(berth, ...changes)))).toEqual(wanted);
  });
});

describe('other evidence', () => {
  it.each<Case>([
    [
      'an event that lies elsewhere, in both directions',
      [['4.212', '4.300']],
      [
        'evidence changed: KQ-OSP-N fibre 1, event loss at 1550 nm: splice at 4.212 km -> splice at 4.300 km (2)',
      ],
    ],
    [
      'an event that loses more',
      [['0.14\n', '0.24\n']],
      [
        'evidence changed: KQ-OSP-N fibre 1, event loss of splice at 4.212 km, 1550 nm B>A: 0.14 dB -> 0.24 dB',
      ],
    ],
    [
      'the end of a trace',
      [['  1                4.530   end             -            -\n', '']],
      ['evidence gone: KQ-OSP-N fibre 1, event of end at 4.530 km: end at 4.530 km ->'],
    ],
    [
      'an end face',
      [['2       pass  fail', '2       pass  pass']],
      ['evidence changed: KQ-OSP-N fibre 2, end face B: fail -> pass'],
    ],
    [
      'by what end faces were judged',
      [['"visual requirements"', '"clause 9"']],
      [
        'evidence changed: criterion of inspection of KQ-OSP-N: "visual requirements" -> "clause 9"',
      ],
    ],
  ])('%s', (_, changes, wanted) => {
    expect(told(edits(hall, said(hall, ...changes)))).toEqual(wanted);
  });
});

describe('what was done and decided', () => {
  const withdrawal = `
withdraw KQ-1 {
  fibres      3
  because     "far plug was elsewhere"
  by          "R. Vale" on 2026-03-14
}
`;
  const concession = `
concession KQ-1 {
  fibres      3
  accepted    2.70 dB
  because     "spare fibre"
  by          "M. Ashdown" on 2026-03-20
}
`;

  it('is new, gone, or says something else', () => {
    expect(told(edits(berth, berth + withdrawal))).toEqual([
      'readings new: readings withdrawn of KQ-1: -> fibre 3, "far plug was elsewhere", by "R. Vale" on 2026-03-14',
    ]);
    expect(told(edits(berth, berth + concession))).toEqual([
      'concession new: concession for KQ-1: -> fibre 3, accepted 2.70 dB, "spare fibre", by "M. Ashdown" on 2026-03-20',
    ]);
    expect(
      told(edits(berth + concession, said(berth + concession, ['2.70 dB', '2.80 dB']))),
    ).toEqual(['concession changed: accepted loss of concession for KQ-1: 2.70 dB -> 2.80 dB']);
    const work = berth.slice(berth.indexOf('work KQ-1'));
    expect(told(edits(berth, said(berth, [work, ''])))).toEqual([
      'evidence gone: work on KQ-1: cleaned, fibre 3, on 2026-03-14 10:20 ->',
    ]);
  });

  it('is the same in another order', () => {
    expect(edits(berth + withdrawal + concession, berth + concession + withdrawal)).toMatchObject([
      { kind: 'text' },
    ]);
  });
});
