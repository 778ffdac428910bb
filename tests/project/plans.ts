/** Texts that the project's tests put together: every kind of declaration, so that every kind of name is read. */

export const planBlock = `plan "Kestrel Quay" {
  client      "Harbour board"
  revision    "A" on 2026-03-01
  limits      TIA-568.3-E
  measure     850 nm, 1300 nm for multimode
  directions  both
  reference   one-cord
  uncertainty 0.15 dB
  drift       0.10 dB
}
`;

export const blocks: readonly string[] = [
  planBlock,
  `plan "A second one" {
  measure     850 nm for multimode
}
`,
  `cable C-101 {
  fibre       OM4
  count       24
  length      142 m
}
`,
  `fibre OM4 {
  like        OM4
  attenuation 850 nm typ 2.3 dB/km max 2.7 dB/km
  basis       "contract clause 7.2" read
}
`,
  `limits KQ-OWNER {
  like        TIA-568.3-E
  edition     "clause 7.4, 2026" contract
  connector   any 0.5 dB
  splice      any 0.15 dB
}
`,
  `pattern tail {
  connector   LC
  segment     <length> OM4
  connector   LC
}
`,
  `links "From the pattern" as tail {
  fibres      1..2
  columns link,   length in m
  T-1             23
  T-2             64
}
`,
  `link KQ-1 "Operations room to berth 3" {
  from        OPS/A:01..04
  to          B3/A:01..04
  connector   LC
  segment     C-101 fibres 1..4
  splice      fusion at "closure"
  segment     38 m OM4
  connector   LC
  carries     10GBASE-SR
}
`,
  `link KQ-2 {
  was         KQ-OLD
  fibres      1..2
  connector   LC
  segment     C-101 fibres 4..5
  connector   LC
  limits      KQ-OWNER
  silence     budget-over-limit because "agreed"
}
`,
  `channel CH-1 {
  cord        3 m OM4 crossed
  link        KQ-1 fibres 1..2
  cord        2 m OM4 straight
  carries     10GBASE-SR
  measure     850 nm
}
`,
  `setup MM-1 {
  reference   one-cord
  source      "S-3" LED calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
  taken       2026-03-14 08:10 1300 nm -20.31 dBm
}
`,
  `setup MM-2 {
  like        MM-1
  taken       2026-03-21 09:40 850 nm -20.02 dBm
  checked     2026-03-21 11:10 850 nm -20.19 dBm
}
`,
  `readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A, 1300 nm A>B, 1300 nm B>A, remark
  1                1.12        1.15        0.84         0.80
  2                1.31        -           0.92         0.95
  3                2.66        2.63        1.44         1.41
  4              dark        dark        dark         dark         "wrong cabinet?"
}
`,
  `readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 10:30 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A
  3                2.60        2.57
}
`,
  `readings {
  setup       MM-1
  tested      2026-03-15 09:20 by "R. Vale"
  values      loss in dB
  columns link,   fibre,  850 nm A>B, 850 nm B>A
  T-1               1       0.61        0.64
  T-2               1       0.71        0.74
  KQ-OLD            1       0.81        0.84
}
`,
  `work KQ-1 {
  done        cleaned
  fibres      3
  on          2026-03-14 10:20
}
`,
  `withdraw KQ-1 {
  fibres      2
  because     "far plug was in the neighbouring panel"
  by          "R. Vale" on 2026-03-14
}
`,
  `concession KQ-1 {
  fibres      3
  wavelength  850 nm
  accepted    2.61 dB
  because     "rework booked"
  by          "M. Ashdown" on 2026-03-20
}
`,
  `events KQ-1 {
  setup       OT-1
  tested      2026-03-15 10:00 by "T. Holm"
  values      loss in dB
  columns fibre, at in m, kind,       850 nm A>B, 850 nm B>A
  1                 0       connector      0.21        0.25
  1               142       splice        -0.04        0.12
  1               180       end            -           -
}
`,
  `setup OT-1 {
  otdr        "T-2"
  index       850 nm 1.480
}
`,
  `inspection KQ-1 {
  tested      2026-03-15 08:00 by "R. Vale"
  criterion   "clause 9"
  columns fibre, A,      B
  1              pass    fail
  2              cleaned pass
}
`,
  `cable C-200 {
  fibre       OM4
  count       12 tubes 2
  colours     TIA-598
  slack       5 m at CL-1
  reel        R-1 400 m marks 0..400
  splice      fusion at CL-1
  reel        R-2 1.2 kft
  repair REP-1 {
    fibres      3..4
    at          120 m
    on          2026-03-14
    splice      fusion
    segment     10 m OM4
    splice      fusion
  }
}
`,
  `link KQ-3 {
  from        OPS/B:01..04
  to          B4/A:01..04
  connector   LC
  segment     C-200 fibres 1..4 reels R-1
  connector   LC
  spare       4
  reserve     repairs 1
}
`,
  `channel CH-3 {
  cord        2 m OM4 straight
  link        KQ-3 fibres 3..4
  cord        2 m OM4 straight
}
`,
  `readings {
  setup       MM-1
  tested      2026-03-14 09:20 to 09:50 by "R. Vale"
  values      loss in dB
  columns link,   fibre,  850 nm A>B
  KQ-3              3       1.81
  C-200            12       2.31
  C-101             1       0.31
  CH-3              1       1.91
}
`,
  `splitter KQ-SPLIT {
  ports       1:4
  loss        out 1..2 max 6.5 dB
  loss        out 3..4 max 7.4 dB
}
`,
  `pattern drop {
  splice      fusion
  segment     <length> OM4
  connector   LC
}
`,
  `link TR-1 "A tree" {
  from        OPS/C:01
  to          B5/A:09
  connector   LC
  segment     38 m OM4
  splice      fusion
  split SP-1 KQ-SPLIT {
    out 1 {
      splice      fusion
      split SP-2 KQ-SPLIT {
        out         1..3 to B5/A:01..03 as drop length 20 m
        out         4 spare
      }
    }
    out         2 to B5/A:04 as drop length 30 m
    out         3 spare
    out         4 onward
  }
  splice      fusion
  segment     12 m OM4
  connector   LC
}
`,
  `readings TR-1 {
  setup       MM-1
  tested      2026-03-14 09:20 to 09:50 by "R. Vale"
  values      loss in dB
  columns end,   850 nm A>B
  B5/A:02          13.20
  B5/A:04           7.10
  B5/A:09           8.30
}
`,
  `ring RI-1 "A ring" {
  node        "Operations room" through 3 m OM4
  link        KQ-1 fibres 1..2
  node        "Berth 3" through 3 m OM4
  link        KQ-3 fibres 3..4
  node        "Berth 4"
  link        KQ-2
  carries     10GBASE-SR
}
`,
  `links "Alike" as low {
  columns link, title
  LOW-1  "Berth 7"
  LOW-2  "Berth 8"
  LOW-3  "Berth 9"
}
`,
  `pattern low {
  fibres      1..8
  connector   LC
  segment     180 m OM4
  connector   LC
}
`,
  `readings {
  setup       MM-1
  tested      2026-03-14 09:10 to 09:40 by "R. Vale"
  values      loss in dB
  columns link, fibre, 850 nm A>B
${['LOW-1', 'LOW-2', 'LOW-3'].flatMap((link) => [0.52, 0.45, 0.49, 0.57, 0.42, 0.54, 0.48, 0.46].map((loss, row) => `  ${link}  ${row + 1}  ${loss}\n`)).join('')}}
`,
  `mandrel KQ-MANDREL {
  like        MANDREL-50
  diameter    24 mm cord 1.6 mm
  basis       "owner's clause 7.8" read
}
`,
  '# only a comment\n\n',
];

/** What a hand changes in such a text: each finds a place of its own. */
export const slips: readonly (readonly [RegExp, string])[] = [
  [/850 nm/, '1310 nm'],
  [/OM4/, 'OM3'],
  [/OM3/, 'OM4'],
  [/LC/, 'SC'],
  [/LC/, 'LX'],
  [/142 m/, '1420 m'],
  [/38 m/, '380 m'],
  [/KQ-1/, 'KQ-2'],
  [/KQ-2/, 'KQ-1'],
  [/T-1/, 'T-2'],
  [/MM-1/, 'MM-2'],
  [/C-101/, 'C-102'],
  [/1\.\.4/, '1..12'],
  [/one-cord/, 'two-cord'],
  [/0\.15 dB/, '0.20 dB'],
  [/"Harbour board"/, '"Port authority"'],
  [/1\.12/, '9.12'],
  [/0\.61/, '-0.61'],
  [/\{/, ''],
  [/\}/, ''],
  [/\n/, '\n\n'],
  [/\n/, '\n# a remark\n'],
  [/^/, '# first\n'],
  [/\s{2,}/, '   '],
  [/fusion/, 'fusionn'],
  [/reference-grade/, 'ordinary'],
  [/3/, '4'],
  [/2026-03-14/, '2026-03-13'],
  [/both/, 'A>B'],
  [/R-1/, 'R-2'],
  [/400 m/, '400 ft'],
  [/C-200/, 'C-101'],
  [/(drift .*\n)/, '$1  spares      80 %\n'],
  [/(drift .*\n)/, '$1  identify    link "KQ-{0}"\n'],
  [/TIA-598/, 'IEC-60794'],
  [/4 onward/, '4 spare'],
  [/3 spare/, '3 onward'],
  [/1:4/, '1:8'],
  [/1\.\.3 to/, '1..2 to'],
  [/SP-2 KQ-SPLIT/, 'SP-1 KQ-SPLIT'],
  [/ through 3 m OM4/, ''],
  [/"Berth 4"/, '"Berth 3"'],
  [/max 6\.5 dB/, 'min 6 dB max 6.9 dB'],
  [/LOW-2/, 'LOW-1'],
  [/(LOW-1\s+1\s+)0\.52/, '$11.52'],
  [/encircled-flux/, 'mandrel KQ-MANDREL'],
  [/(drift .*\n)/, '$1  doubts {\n    too-low     5 dB\n  }\n'],
  [/(drift .*\n)/, '$1  percentile  95 %\n'],
];
