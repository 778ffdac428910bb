/** Each finding about names and structure: where it fires, what it says, and where it stays silent. */
import { describe, expect, test } from 'vitest';
import {
  cableUse,
  checkCableFibres,
  checkDuplicates,
  checkShadowing,
  findingNames,
} from '../../server/src/model/api.ts';
import { cableCases } from './cases-cables.ts';
import { treeCases } from './cases-trees.ts';
import { planOf } from './plan.ts';

interface Case {
  readonly name: string;
  /** The text; `^…^` marks where the finding stands. */
  readonly text: string;
  readonly says: string;
}

const fibres = 'fibres      1..2';
const path = 'connector   LC\n  segment     60 m OM4\n  connector   LC';
const link = (entries: string, name = 'KQ-1') => `link ${name} {\n  ${entries}\n}\n`;
const mux =
  'component MUX {\n  loss        port 1531 max 1.4 dB\n  loss        port 1551 max 1.2 dB\n}\n';

const events = (rows: string, tested = 'tested      2026-03-14') =>
  `${link(`${fibres}\n  ${path}`)}setup OT {\n  otdr        "T"\n}\nevents KQ-1 {\n  setup       OT\n  ${tested}\n  values      loss in dB\n  columns fibre,  at in m,  kind,  1310 nm A>B\n  ${rows}\n}\n`;
const tree = `link T-1 {\n  from        A:01\n  connector   LC\n  segment     60 m OS2\n  splice      fusion\n  split SP SPLIT {\n    out         1..2 to HALL/01..02 as drop\n  }\n}\npattern drop {\n  splice      fusion\n  segment     20 m OS2\n  connector   LC\n}\nsplitter SPLIT {\n  ports       1:2\n}\n`;

const cases: readonly Case[] = [
  {
    name: 'unknown-reference',
    text: link(`${fibres}\n  connector   LC\n  segment     60 m ^OM44^\n  connector   LC`),
    says: 'There is no fibre OM44 in this plan or the library. Did you mean OM4?',
  },
  {
    name: 'share-unusable',
    text: 'connector PAIR {\n  loss        typ 0.25 dB\n  share       50 % 0.35 dB\n  ^share       95 % 0.30 dB^\n}\n',
    says: 'From the share of 95 % no spread of losses follows: a smaller share loses more than it. Correct one of the two.',
  },
  {
    name: 'share-unusable',
    text: 'connector PAIR {\n  loss        typ 0.25 dB\n  share       50 % 0.35 dB\n  ^share       95 % 0.50 dB^\n}\n',
    says: 'From the share of 95 % no spread of losses follows: nothing says what the rest lose. Add a share of 100 % with the greatest loss.',
  },
  {
    name: 'share-unusable',
    text: 'connector PAIR {\n  loss        max 0.75 dB\n  ^share       97 % 0.50 dB^\n}\n',
    says: 'From the share of 97 % no spread of losses follows: alone it needs a mean. Write typ in loss, or shares up to 100 %.',
  },
  {
    name: 'share-unusable',
    text: 'connector PAIR {\n  loss        typ 0.25 dB\n  ^share       97 % 0.20 dB^\n}\n',
    says: 'From the share of 97 % no spread of losses follows: no gamma distribution has it and the mean that typ gives. Write shares up to 100 %.',
  },
  {
    name: 'unknown-reference',
    text: `${link(`${fibres}\n  ${path}`)}work ^KQ-2^ {\n  done        cleaned\n  on          2026-03-14\n}\n`,
    says: 'There is no link, channel, ring or cable KQ-2 in this plan or the library. Did you mean KQ-1?',
  },
  {
    name: 'unknown-reference',
    text: 'setup S {\n  cord        TC-1 launch LC OM4\n  verified    2026-03-14 ^TC-2^ 0.1 dB\n}\n',
    says: 'There is no cord TC-2 in this plan or the library. Did you mean TC-1?',
  },
  {
    name: 'unknown-reference',
    text: 'fibre X {\n  like        ^Unheard-of^\n}\n',
    says: 'There is no fibre Unheard-of in this plan or the library. Declare it, or correct the name.',
  },
  {
    name: 'unknown-reference',
    text: 'plan "P" {\n  limits      ^No-such-edition^\n}\n',
    says: 'There is no set of limits No-such-edition in this plan or the library. Declare it, or correct the name.',
  },
  {
    name: 'wrong-kind',
    text: `cable C-1 {\n  fibre       OM4\n  count       12\n  length      5 m\n}\nchannel X {\n  cord        1 m OM4 straight\n  link        ^C-1^ fibres 1..2\n}\n`,
    says: 'C-1 is a cable, and a link is wanted here. Name a link.',
  },
  {
    name: 'like-cycle',
    text: 'limits A {\n  like        ^B^\n}\nlimits B {\n  like        C\n}\nlimits C {\n  like        A\n}\n',
    says: 'A takes after itself: A like B like C like A. Let one of them stand for itself.',
  },
  {
    name: 'like-cycle',
    text: 'fibre X {\n  like        ^X^\n}\n',
    says: 'X takes after itself: X like X. Let one of them stand for itself.',
  },
  {
    name: 'pattern-cycle',
    text: 'pattern p {\n  connector   LC\n  as          q\n}\npattern q {\n  ^as          p^\n}\n',
    says: 'The pattern p contains itself: p as q as p. Take one of the two uses out.',
  },
  {
    name: 'hole-unfilled',
    text: `pattern tail {\n  segment     <length> OM4\n  connector   LC\n}\n${link(`${fibres}\n  connector   LC\n  ^as          tail^`)}`,
    says: "The pattern tail has a hole <length> that is not filled here. Write length and its value behind the pattern's name.",
  },
  {
    name: 'hole-unfilled',
    text: `pattern tail {\n  fibres      1..2\n  connector   LC\n  segment     <length> OM4\n  connector   LC\n}\nlinks as tail {\n  columns link,   length in m\n  L-1             5\n  ^L-2             -^\n}\n`,
    says: 'The pattern tail has a hole <length> that is not filled here. Give the row a value in the column length.',
  },
  {
    name: 'hole-unknown',
    text: `pattern tail {\n  segment     <length> OM4\n  connector   LC\n}\n${link(`${fibres}\n  connector   LC\n  as          tail length 5 m lenght ^6 m^`)}`,
    says: 'The pattern tail has no hole <lenght>. Did you mean length?',
  },
  {
    name: 'hole-misfit',
    text: `pattern tail {\n  segment     <length> OM4\n  connector   LC\n}\n${link(`${fibres}\n  connector   LC\n  as          tail length ^5 dB^`)}`,
    says: 'The hole <length> wants a length in `m` or `unknown` here, and 5 dB is not that. Give it a length in `m` or `unknown`.',
  },
  {
    name: 'hole-name-taken',
    text: 'pattern tail {\n  segment     ^<turned>^ OM4\n  connector   LC\n}\n',
    says: "A hole cannot be called turned: behind a pattern's name that word has a meaning of its own. Give the hole another name.",
  },
  {
    name: 'unknown-reference',
    text: 'links as ^leaf^ {\n  columns link,   from\n  L-1             A:01..02\n  L-2             A:03..04\n}\n',
    says: 'There is no pattern leaf in this plan or the library. Declare it, or correct the name.',
  },
  {
    name: 'unknown-reference',
    text: link(`${fibres}\n  connector   LC\n  as          ^tail^ length 5 m`),
    says: 'There is no pattern tail in this plan or the library. Declare it, or correct the name.',
  },
  {
    name: 'count-mismatch',
    text: link(`from        A:01..05\n  ^to          B:01..03^\n  ${path}`),
    says: 'to names 3 ports, and KQ-1 has 5 fibres. Name as many ports, or a number that divides 5.',
  },
  {
    name: 'count-mismatch',
    text: `cable C-1 {\n  fibre       OM4\n  count       12\n  length      5 m\n}\n${link('from        A:01..05\n  connector   LC\n  ^segment     C-1 fibres 1..4^\n  connector   LC')}`,
    says: 'The list of fibres of C-1 has 4 members, and KQ-1 has 5 fibres. Give both the same number.',
  },
  {
    name: 'fibre-out-of-range',
    text: `cable C-1 {\n  fibre       OM4\n  count       24\n  length      5 m\n}\n${link('from        A:01..02\n  connector   LC\n  ^segment     C-1 fibres 24..25^\n  connector   LC')}`,
    says: 'C-1 has 24 fibres, and fibre 25 is taken. Correct the numbers, or the count.',
  },
  {
    name: 'fibre-out-of-range',
    text: `${link(`from        A:01..02\n  ${path}`)}channel X {\n  ^link        KQ-1 fibres 2..3^\n}\n`,
    says: 'KQ-1 has no fibre 3; its fibres are 1..2. Correct the number.',
  },
  {
    name: 'fibre-out-of-range',
    text: link(`from        A:01..02\n  ${path}\n  ^spare       7^`),
    says: 'KQ-1 has no fibre 7; its fibres are 1..2. Correct the number.',
  },
  {
    name: 'fibre-listed-twice',
    text: link(`^fibres      1, 2, 2^\n  ${path}`),
    says: 'Fibre 2 stands twice in fibres. Each fibre stands there once.',
  },
  {
    name: 'tube-out-of-range',
    text: `cable C-1 {\n  fibre       G.652.D\n  count       24 tubes 2\n  length      5 m\n}\n${link('fibres      1..12\n  connector   SC-APC\n  ^segment     C-1 tube 3^\n  connector   SC-APC')}`,
    says: 'C-1 has 2 tubes, and tube 3 is taken. Correct the number.',
  },
  {
    name: 'fibres-missing',
    text: link(path, '^KQ-1^'),
    says: 'KQ-1 does not say how many fibres it has, so no reading is expected of it. Name its ports in from, or its fibres.',
  },
  {
    name: 'path-missing',
    text: link('from        A:01', '^KQ-1^'),
    says: 'KQ-1 has no path, so no limit can be built. Say what light crosses from A to B.',
  },
  {
    name: 'path-missing',
    text: link('from        A:01\n  plug        LC\n  plug        LC', '^KQ-1^'),
    says: 'The path of KQ-1 has joints and no fibre between them, so nothing of it can be judged. Write the segment.',
  },
  {
    name: 'cable-length-missing',
    text: `cable ^C-1^ {\n  fibre       OM4\n  count       12\n}\n${link('from        A:01..02\n  connector   LC\n  segment     C-1 fibres 1..2\n  connector   LC')}`,
    says: 'C-1 has neither a length nor reels, so no limit over it can be built. Write its length.',
  },
  {
    name: 'length-not-positive',
    text: link('from        A:01..02\n  connector   LC\n  ^segment     0 m OM4^\n  connector   LC'),
    says: 'A length of 0 m is none. Write the length, or unknown if it is to count as none.',
  },
  {
    name: 'open-end',
    text: link('from        A:01..02\n  connector   LC\n  ^segment     60 m OM4^'),
    says: 'The path of KQ-1 ends in a segment: its end B is open. Put a connector, a plug or a component there.',
  },
  {
    name: 'joint-missing',
    text: link(
      'from        A:01..02\n  connector   LC\n  segment     60 m OM4\n  ^segment     20 m OM3^\n  connector   LC',
    ),
    says: 'The segment of 60 m OM4 and the segment of 20 m OM3 meet without a joint, so no loss is counted between them. Write the splice or the connector that joins them.',
  },
  {
    name: 'plug-inside-path',
    text: link(
      'from        A:01..02\n  connector   LC\n  segment     60 m OM4\n  ^plug        LC^\n  segment     20 m OM4\n  connector   LC',
    ),
    says: 'A plug stands inside the path of KQ-1. A plug is an end that is not mated; where two meet, write connector.',
  },
  {
    name: 'direction-missing',
    text: `${link(`${fibres}\n  ${path}`)}setup S {\n  reference   one-cord\n}\nreadings KQ-1 {\n  setup       S\n  tested      2026-03-14\n  values      loss in dB\n  columns fibre,  ^850 nm^\n  1               1.1\n}\n`,
    says: 'The column 850 nm does not say in which direction light went. Write A>B or B>A behind the wavelength.',
  },
  {
    name: 'map-no-permutation',
    text: `component CASSETTE {\n  joins       MPO-12 to LC\n  ^map         1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 11^\n}\n`,
    says: 'The map of CASSETTE goes to place 11 twice. Write where each place comes out, every place once, or straight, reversed or pairs-swapped.',
  },
  {
    name: 'map-no-permutation',
    text: 'component CASSETTE {\n  joins       MPO-24 to LC\n  ^map         2, 1, 4, 3, 5^\n}\n',
    says: 'The map of CASSETTE has 5 places, and there are 24. Write where each place comes out, every place once, or straight, reversed or pairs-swapped.',
  },
  {
    name: 'map-no-permutation',
    text: link(
      'fibres      1..4\n  connector   LC\n  segment     60 m OM4 map ^1, 2, 3, 5^\n  connector   LC',
    ),
    says: 'The map of this segment has 4 places and goes to place 5. Write where each place comes out, every place once, or straight, reversed or pairs-swapped.',
  },
  {
    name: 'map-no-permutation',
    text: link(
      'fibres      1..3\n  connector   LC\n  segment     60 m OM4 map ^pairs-swapped^\n  connector   LC',
    ),
    says: 'The map of this segment swaps pairs, and 3 places are no pairs. Write where each place comes out, every place once, or straight, reversed or pairs-swapped.',
  },
  {
    name: 'map-missing',
    text: 'component ^CASSETTE^ {\n  joins       MPO-12 to LC\n  loss        max 0.7 dB\n}\n',
    says: 'CASSETTE joins an array of 12 places and does not say where they come out, so nothing is known of its polarity. Give it a map.',
  },
  {
    name: 'array-not-filled',
    text: link(
      'fibres      1..8\n  ^connector   MPO-12^\n  segment     60 m OM4\n  connector   MPO-12',
    ),
    says: 'MPO-12 holds 12 fibres, and the link has 8. Name all places of the array; those that stay dark are spare.',
  },
  {
    name: 'port-unknown',
    text: `${mux}${link('fibres      1..2\n  component   MUX port ^1571^\n  segment     60 m OS2\n  connector   LC')}`,
    says: 'MUX has no port 1571; its ports are 1531, 1551. Name one of them, or give the component the loss of that port.',
  },
  {
    name: 'port-unknown',
    text: `component PAD {\n  loss        max 5.5 dB\n}\n${link('fibres      1..2\n  component   PAD port ^east^\n  segment     60 m OS2\n  connector   LC')}`,
    says: 'PAD has no port east: none of its losses is of a port. Give it the loss of that port.',
  },
  {
    name: 'port-missing',
    text: `${mux}${link('fibres      1..2\n  ^component   MUX^\n  segment     60 m OS2\n  connector   LC')}`,
    says: 'MUX has a loss for each of its ports 1531, 1551, and none is said here, so no limit can be built. Write port and the one that light takes.',
  },
  {
    name: 'unknown-end',
    text: `${tree}readings T-1 {\n  setup       S\n  tested      2026-03-14\n  values      loss in dB\n  columns end,  1310 nm A>B\n  ^HALL/03^     7.1\n}\nsetup S {\n  reference   one-cord\n}\n`,
    says: 'T-1 has no end HALL/03. Did you mean HALL/01?',
  },
  {
    name: 'ends-without-tree',
    text: `${link(`${fibres}\n  ${path}`)}inspection KQ-1 {\n  tested      2026-03-14\n  criterion   "c"\n  columns ^end^,  A,  B\n  HALL/01     pass  pass\n}\n`,
    says: 'KQ-1 does not branch, so its fibres have numbers and its ends no names. Write a column fibre.',
  },
  {
    name: 'event-incomplete',
    text: events('1  ^-^  splice  0.1\n  2  -  splice  0.2'),
    says: '2 events have no distance, so nothing can be said of them. Write how far along the fibre it lies under at.',
  },
  {
    name: 'event-incomplete',
    text: events('1  30  ^-^  0.1'),
    says: 'This event has no kind, so nothing can be said of it. Write what was seen under kind.',
  },
  {
    name: 'event-beyond-end',
    text: events('1  60  end  -\n  1  ^64^  splice  0.1\n  1  66  splice  0.1'),
    says: 'An event of fibre 1 lies at 64 m, and its trace ends at 60 m. Correct one of the two.',
  },
  {
    name: 'tested-backwards',
    text: events('1  30  splice  0.1', '^tested      2026-03-14 10:30 to 09:40^'),
    says: 'The traces end at 09:40, before they begin at 2026-03-14 10:30. Correct one of the two.',
  },
  {
    name: 'tested-backwards',
    text: `${link(`${fibres}\n  ${path}`)}setup S {\n  reference   one-cord\n}\nreadings KQ-1 {\n  setup       S\n  ^tested      2026-03-14 10:30 to 09:40^\n  values      loss in dB\n  columns fibre,  850 nm A>B\n  1               1.1\n}\n`,
    says: 'The readings end at 09:40, before they begin at 2026-03-14 10:30. Correct one of the two.',
  },
  ...cableCases,
  ...treeCases,
];

describe('findings', () => {
  test.each(cases)('$name: $says', ({ name, text, says }) => {
    const marked = /\^([^^]*)\^/u.exec(text)?.[1];
    const plan = planOf(text.replaceAll('^', ''));
    const found = plan.findings();
    const [first] = found.filter((each) => each.name === name);
    expect(found.map((each) => each.name)).toContain(name);
    expect(first?.message).toBe(says);
    expect(plan.textAt(first!.place)).toBe(marked);
    // One mistake, one finding.
    expect(found.map((each) => each.message)).toHaveLength(1);
  });

  test('none of the table is without a case', () => {
    // Those of names and of amounts have tests of their own, with the whole plan round them.
    const elsewhere = [
      'unused-definition',
      'former-name-in-use',
      'figures-out-of-order',
      'colour-twice',
      'tubes-uneven',
      'splitter-reversed',
      'fibre-zero',
      'zone-unreadable',
      'event-before-start',
      'duplicate-definition',
      'library-shadowed',
      'cable-fibre-used-twice',
      'look-alike-names',
      'ports-taken-twice',
    ];
    const covered = new Set([...cases.map(({ name }) => name), ...elsewhere]);
    expect(findingNames.filter((name) => !covered.has(name))).toEqual([]);
  });

  test('an unknown name nearly spelt brings its fix', () => {
    const plan = planOf(
      link(`${fibres}\n  connector   LC\n  segment     60 m OM44\n  connector   LC`),
    );
    const [found] = plan.findings();
    expect(found?.fix?.edits.map(({ place, text }) => [plan.textAt(place), text])).toEqual([
      ['OM44', 'OM4'],
    ]);
  });
});

describe('one mistake is one finding', () => {
  test('in a pattern it is told there, not at each link that uses it', () => {
    const plan = planOf(
      'pattern tail {\n  fibres      1..2\n  connector   LC\n  segment     <length> OM44\n  connector   LC\n}\nlinks as tail {\n  columns link,   length in m\n  L-1             5\n  L-2             6\n}\n',
    );
    expect(plan.findings().map(({ name }) => name)).toEqual(['unknown-reference']);
  });

  test('in the head of a table it is told once', () => {
    const plan = planOf(
      'pattern tail {\n  fibres      1..2\n  connector   LC\n  segment     <length> OM4\n  connector   LC\n}\nlinks as tail {\n  carries     10GBASE-XX\n  columns link,   length in m,  extra\n  L-1             5             7\n  L-2             6             8\n}\n',
    );
    expect(plan.findings().map(({ name }) => name)).toEqual(['unknown-reference', 'hole-unknown']);
  });

  test('a line that could not be read is not judged for its names, nor the path for what may stand there', () => {
    const plan = planOf(
      link('from        A:01..02\n  conector    LC\n  segment     0,18 km OM4\n  connector   LC'),
    );
    expect(plan.notation.map(({ name }) => name)).toEqual(['unknown-word', 'decimal-comma']);
    expect(plan.findings()).toEqual([]);
  });

  test('what an open block lacks is not asked for', () => {
    const plan = planOf('link KQ-1 {\n  connector   LC\n  segment     60 m OM4\n');
    expect(plan.findings()).toEqual([]);
  });
});

describe('across declarations', () => {
  const cable = 'cable C-1 {\n  fibre       OM4\n  count       24\n  length      5 m\n}\n';
  const taking = (name: string, taken: string) =>
    link(
      `fibres      1..2\n  connector   LC\n  segment     C-1 fibres ${taken}\n  connector   LC`,
      name,
    );

  test('a fibre of a cable that two links take', () => {
    const plan = planOf(cable, taking('L-1', '1..2'), taking('L-2', '2..3'));
    const uses = ['L-1', 'L-2'].flatMap((name) =>
      cableUse(plan.link(name)).map((use) => ({ link: name, ...use })),
    );
    expect(uses.map(({ cable: of, fibre }) => `${of} ${fibre}`)).toEqual([
      'C-1 1',
      'C-1 2',
      'C-1 2',
      'C-1 3',
    ]);
    const [first, , use] = uses;
    const [found, ...others] = checkCableFibres('C-1', 'L-2', [
      { ...use!, before: [first!] },
      { ...uses[3]!, before: [] },
    ]);
    expect(others).toEqual([]);
    expect(found?.message).toBe(
      'Fibre 2 of C-1 is taken by L-1 already, and by L-2 here. One of the two must take another fibre.',
    );
    expect(plan.textAt(found!.place)).toBe('segment     C-1 fibres 2..3');
  });

  test('a name declared twice, whatever of the objects it is', () => {
    const plan = planOf(cable, cable.replace('cable', 'link').replace('{', '"a link" {'));
    const [found, ...others] = checkDuplicates(plan.names.declared('object', 'C-1'));
    expect(others).toEqual([]);
    expect(found).toMatchObject({ name: 'duplicate-definition', about: 'C-1' });
    expect(plan.textAt(found!.related[0]!.place)).toBe('C-1');
    expect(checkDuplicates(plan.names.declared('fibre', 'OM4'))).toEqual([]);
  });

  test('a library name declared in the plan is a note', () => {
    const plan = planOf('fibre OM4 {\n  like        OM4\n}\n');
    expect(checkShadowing(plan.names.declared('fibre', 'OM4'))).toMatchObject([
      { name: 'library-shadowed', kind: 'note' },
    ]);
    expect(checkShadowing(plan.names.declared('fibre', 'OM3'))).toEqual([]);
  });
});
