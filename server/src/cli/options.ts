/** Options that several commands share. */
import { InvalidArgumentError, Option } from 'commander';
import { nowOf, parseInstant } from '../project/instant.ts';

export function formatOption(choices: readonly string[]): Option {
  return new Option('--format <format>', 'form of the answer').choices(choices).default('text');
}

export function outOption(): Option {
  return new Option('--out <file>', 'write the answer to a file');
}

/** An option that may be written several times, or once with commas between; what stands behind it is never swallowed. */
export function repeatedOption(
  flags: string,
  description: string,
  choices?: readonly string[],
): Option {
  const told = choices ? `${description} (choices: ${choices.join(', ')})` : description;
  return new Option(flags, told).argParser((text, before: readonly string[] | undefined) => {
    const values = text.split(',').filter(Boolean);
    const wrong = choices && values.find((value) => !choices.includes(value));
    if (wrong !== undefined) {
      throw new InvalidArgumentError(`Allowed choices are ${choices?.join(', ')}.`);
    }
    return [...(before ?? []), ...values];
  });
}

/** An instant: a minute of the site's clock, or now. */
export function asOfOption(): Option {
  return new Option(
    '--as-of <time>',
    'judge as of this day or time on the site’s clock; else as of today in the plan’s zone',
  )
    .default(nowOf(new Date()), 'today')
    .argParser((text) => {
      const minutes = parseInstant(text);
      if (minutes === undefined) {
        throw new InvalidArgumentError('Write it like 2026-03-14 or "2026-03-14 09:05".');
      }
      return minutes;
    });
}
