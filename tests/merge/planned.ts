/** A plan of one berth before anybody measured it, and the readings that testers append to it. */

export const planned = `# Berth 3 of Kestrel Quay
plan "Kestrel Quay: berth 3" {
  limits      TIA-568.3-E
  measure     850 nm
  directions  both
  reference   one-cord
  uncertainty 0.10 dB
}

# Operations room to berth 3
link KQ-OPS-B3 {
  from        OPS/R2/A:01..04
  to          B3/R1/A:01..04
  connector   LC
  segment     100 m OM4
  connector   LC
}

setup MM-1 {
  reference   one-cord
  source      "LS-4 no 221" LED
  meter       "PM-2 no 84" floor -60 dBm
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade verified 0.05 dB
  cord        TC-2 receive LC OM4 reference-grade verified 0.06 dB
  taken       2026-03-14 08:30 850 nm -20.00 dBm
  taken       2026-03-15 08:30 850 nm -20.00 dBm
}
`;

/** A row of readings, its cells under the columns of a block. */
export const row = (fibre: number, ...cells: string[]) =>
  `  ${fibre}          ${cells.map((cell) => cell.padEnd(13)).join('')}`.trimEnd();

/** A block of readings that one tester made in an hour of a day. */
export const readings = (day: string, by: string, ...rows: readonly string[]) => `
readings KQ-OPS-B3 {
  setup       MM-1
  tested      ${day} 09:00 to 10:00 by "${by}"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A
${rows.join('\n')}
}
`;
