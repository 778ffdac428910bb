/** Changes of what is built, of what parts, and of what it carries. */
import { changed, type Pair, pair } from './pair.ts';
import { berth, works } from './plans.ts';

const ring = changed(works, [
  'channel GATE-1-CAM {',
  `ring KQ-RING {
  node        "Pump house" through 5 m QUAY-SM
  link        KQ-MOLE fibres 1..2
  node        "Mole head" through 5 m QUAY-SM
  link        KQ-BACK
  measure     1310 nm
}

link KQ-BACK {
  from        MH/R1/B:01..02
  to          PH/R1/C:01..02
  connector   QUAY-SC
  segment     3100 m QUAY-SM
  connector   QUAY-SC
}

channel GATE-1-CAM {`,
]);

const reeled = changed(works, [
  '  length      2400 m\n',
  '  reel        R-01 1200 m\n  splice      fusion at "hand hole 4"\n  reel        R-02 1200 m\n',
]);
const repair = `  repair REP-1 {
    fibres      1..2
    at          900 m
    on          2026-05-02
    because     "cut by a drill"
    splice      fusion
    segment     20 m QUAY-SM
    splice      fusion
  }
`;

export const designed: readonly Pair[] = [
  // ---- connection
  pair('A link ends at another panel', works, [
    'to          MH/R1/A:01..04',
    'to          MH/R2/A:01..04',
  ]),
  pair('A link takes other fibres of its cable', works, [
    'segment     OW-1 fibres 1..4',
    'segment     OW-1 fibres 7..10',
  ]),
  pair('Two fibres are crossed in a segment', works, [
    'segment     300 m QUAY-SM',
    'segment     300 m QUAY-SM map 2, 1, 3, 4',
  ]),
  pair('A cord of a channel is crossed no more', works, [
    'cord        3 m OM4 crossed',
    'cord        3 m OM4 straight',
  ]),
  pair('Splice and segment change their order', works, [
    '  splice      fusion at "hand hole 7"\n  segment     300 m QUAY-SM\n',
    '  segment     300 m QUAY-SM\n  splice      fusion at "hand hole 7"\n',
  ]),
  pair('The ends of a measured link are exchanged', berth, [
    'from        OPS/R2/B:01..02\n  to          G1/R1/A:01..02',
    'from        G1/R1/A:01..02\n  to          OPS/R2/B:01..02',
  ]),
  pair('A link is added', works, [
    'channel GATE-1-CAM {',
    'link KQ-NEW {\n  from        PH/R1/D:01..02\n  to          G1/R1/D:01..02\n  connector   QUAY-SC\n  segment     700 m QUAY-SM\n  connector   QUAY-SC\n}\n\nchannel GATE-1-CAM {',
  ]),
  pair('A link is taken out', works, [
    works.slice(works.indexOf('link KQ-MOLE'), works.indexOf('link KQ-TREE')),
    '',
  ]),
  pair(
    'A measured link is taken out with its readings',
    berth,
    [berth.slice(berth.indexOf('# Operations room to the gate'), berth.indexOf('setup MM-1')), ''],
    [berth.slice(berth.indexOf('readings KQ-OPS-G1'), berth.indexOf('concession KQ-OPS-B3')), ''],
  ),
  pair('A row is added to a table of links', works, [
    '  KQ-C3           140\n',
    '  KQ-C3           140\n  KQ-C4           95\n',
  ]),
  pair('A lamp gets an outlet of its own', works, [
    'out         4 spare',
    'out         4 to LAMP/4:01 {\n      splice      fusion\n      segment     310 m QUAY-SM\n      connector   QUAY-SC\n    }',
  ]),
  pair('A span of a ring goes by another link', ring, [
    '  link        KQ-BACK\n',
    '  link        KQ-MOLE fibres 3..4 turned\n',
  ]),
  pair('Light may no longer pass a node of a ring', ring, [
    'node        "Mole head" through 5 m QUAY-SM',
    'node        "Mole head"',
  ]),
  // ---- application
  pair('An application is taken out', works, [
    '  carries     GATE-VIDEO fibres 1..2 with GV-T1\n',
    '',
  ]),
  pair('An application is added that is not supported', works, [
    '  carries     10GBASE-SR\n  columns',
    '  carries     10GBASE-SR\n  carries     40GBASE-SR4\n  columns',
  ]),
  pair('A transceiver sends less', works, [
    'output      min -9.0 dBm max',
    'output      min -19.0 dBm max',
  ]),
  pair('A transceiver sends so much that the receiver is overloaded', works, [
    'min -9.0 dBm max -3.0 dBm',
    'min -1.0 dBm max 5.0 dBm',
  ]),
  pair('An application allows less loss', works, [
    'reach 10 km loss 6.0 dB',
    'reach 10 km loss 2.0 dB',
  ]),
  // ---- medium
  pair('A segment becomes longer', works, [
    'segment     300 m QUAY-SM',
    'segment     900 m QUAY-SM',
  ]),
  pair('A segment of a measured link becomes longer', berth, [
    'segment     90 m OM4',
    'segment     190 m OM4',
  ]),
  pair('A length is written in another unit', works, ['length      2400 m', 'length      2.4 km']),
  pair('A segment is of another kind of fibre', berth, [
    'segment     90 m OM4',
    'segment     90 m OM3',
  ]),
  pair('A cable is longer, with all that take its fibres', works, [
    'length      2400 m',
    'length      2900 m',
  ]),
  pair('A length of a pattern’s row is changed', works, [
    'KQ-C3           140',
    'KQ-C3           440',
  ]),
  pair('A splitter parts eight ways where it parted four', works, [
    'split SP-1 QUAY-1x4 {',
    'split SP-1 PLC-1x8 {',
  ]),
  pair('A reel of a cable is longer', reeled, ['R-02 1200 m', 'R-02 1500 m']),
  pair('The reels of a cable change their order', reeled, [
    'reel        R-01 1200 m\n  splice      fusion at "hand hole 4"\n  reel        R-02 1200 m',
    'reel        R-02 1200 m\n  splice      fusion at "hand hole 4"\n  reel        R-01 1200 m',
  ]),
  pair(
    'A link is longer, with the work that lengthened it',
    berth,
    ['segment     90 m OM4', 'segment     120 m OM4'],
    [
      'concession KQ-OPS-B3 {',
      'work KQ-OPS-G1 {\n  done        re-routed\n  on          2026-04-02\n  by          "P. Orme"\n}\n\nconcession KQ-OPS-B3 {',
    ],
  ),
  pair('A repair of a cable is recorded', works, [
    '  slack       40 m\n',
    `  slack       40 m\n${repair}`,
  ]),
  pair(
    'A recorded repair is of other fibres',
    changed(works, ['  slack       40 m\n', `  slack       40 m\n${repair}`]),
    ['    fibres      1..2\n', '    fibres      2..3\n'],
  ),
  // ---- joints
  pair('A splice is added', works, [
    'segment     300 m QUAY-SM',
    'segment     300 m QUAY-SM\n  splice      fusion at "hand hole 9"\n  segment     20 m QUAY-SM',
  ]),
  pair('A pair is added to a measured link', berth, [
    'segment     90 m OM4',
    'segment     60 m OM4\n  connector   LC at "riser"\n  segment     30 m OM4',
  ]),
  pair('Connectors of another kind end a link', works, [
    '  segment     300 m QUAY-SM\n  connector   QUAY-SC',
    '  segment     300 m QUAY-SM\n  connector   LC',
  ]),
  // ---- shared
  pair('A figure of a fibre is raised that two links are made of', works, [
    '1310 nm typ 0.33 dB/km max 0.36 dB/km',
    '1310 nm typ 0.33 dB/km max 0.39 dB/km',
  ]),
  pair('A figure of a connector is raised', works, [
    'loss        typ 0.15 dB max 0.35 dB',
    'loss        typ 0.15 dB max 0.60 dB',
  ]),
  pair('A pattern gets a joint more, in all its links', works, [
    '  segment     <length> OM4\n',
    '  segment     <length> OM4\n  connector   LC\n  segment     5 m OM4\n',
  ]),
  pair('The plan declares a fibre of the library anew', berth, [
    '# Operations room to berth 3\n',
    'fibre OM4 {\n  like        OM4\n  attenuation 850 nm max 2.5 dB/km\n}\n\n# Operations room to berth 3\n',
  ]),
  pair('A splitter loses more', works, ['max 7.3 dB', 'max 7.9 dB']),
  pair('A definition that nothing uses is added', works, [
    'connector QUAY-SC {',
    'connector QUAY-FC {\n  like        FC\n  loss        max 0.40 dB\n}\n\nconnector QUAY-SC {',
  ]),
  // ---- coverage
  pair('A wavelength more is to be measured', works, [
    'measure     1310 nm, 1550 nm for single-mode',
    'measure     1310 nm, 1490 nm, 1550 nm for single-mode',
  ]),
  pair('One direction is enough', berth, ['directions  both', 'directions  A>B']),
  pair('A fibre is given up', berth, [
    '  segment     90 m OM4\n',
    '  segment     90 m OM4\n  dead        2 because "broken in the duct"\n',
  ]),
  pair('Fewer spares are wanted', works, ['spares      20 %', 'spares      10 %']),
  pair('A link is measured at one wavelength only', berth, [
    '  segment     90 m OM4\n',
    '  segment     90 m OM4\n  measure     850 nm\n',
  ]),
];
