/** The parts that the checks' examples share, so that each shows only what it is about. */

export const multimodePlan = `plan "Example" {
  limits      TIA-568.3-E
  measure     850 nm, 1300 nm for multimode
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
  zone        "UTC"
}
`;

export const singleModePlan = `plan "Example" {
  limits      TIA-568.3-E
  measure     1310 nm, 1550 nm for single-mode
  directions  A>B
  reference   one-cord
  uncertainty 0.20 dB
  zone        "UTC"
}
`;

export const multimodeLink = `link KQ-1 {
  fibres      1..2
  connector   LC
  segment     180 m OM4
  connector   LC
}
`;

export const singleModeLink = `link KQ-1 {
  fibres      1..2
  connector   LC
  segment     800 m OS2
  connector   LC
}
`;

export const multimodeSetup = `setup MM-1 {
  reference   one-cord
  source      "S-3" LED calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
  taken       2026-03-14 08:10 1300 nm -20.31 dBm
}
`;

export const singleModeSetup = `setup SM-1 {
  reference   one-cord
  source      "S-4" laser calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -70 dBm calibrated 2026-01-12 due 2027-01-12
  cord        TC-7 launch LC OS2 reference-grade
  cord        TC-8 receive LC OS2 reference-grade verified 0.10 dB
  taken       2026-03-14 08:20 1310 nm -3.10 dBm
  taken       2026-03-14 08:20 1550 nm -3.42 dBm
}
`;

/** A transceiver for a long path, what it carries, and the path. */
export const farTransceiver = `application FAR-LINE {
  count       2
  wavelength  1550 nm
  fibre       OS2 reach 80 km loss 30 dB
}

transceiver FAR-1 {
  application FAR-LINE
  wavelength  1550 nm
  output      min 0 dBm max 4 dBm
  input       min -24 dBm max -7 dBm
  penalty     2.0 dB
  dispersion  max 1600 ps/nm
}
`;

export const longLink = `fibre FAR-FIBRE {
  like        G.652.D
  meets       OS2
  attenuation 1550 nm min 0.37 dB/km max 0.38 dB/km
}

link KQ-1 {
  fibres      1..2
  connector   LC
  segment     30 km FAR-FIBRE
  connector   LC
  carries     FAR-LINE with FAR-1
}
`;

/** An attenuator with both of its ends. */
export const pad = `component PAD-12 {
  loss        min 11 dB typ 12 dB max 13 dB
}
`;

export const tracePlan = `plan "Example" {
  limits      KQ-SPLICES
  measure     1550 nm for single-mode
  directions  both
  reference   one-cord
  uncertainty 0.20 dB
  zone        "UTC"
}
`;

export const spliceLimits = `limits KQ-SPLICES {
  like        TIA-568.3-E
  edition     "contract, clause 8.2" contract
  splice      any 0.20 dB objective 0.10 dB
}

splice melted {
  loss        typ 0.05 dB max 0.10 dB
  return-loss min 60 dB
  basis       "contract, clause 8.2" read
}
`;

export const traceLink = `link KQ-1 {
  fibres      1..2
  connector   SC-APC
  segment     4.2 km OS2
  splice      melted at "closure 1"
  segment     3.9 km OS2
  connector   SC-APC
}
`;

export const traceSetup = `setup OT-1 {
  otdr        "T-2" calibrated 2026-01-12 due 2027-01-12
  cord        LF-1 launch SC-APC OS2 length 1 km
  cord        LF-2 tail SC-APC OS2 length 1 km
  pulse       100 ns
  averaging   30 s
  range       20 km
  index       1550 nm 1.468
}
`;

/** An events block of losses at 1550 nm from both ends; rows as typed, perhaps with a reflectance seen from A. */
export function traces(...rows: readonly string[]): string {
  const reflected = rows.some((row) => row.trim().split(/ +/u).length > 5);
  const values = reflected ? '\n  values      reflectance in dB' : '';
  const heading = reflected ? ', 1550 nm A>B reflectance' : '';
  return `events KQ-1 {
  setup       OT-1
  tested      2026-03-14 09:05 to 09:40 by "T. Holm"
  values      loss in dB${values}
  columns fibre, at in km, kind, 1550 nm A>B, 1550 nm B>A${heading}
${rows.map((row) => `  ${row}`).join('\n')}
}
`;
}

/** Rows of one fibre whose trace is as good as its path: both end pairs, the splice, the end. */
export const soundRows = [
  '1  0    connector   0.31   0.28',
  '1  4.2  splice      0.05   0.09',
  '1  8.1  connector   0.26   0.30',
  '1  8.1  end         -      -',
] as const;

/** A link of two reels and the traces of one of its fibres, from both ends: what the findings on traces are silent on. */
export const soundTrace = tracePlanWith(...soundRows);

/** The same link and set-up, with other rows of traces. */
export function tracePlanWith(...rows: readonly string[]): string {
  return example(tracePlan, spliceLimits, traceLink, traceSetup, traces(...rows));
}

/** The sound trace with other rows: in place of those of the same distance and kind, or where they lie along the fibre. */
export function traceWith(...rows: readonly string[]): string {
  const wordsOf = (row: string) => row.split(/ +/u);
  const placed = new Map(
    [...soundRows, ...rows].map((row) => [wordsOf(row).slice(0, 3).join(' '), row]),
  );
  const distance = (row: string) => Number(wordsOf(row)[1]);
  return tracePlanWith(...[...placed.values()].sort((a, b) => distance(a) - distance(b)));
}

/** Splitters, what light they carry, and the last stretch to an end. */
export const treeParts = `splitter FOURTH {
  ports       1:4
  loss        max 7.4 dB
}

splitter EIGHTH {
  ports       1:8
  loss        max 10.7 dB
}

application ACCESS {
  count       1
  wavelength  1310 nm B>A
  wavelength  1550 nm A>B
  fibre       OS2 reach 20 km loss 28 dB min 13 dB differential 20 dB
}

pattern drop {
  splice      fusion
  segment     60 m OS2
  connector   SC-APC
}
`;

/** A tree of eight ends behind the first output of its first splitter; the other three as said. */
export function tree(others: string): string {
  return `link KQ-1 {
  from        CORE/1:01
  connector   SC-APC
  segment     1850 m OS2
  splice      fusion
  split SP-1 FOURTH {
    out 1 {
      splice      fusion
      split SP-2 EIGHTH {
        out         1..8 as drop
      }
    }
    ${others}
  }
  carries     ACCESS
}
`;
}

/** A readings block of multimode losses at 850 and 1300 nm, A>B; rows as typed. */
export function multimodeReadings(...rows: readonly string[]): string {
  return readings('MM-1', '850 nm A>B, 1300 nm A>B', rows);
}

/** A readings block of single-mode losses at 1310 and 1550 nm, A>B; rows as typed. */
export function singleModeReadings(...rows: readonly string[]): string {
  return readings('SM-1', '1310 nm A>B, 1550 nm A>B', rows);
}

/** A readings block with its own headings. */
export function readings(setup: string, headings: string, rows: readonly string[]): string {
  return `readings KQ-1 {
  setup       ${setup}
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, ${headings}
${rows.map((row) => `  ${row}`).join('\n')}
}
`;
}

/** Texts as one plan, an empty line between declarations. */
export function example(...parts: readonly string[]): string {
  return parts.join('\n');
}

/** A link under limits that ask a return loss of its connectors. */
export const angledPlan = `plan "Example" {
  limits      KQ-OWNER
  measure     850 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
  zone        "UTC"
}

limits KQ-OWNER {
  edition     "contract, clause 7.4" contract
  policy      counting
  fibre       OM4 850 nm 3.0 dB/km
  connector   any 0.75 dB
  return-loss LC min 60 dB
}

link KQ-1 {
  fibres      1
  connector   LC
  segment     180 m OM4
  connector   LC
}
`;

/** A reading of loss with the reflectance of end A beside it. */
export function reflected(reflectance: string): string {
  return `readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  values      reflectance in dB
  columns fibre, 850 nm A>B, 850 nm A>B reflectance
  1  1.12  ${reflectance}
}
`;
}

/** Twelve fibres of one link, measured without a mistake: what the findings on whole batches are silent on. */
export const soundBatch = example(
  multimodePlan,
  multimodeLink.replace('1..2', '1..12'),
  multimodeSetup,
  multimodeReadings(
    '1  1.12  0.81',
    '2  1.05  0.75',
    '3  1.09  0.80',
    '4  1.17  0.86',
    '5  1.02  0.72',
    '6  1.14  0.85',
    '7  1.08  0.77',
    '8  1.06  0.76',
    '9  1.15  0.86',
    '10  1.04  0.73',
    '11  1.11  0.81',
    '12  1.07  0.78',
  ),
);
