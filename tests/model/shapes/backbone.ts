/** One backbone link with its cable, set-up, readings, work and concession; other plans go on from it. */
export const backbone = `plan "Kestrel Quay ferry terminal: backbone" {
  limits      TIA-568.3-E
  measure     850 nm, 1300 nm for multimode
  directions  both
  reference   one-cord
  uncertainty 0.15 dB
  decision    flagged
}

cable C-101 {
  fibre       OM4
  count       24
  length      142 m
}

link KQ-OPS-B3 "Operations room to berth 3" {
  from        OPS/R2/A:01..12
  to          B3/R1/A:01..12
  connector   LC
  segment     C-101 fibres 1..12
  splice      fusion at "closure under ramp 3"
  segment     38 m OM4
  connector   LC
  carries     10GBASE-SR
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
}

readings KQ-OPS-B3 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A, 1300 nm A>B, 1300 nm B>A, remark
  1                1.12        1.15        0.84         0.80
  2                1.31        -           0.92         0.95
  3                2.66        2.63        1.44         1.41
  4              dark        dark        dark         dark         "patched at the wrong cabinet?"
}

work KQ-OPS-B3 {
  done        cleaned
  fibres      3
  on          2026-03-14 10:20
}

readings KQ-OPS-B3 {
  setup       MM-1
  tested      2026-03-14 10:30 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A, 1300 nm A>B, 1300 nm B>A
  3                2.60        2.57        1.40         1.38
}

concession KQ-OPS-B3 {
  fibres      3
  wavelength  850 nm
  accepted    2.61 dB
  because     "spare fibre, closure rework booked for the winter overhaul"
  by          "M. Ashdown" on 2026-03-20
}
`;
