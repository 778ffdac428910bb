/**
 * Plans of one link as a careful tester would leave them, with noise that is
 * stated. Each is kept as its numbers, so that a mistake can be put in before
 * it is written as text.
 *
 * Noise, all normal: a mated pair loses 0.20 dB, sigma 0.05 dB from fibre to
 * fibre (never under 0.05 dB), the same at both wavelengths and, but for
 * 0.01 dB, in both directions; a splice 0.05 dB, sigma 0.02 dB (never under 0);
 * each reading scatters by sigma 0.02 dB; the reference of each wavelength is
 * off by sigma 0.02 dB for the whole batch; the fibre of a cable loses what it
 * usually does within sigma 2 %; a measured length is 0.5 to 1.5 % over the
 * sheath, sigma 0.1 % from fibre to fibre. Values are typed to 0.01 dB.
 * Invented after common practice, no source.
 */
import { randomFrom } from '../support/clean-plans.ts';

export const noise = {
  pair: { mean: 0.2, sigma: 0.05, least: 0.05, direction: 0.01 },
  splice: { mean: 0.05, sigma: 0.02 },
  reading: 0.02,
  reference: 0.02,
  rate: 0.02,
  length: 0.001,
} as const;

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
  metres: [60, 300],
  setup: 'MM-1',
  source: 'LED',
  powers: [-20.05, -20.31],
};

export const singleMode: Kind = {
  mode: 'single-mode',
  fibre: 'OS2',
  wavelengths: [1310, 1550],
  rates: [0.34, 0.2],
  metres: [300, 6000],
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
  readonly metres?: number;
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
  const kind = shape.kind ?? drawn;
  const fibres = [12, 24, 24, 48][whole(0, 3)] ?? 24;
  const metres = whole(...kind.metres);
  const middles = whole(0, 1);
  const splices = whole(0, 2);
  const both = shape.both ?? random() < 0.5;
  const plan = { fibres: shape.fibres ?? fibres, metres: shape.metres ?? metres };
  const columns = ([0, 1] as const).flatMap((wavelength) =>
    (both ? (['A>B', 'B>A'] as const) : (['A>B'] as const)).map((direction) => ({
      wavelength,
      direction,
    })),
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
      sum(splices, () => Math.max(0, normal(splice.mean, splice.sigma)));
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
  const count = String(fibres).padStart(2, '0');
  const path = [
    '  connector   LC',
    ...(plan.step === undefined ? [] : ['  segment     220 m OM1', '  connector   LC']),
    `  segment     ${plan.metres} m ${kind.fibre}`,
    ...Array.from({ length: plan.splices }, () => [
      '  splice      fusion',
      `  segment     0 m ${kind.fibre}`,
    ]).flat(),
    ...(plan.middles > 0 ? ['  connector   LC', `  segment     0 m ${kind.fibre}`] : []),
    '  connector   LC',
  ].map((line) => line.replace(' 0 m ', ' 1 m '));
  const both = columns.some(({ direction }) => direction === 'B>A');
  const head = `plan "Study ${plan.seed}" {
  limits      TIA-568.3-E
  measure     ${short} nm, ${long} nm for ${kind.mode}
  directions  ${both ? 'both' : 'A>B'}
  reference   one-cord
  uncertainty ${kind.mode === 'multimode' ? '0.15' : '0.20'} dB
  zone        "UTC"
}`;
  const link = `link KQ-1 {
  from        OPS/R1/A:01..${count}
  to          B1/R1/A:01..${count}
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
      return `  ${index + 1}  ${cells.join('  ')}`;
    });
    return table(setupOf(plan, direction), plan.heading, headings.join(', '), rows);
  });
  const others = table(
    setupOf(plan, 'A>B'),
    'loss in dB',
    'seen, length in m',
    plan.seen.map(
      (place, index) =>
        `  ${index + 1}  B1/R1/A:${String(place).padStart(2, '0')}  ${(plan.lengths[index] ?? 0).toFixed(1)}`,
    ),
  );
  const kept = plan.step === undefined ? [...tables, others] : tables;
  return `${[head, ...(plan.step === undefined ? setups.slice(0, 1) : setups), link, ...kept].join('\n\n')}\n`;
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
  columns fibre, ${columns}
${rows.join('\n')}
}`;
}
