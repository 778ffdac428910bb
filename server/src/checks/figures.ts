/** How numbers are written in a finding's sentence: with their unit, and never so rounded that two of them contradict the verdict. */
import {
  type ExactDb,
  exactDb,
  type MicroDb,
  type Micrometres,
  micrometres,
  type Picometres,
  printApart,
  printMicro,
  printMicroProse,
  toMetres,
  toNanometres,
} from '../../../grammar/src/quantity/index.ts';

/** `2.81 dB`, with more places where they keep it apart from what it is said beside. */
export function inDb(value: ExactDb, ...beside: readonly ExactDb[]): string {
  return `${printApart([value, ...beside])[0]} dB`;
}

/** `0.15 dB` from integer micro-decibels. */
export function microInDb(value: number, ...beside: readonly ExactDb[]): string {
  return inDb(exactDb(value as MicroDb), ...beside);
}

/** `−20.05 dBm` from integer micro-dBm. */
export function microInDbm(value: number): string {
  return `${printMicroProse(value)} dBm`;
}

/** `850 nm`. */
export function inNm(wavelength: Picometres): string {
  return `${toNanometres(wavelength)} nm`;
}

/** `62.5 µm` from picometres. */
export function inMicrons(size: Picometres): string {
  return `${Number(printMicro(size))} µm`;
}

/** `22 mm` from picometres. */
export function inMillimetres(size: Picometres): string {
  return `${size / 1e9} mm`;
}

/** `185 m`, `2.31 km` above a kilometre. */
export function inMetres(length: Micrometres): string {
  const metres = toMetres(length);
  return metres >= 1000 ? `${Number((metres / 1000).toFixed(6))} km` : `${metres} m`;
}

/** As {@link inMetres}, from a number of metres. */
export function metresInWords(metres: number): string {
  return inMetres(micrometres(Math.round(metres * 1e6)));
}

/** `fibre 7`, `fibres 7, 8 and 12`. */
export function fibresInWords(numbers: readonly number[]): string {
  if (numbers.length === 1) return `fibre ${numbers[0]}`;
  const shown =
    numbers.length > 6 ? [...numbers.slice(0, 5), `${numbers.length - 5} more`] : numbers;
  return `fibres ${shown.slice(0, -1).join(', ')} and ${shown.at(-1)}`;
}
