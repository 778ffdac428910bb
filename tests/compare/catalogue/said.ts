/** Changes of what is accepted, of names, of words, of layout, and what the rules of a plan say of them. */
import { formatText } from '../../../grammar/src/format.ts';
import { changed, file, type Pair, pair, type Swap } from './pair.ts';
import { berth, works } from './plans.ts';

const ruled = (...rules: readonly string[]) =>
  changed(berth, [
    '  drift       0.10 dB\n}',
    `  drift       0.10 dB\n  changes {\n${rules.map((rule) => `    ${rule}\n`).join('')}  }\n}`,
  ]);

/** The readings of the gate, and a second file that something stands in. */
const gate = berth.slice(
  berth.indexOf('readings KQ-OPS-G1 {'),
  berth.indexOf('concession KQ-OPS-B3 {'),
);
const included = '\ninclude "gate.lwl"\n';
const other = `${file('gate.lwl')}colours QUAY-ORDER {\n  fibres      blue, orange\n}\n`;

const blocksOf = (text: string) => text.trimEnd().split(/\n\n/u);
const reversed = (text: string) => {
  const [plan = '', ...others] = blocksOf(text);
  return `${[plan, ...others.reverse()].join('\n\n')}\n`;
};

const tighter: Swap = ['connector   any 0.75 dB', 'connector   any 0.60 dB'];
const looser: Swap = ['connector   any 0.75 dB', 'connector   any 0.90 dB'];
const answeredBy = (name: string): Swap => [
  '  segment     90 m OM4\n',
  `  segment     90 m OM4\n  silence     loss-too-good because "seen by eye" by "${name}" on 2026-03-20\n`,
];

/** One change each, of a plan with one rule for its changes. */
const underRules: readonly Pair[] = (
  [
    ['A margin is left that the rule does not allow', 'margin      1.0 dB', tighter],
    ['A verdict gets worse against the rule', 'no-worse', tighter],
    ['A verdict gets better under the same rule', 'no-worse', looser],
    ['An answer is signed by nobody who may', 'signed      "M. Ashdown"', answeredBy('R. Vale')],
    ['An answer is signed as the rule wants', 'signed      "M. Ashdown"', answeredBy('M. Ashdown')],
    [
      'Limits are touched against the rule',
      'same-limits',
      ['fibre       OM4 850 nm 3.5 dB/km', 'fibre       OM4 850 nm 3.6 dB/km'],
    ],
    ['Evidence is edited against the rule', 'unedited', ['2          2.31 ', '2          2.21 ']],
    [
      'Readings are left to make again against the rule',
      'retested',
      [
        'concession KQ-OPS-B3 {',
        'work KQ-OPS-G1 {\n  done        re-terminated\n  on          2026-04-02\n  fibres      1\n}\n\nconcession KQ-OPS-B3 {',
      ],
    ],
  ] as const
).map(([title, rule, swap]) => pair(title, ruled(rule), swap));

export const said: readonly Pair[] = [
  // ---- basis
  pair('An allowance is tightened, and a pass becomes marginal', berth, [
    'fibre       OM4 850 nm 3.5 dB/km',
    'fibre       OM4 850 nm 2.5 dB/km',
  ]),
  pair('An allowance is loosened, and a concession is not needed', berth, [
    'connector   any 0.75 dB',
    'connector   any 0.90 dB',
  ]),
  pair('Limits are tightened so that readings fail', berth, [
    'connector   any 0.75 dB',
    'connector   any 0.20 dB',
  ]),
  pair('Another edition is in force', berth, ['limits      KQ-OWNER', 'limits      TIA-568.3-E']),
  pair('A second edition is in force beside the first', berth, [
    'limits      KQ-OWNER',
    'limits      KQ-OWNER, ISO-11801-1',
  ]),
  pair('The edition is named otherwise and its figures stay', berth, [
    'clause 7.4, 2026',
    'clause 7.4, 2027',
  ]),
  pair('The policy of test-cord pairs is changed', berth, [
    'policy      counting',
    'policy      reference-grade',
  ]),
  pair('The uncertainty is raised', berth, ['uncertainty 0.05 dB', 'uncertainty 0.30 dB']),
  pair(
    'The decision rule is changed',
    changed(berth, ['uncertainty 0.05 dB', 'uncertainty 0.30 dB']),
    ['  drift       0.10 dB', '  decision    guarded-acceptance\n  drift       0.10 dB'],
  ),
  pair('A margin is wanted', berth, [
    '  drift       0.10 dB',
    '  margin      0.3 dB\n  drift       0.10 dB',
  ]),
  pair('The contract asks for a loss of its own', berth, [
    '  drift       0.10 dB',
    '  require     loss 1.5 dB wavelength 850 nm\n  drift       0.10 dB',
  ]),
  pair('Repairs are kept in reserve', works, [
    'carries     GATE-VIDEO',
    'reserve     repairs 2\n  carries     GATE-VIDEO',
  ]),
  pair('A drift is allowed that was not', berth, ['drift       0.10 dB', 'drift       0.01 dB']),
  // ---- identity
  pair('A measured link has another name', berth, [
    'link KQ-OPS-G1 "Operations room to gate 1" {',
    'link KQ-OPS-GATE "Operations room to gate 1" {\n  was         KQ-OPS-G1',
  ]),
  pair(
    'A link has another name, and its readings with it',
    berth,
    ['link KQ-OPS-G1 "', 'link KQ-OPS-GATE "'],
    ['readings KQ-OPS-G1 {', 'readings KQ-OPS-GATE {'],
  ),
  pair(
    'A cable has another name',
    works,
    ['cable OW-1 {', 'cable OW-2 {'],
    ['segment     OW-1 fibres 1..4', 'segment     OW-2 fibres 1..4'],
    ['segment     OW-1 fibres 5', 'segment     OW-2 fibres 5'],
  ),
  pair('A set-up has another name', berth, ['setup MM-1 {', 'setup MM-2 {\n  was         MM-1']),
  pair(
    'A link of its own becomes a row of a table',
    changed(
      works,
      ['  KQ-C3           140\n', ''],
      [
        'channel GATE-1-CAM {',
        'link KQ-C3 {\n  fibres      1..2\n  connector   LC\n  segment     140 m OM4\n  connector   LC\n  carries     10GBASE-SR\n}\n\nchannel GATE-1-CAM {',
      ],
    ),
    ['  KQ-C2           85\n', '  KQ-C2           85\n  KQ-C3           140\n'],
    [
      'link KQ-C3 {\n  fibres      1..2\n  connector   LC\n  segment     140 m OM4\n  connector   LC\n  carries     10GBASE-SR\n}\n\n',
      '',
    ],
  ),
  pair(
    'One link is parted in two',
    berth,
    [
      'from        OPS/R2/B:01..02\n  to          G1/R1/A:01..02',
      'from        OPS/R2/B:01\n  to          G1/R1/A:01',
    ],
    [
      'setup MM-1 {',
      'link KQ-OPS-G2 "Operations room to gate 1, second" {\n  from        OPS/R2/B:02\n  to          G1/R1/A:02\n  connector   LC\n  segment     90 m OM4\n  connector   LC\n}\n\nsetup MM-1 {',
    ],
  ),
  {
    title: 'Readings move to a file of their own',
    before: `${berth}${included}${other}`,
    after: `${changed(berth, [gate, ''])}${included}${other}\n${gate}`,
  },
  {
    title: 'A file has another name',
    before: `${berth}${included}${other}`,
    after: `${berth}${included}${other}`.replaceAll('gate.lwl', 'gates.lwl'),
  },
  // ---- words
  pair('The title of a link is changed', berth, [
    'link KQ-OPS-G1 "Operations room to gate 1"',
    'link KQ-OPS-G1 "Operations room to the first gate"',
  ]),
  pair('A note is written', berth, [
    '  segment     90 m OM4\n',
    '  segment     90 m OM4\n  note        "behind the second hatch"\n',
  ]),
  pair('The revision is raised', berth, [
    'revision    "A" on 2026-03-01',
    'revision    "B" on 2026-03-25',
  ]),
  pair('A source is given for figures that had another', berth, [
    'table 3" read',
    'table 3, second print" read',
  ]),
  pair('The place of a splice is named otherwise', berth, [
    'closure under ramp 3',
    'closure under ramp 4',
  ]),
  // ---- text
  pair('A comment is changed', berth, [
    '# Operations room to the gate\n',
    '# Operations room to the first gate\n',
  ]),
  { title: 'All declarations stand in another order', before: berth, after: reversed(berth) },
  {
    title: 'All is laid out otherwise',
    before: berth.replaceAll(/ {2,}(?=\S)/gu, '   '),
    after: formatText(berth).text,
  },
  pair('Nothing is changed', berth),
  // ---- rules
  pair('A rule is written', berth, [
    '  drift       0.10 dB\n}',
    '  drift       0.10 dB\n  changes {\n    no-worse\n  }\n}',
  ]),
  ...underRules,
  pair(
    'A rule is taken away with what it forbids',
    ruled('no-worse'),
    ['  changes {\n    no-worse\n  }\n', ''],
    tighter,
  ),
  pair(
    'A rule is made weaker with what it forbids',
    ruled('margin      0.5 dB'),
    ['    margin      0.5 dB', '    margin      0.1 dB'],
    tighter,
  ),
];
