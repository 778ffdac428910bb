/** Plans of the ferry terminal in which tests of edits change something. */
export const berth = `plan "Kestrel Quay: backbone" {
  limits      TIA-568.3-E
  measure     850 nm, 1300 nm for multimode
  directions  both
  reference   one-cord
  uncertainty 0.15 dB
}

limits KQ-OWNER {
  like        TIA-568.3-E
  fibre       OM3, OM4 850 nm 3.0 dB/km
  connector   any 0.5 dB
}

cable C-101 {
  fibre       OM4
  count       24
  length      142 m
}

link KQ-1 "Operations room to berth 3" {
  from        OPS/R2/A:01..12
  to          B3/R1/A:01..12
  connector   LC
  segment     C-101 fibres 1..12
  splice      fusion at "closure under ramp 3"
  segment     38 m OM4
  connector   LC
  carries     10GBASE-SR
}

pattern leaf-spine {
  fibres      1..2
  connector   LC
  segment     <length> OM4
  connector   LC
}

links "Leaf to spine" as leaf-spine {
  carries     10GBASE-SR
  columns link,   from,           to,             length in m
  L01-S1          LEAF-01:49      SPINE-1:01       23
  L01-S2          LEAF-01:50      SPINE-2:01       24
  L01-S3          LEAF-01:51      SPINE-3:01       24
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
  taken       2026-03-14 08:10 1300 nm -20.31 dBm
  checked     2026-03-14 09:45 850 nm -20.06 dBm
}

readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A, 1300 nm A>B, 1300 nm B>A, remark
  1                1.12        1.15        0.84         0.80
  2                1.31        -           0.92         0.95
  3                2.66        2.63        1.44         1.41
  4              dark        dark        dark         dark         "patched elsewhere?"
}

work KQ-1 {
  done        cleaned
  fibres      3
  on          2026-03-14 10:20
}
`;

/** A tree, a cable of reels, traces and end faces. */
export const hall = `plan "Kestrel Quay: passenger hall" {
  limits      TIA-568.3-E
  measure     1310 nm for single-mode
  reference   one-cord
  uncertainty 0.15 dB
}

cable OSP-1 {
  fibre       G.652.D
  count       96 tubes 8
  reel        R-01 4210 m marks 12..4222
  splice      fusion at CL-1
  reel        R-02 4185 m
}

link HALL-1 "Passenger hall access" {
  from        CORE/1:01
  connector   SC-APC
  segment     1850 m G.652.D
  splice      fusion
  split SP-1 PLC-1x4 {
    out 1 {
      splice      fusion
      segment     420 m G.652.D
      splice      fusion
      split SP-2 PLC-1x8 {
        out         1..8 to HALL/KIOSK-01..08 as kiosk-drop length 60 m
      }
    }
    out         2..4 spare
  }
}

pattern kiosk-drop {
  splice      fusion
  segment     <length> G.657.A1
  connector   SC-APC
}

link KQ-OSP-N "Taken out at the first closure" {
  from        CORE/O2:01..04
  to          NORTH-GATE:01..04
  connector   SC-APC
  segment     OSP-1 fibres 49..52 reels R-01
  splice      fusion at CL-1
  segment     310 m G.652.D
  connector   SC-APC
}

channel CAM "Cameras" {
  cord        2 m G.657.A1 crossed
  link        KQ-OSP-N fibres 1..2
  cord        2 m G.657.A1 straight
}

setup OT-1 {
  otdr        "T-2" calibrated 2026-02-03 due 2027-02-03
  cord        TC-8 launch SC-APC G.652.D length 500 m
  cord        TC-9 tail SC-APC G.652.D length 500 m
}

setup SM-1 {
  reference   one-cord
  source      "S-4" laser
  meter       "M-5" floor -60 dBm
  cord        TC-3 launch SC-APC G.652.D reference-grade
  cord        TC-4 receive SC-APC G.652.D reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 1310 nm -5.05 dBm
}

readings HALL-1 {
  setup       SM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns end,    1310 nm A>B
  HALL/KIOSK-01   18.9
  HALL/KIOSK-02   18.7
}

events KQ-OSP-N {
  setup       OT-1
  tested      2026-05-20 08:40 by "T. Holm"
  values      loss in dB
  columns fibre, at in km, kind,           1550 nm A>B, 1550 nm B>A
  1                0       connector         0.31         0.28
  1                4.212   splice           -0.04         0.14
  1                4.530   end             -            -
}

inspection KQ-OSP-N {
  criterion   "visual requirements"
  tested      2026-05-20 08:40 by "T. Holm"
  columns fibre, A, B
  1       pass  pass
  2       pass  fail
}
`;
