/** The mistakes of a batch, each as a function that puts it into a clean plan. */
import { randomFrom } from '../support/clean-plans.ts';
import { multimode, type Shape, type StudyPlan, singleMode } from './plans.ts';

export interface Mistake {
  readonly name: string;
  /** Findings by which it is told; the first is its own. */
  readonly findings: readonly string[];
  /** What its size is, with its unit; undefined: it is there or not. */
  readonly size?: { readonly what: string; readonly unit: string };
  readonly sizes: readonly number[];
  /** Size from which it can be told from noise. */
  readonly from: number;
  /** What plans it can happen in. */
  shape?(size: number): Shape;
  put(plan: StudyPlan, size: number): StudyPlan;
  /** What the text has to hold for it to be told. */
  readonly needs: string;
}

/** What cannot be told from a text, and why. */
export const untold: readonly { readonly name: string; readonly because: string }[] = [
  {
    name: 'a mandrel of the wrong size',
    because:
      'what it changes, some hundredths to tenths of a decibel for all fibres alike, lies within what well-made and ordinary pairs differ by, and below what a batch must be off to be told; only what the set-up says of its mandrel shows it, which `mandrel-size-wrong` reads',
  },
  {
    name: 'swapped directions on a path without a step in its cores',
    because: 'both directions of such a path lose alike, so that nothing tells them apart',
  },
  {
    name: 'a whole table numbered wrongly, first measured',
    because:
      'where all fibres of a link take one path, any of them may have any of its losses; only an earlier measurement of the same fibres shows it',
  },
  {
    name: 'values pasted from the table of another link',
    because: 'each link is judged by itself, and the other link may have the same parts',
  },
  {
    name: 'a mistake that all of two or three fibres share',
    because:
      'so few readings have no median, no order and no numbering of their own; what is impossible of each of them is told all the same',
  },
  {
    name: 'a level of a tree whose ends all lie differently far',
    because: 'only readings of one path are mates; ends that are written alike are',
  },
];

const eachLoss = (
  plan: StudyPlan,
  change: (loss: number, row: number, column: number) => number,
): StudyPlan => ({
  ...plan,
  losses: plan.losses.map((row, at) => row.map((loss, column) => change(loss, at, column))),
});

/** Metres at which both wavelengths differ by so many decibels. */
const lengthFor = (size: number, kind: typeof multimode) =>
  Math.max(10, Math.round((size / (kind.rates[0] - kind.rates[1])) * 1000));

/** Up to 1 km: what the fibre itself may lose less hides nothing. */
const short: Shape = { range: [10, 1000], least: 4, tree: false };

const decibels = [0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.6, 0.8];

export const mistakes: readonly Mistake[] = [
  {
    name: 'swapped wavelengths, single-mode',
    findings: ['wavelengths-exchanged'],
    size: { what: 'what the fibre loses more at the shorter', unit: 'dB' },
    sizes: [0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4],
    from: 0.25,
    shape: (size) => ({ kind: singleMode, metres: lengthFor(size, singleMode), least: 4 }),
    put: swapWavelengths,
    needs: 'lengths, and typical attenuations of the fibre',
  },
  {
    name: 'swapped wavelengths, multimode',
    findings: ['wavelengths-exchanged'],
    size: { what: 'what the fibre loses more at the shorter', unit: 'dB' },
    sizes: [0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4],
    from: 0.25,
    shape: (size) => ({ kind: multimode, metres: lengthFor(size, multimode), least: 4 }),
    put: swapWavelengths,
    needs: 'lengths, and typical attenuations of the fibre',
  },
  {
    name: 'swapped wavelengths of a tree',
    findings: ['wavelengths-exchanged'],
    size: { what: 'what the fibre loses more at the shorter', unit: 'dB' },
    sizes: [0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4],
    from: 0.25,
    shape: (size) => ({ tree: true, metres: lengthFor(size, singleMode) }),
    put: swapWavelengths,
    needs: 'lengths, and typical attenuations of the fibre',
  },
  {
    name: 'swapped directions',
    findings: ['directions-exchanged'],
    size: { what: 'what the step of the cores takes', unit: 'dB' },
    sizes: [0.1, 0.2, 0.3, 0.4, 0.6, 0.9],
    from: 0.4,
    shape: (size) => ({ kind: multimode, both: true, step: size, least: 4 }),
    put: (plan) => ({
      ...plan,
      losses: plan.losses.map((row) =>
        row.map(
          (_, at) =>
            row[
              plan.columns.findIndex(
                ({ wavelength, direction }) =>
                  wavelength === plan.columns[at]?.wavelength &&
                  direction !== plan.columns[at]?.direction,
              )
            ] ?? 0,
        ),
      ),
    }),
    needs: 'fibres of two cores in the path, both directions',
  },
  {
    name: 'losses headed as powers (dB for dBm)',
    findings: ['unit-suspect'],
    sizes: [1],
    from: 1,
    put: (plan) => ({ ...plan, heading: 'power in dBm' }),
    needs: 'a reference',
  },
  {
    name: 'powers headed as losses (dBm for dB)',
    findings: ['unit-suspect'],
    sizes: [1],
    from: 1,
    put: (plan) => ({ ...plan, write: (loss, reference) => (reference - loss).toFixed(2) }),
    needs: 'a reference',
  },
  {
    name: 'µW headed as dBm',
    findings: ['unit-suspect'],
    sizes: [1],
    from: 1,
    put: (plan) => ({
      ...plan,
      heading: 'power in dBm',
      write: (loss, reference) => (1000 * 10 ** ((reference - loss) / 10)).toFixed(3),
    }),
    needs: 'a reference',
  },
  {
    name: 'losses with the other sign',
    // Many decibels with the wrong sign look like powers first.
    findings: ['sign-suspect', 'unit-suspect'],
    sizes: [1],
    from: 1,
    put: (plan) => ({ ...plan, write: (loss) => (-loss).toFixed(2) }),
    needs: 'three values of a block',
  },
  {
    name: 'powers without their sign',
    findings: ['unit-suspect'],
    sizes: [1],
    from: 1,
    put: (plan) => ({
      ...plan,
      heading: 'power in dBm',
      write: (loss, reference) => (-(reference - loss)).toFixed(2),
    }),
    needs: 'a reference',
  },
  {
    name: 'a reference taken with a dirty plug',
    findings: ['batch-too-low', 'reference-suspect', 'loss-negative', 'sign-suspect'],
    size: { what: 'what the dirt took', unit: 'dB' },
    sizes: decibels,
    from: 0.6,
    shape: () => short,
    put: (plan, size) => eachLoss(plan, (loss) => loss - size),
    needs: 'typical losses of all parts, four fibres',
  },
  {
    name: 'a reference taken with a dirty plug, 5 to 20 km',
    findings: ['batch-too-low', 'reference-suspect', 'loss-negative', 'sign-suspect'],
    size: { what: 'what the dirt took', unit: 'dB' },
    sizes: [0.5, 1, 1.5, 2, 2.5],
    from: 2,
    shape: () => ({ kind: singleMode, range: [5000, 20_000], least: 4 }),
    put: (plan, size) => eachLoss(plan, (loss) => loss - size),
    needs: 'typical losses of all parts, four fibres',
  },
  {
    name: 'a reference taken with a dirty plug, of a tree',
    findings: ['batch-too-low', 'loss-too-good'],
    size: { what: 'what the dirt took', unit: 'dB' },
    sizes: [0.5, 1, 2, 3, 4, 5, 6],
    from: 5,
    shape: () => ({ tree: true }),
    put: (plan, size) => eachLoss(plan, (loss) => loss - size),
    needs: 'typical losses of all parts, splitters too',
  },
  {
    name: 'the receive cord missing',
    findings: ['batch-too-low', 'reference-suspect', 'loss-negative', 'sign-suspect'],
    size: { what: 'what its pair would lose', unit: 'dB' },
    sizes: decibels,
    from: 0.6,
    shape: () => short,
    put(plan, size) {
      const random = randomFrom(plan.seed + 77);
      const missing = plan.losses.map(() => size * (0.8 + 0.4 * random()));
      return eachLoss(plan, (loss, row) => loss - (missing[row] ?? 0));
    },
    needs: 'typical losses of all parts, four fibres',
  },
  {
    name: 'a test cord of the wrong core',
    findings: ['batch-too-high'],
    size: { what: 'what its step takes', unit: 'dB' },
    sizes: [0.2, 0.4, 0.6, 0.8, 1, 1.2, 1.6],
    from: 1,
    shape: () => ({ kind: multimode, least: 4 }),
    put: (plan, size) => eachLoss(plan, (loss) => loss + size),
    needs: 'typical losses of all parts',
  },
  {
    name: 'rows pasted twice',
    findings: ['rows-repeated'],
    size: { what: 'rows pasted', unit: 'rows' },
    sizes: [1, 2, 3, 4, 5, 6],
    from: 6,
    shape: () => ({ least: 12, tree: false }),
    put(plan, size) {
      const from = Math.floor(plan.fibres / 2);
      return {
        ...plan,
        losses: plan.losses.map((row, at) =>
          at >= from && at < from + size ? (plan.losses[at - from] ?? row) : row,
        ),
      };
    },
    needs: 'values as typed, with the resolution of the instrument',
  },
  {
    name: 'one direction copied as the other',
    findings: ['direction-fake'],
    size: { what: 'fibres of the table', unit: 'fibres' },
    sizes: [2, 4, 6, 8, 12],
    from: 6,
    shape: (size) => ({ both: true, fibres: size }),
    put: (plan) => ({
      ...plan,
      losses: plan.losses.map((row) =>
        row.map((loss, at) => {
          const { wavelength, direction } = plan.columns[at] ?? {};
          const other = plan.columns.findIndex(
            (one) => one.wavelength === wavelength && one.direction === 'A>B',
          );
          return direction === 'B>A' ? (row[other] ?? loss) : loss;
        }),
      ),
    }),
    needs: 'both directions of more than five fibres',
  },
  {
    name: 'one direction numbered one off',
    findings: ['numbers-shifted'],
    size: { what: 'fibres of the table', unit: 'fibres' },
    sizes: [8, 12, 16, 24, 36, 48],
    from: 24,
    shape: (size) => ({ both: true, fibres: size }),
    put: (plan) => renumberBack(plan, (row) => row + 1),
    needs: 'both directions, or an earlier measurement',
  },
  {
    name: 'one direction numbered by the wrong step',
    findings: ['numbers-shifted'],
    size: { what: 'fibres of the table', unit: 'fibres' },
    sizes: [12, 24, 36, 48, 60, 72],
    from: 36,
    shape: (size) => ({ both: true, fibres: size }),
    // Odd fibres first, then the even ones: two passes along the panel, numbered as one.
    put: (plan) =>
      renumberBack(plan, (row) => {
        const half = Math.ceil(plan.fibres / 2);
        return row < half ? 2 * row : 2 * (row - half) + 1;
      }),
    needs: 'both directions, or an earlier measurement',
  },
  ...([24, 12] as const).map(
    (fibres): Mistake => ({
      name: `drift while the source warms up, ${fibres} fibres`,
      findings: ['drift-while-testing', 'level-changes'],
      size: { what: 'drift from the first to the last fibre', unit: 'dB' },
      sizes: [0.1, 0.2, 0.4, 0.6, 0.8, 1, 1.2, 1.4],
      from: fibres === 24 ? 0.6 : 1.2,
      shape: () => ({ fibres }),
      put(plan, size) {
        // Most of it in the beginning, as a source settles.
        const share = (row: number) =>
          (1 - Math.exp((-2 * row) / (plan.fibres - 1))) / (1 - Math.exp(-2));
        return eachLoss(plan, (loss, row) => loss + size * share(row));
      },
      needs: 'rows in the order of measuring, at least ten',
    }),
  ),
  ...([48, 24, 12] as const).map(
    (fibres): Mistake => ({
      name:
        fibres === 48
          ? 'a cord that goes bad at fibre 31 of 48'
          : `a cord that goes bad on the way, ${fibres} fibres`,
      findings: ['level-changes', 'drift-while-testing'],
      size: { what: 'what it loses from then on', unit: 'dB' },
      sizes: [0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.7, 0.9],
      from: { 48: 0.3, 24: 0.4, 12: 0.7 }[fibres],
      shape: () => ({ fibres }),
      put(plan, size) {
        const at =
          fibres === 48 ? 30 : Math.floor(plan.fibres * (0.4 + 0.3 * randomFrom(plan.seed + 5)()));
        return eachLoss(plan, (loss, row) => (row >= at ? loss + size : loss));
      },
      needs: 'rows in the order of measuring, four on either side',
    }),
  ),
  {
    name: 'a bend',
    findings: ['bend-signature-sm'],
    size: { what: 'what it takes at the longer wavelength', unit: 'dB' },
    sizes: decibels,
    from: 0.4,
    shape: () => ({ kind: singleMode, least: 8 }),
    // A bend takes a tenth at the shorter wavelength. Common practice, no source.
    put: (plan, size) =>
      eachLoss(plan, (loss, row, column) =>
        row !== 1 ? loss : loss + (plan.columns[column]?.wavelength === 1 ? size : size / 10),
      ),
    needs: 'two wavelengths of single-mode fibre, lengths, eight fibres',
  },
  {
    name: 'a bend, in 4 fibres of 2 km',
    findings: ['bend-signature-sm'],
    size: { what: 'what it takes at the longer wavelength', unit: 'dB' },
    sizes: decibels,
    from: 0.5,
    shape: () => ({ kind: singleMode, fibres: 4, metres: 2000 }),
    put: (plan, size) =>
      eachLoss(plan, (loss, row, column) =>
        row !== 1 ? loss : loss + (plan.columns[column]?.wavelength === 1 ? size : size / 10),
      ),
    needs: 'two wavelengths of single-mode fibre, lengths',
  },
  {
    name: 'the wrong fibre, by its length',
    findings: ['length-differs'],
    size: { what: 'how much longer it is', unit: '%' },
    sizes: [1, 2, 3, 4, 5, 6],
    from: 4,
    shape: () => ({ kind: singleMode, metres: 2000 }),
    put: (plan, size) => ({
      ...plan,
      lengths: plan.lengths.map((length, at) => (at === 1 ? length * (1 + size / 100) : length)),
    }),
    needs: 'measured lengths',
  },
  {
    name: 'continuity that crosses a pair',
    findings: ['wrong-pair'],
    sizes: [1],
    from: 1,
    shape: () => ({ tree: false }),
    put: (plan) => ({
      ...plan,
      seen: plan.seen.map((place, at) => (at === 0 ? place + 1 : at === 1 ? place - 1 : place)),
    }),
    needs: 'ports at which light was seen',
  },
];

function swapWavelengths(plan: StudyPlan): StudyPlan {
  return {
    ...plan,
    losses: plan.losses.map((row) =>
      row.map(
        (_, at) =>
          row[
            plan.columns.findIndex(
              ({ wavelength, direction }) =>
                wavelength !== plan.columns[at]?.wavelength &&
                direction === plan.columns[at]?.direction,
            )
          ] ?? 0,
      ),
    ),
  };
}

/** Each row gets the B>A values of another; the last ones keep their own. */
function renumberBack(plan: StudyPlan, from: (row: number) => number): StudyPlan {
  return {
    ...plan,
    losses: plan.losses.map((row, at) =>
      row.map((loss, column) =>
        plan.columns[column]?.direction === 'B>A'
          ? (plan.losses[from(at)]?.[column] ?? loss)
          : loss,
      ),
    ),
  };
}
