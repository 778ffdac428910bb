/** What a tester types at a reading, as it is written into a cell. */
import {
  findUnit,
  lossFromPowers,
  type MicroDbm,
  microDb,
  microDbm,
  printMicro,
  printMicroRounded,
  readDecimal,
  toBase,
  type Unit,
} from '../../../../grammar/src/quantity/index.ts';
import { C, K } from '../../../../grammar/src/vocabulary/index.ts';

/** What the cells of a column hold. */
export interface ColumnOf {
  readonly quantity: string;
  readonly unit: Unit;
  /** Losses are written with a minus. */
  readonly negative: boolean;
}

/** A new block holds losses in dB. */
export const lossInDb: ColumnOf = { quantity: C.loss, unit: findUnit('dB')!, negative: false };

export type TypedCell =
  | {
      readonly text: string;
      /** Asks for a second look, where it is not written as it was typed. */
      readonly doubt?: string;
    }
  | { readonly problem: string };

const form = /^([-−+]?)(\d+(?:[.,]\d+)?|[.,]\d+)\s*(\S*)$/u;

/**
 * A number, perhaps with a unit, or `dark`. The column's own unit is left out; a power typed for a
 * loss, or a loss for a power, is worked out where `reference` is known, and questioned.
 */
export function readTyped(
  typed: string,
  column: ColumnOf,
  reference: () => MicroDbm | undefined,
): TypedCell {
  const said = typed.trim();
  if (said === '-') return { text: said };
  if (said.toLowerCase() === K.dark) return { text: K.dark };
  const [, sign = '', digits = '', unitName = ''] = form.exec(said) ?? [];
  const unit = unitName === '' ? column.unit : unitOf(unitName);
  if (digits === '' || !unit) {
    return {
      problem: `"${said}" is no reading. Type one number in ${column.unit.name}, or ${K.dark}.`,
    };
  }
  const number = `${sign.replace('−', '-')}${digits.replace(',', '.').replace(/^\./u, '0.')}`;
  if (unit === column.unit) return { text: number };
  const own = `${number} ${unit.name}`;
  if (unit.dimension === column.unit.dimension) {
    return {
      text: own,
      doubt: `This column is in ${column.unit.name}; ${own} is written with its own unit.`,
    };
  }
  const turned = turnedInto(number, unit, column, reference);
  if (turned) return turned;
  // A unit of another dimension, and nothing to work it out with: the notation says what it is.
  return { text: own };
}

/** Whether a cell names a unit of another dimension than its column's. */
export function isOtherwise(text: string, { unit }: ColumnOf): boolean {
  const name = / (\S+)$/u.exec(text)?.[1];
  return name !== undefined && findUnit(name)?.dimension !== unit.dimension;
}

/** Nobody at a link minds how a unit is capitalised; of mW and MW, only one is meant. */
function unitOf(name: string): Unit | undefined {
  return findUnit(name) ?? ['dB', 'dBm'].map(findUnit).find((each) => isAlike(each!.name, name));
}

function isAlike(a: string, b: string): boolean {
  return a.toLowerCase() === b.toLowerCase();
}

function turnedInto(
  number: string,
  unit: Unit,
  { quantity, unit: wanted, negative }: ColumnOf,
  reference: () => MicroDbm | undefined,
): TypedCell | undefined {
  const base = toBase(readDecimal(number)!, unit);
  const taken = reference();
  if (typeof base !== 'number' || taken === undefined) return undefined;
  const beside = `${inPlaces(taken)} dBm`;
  if (unit.dimension === 'power' && quantity === C.loss) {
    const loss = lossFromPowers(taken, microDbm(base));
    const text = inPlaces(negative ? microDb(-loss) : loss, unit.logarithmic);
    return {
      text,
      doubt: `${number} ${unit.name} is a power. With the reference of ${beside} it is a loss of ${inPlaces(loss, unit.logarithmic)} dB, written as ${text}.`,
    };
  }
  if (unit.dimension === 'loss' && quantity === C.power && wanted.name === 'dBm') {
    const text = inPlaces(taken - base);
    return {
      text,
      doubt: `${number} ${unit.name} is a loss. With the reference of ${beside} it is a power of ${text} dBm, written as ${text}.`,
    };
  }
  return undefined;
}

/** With two decimals at least; what a logarithm makes endless ends there. */
function inPlaces(micro: number, rounded = false): string {
  const exact = printMicro(micro);
  const places = exact.split('.')[1]?.length ?? 0;
  return rounded || places < 2 ? printMicroRounded(micro, 2) : exact;
}
