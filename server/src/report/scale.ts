/**
 * The one scale of a table: readings are placed by their margin, so that every
 * limit falls on the same line, at 10/13 of the width.
 */

/** Margins in dB that the left end may stand for. */
const reaches = [1, 1.5, 2, 3, 4, 6, 10, 15, 30] as const;

/** Right of the limit lies this share of the reach. */
export const shareOver = 0.3;

/** Place of the limit line, as a share of the width. */
export const limitAt = 1 / (1 + shareOver);

const steps: ReadonlyMap<number, number> = new Map([
  [1, 0.25],
  [1.5, 0.5],
  [2, 0.5],
  [3, 1],
  [4, 1],
  [6, 2],
  [10, 2.5],
  [15, 5],
  [30, 10],
]);

export interface Tick {
  /** Share of the width from the left. */
  readonly at: number;
  readonly label: string;
}

/** How many margins each reach holds. */
export type Held = readonly number[];

export const noneHeld: Held = reaches.map(() => 0);

/** Counts margins (dB) by the reaches that hold them. */
export function hold(margins: Iterable<number>): Held {
  const held = reaches.map(() => 0);
  for (const margin of margins) {
    for (
      let index = reaches.length - 1;
      index >= 0 && margin <= (reaches[index] ?? 0);
      index -= 1
    ) {
      held[index] = (held[index] ?? 0) + 1;
    }
  }
  return held;
}

/** The smallest reach that holds 98 % of the margins, not below what stood before. */
export function reachFor(held: Held, total: number, atLeast = 0): number {
  const fits = reaches.find(
    (reach, index) => reach >= atLeast && (held[index] ?? 0) >= 0.98 * total,
  );
  return fits ?? 30;
}

/** Share of the width at which a margin stands; outside 0 to 1 it is off the scale. */
export function placeOf(margin: number, reach: number): number {
  return (reach - margin) / (reach * (1 + shareOver));
}

/** Head of the strip: signed figures, and the word `limit` in place of zero. */
export function ticks(reach: number): readonly Tick[] {
  const step = steps.get(reach) ?? reach / 4;
  const left = [];
  for (let margin = reach; margin > step / 2; margin -= step) left.push(margin);
  const right = [step, step / 2].find((each) => each <= reach * shareOver);
  return [
    ...left.map((margin) => ({ at: placeOf(margin, reach), label: `+${short(margin)}` })),
    { at: limitAt, label: 'limit' },
    ...(right === undefined ? [] : [{ at: placeOf(-right, reach), label: `−${short(right)}` }]),
  ];
}

function short(value: number): string {
  return String(Number(value.toFixed(2)));
}
