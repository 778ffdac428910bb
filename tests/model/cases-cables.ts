/** Findings about cables, their reels and repairs, and about names that follow no shape: `^…^` marks the place. */

const cable = (...lines: readonly string[]) =>
  `cable C-1 {\n  fibre       G.652.D\n  count       24 tubes 2\n  ${lines.join('\n  ')}\n}\n`;
const one = 'reel        R-1 4000 m';
const two = 'reel        R-2 3000 m';
const joint = 'splice      fusion at CL-1';
const link = (segment: string) =>
  `link KQ-1 {\n  fibres      1..2\n  connector   SC-APC\n  ${segment}\n  connector   SC-APC\n}\n`;
const repair = (...lines: readonly string[]) =>
  `repair REP-1 {\n    fibres      3..4\n    on          2026-05-02\n    ${lines.join('\n    ')}\n  }`;
const put = ['splice      fusion', 'segment     20 m G.652.D', 'splice      fusion'];

export const cableCases = [
  {
    name: 'reel-joint-missing',
    text: cable(one, `^${two}^`),
    says: 'R-1 and R-2, reels of C-1, lie next to each other without a splice, so no loss is counted between them. Write the splice between the two.',
  },
  {
    name: 'joint-between-no-reels',
    text: cable(one, joint, '^splice      fusion^', two),
    says: 'This splice of C-1 lies between no two reels that are not joined yet. A cable has one splice fewer than it has reels: write it between the two, or take it out.',
  },
  {
    name: 'joint-between-no-reels',
    text: cable(`^${joint}^`, one),
    says: 'This splice of C-1 lies between no two reels that are not joined yet. A cable has one splice fewer than it has reels: write it between the two, or take it out.',
  },
  {
    name: 'joint-between-no-reels',
    text: cable(one, `^${joint}^`),
    says: 'This splice of C-1 lies between no two reels that are not joined yet. A cable has one splice fewer than it has reels: write it between the two, or take it out.',
  },
  {
    name: 'reel-named-twice',
    text: cable(one, joint, 'reel        ^R-1^ 3000 m'),
    says: 'R-1 is the name of a reel before it already. Give this one its own.',
  },
  {
    name: 'reel-unknown',
    text: cable(one, joint, two) + link('segment     C-1 fibres 1..2 reels ^R-22^'),
    says: 'C-1 has no reel R-22; its reels are R-1, R-2. Did you mean R-2?',
  },
  {
    name: 'reel-unknown',
    text: cable('length      5 km') + link('segment     C-1 fibres 1..2 reels ^R-1^'),
    says: 'C-1 is one piece without reels. Correct the name, or the cable.',
  },
  {
    name: 'reels-apart',
    text:
      cable(one, joint, two, 'splice      fusion', 'reel        R-3 500 m') +
      link('segment     C-1 fibres 1..2 reels R-1, ^R-3^'),
    says: 'R-1 and R-3 do not lie next to each other in C-1: R-2 lies between them. Take reels that follow each other, or write two segments.',
  },
  {
    name: 'length-beside-reels',
    text: cable('^length      7 km^', one, joint, two),
    says: 'C-1 is 2 reels here, and its length is their sum. Take this length out.',
  },
  {
    name: 'length-beside-reels',
    text: cable(one, joint, two) + link('segment     C-1 fibres 1..2 length ^6 km^'),
    says: 'C-1 is 2 reels here, and its length is their sum. Take this length out.',
  },
  {
    name: 'marks-against-length',
    text: cable('reel        R-1 4000 m marks ^12..4222^'),
    says: 'The sheath marks of R-1, 12 and 4222, are 4210 apart, and its length is 4000 m. Correct one of the two.',
  },
  {
    name: 'marks-against-length',
    text: cable('reel        R-1 13812 m marks ^12..4222^'),
    says: 'The sheath marks of R-1, 12 and 4222, are 4210 apart, and its length is 13812 m. The figure looks like feet: correct the unit.',
  },
  {
    name: 'marks-against-length',
    text: cable('reel        R-1 1283 ft marks ^12..4222^'),
    says: 'The sheath marks of R-1, 12 and 4222, are 4210 apart, and its length is 1283 ft. The figure looks like metres: correct the unit.',
  },
  {
    name: 'marks-not-two',
    text: cable('reel        R-1 4000 m marks ^12^'),
    says: 'R-1 has 1 sheath mark: write the two at its ends, as in marks 12..4222.',
  },
  {
    name: 'length-not-positive',
    text: cable('^reel        R-1 0 m^'),
    says: 'A length of 0 m is none. Write the length, or unknown if it is to count as none.',
  },
  {
    name: 'fibre-out-of-range',
    text: cable(
      one,
      repair('at          1 km', ...put).replace('fibres      3..4', '^fibres      24..25^'),
    ),
    says: 'C-1 has 24 fibres, and fibre 25 is taken. Correct the numbers, or the count.',
  },
  {
    name: 'repair-beyond-end',
    text: cable(one, repair('^at          4.2 km^', ...put)),
    says: 'REP-1 lies at 4.2 km, and C-1 ends at 4000 m. Correct the distance.',
  },
  {
    name: 'repair-place-missing',
    text: cable(one, joint, two, `^${repair(...put)}^`),
    says: 'REP-1 does not say where it lies, so every link that takes a reel of C-1 counts it. Write at and the distance from end A.',
  },
  {
    name: 'repair-puts-nothing-in',
    text: cable(one, `^${repair('at          1 km')}^`),
    says: 'REP-1 puts nothing in: the limit stays as it was, and no rise over the readings before it is allowed. Write the splices and the fibre that were put in.',
  },
  {
    name: 'name-off-shape',
    text: `plan "P" {\n  identify    cable "OSP-{00}"\n}\n${cable(one).replace('C-1', '^C-1^')}`,
    says: "The cable C-1 does not follow the plan's shape OSP-{00}. Correct the name, or the shape.",
  },
  {
    name: 'name-off-shape',
    text: `plan "P" {\n  identify    port "{area}/R{0}/{area}:{00}"\n}\nlink KQ-1 {\n  from        OPS/R2/A:01..02\n  to          ^B3/RACK/A:01..02^\n  connector   LC\n  segment     5 m OM4\n  connector   LC\n}\n`,
    says: "The port B3/RACK/A:01 and 1 more do not follow the plan's shape {area}/R{0}/{area}:{00}. Correct the name, or the shape.",
  },
  {
    name: 'shape-unreadable',
    text: 'plan "P" {\n  identify    link ^"KQ-{room}"^\n}\n',
    says: '{room} says nothing in the shape of a name. Write {area} for letters or digits, {00} for that many digits.',
  },
];
