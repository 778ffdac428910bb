/** What stands in the way of a text that is to be written. */
import { bindBlock } from '../../../../grammar/src/binding.ts';
import { parseBlock } from '../../../../grammar/src/parser.ts';

/** The first sentence about what cannot be read, if the change brought one. */
export function problemIn(changed: string, before: string): string | undefined {
  const known = before === '' ? [] : errorsIn(before);
  return errorsIn(changed).find((each) => !known.includes(each));
}

function errorsIn(text: string): readonly string[] {
  const { findings } = bindBlock(parseBlock(text), text);
  return findings.filter(({ severity }) => severity === 'error').map(({ message }) => message);
}
