/** Lines of declarations said otherwise: found again by word and key, a path by its order, rows by their names. */
import { describe, expect, it } from 'vitest';
import { edits, said, told } from './edited.ts';
import { berth, hall } from './edits-plans.ts';

type Case = readonly [string, readonly (readonly [string, string])[], readonly string[]];

const layout = (note: string) => ({ kind: 'text', note: `${note}: no engineering change.` });

describe('what says nothing else', () => {
  it.each<readonly [string, readonly (readonly [string, string])[], string]>([
    ['a comment', [['cable C-101 {', '# the long one\ncable C-101 {']], '1 comment in 1 file'],
    ['another unit of the same length', [['142 m', '0.142 km']], '1 line in 1 file'],
    ['more digits', [['0.15 dB', '0.150 dB']], '1 line in 1 file'],
    [
      'the other spelling of a word',
      [['fibre       OM4\n', 'fiber       OM4\n']],
      '1 line in 1 file',
    ],
    ['a list written out', [['fibres 1..12', 'fibres 1..6, 7..12']], '1 line in 1 file'],
    [
      'a list of which the order says nothing',
      [['850 nm, 1300 nm for', '1300 nm, 850 nm for']],
      '1 line in 1 file',
    ],
    [
      'one line of two names as two lines',
      [
        [
          '  fibre       OM3, OM4 850 nm 3.0 dB/km',
          '  fibre       OM3 850 nm 3.0 dB/km\n  fibre       OM4 850 nm 3.0 dB/km',
        ],
      ],
      '2 lines in 1 file',
    ],
    [
      'lines in another order',
      [
        ['  limits      TIA-568.3-E\n', ''],
        ['  uncertainty 0.15 dB\n', '  uncertainty 0.15 dB\n  limits      TIA-568.3-E\n'],
      ],
      'lines of 1 declaration in another order in 1 file',
    ],
    [
      'rows in another order',
      [
        ['  L01-S1          LEAF-01:49      SPINE-1:01       23\n', ''],
        [
          'SPINE-3:01       24\n',
          'SPINE-3:01       24\n  L01-S1          LEAF-01:49      SPINE-1:01       23\n',
        ],
      ],
      'lines of 1 declaration in another order in 1 file',
    ],
  ])('%s', (_, changes, note) => {
    expect(edits(berth, said(berth, ...changes))).toMatchObject([layout(note)]);
  });

  it('the order of declarations', () => {
    const [plan, ...others] = berth.trimEnd().split('\n\n');
    const turned = `${[plan, ...others.reverse()].join('\n\n')}\n`;
    const [one, ...more] = edits(berth, turned);
    expect(more).toEqual([]);
    expect(one).toMatchObject({ kind: 'text', reach: [] });
    expect(one?.note).toContain('in another order in 1 file: no engineering change.');
  });

  it('an empty line more', () => {
    expect(edits(berth, said(berth, ['\ncable', '\n\ncable']))).toMatchObject([
      layout('empty lines in 1 file'),
    ]);
  });
});

describe('a line', () => {
  it.each<Case>([
    [
      'has another figure',
      [['OM3, OM4 850 nm 3.0', 'OM3, OM4 850 nm 2.9']],
      ['basis changed: fibre allowance of OM3, OM4 at 850 nm in KQ-OWNER: 3.0 dB/km -> 2.9 dB/km'],
    ],
    [
      'says something else of one of its names',
      [
        [
          '  fibre       OM3, OM4 850 nm 3.0 dB/km',
          '  fibre       OM3 850 nm 3.0 dB/km\n  fibre       OM4 850 nm 2.9 dB/km',
        ],
      ],
      ['basis changed: fibre allowance of OM4 at 850 nm in KQ-OWNER: 3.0 dB/km -> 2.9 dB/km'],
    ],
    [
      'is new',
      [['0.15 dB\n', '0.15 dB\n  margin      0.5 dB\n']],
      ['basis new: wanted margin of the plan: -> 0.5 dB'],
    ],
    [
      'is gone',
      [['  directions  both\n', '']],
      ['coverage gone: directions to measure of the plan: both ->'],
    ],
    [
      'cannot be read any more',
      [['  directions  both\n', '  directoins  bothe\n']],
      [
        'coverage gone: directions to measure of the plan: both ->',
        'words new: line that is not read of the plan: -> directoins bothe',
      ],
    ],
    [
      'that may stand several times is found by what it says',
      [
        [
          '  carries     10GBASE-SR\n}',
          '  carries     1000BASE-SX\n  carries     10GBASE-SR with SR-T1\n}',
        ],
      ],
      [
        'application changed: application 10GBASE-SR of KQ-1: 10GBASE-SR -> 10GBASE-SR with SR-T1',
        'application new: application 1000BASE-SX of KQ-1: -> 1000BASE-SX',
      ],
    ],
    [
      'of bounds stands for itself',
      [['0.15 dB\n}', '0.15 dB\n  doubts {\n    outlier     0.25 dB\n  }\n}']],
      ['basis new: bounds of doubts of the plan: -> outlier 0.25 dB'],
    ],
    [
      'that says who calibrated is of the instrument, and one that says the kind of light of the method',
      [
        [
          '"M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12',
          '"M-5" floor -60 dBm calibrated 2026-02-12 due 2027-02-12',
        ],
        ['"S-3" LED', '"S-3" laser'],
      ],
      [
        'method changed: source of set-up MM-1: LED -> laser',
        'instrument changed: meter of set-up MM-1: calibrated 2026-01-12 due 2027-01-12 -> calibrated 2026-02-12 due 2027-02-12',
      ],
    ],
    [
      'of a title',
      [['to berth 3" {', 'to berth 4" {']],
      [
        'words changed: title of KQ-1: "Operations room to berth 3" -> "Operations room to berth 4"',
      ],
    ],
  ])('%s', (_, changes, wanted) => {
    expect(told(edits(berth, said(berth, ...changes)))).toEqual(wanted);
  });
});

describe('a path', () => {
  it.each<Case>([
    [
      'has a longer piece',
      [['38 m OM4', '48 m OM4']],
      ['medium changed: length of segment 2 of KQ-1: 38 m -> 48 m'],
    ],
    [
      'takes other fibres of its cable',
      [['C-101 fibres 1..12', 'C-101 fibres 13..24']],
      ['connection changed: fibres of segment 1 of KQ-1: 1..12 -> 13..24'],
    ],
    [
      'has two pairs where it had a splice',
      [['  splice      fusion at "closure under ramp 3"', '  connector   LC\n  connector   LC']],
      [
        'joints gone: splice of KQ-1: fusion at "closure under ramp 3" ->',
        'joints new: connectors of KQ-1: -> 2 x LC (2)',
      ],
    ],
    [
      'has connectors of another kind, told once',
      [
        ['  connector   LC\n  segment     C-101', '  connector   SC\n  segment     C-101'],
        ['38 m OM4\n  connector   LC', '38 m OM4\n  connector   SC'],
      ],
      ['joints changed: connectors of KQ-1: 2 x LC -> 2 x SC (2)'],
    ],
    [
      'has the same in another order',
      [
        ['  splice      fusion at "closure under ramp 3"\n', ''],
        ['38 m OM4\n', '38 m OM4\n  splice      fusion at "closure under ramp 3"\n'],
      ],
      [
        'connection moved: place of splice fusion at "closure under ramp 3" in the path of KQ-1: 3 of 5 -> 4 of 5',
      ],
    ],
    [
      'is of a pattern, for all that are made with it',
      [['<length> OM4', '<length> OM3']],
      ['shared changed: fibre of segment of pattern leaf-spine: OM4 -> OM3'],
    ],
  ])('%s', (_, changes, wanted) => {
    expect(told(edits(berth, said(berth, ...changes)))).toEqual(wanted);
  });

  it.each<Case>([
    [
      'of a tree has another splitter',
      [['PLC-1x8', 'PLC-1x16']],
      [
        'medium changed: splitter of split SP-2 of output 1 of split SP-1 of HALL-1: PLC-1x8 -> PLC-1x16',
      ],
    ],
    [
      'of some outputs is longer',
      [['length 60 m', 'length 70 m']],
      [
        'medium changed: length of outputs 1..8 of split SP-2 of output 1 of split SP-1 of HALL-1: 60 m -> 70 m',
      ],
    ],
    [
      'of one of several outputs is told apart',
      [
        [
          '    out         2..4 spare',
          '    out         2 to HALL/X as kiosk-drop length 3 m\n    out         3..4 spare',
        ],
      ],
      [
        'connection changed: output 2 of split SP-1 of HALL-1: spare -> to HALL/X as kiosk-drop length 3 m',
      ],
    ],
    [
      'of a channel has its cord straight',
      [['2 m G.657.A1 crossed', '2 m G.657.A1 straight']],
      ['connection changed: crossing of cord 1 of CAM: crossed -> straight'],
    ],
    [
      'of a cable has a longer reel',
      [['4185 m', '4285 m']],
      ['medium changed: length of reel R-02 of cable OSP-1: 4185 m -> 4285 m'],
    ],
  ])('%s', (_, changes, wanted) => {
    expect(told(edits(hall, said(hall, ...changes)))).toEqual(wanted);
  });
});

describe('a row', () => {
  it('has another length, and reaches itself alone', () => {
    const [one, ...others] = edits(
      berth,
      said(berth, ['SPINE-1:01       23', 'SPINE-1:01       33']),
    );
    expect(others).toEqual([]);
    expect(one).toMatchObject({
      kind: 'medium',
      subject: 'length of L01-S1',
      was: '23 m',
      now: '33 m',
      reach: ['L01-S1'],
      before: { path: 'plan.lwl', range: { start: { line: 41 } } },
    });
  });

  it('that says the same as others is told with them', () => {
    const after = said(
      berth,
      ['SPINE-2:01       24', 'SPINE-2:01       34'],
      ['SPINE-3:01       24', 'SPINE-3:01       34'],
    );
    const all = edits(berth, after);
    expect(told(all)).toEqual([
      'medium changed: length of 2, L01-S2 to L01-S3 in links "Leaf to spine": 24 m -> 34 m (2)',
    ]);
    expect(all[0]?.reach).toEqual(['L01-S2', 'L01-S3']);
  });

  it('is new with others', () => {
    const rows =
      '  L01-S4          LEAF-01:52      SPINE-4:01       24\n  L01-S5          LEAF-01:53      SPINE-5:01       24\n';
    const all = edits(berth, said(berth, ['  L01-S2', `${rows}  L01-S2`]));
    expect(told(all)).toEqual([
      'connection new: 2 links, L01-S4 to L01-S5 in links "Leaf to spine" (2)',
    ]);
  });

  it('says in a column what its table said for all', () => {
    const after = said(
      berth,
      ['  carries     10GBASE-SR\n  columns', '  columns'],
      ['length in m\n', 'length in m, carries\n'],
      ['SPINE-1:01       23', 'SPINE-1:01       23   10GBASE-SR'],
      ['SPINE-2:01       24', 'SPINE-2:01       24   10GBASE-SR'],
      ['SPINE-3:01       24', 'SPINE-3:01       24   25GBASE-SR'],
    );
    expect(told(edits(berth, after))).toEqual([
      'application changed: application of L01-S3: 10GBASE-SR -> 25GBASE-SR',
    ]);
  });
});

describe('what is changed alike in several links', () => {
  const link = (name: string, kind: string) =>
    `\nlink ${name} {\n  from        OPS/${name}:1\n  to          GATE/${name}:1\n  connector   ${kind}\n  segment     20 m OM4\n  connector   LC\n}\n`;
  const with3 = (kinds: readonly string[]) =>
    berth + kinds.map((kind, index) => link(`KQ-2${index}`, kind)).join('');

  it('is one edit, with all of them in its reach and each place of it', () => {
    const all = edits(with3(['LC', 'LC', 'LC']), with3(['SC', 'SC', 'SC']));
    expect(told(all)).toEqual([
      'joints changed: kind of connector 1 of 3 links, KQ-20 to KQ-22: LC -> SC (3)',
    ]);
    const [{ reach, before, after, elsewhere } = {}] = all;
    expect(reach?.toSorted()).toEqual(['KQ-20', 'KQ-21', 'KQ-22']);
    const lines = [{ before, after }, ...(elsewhere ?? [])].map((place) => [
      place.before?.range.start.line,
      place.after?.range.start.line,
    ]);
    const first = berth.split('\n').length + 3;
    expect(lines).toEqual([0, 8, 16].map((at) => [first + at, first + at]));
  });

  it('leaves those apart that say something else', () => {
    const all = edits(with3(['LC', 'LC', 'LC']), with3(['SC', 'ST', 'SC']));
    expect(told(all)).toEqual([
      'joints changed: kind of connector 1 of 2 links, KQ-20 and KQ-22: LC -> SC (2)',
      'joints changed: kind of connector 1 of KQ-21: LC -> ST',
    ]);
  });
});

describe('what all rows share', () => {
  it('is one edit with all of them in its reach', () => {
    const after = said(berth, [
      '  carries     10GBASE-SR\n  columns',
      '  carries     25GBASE-SR\n  columns',
    ]);
    const [one, ...others] = edits(berth, after);
    expect(others).toEqual([]);
    expect(one).toMatchObject({
      kind: 'application',
      count: 1,
      reach: ['L01-S1', 'L01-S2', 'L01-S3'],
    });
  });
});
