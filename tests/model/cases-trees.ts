/** Findings about splits, ends of trees and rings: `^…^` marks the place. */

const splitters = 'splitter SPLIT {\n  ports       1:2\n}\n';
const drop = 'pattern drop {\n  splice      fusion\n  segment     20 m OS2\n  connector   LC\n}\n';
const trunk = 'connector   LC\n  segment     60 m OS2\n  splice      fusion';
const tail = 'splice      fusion\n  segment     20 m OS2\n  connector   LC';

/** A link that branches once, its outputs as said, and what stands below. */
const tree = (outs: readonly string[], below = '', head = 'from        A:01') =>
  `link T-1 {\n  ${head}\n  ${trunk}\n  split SP SPLIT {\n    ${outs.join('\n    ')}\n  }\n${below ? `  ${below}\n` : ''}}\n${drop}${splitters}`;

const both = 'out         1..2 to HALL/01..02 as drop';

const span = (name: string) =>
  `link ${name} {\n  fibres      1..2\n  connector   LC\n  segment     60 m OS2\n  connector   LC\n}\n`;
const spans = ['R-1', 'R-2', 'R-3'].map(span).join('');
const ring = (...lines: readonly string[]) => `ring ^RING^ {\n  ${lines.join('\n  ')}\n}\n${spans}`;
const unmarkedRing = (...lines: readonly string[]) => ring(...lines).replace('^RING^', 'RING');

/** Patterns that use the next twice, each a step deeper. */
const doubling = (depth: number) =>
  Array.from({ length: depth }, (_, index) =>
    index === depth - 1
      ? `pattern p${index} {\n  connector   LC\n}\n`
      : `pattern p${index} {\n  as          p${index + 1}\n  as          p${index + 1}\n}\n`,
  ).join('');

export const treeCases = [
  {
    name: 'output-unknown',
    text: tree(['out         1..2 spare', '^out         3 as drop^']),
    says: 'SP is a SPLIT with 2 outputs, and output 3 is said here. Correct the number, or the splitter.',
  },
  {
    name: 'output-unknown',
    text: tree(['^out         1..9999 as drop^']),
    says: 'SP is a SPLIT with 2 outputs, and output 3 is said here. Correct the number, or the splitter.',
  },
  {
    name: 'output-unknown',
    text: tree(['^out         1..4 to HALL/01..04 as drop^']),
    says: 'SP is a SPLIT with 2 outputs, and output 3 is said here. Correct the number, or the splitter.',
  },
  {
    name: 'output-twice',
    text: tree([both, '^out         2 spare^']),
    says: 'Output 2 of SP is said twice. Say once what becomes of it.',
  },
  {
    name: 'output-missing',
    text: `link T-1 {\n  from        A:01\n  ${trunk}\n  ^split SP SPLIT {\n    out         1 to HALL/01 as drop\n  }^\n}\n${drop}${splitters}`,
    says: 'It is not said what becomes of output 2 of SP. Give it a path, or write spare.',
  },
  {
    name: 'output-missing',
    text: `link T-1 {\n  from        A:01\n  ${trunk}\n  ^split SP SPLIT {\n    out         3 spare\n  }^\n}\n${drop}splitter SPLIT {\n  ports       1:8\n}\n`,
    says: 'It is not said what becomes of outputs 1..2, 4..8 of SP. Give them a path, or write spare.',
  },
  {
    name: 'onward-twice',
    text: tree(['out         1 onward', '^out         2 onward^'], tail, 'to          HALL/01'),
    says: 'Two outputs of SP are onward, and the path below goes on from one. Give the other a path of its own.',
  },
  {
    name: 'onward-twice',
    text: tree(['^out         1..2 onward^'], tail, 'to          HALL/01'),
    says: 'Two outputs of SP are onward, and the path below goes on from one. Give the other a path of its own.',
  },
  {
    name: 'onward-missing',
    text: tree([both], '^splice      fusion^\n  segment     20 m OS2\n  connector   LC'),
    says: 'The path goes on below SP, and none of its outputs is onward. Say which output leads here, or put this behind an output.',
  },
  {
    name: 'open-end',
    text: tree([
      'out 1 to HALL/01 {\n      splice      fusion\n      ^segment     20 m OS2^\n    }',
      'out         2 spare',
    ]),
    says: 'The path of T-1 ends in a segment: its end HALL/01 is open. Put a connector, a plug or a component there.',
  },
  {
    name: 'open-end',
    text: tree(['out         1 spare', 'out         2 onward'], '')
      .replace('split SP SPLIT {', '^split SP SPLIT {')
      .replace('onward\n  }', 'onward\n  }^'),
    says: 'The path of T-1 ends in a split: its end SP:2 is open. Put a connector, a plug or a component there.',
  },
  {
    name: 'joint-missing',
    text: tree([
      'out 1 to HALL/01 {\n      ^segment     20 m OS2^\n      connector   LC\n    }',
      'out         2 spare',
    ]),
    says: 'The splitter SP and the segment of 20 m OS2 meet without a joint, so no loss is counted between them. Write the splice or the connector that joins them.',
  },
  {
    name: 'joint-missing',
    text: tree([both])
      .replace('  splice      fusion\n  split SP SPLIT {', '  ^split SP SPLIT {')
      .replace('drop\n  }', 'drop\n  }^'),
    says: 'The segment of 60 m OS2 and the splitter SP meet without a joint, so no loss is counted between them. Write the splice or the connector that joins them.',
  },
  {
    name: 'end-count-mismatch',
    text: tree(['^out         1..2 to HALL/01 as drop^']),
    says: '1 port is named here for 2 ends. Name one port for each end, in order.',
  },
  {
    name: 'end-count-mismatch',
    text: tree(['^out         1..2 to HALL/1..9999 as drop^']),
    says: '9999 ports are named here for 2 ends. Name one port for each end, in order.',
  },
  {
    name: 'end-name-unused',
    text: tree([both], '', '^to          HALL/03^'),
    says: 'HALL/03 names no end: the path here ends in SP, whose outputs have ends of their own. Name the ports at those outputs, or let one of them be onward.',
  },
  {
    name: 'end-name-unused',
    text: tree(
      ['out         1 spare', '^out         2 to HALL/02 onward^'],
      tail,
      'to          HALL/01',
    ),
    says: 'HALL/02 names no end: the one that onward leads to is called HALL/01 already. Take one of the two out.',
  },
  {
    name: 'end-named-twice',
    text: tree(['out         1 to HALL/01 as drop', '^out         2 to HALL/01 as drop^']),
    says: 'Two ends of T-1 are called HALL/01, and a reading could be of either. Give each end its own port.',
  },
  {
    name: 'count-mismatch',
    text: tree([both], '', 'from        A:01\n  ^fibres      1..3^'),
    says: 'fibres has 3 members, and T-1 has 2 ends. Give each end a number, in order.',
  },
  {
    name: 'tree-too-large',
    text: `link T-1 {\n  from        A:01\n  ${trunk}\n  ^split SP SPLIT {\n    out         1..10000000 as drop\n  }^\n}\n${drop}splitter SPLIT {\n  ports       1:10000000\n}\n`,
    says: 'T-1 divides its light more often than can be judged: at most 4096 ends of one link are. Write several links, and correct numbers that are not meant.',
  },
  {
    name: 'tree-too-large',
    text: `link T-1 {\n  from        A:01\n  ${trunk}\n  split S1 S64 {\n    out 1..64 {\n      splice      fusion\n      split S2 S64 {\n        ^out 1..64 {\n          splice      fusion\n          split S3 S64 {\n            out         1..64 as drop\n          }\n        }^\n      }\n    }\n  }\n}\n${drop}splitter S64 {\n  ports       1:64\n}\n`
      .replace('^out 1..64 {', 'out 1..64 {')
      .replace('}^', '}')
      .replace('out         1..64 as drop', '^out         1..64 as drop^'),
    says: 'T-1 divides its light more often than can be judged: at most 4096 ends of one link are. Write several links, and correct numbers that are not meant.',
  },
  {
    name: 'pattern-cycle',
    text: `${splitters}pattern p {\n  connector   LC\n  segment     60 m OS2\n  splice      fusion\n  split SP SPLIT {\n    out         1 spare\n    ^out         2 as p^\n  }\n}\n`,
    says: 'The pattern p contains itself: p as p. Take one of the two uses out.',
  },
  {
    name: 'path-too-long',
    text: `link L-1 {\n  fibres      1\n  as          p0\n}\n${doubling(16)}`.replace(
      'as          p12',
      '^as          p12^',
    ),
    says: 'This path has more than 20000 lines, by patterns that use patterns; the rest is left out. Take fewer uses, or write several links.',
  },
  {
    name: 'split-turned',
    text: `link T-1 {\n  from        A:01\n  as          tree turned\n}\npattern tree {\n  ${trunk}\n  ^split SP SPLIT {\n    ${both}\n  }^\n}\n${drop}${splitters}`,
    says: 'A pattern that holds a split cannot be turned: light is divided on its way from A to B. Place it without turned.',
  },
  {
    name: 'tree-crossed',
    text: `channel CH {\n  cord        1 m OS2 straight\n  ^link        T-1^\n  cord        1 m OS2 straight\n}\n${tree([both])}`,
    says: 'T-1 branches, and light crosses it to one of its ends. Say to which: fibres and the number of the end (1..2).',
  },
  {
    name: 'node-missing',
    text: ring('link        R-1', 'cord        1 m OS2 straight', 'link        R-2'),
    says: 'RING has no node, and light in a ring goes from node to node. Name at least two, in order.',
  },
  {
    name: 'node-missing',
    text: unmarkedRing('^node        "A"^', 'link        R-1'),
    says: 'RING has one node, and light in a ring goes from node to node. Name at least two, in order.',
  },
  {
    name: 'span-missing',
    text: unmarkedRing('node        "A"', 'link        R-1', '^node        "B"^'),
    says: 'Nothing lies between B and A, so the ring is not closed. Name the link between them, or take one of the nodes out.',
  },
  {
    name: 'node-named-twice',
    text: unmarkedRing(
      'node        "A"',
      'link        R-1',
      '^node        "A"^',
      'link        R-2',
    ),
    says: 'Two nodes of RING are called A. Each node stands once in a ring.',
  },
  {
    name: 'long-way-missing',
    text: ring(
      'node        "A" through 3 m OS2',
      'link        R-1',
      'node        "B"',
      'link        R-2',
      'node        "C" through 3 m OS2',
      'link        R-3',
    ),
    says: 'Light that loses its span has no long way round RING past B: nothing lets it through there. If it is meant to be protected, write through and the cord behind the node.',
  },
  {
    name: 'ring-too-long',
    text: ring(
      ...Array.from({ length: 800 }, (_, at) => `node        "N${at}"\n  link        R-1`),
    ).replaceAll('"\n', '" through 1 m OS2\n'),
    says: 'RING has more nodes than can be judged: its long ways would hold more than 1000000 parts. Write several rings.',
  },
];
