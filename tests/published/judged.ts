/** Plans of this folder, judged by the real project, and short ways to ask what came out. */
import {
  type ExactDb,
  printExactDb,
  printMicro,
  toNanometres,
} from '../../grammar/src/quantity/index.ts';
import type {
  LinkResult,
  ReadingResult,
  WavelengthResult,
} from '../../server/src/evaluate/index.ts';
import { findingsOf, judge } from '../support/judge.ts';

export function judged(text: string, asOf?: string) {
  const { plan } = judge(text, asOf);
  const findings = findingsOf(plan);
  const mistakes = findings.filter((finding) => finding.kind === 'notation');
  if (mistakes.length > 0) {
    throw new Error(mistakes.map(({ name, message }) => `${name}: ${message}`).join('\n'));
  }
  return {
    plan,
    findings,
    link(name: string): LinkResult {
      const result = plan.result.link(name);
      if (!result) throw new Error(`there is no ${name}`);
      return result;
    },
  };
}

/** The standing reading of a key, or an attempt of it. */
export function reading(
  result: LinkResult,
  fibre: number,
  wavelength: number,
  direction = 'A>B',
  attempt?: number,
): ReadingResult {
  const found = result.readings.find(
    (one) =>
      one.fibre === fibre &&
      toNanometres(one.wavelength) === wavelength &&
      one.direction === direction &&
      (attempt === undefined ? one.current : one.attempt === attempt),
  );
  if (!found) throw new Error(`no reading of fibre ${fibre} at ${wavelength} nm ${direction}`);
  return found;
}

export function verdict(
  result: LinkResult,
  fibre: number,
  wavelength: number,
  direction = 'A>B',
  attempt?: number,
): string {
  return reading(result, fibre, wavelength, direction, attempt).verdict;
}

export function at(result: LinkResult, wavelength: number, direction?: string): WavelengthResult {
  const found = result.wavelengths.find(
    (one) =>
      toNanometres(one.wavelength) === wavelength &&
      (direction === undefined || one.direction === direction),
  );
  if (!found) throw new Error(`nothing at ${wavelength} nm`);
  return found;
}

/** Limit of a named set, application or contract line, exact: `2.805`. */
export function limit(result: LinkResult, wavelength: number, name: string): string | undefined {
  const found = at(result, wavelength).limits.find((one) => one.name.startsWith(name));
  return found?.value === undefined ? found?.because : printExactDb(found.value);
}

/** Margin of a reading to its limit, exact. */
export function margin(one: ReadingResult): string | undefined {
  return exact(one.margin);
}

export function exact(value: ExactDb | undefined): string | undefined {
  return value === undefined ? undefined : printExactDb(value);
}

export function micro(value: number | undefined): string | undefined {
  return value === undefined ? undefined : printMicro(value);
}

/** Names of the doubts of a link that concern a fibre, or all. */
export function doubts(result: LinkResult, fibre?: number): readonly string[] {
  return result.doubts
    .filter((doubt) => fibre === undefined || doubt.details.fibre === fibre)
    .map((doubt) => doubt.name);
}

export function doubt(result: LinkResult, name: string, fibre?: number) {
  const found = result.doubts.find(
    (one) => one.name === name && (fibre === undefined || one.details.fibre === fibre),
  );
  if (!found) throw new Error(`no ${name}${fibre === undefined ? '' : ` of fibre ${fibre}`}`);
  return found.details;
}

/** Parts and set-up that several plans of this folder share; every figure is the case's own. */
export const multimodeParts = `
fibre GLASS-50 {
  mode        multimode core 50 um
  attenuation 850 nm min 2.0 dB/km max 3.0 dB/km
  attenuation 1300 nm max 1.5 dB/km
}

connector PAIR {
  loss        max 0.75 dB
}

splice WELD {
  loss        max 0.3 dB
}

limits PLAIN {
  policy      counting
  fibre       GLASS-50 850 nm 3.0 dB/km
  fibre       GLASS-50 1300 nm 1.5 dB/km
  connector   any 0.75 dB
  connector   any 0.10 dB reference
  splice      any 0.3 dB
}

limits END-PAIRS {
  policy      reference-grade
  fibre       GLASS-50 850 nm 3.5 dB/km
  fibre       GLASS-50 1300 nm 1.5 dB/km
  connector   any 0.75 dB
  connector   any 0.50 dB end
  connector   any 0.10 dB reference
  splice      any 0.3 dB
}

limits END-PAIRS-FIRST-PRINT {
  like        END-PAIRS
  connector   any 0.30 dB end
}

limits ENHANCED {
  like        END-PAIRS
  policy      enhanced
}
`;
