/** Options that several commands share. */
import { InvalidArgumentError, Option } from 'commander';
import { endOfToday, parseInstant } from '../project/instant.ts';

export function formatOption(choices: readonly string[]): Option {
  return new Option('--format <format>', 'form of the answer').choices(choices).default('text');
}

export function outOption(): Option {
  return new Option('--out <file>', 'write the answer to a file');
}

/** Minutes since 1970-01-01 00:00 on the site's clock. */
export function asOfOption(): Option {
  return new Option('--as-of <time>', 'judge expiry and calibration as of this day or time')
    .default(endOfToday(new Date()), 'today')
    .argParser((text) => {
      const minutes = parseInstant(text);
      if (minutes === undefined) {
        throw new InvalidArgumentError('Write it like 2026-03-14 or "2026-03-14 09:05".');
      }
      return minutes;
    });
}
