/** How numbers are written in a finding's sentence: with their unit, and never so rounded that two of them contradict the verdict. */
import {
  type ExactDb,
  type Micrometres,
  micrometres,
  type Picometres,
  printExactDb,
  printMicro,
  printRounded,
  toMetres,
  toNanometres,
} from '../../../grammar/src/quantity/index.ts';

/** `2.805 dB`: an exact loss with all the digits it has, at least two and at most six decimals. */
export function inDb(value: ExactDb): string {
  const exact = printExactDb(value);
  const places = exact.includes('.') ? exact.length - exact.indexOf('.') - 1 : 0;
  return `${printRounded(value, Math.min(6, Math.max(2, places)))} dB`;
}

/** `0.15 dB` from integer micro-decibels. */
export function microInDb(value: number): string {
  return `${padded(printMicro(value))} dB`;
}

/** `-20.05 dBm` from integer micro-dBm. */
export function microInDbm(value: number): string {
  return `${padded(printMicro(value))} dBm`;
}

/** `850 nm`. */
export function inNm(wavelength: Picometres): string {
  return `${toNanometres(wavelength)} nm`;
}

/** `62.5 µm` from picometres. */
export function inMicrons(size: Picometres): string {
  return `${Number(printMicro(size))} µm`;
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

function padded(text: string): string {
  const places = text.includes('.') ? text.length - text.indexOf('.') - 1 : 0;
  if (places >= 2) return text;
  return places === 1 ? `${text}0` : `${text}.00`;
}
