/** What a plan knows of the objects that rows name, and of the readings that stand in it. */
import { C, K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { LinkModel, ReadingCell } from '../model/types.ts';
import type { Plan } from '../project/types.ts';

/** Where light of an object is read: a fibre by its number, an end by its port. */
export interface PlaceOfObject {
  readonly fibre: number;
  /** As it is written into a row. */
  readonly written: string;
}

/** A reading that stands in the plan, or in an earlier row. */
export interface Standing {
  readonly from: number;
  readonly to: number;
  /** What it says: a number in the base unit of its kind, or words. */
  readonly micro: number | string | undefined;
  /** Of an earlier row its number. */
  readonly row?: number;
}

export class Objects {
  readonly #plan: Plan;
  readonly #links = new Map<string, LinkModel>();
  readonly #standing = new Map<string, Map<string, Standing[]>>();

  constructor(plan: Plan) {
    this.#plan = plan;
    for (const name of plan.result.order) {
      const link = plan.result.link(name)?.link;
      if (!link) continue;
      this.#links.set(name, link);
    }
    for (const link of [...this.#links.values()]) {
      for (const before of link.was) if (!this.#links.has(before)) this.#links.set(before, link);
    }
  }

  find(name: string): LinkModel | undefined {
    return this.#links.get(name);
  }

  hasSetup(name: string): boolean {
    return this.#plan.setup(name) !== undefined;
  }

  /** Readings of one place, wavelength and direction; what is added is seen by later rows. */
  standing(link: LinkModel, key: string): Standing[] {
    let all = this.#standing.get(link.name);
    if (!all) {
      all = new Map();
      this.#standing.set(link.name, all);
      for (const cell of this.#plan.evidence(link.name).readings) {
        const { fibre, quantity, wavelength, direction } = cell;
        const known = readingKey(fibre, quantity, wavelength, direction);
        all.set(known, [...(all.get(known) ?? []), asStanding(cell)]);
      }
      const { lengths, seen } = this.#plan.evidence(link.name);
      for (const { fibre, at, length } of lengths) {
        if (fibre !== undefined) stand(all, beside(fibre, W.length), at, length);
      }
      for (const { fibre, at, port } of seen) {
        if (fibre !== undefined) stand(all, beside(fibre, W.seen), at, port);
      }
    }
    const found = all.get(key);
    if (found) return found;
    const none: Standing[] = [];
    all.set(key, none);
    return none;
  }
}

export function readingKey(
  fibre: number,
  what: string,
  picometres: number,
  direction: string | undefined,
): string {
  return `${fibre} ${what} ${picometres} ${direction ?? ''}`;
}

/** What is said beside readings of a fibre: its length, the port at which light was seen. */
export function beside(fibre: number, what: typeof W.length | typeof W.seen): string {
  return `${fibre} ${what}`;
}

function stand(
  all: Map<string, Standing[]>,
  key: string,
  { from, to }: { readonly from: number; readonly to: number },
  micro: number | string,
): void {
  all.set(key, [...(all.get(key) ?? []), { from, to, micro }]);
}

function asStanding(cell: ReadingCell): Standing {
  const { quantity, at, typed } = cell;
  const micro = { loss: cell.loss, power: cell.power, reflectance: cell.reflectance }[quantity];
  return { from: at.from, to: at.to, micro: typed === K.dark ? K.dark : micro };
}

/** The place a cell names; undefined: the object has none such. */
export function placeIn(
  link: LinkModel,
  kind: 'fibre' | 'end',
  text: string,
): PlaceOfObject | undefined {
  if (kind === 'end') {
    const way = link.ways.find(({ name }) => name === text);
    return way?.fibre === undefined ? undefined : { fibre: way.fibre, written: text };
  }
  const number = /^(?:fib(?:re|er)\s*)?0*(\d{1,9})$/iu.exec(text)?.[1];
  if (number === undefined || !link.fibres.includes(Number(number))) return undefined;
  return { fibre: Number(number), written: number };
}

/** Kinds in the order of a block's `values`. */
export const quantities = [C.loss, C.power, C.reflectance] as const;
