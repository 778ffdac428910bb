/** What was measured once: the cells of one row for one fibre, wavelength and direction. */
import type { Narrowing, ReadingCell, When, WorkEvent } from '../model/types.ts';
import { keyText } from './expected.ts';

export interface Measurement {
  readonly key: string;
  readonly cell: ReadingCell;
  /** Where a row states both, the power beside the loss. */
  readonly power?: ReadingCell;
}

/** Loss and power of one row and key are one measurement; anything else stands alone. */
export function measurementsOf(readings: readonly ReadingCell[]): readonly Measurement[] {
  const byRow = new Map<string, { loss?: ReadingCell; power?: ReadingCell }>();
  const list: { loss?: ReadingCell; power?: ReadingCell }[] = [];
  for (const cell of readings) {
    if (cell.quantity === 'reflectance') continue;
    const key = `${cell.row.block} ${cell.row.span.start} ${keyText(cell.fibre, cell.wavelength, cell.direction)}`;
    const known = byRow.get(key);
    if (known && known[cell.quantity] === undefined) {
      known[cell.quantity] = cell;
      continue;
    }
    const fresh = { [cell.quantity]: cell };
    byRow.set(key, fresh);
    list.push(fresh);
  }
  return list.map(({ loss, power }) => {
    const cell = (loss ?? power)!;
    const key = keyText(cell.fibre, cell.wavelength, cell.direction);
    return { key, cell, power: loss && power };
  });
}

/** Attempts of each key, by time, then by place in the text. */
export function attemptsOf(
  measurements: readonly Measurement[],
): ReadonlyMap<string, readonly Measurement[]> {
  const attempts = new Map<string, Measurement[]>();
  for (const measurement of measurements) {
    const known = attempts.get(measurement.key);
    if (known) known.push(measurement);
    else attempts.set(measurement.key, [measurement]);
  }
  for (const list of attempts.values()) list.sort(byTime);
  return attempts;
}

function byTime(a: Measurement, b: Measurement): number {
  return (
    a.cell.at.from - b.cell.at.from || a.cell.at.to - b.cell.at.to || a.cell.order - b.cell.order
  );
}

/** What a decision or work may be about: a reading, an event, a length, an end face. */
export type Dated = Pick<ReadingCell, 'fibre' | 'at'> &
  Partial<Pick<ReadingCell, 'wavelength' | 'direction'>>;

/** Whether a narrowed decision (a withdrawal, a concession) is about this cell; what it leaves out means all. */
export function covers(narrowing: Narrowing, cell: Dated): boolean {
  return (
    (!narrowing.fibres || narrowing.fibres.includes(cell.fibre)) &&
    (narrowing.wavelength === undefined || narrowing.wavelength === cell.wavelength) &&
    (narrowing.direction === undefined || narrowing.direction === cell.direction) &&
    (narrowing.tested === undefined || startsIn(cell.at, narrowing.tested))
  );
}

function startsIn(at: When, interval: When): boolean {
  return at.from >= interval.from && at.from <= interval.to;
}

/**
 * The first work that may have come after a reading and touched its fibre. A
 * day without a time of day ages readings of that day too. An array joint is
 * one joint: whoever touches it touches all its fibres.
 */
export function agingWork(
  work: readonly WorkEvent[],
  cell: Dated,
  sharing: (fibre: number) => readonly number[],
): WorkEvent | undefined {
  return work.find(
    (event) =>
      event.on.to >= cell.at.from &&
      (!event.fibres ||
        event.fibres.some((fibre) =>
          event.alone ? fibre === cell.fibre : sharing(fibre).includes(cell.fibre),
        )),
  );
}
