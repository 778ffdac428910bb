/** The two plans of Kestrel Quay that the pairs of the catalogue are made of: one measured, one designed. */

/** Berth 3, multimode, measured: one limit set of the owner, one set-up, readings with a retest and a concession. */
export const berth = `plan "Kestrel Quay: berth 3" {
  client      "Harbour Board"
  revision    "A" on 2026-03-01
  zone        "UTC"
  limits      KQ-OWNER
  measure     850 nm, 1300 nm
  directions  both
  reference   one-cord
  uncertainty 0.05 dB
  drift       0.10 dB
}

limits KQ-OWNER {
  edition     "clause 7.4, 2026" contract
  policy      counting
  fibre       OM4 850 nm 3.5 dB/km
  fibre       OM4 1300 nm 1.5 dB/km
  connector   any 0.75 dB
  connector   any 0.10 dB reference
  splice      any 0.30 dB
  basis       "owner's clause 7.4, table 3" read
}

# Operations room to berth 3
link KQ-OPS-B3 "Operations room to berth 3" {
  from        OPS/R2/A:01..04
  to          B3/R1/A:01..04
  connector   LC
  segment     180 m OM4
  splice      fusion at "closure under ramp 3"
  segment     40 m OM4
  connector   LC
}

# Operations room to the gate
link KQ-OPS-G1 "Operations room to gate 1" {
  from        OPS/R2/B:01..02
  to          G1/R1/A:01..02
  connector   LC
  segment     90 m OM4
  connector   LC
}

setup MM-1 {
  reference   one-cord
  source      "LS-4 no 221" LED calibrated 2026-01-12 due 2027-01-12
  meter       "PM-2 no 84" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade verified 0.05 dB
  cord        TC-2 receive LC OM4 reference-grade verified 0.06 dB
  taken       2026-03-14 08:30 850 nm -20.05 dBm
  taken       2026-03-14 08:30 1300 nm -20.31 dBm
  checked     2026-03-14 12:00 850 nm -20.07 dBm
  checked     2026-03-14 12:00 1300 nm -20.32 dBm
}

readings KQ-OPS-B3 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A, 1300 nm A>B, 1300 nm B>A, remark
  1          1.12         1.15         0.74          0.76
  2          2.31         2.28         0.82          0.85
  3          2.71         2.68         1.44          1.41          "stiff boot at berth"
  4          2.62         2.63         0.91          0.88
}

readings KQ-OPS-B3 {
  setup       MM-1
  tested      2026-03-14 10:30 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A, 1300 nm A>B, 1300 nm B>A
  4          1.61         1.58         0.87          0.86
}

work KQ-OPS-B3 {
  done        cleaned
  on          2026-03-14 10:10
  fibres      4
  by          "R. Vale"
}

readings KQ-OPS-G1 {
  setup       MM-1
  tested      2026-03-14 11:10 to 11:30 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A, 1300 nm A>B, 1300 nm B>A
  1          0.82         0.85         0.60          0.62
  2          0.91         0.88         0.63          0.61
}

concession KQ-OPS-B3 {
  fibres      3
  wavelength  850 nm
  accepted    2.75 dB
  because     "berth works booked until May; spare fibre carries the gate"
  by          "M. Ashdown" on 2026-03-20
}
`;

/** The outer works, designed: a cable of reels, a tree, links of a pattern, a channel, a ring, what they carry. */
export const works = `plan "Kestrel Quay: outer works" {
  limits      KQ-OSP
  measure     1310 nm, 1550 nm for single-mode
  measure     850 nm for multimode
  directions  both
  reference   one-cord
  uncertainty 0.10 dB
  spares      20 %
}

limits KQ-OSP {
  edition     "clause 8.1, 2026" contract
  policy      counting
  fibre       G.652.D 1310 nm 0.40 dB/km
  fibre       G.652.D 1490 nm 0.35 dB/km
  fibre       G.652.D 1550 nm 0.30 dB/km
  fibre       OM4 850 nm 3.0 dB/km
  connector   any 0.75 dB
  splice      any 0.20 dB
  part        QUAY-1x4 7.50 dB
  basis       "owner's clause 8.1" read
}

fibre QUAY-SM {
  like        G.652.D
  meets       G.652.D
  attenuation 1310 nm typ 0.33 dB/km max 0.36 dB/km
  attenuation 1490 nm typ 0.24 dB/km max 0.28 dB/km
  attenuation 1550 nm typ 0.19 dB/km max 0.22 dB/km
  basis       "maker's test sheets, lot 3" read
}

connector QUAY-SC {
  like        SC
  loss        typ 0.15 dB max 0.35 dB
  basis       "maker's data sheet" read
}

splitter QUAY-1x4 {
  ports       1:4
  loss        min 6.2 dB typ 6.8 dB max 7.3 dB
  basis       "maker's data sheet" read
}

application GATE-VIDEO {
  count       2
  wavelength  1310 nm
  fibre       G.652.D reach 10 km loss 6.0 dB
  basis       "owner's clause 9.2" read
}

transceiver GV-T1 {
  wavelength  1310 nm
  output      min -9.0 dBm max -3.0 dBm
  input       min -20.0 dBm max -3.0 dBm
  basis       "maker's data sheet" read
}

cable OW-1 {
  fibre       QUAY-SM
  count       24 tubes 2
  length      2400 m
  slack       40 m
}

pattern tail {
  connector   LC
  segment     <length> OM4
  connector   LC
}

links "Cabinets" as tail {
  fibres      1..2
  carries     10GBASE-SR
  columns link,   length in m
  KQ-C1           60
  KQ-C2           85
  KQ-C3           140
}

link KQ-MOLE "Pump house to mole head" {
  from        PH/R1/A:01..04
  to          MH/R1/A:01..04
  connector   QUAY-SC
  segment     OW-1 fibres 1..4
  splice      fusion at "hand hole 7"
  segment     300 m QUAY-SM
  connector   QUAY-SC
  carries     GATE-VIDEO fibres 1..2 with GV-T1
}

link KQ-TREE "Pump house to four lamps" {
  from        PH/R1/B:01
  connector   QUAY-SC
  segment     OW-1 fibres 5
  splice      fusion
  split SP-1 QUAY-1x4 {
    out 1..3 to LAMP/1:01, LAMP/2:01, LAMP/3:01 {
      splice      fusion
      segment     120 m QUAY-SM
      connector   QUAY-SC
    }
    out         4 spare
  }
}

channel GATE-1-CAM {
  cord        3 m OM4 crossed
  link        KQ-C1
  cord        2 m OM4 straight
  carries     10GBASE-SR
}
`;
