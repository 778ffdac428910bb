/**
 * Plans of one link or tree as a careful tester would leave them, with noise that is
 * stated. Each is kept as its numbers, so that a mistake can be put in before
 * it is written as text.
 *
 * Noise, all normal: a mated pair loses 0.20 dB, sigma 0.05 dB from fibre to
 * fibre (never under 0.05 dB), the same at both wavelengths and, but for
 * 0.01 dB, in both directions; a splice 0.05 dB, sigma 0.02 dB (never under 0);
 * each reading scatters by sigma 0.02 dB; the reference of each wavelength is
 * off by sigma 0.02 dB for the whole batch; the fibre of a cable loses what it
 * usually does within sigma 2 %; a measured length is 0.5 to 1.5 % over the
 * sheath, sigma 0.1 % from fibre to fibre; an output of a splitter loses what
 * it usually does within sigma 0.15 dB, alike at both wavelengths. Values are
 * typed to 0.01 dB. Invented after common practice, no source.
 */
import { randomFrom } from '../support/clean-plans.ts';

export const noise = {
  pair: { mean: 0.2, sigma: 0.05, least: 0.05, direction: 0.01 },
  splice: { mean: 0.05, sigma: 0.02 },
  reading: 0.02,
  reference: 0.02,
  rate: 0.02,
  length: 0.001,
  output: 0.15,
} as const;

/** How many fibres a link may have; those that are common more often. */
const counts = [2, 4, 8, 12, 12, 24, 24, 24, 48, 48, 96, 12, 24, 24, 144, 12, 24, 48, 12, 288];

/** Outputs of a splitter and what light usually loses to one of them, dB. Invented. */
const splitters = [
  [4, 6.9],
  [8, 10.2],
  [16, 13.4],
  [32, 16.6],
] as const;

export interface Kind {
  readonly mode: 'multimode' | 'single-mode';
  readonly fibre: string;
  readonly wavelengths: readonly [number, number];
  /** dB/km, invented within the library's typical and greatest figures. */
  readonly rates: readonly [number, number];
  readonly metres: readonly [number, number];
  readonly setup: string;
  readonly source: string;
  readonly powers: readonly [number, number];
}

export const multimode: Kind = {
  mode: 'multimode',
  fibre: 'OM4',
  wavelengths: [850, 1300],
  rates: [2.7, 0.7],
  metres: [10, 500],
  setup: 'MM-1',
  source: 'LED',
  powers: [-20.05, -20.31],
};

export const singleMode: Kind = {
  mode: 'single-mode',
  fibre: 'OS2',
  wavelengths: [1310, 1550],
  rates: [0.34, 0.2],
  metres: [50, 20_000],
  setup: 'SM-1',
  source: 'laser',
  powers: [-3.1, -3.42],
};

export type Direction = 'A>B' | 'B>A';

export interface Column {
  readonly wavelength: 0 | 1;
  readonly direction: Direction;
}

/** What a plan is asked to be; the rest is drawn. */
export interface Shape {
  readonly kind?: Kind;
  readonly fibres?: number;
  /** No fewer than these. */
  readonly least?: number;
  /** Undefined: a tree one time in eight, where nothing else forbids it. */
  readonly tree?: boolean;
  readonly metres?: number;
  /** Metres, of those that are drawn. */
  readonly range?: readonly [number, number];
  readonly both?: boolean;
  /** Loss that light finds where the core narrows from A to B: 220 m of 62.5 µm before the rest. */
  readonly step?: number;
}

export interface StudyPlan {
  readonly seed: number;
  readonly kind: Kind;
  readonly fibres: number;
  readonly metres: number;
  readonly middles: number;
  readonly splices: number;
  readonly step: number | undefined;
  /** A tree: what light usually loses to one of its outputs, which are its fibres. */
  readonly output: number | undefined;
  readonly columns: readonly Column[];
  /** Losses in dB, a row a fibre in the order of measuring, by column. */
  readonly losses: readonly (readonly number[])[];
  /** Metres as measured, and places at B where light was seen, by fibre. */
  readonly lengths: readonly number[];
  readonly seen: readonly number[];
  /** How the values of the table are headed, and written. */
  readonly heading: string;
  readonly write: (loss: number, reference: number) => string;
}

/** Normal numbers from uniform ones (Box and Muller, 1958). */
export function normalFrom(random: () => number): (mean: number, sigma: number) => number {
  return (mean, sigma) =>
    mean + sigma * Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

export function studyPlan(seed: number, shape: Shape = {}): StudyPlan {
  const random = randomFrom(seed);
  const normal = normalFrom(random);
  const whole = (from: number, to: number) => from + Math.floor(random() * (to - from + 1));
  const drawn = random() < 0.5 ? multimode : singleMode;
  const least = shape.least ?? 0;
  const [outputs, output] = splitters[whole(0, splitters.length - 1)] ?? [8, 10.2];
  const chance = random() < 1 / 8;
  const tree =
    shape.tree ??
    (chance && Object.keys(shape).every((key) => key === 'least') && outputs >= least);
  const kind = tree ? singleMode : (shape.kind ?? drawn);
  const possible = counts.filter((count) => count >= least);
  const count = possible[whole(0, possible.length - 1)] ?? 24;
  const fibres = tree ? outputs : count;
  // Short ones as often as long ones.
  const [shortest, longest] = shape.range ?? kind.metres;
  const metres = Math.round(shortest * (longest / shortest) ** random());
  const middles = whole(0, 1);
  const splices = whole(0, 2);
  const round = random() < 0.5;
  const both = !tree && (shape.both ?? round);
  const plan = { fibres: shape.fibres ?? fibres, metres: shape.metres ?? metres };
  const columns = ([0, 1] as const).flatMap((wavelength) =>
    (both ? (['A>B', 'B>A'] as const) : tree ? (['B>A'] as const) : (['A>B'] as const)).map(
      (direction) => ({
        wavelength,
        direction,
      }),
    ),
  );
  const rates = kind.rates.map((rate) => rate * normal(1, noise.rate));
  const references = [normal(0, noise.reference), normal(0, noise.reference)];
  const stepped = shape.step !== undefined;
  const pairs = 2 + middles + (stepped ? 1 : 0);
  const helix = 1.005 + 0.01 * random();
  const { pair, splice } = noise;
  const losses = Array.from({ length: plan.fibres }, () => {
    const sum = (count: number, draw: () => number) =>
      Array.from({ length: count }, draw).reduce((a, b) => a + b, 0);
    const joints =
      sum(pairs, () => Math.max(pair.least, normal(pair.mean, pair.sigma))) +
      sum(splices + (tree ? 2 : 0), () => Math.max(0, normal(splice.mean, splice.sigma))) +
      (tree ? normal(output, noise.output) : 0);
    const back = normal(0, pair.direction);
    return columns.map(({ wavelength, direction }) => {
      const glass = ((rates[wavelength] ?? 0) * plan.metres) / 1000;
      // The stretch of greater core loses 3.0 and 0.8 dB/km, the library's typical figures.
      const old = stepped ? 0.22 * ([3.0, 0.8][wavelength] ?? 0) : 0;
      const narrows = direction === 'A>B' ? (shape.step ?? 0) : back;
      const own = glass + old + joints + narrows + (references[wavelength] ?? 0);
      return normal(own, noise.reading);
    });
  });
  const metresMeasured = losses.map(() => plan.metres * normal(helix, noise.length));
  return {
    seed,
    kind,
    ...plan,
    middles,
    splices,
    step: shape.step,
    output: tree ? output : undefined,
    columns,
    losses,
    lengths: metresMeasured,
    seen: losses.map((_, index) => index + 1),
    heading: 'loss in dB',
    write: (loss) => loss.toFixed(2),
  };
}

/** The plan as text. */
export function textOf(plan: StudyPlan): string {
  const { kind, fibres, columns } = plan;
  const [short, long] = kind.wavelengths;
  const digits = Math.max(2, String(fibres).length);
  const numbered = (place: number) => String(place).padStart(digits, '0');
  const [first, count] = [numbered(1), numbered(fibres)];
  const path = [
    '  connector   LC',
    ...(plan.step === undefined ? [] : ['  segment     220 m OM1', '  connector   LC']),
    `  segment     ${plan.metres} m ${kind.fibre}`,
    ...Array.from({ length: plan.splices }, () => [
      '  splice      fusion',
      `  segment     0 m ${kind.fibre}`,
    ]).flat(),
    ...(plan.middles > 0 ? ['  connector   LC', `  segment     0 m ${kind.fibre}`] : []),
    ...(plan.output === undefined
      ? ['  connector   LC']
      : [
          '  splice      fusion',
          `  split SP-1 KQ-1x${fibres} {`,
          `    out         1..${fibres} to B1/R1/A:${first}..${count} as drop`,
          '  }',
        ]),
  ].map((line) => line.replace(' 0 m ', ' 1 m '));
  const directions = [...new Set(columns.map(({ direction }) => direction))];
  const both = directions.length > 1;
  const head = `plan "Study ${plan.seed}" {
  limits      TIA-568.3-E
  measure     ${short} nm, ${long} nm for ${kind.mode}
  directions  ${both ? 'both' : directions[0]}
  reference   one-cord
  uncertainty ${kind.mode === 'multimode' ? '0.15' : '0.20'} dB
  zone        "UTC"
}`;
  const ends =
    plan.output === undefined
      ? `  from        OPS/R1/A:${first}..${count}\n  to          B1/R1/A:${first}..${count}`
      : '  from        OPS/R1/A:01';
  const link = `${plan.output === undefined ? '' : treeParts(fibres, plan.output)}link KQ-1 {
${ends}
${path.join('\n')}
}`;
  const [launchA, launchB] = [plan.step === undefined ? kind.fibre : 'OM1', kind.fibre];
  const setups = (both ? (['A>B', 'B>A'] as const) : (['A>B'] as const)).map((direction) =>
    setup(
      plan,
      setupOf(plan, direction),
      direction === 'A>B' ? [launchA, launchB] : [launchB, launchA],
    ),
  );
  // Without a step one set-up is carried round; with one each end has its own cord.
  const groups =
    plan.step === undefined
      ? [columns.map((_, index) => index)]
      : (['A>B', 'B>A'] as const).map((direction) =>
          columns.flatMap((column, index) => (column.direction === direction ? [index] : [])),
        );
  const tables = groups.map((group) => {
    const direction = columns[group[0] ?? 0]?.direction ?? 'A>B';
    const headings = group.map((index) => {
      const column = columns[index];
      return `${kind.wavelengths[column?.wavelength ?? 0]} nm ${column?.direction}`;
    });
    const rows = plan.losses.map((row, index) => {
      const cells = group.map((at) =>
        plan.write(row[at] ?? 0, kind.powers[columns[at]?.wavelength ?? 0]),
      );
      const end = `B1/R1/A:${numbered(index + 1)}`;
      return `  ${plan.output === undefined ? index + 1 : end}  ${cells.join('  ')}`;
    });
    const named = plan.output === undefined ? 'fibre' : 'end';
    return table(setupOf(plan, direction), plan.heading, `${named}, ${headings.join(', ')}`, rows);
  });
  const others = table(
    setupOf(plan, 'A>B'),
    'loss in dB',
    'fibre, seen, length in m',
    plan.seen.map(
      (place, index) =>
        `  ${index + 1}  B1/R1/A:${numbered(place)}  ${(plan.lengths[index] ?? 0).toFixed(1)}`,
    ),
  );
  const kept = plan.step === undefined && plan.output === undefined ? [...tables, others] : tables;
  return `${[head, ...(plan.step === undefined ? setups.slice(0, 1) : setups), link, ...kept].join('\n\n')}\n`;
}

/** The splitter of a tree and its drops: 40 m, spliced and with one pair, which the study counts with the rest. */
function treeParts(outputs: number, usual: number): string {
  return `splitter KQ-1x${outputs} {
  ports       1:${outputs}
  loss        typ ${usual.toFixed(1)} dB max ${(usual + 0.8).toFixed(1)} dB
}

pattern drop {
  splice      fusion
  segment     40 m OS2
  connector   LC
}

`;
}

function setupOf(plan: StudyPlan, direction: Direction): string {
  return plan.step === undefined || direction === 'A>B' ? plan.kind.setup : `${plan.kind.setup}B`;
}

function setup(
  { kind }: StudyPlan,
  name: string,
  [launch, receive]: readonly [string, string] | readonly string[],
): string {
  const [short, long] = kind.wavelengths;
  return `setup ${name} {
  reference   one-cord
  source      "S-1" ${kind.source} calibrated 2026-01-12 due 2027-01-12
  meter       "M-1" floor -60 dBm calibrated 2026-01-12 due 2027-01-12${kind.mode === 'multimode' ? '\n  launch      encircled-flux' : ''}
  cord        TC-1 launch LC ${launch} reference-grade
  cord        TC-2 receive LC ${receive} reference-grade verified 0.07 dB
  taken       2026-03-14 08:10 ${short} nm ${kind.powers[0].toFixed(2)} dBm
  taken       2026-03-14 08:10 ${long} nm ${kind.powers[1].toFixed(2)} dBm
}`;
}

function table(setupName: string, heading: string, columns: string, rows: readonly string[]) {
  return `readings KQ-1 {
  setup       ${setupName}
  tested      2026-03-14 09:05 to 11:40 by "R. Vale"
  values      ${heading}
  columns ${columns}
${rows.join('\n')}
}`;
}
