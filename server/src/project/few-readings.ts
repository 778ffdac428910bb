/**
 * Many objects with a few readings each are one batch where one set-up measured
 * them: what each shows alone says nothing, and all together they do. Told once,
 * at the first of their names, unless an object with a batch of its own tells it.
 */
import { batchTooHigh } from '../checks/batch-too-high.ts';
import { makeFinding } from '../checks/check.ts';
import type { Finding } from '../checks/finding.ts';
import { type FewReadings, highTogether } from '../evaluate/index.ts';
import type { FindingStore } from './findings.ts';
import { stages, type Task } from './tasks.ts';

/** Of so many the names and places are said. */
const said = 6;

const none: readonly FewReadings[] = [];

interface Pool {
  readonly few: Map<unknown, readonly FewReadings[]>;
  /** By wavelength: how many there are, and how many of them lose more than usual. */
  readonly tally: Map<FewReadings['wavelength'], { all: number; above: number }>;
  /** Objects that tell of the set-up by themselves. */
  readonly told: Set<unknown>;
  /** Asked once all objects are judged: their order must not matter. */
  readonly asking: Task;
}

export class Pools {
  readonly #store: FindingStore;
  readonly #add: (task: Task) => void;
  readonly #bySetup = new Map<string, Pool>();
  readonly #setups = new Map<unknown, ReadonlySet<string>>();

  constructor(store: FindingStore, add: (task: Task) => void) {
    this.#store = store;
    this.#add = add;
  }

  /** Replaces what an object found, and what its few readings give to say. */
  set(owner: unknown, findings: readonly Finding[], few: readonly FewReadings[]): void {
    const telling = new Set(
      findings.flatMap(({ name, details }) =>
        name === batchTooHigh.name ? [String(details.setup)] : [],
      ),
    );
    const now = new Set([...telling, ...few.map(({ setup }) => setup)]);
    const before = this.#setups.get(owner);
    if (now.size > 0) this.#setups.set(owner, now);
    else this.#setups.delete(owner);
    for (const setup of new Set([...(before ?? []), ...now])) {
      const pool = this.#poolOf(setup);
      const own = few.filter((one) => one.setup === setup);
      const tells = telling.has(setup);
      if (same(pool.few.get(owner) ?? none, own) && pool.told.has(owner) === tells) continue;
      count(pool, pool.few.get(owner) ?? none, -1);
      count(pool, own, 1);
      if (own.length > 0) pool.few.set(owner, own);
      else pool.few.delete(owner);
      if (tells) pool.told.add(owner);
      else pool.told.delete(owner);
      this.#add(pool.asking);
    }
  }

  #poolOf(setup: string): Pool {
    const known = this.#bySetup.get(setup);
    if (known) return known;
    const pool: Pool = {
      few: new Map(),
      tally: new Map(),
      told: new Set(),
      asking: { stage: stages.rest, urgent: () => false, run: () => this.#ask(setup, pool) },
    };
    this.#bySetup.set(setup, pool);
    return pool;
  }

  #ask(setup: string, pool: Pool): void {
    // Where fewer than half lose more than usual their middle does not: asking all costs a key the size of the plan.
    const worthAsking = [...pool.tally.values()].some(({ all, above }) => above * 2 >= all);
    const high =
      worthAsking && pool.told.size === 0 ? highTogether([...pool.few.values()].flat()) : undefined;
    this.#store.set(pool, high ? [findingOf(setup, high)] : []);
    if (pool.few.size === 0 && pool.told.size === 0) this.#bySetup.delete(setup);
  }
}

function count({ tally }: Pool, few: readonly FewReadings[], sign: 1 | -1): void {
  for (const { wavelength, excess } of few) {
    const known = tally.get(wavelength) ?? { all: 0, above: 0 };
    const all = known.all + sign;
    if (all === 0) tally.delete(wavelength);
    else tally.set(wavelength, { all, above: known.above + (excess > 0 ? sign : 0) });
  }
}

function same(before: readonly FewReadings[], now: readonly FewReadings[]): boolean {
  return (
    before.length === now.length &&
    before.every((one, index) => {
      const other = now[index]!;
      return (
        one.excess === other.excess &&
        one.away === other.away &&
        one.wavelength === other.wavelength &&
        one.place.block === other.place.block &&
        one.place.span.start === other.place.span.start &&
        one.place.span.end === other.place.span.end
      );
    })
  );
}

type High = NonNullable<ReturnType<typeof highTogether>>;

function findingOf(setup: string, { wavelength, away, of }: High): Finding {
  const inOrder = [...of].sort((a, b) => (a.object < b.object ? -1 : 1));
  const [first, ...others] = inOrder;
  const readings = of.reduce((sum, one) => sum + one.readings, 0);
  const listed = inOrder.slice(0, said).map(({ object }) => object);
  const more = inOrder.length - listed.length;
  const names = `${listed.join(', ')}${more > 0 ? `, and ${more} more` : ''}`;
  const nanometres = wavelength / 1000;
  return makeFinding(
    batchTooHigh,
    {
      place: first!.place,
      message: `${readings} readings of ${of.length} objects (${names}) are high together: at ${nanometres} nm they lose ${away.toFixed(2)} dB more than their parts usually do (median). Inspect and clean the plugs of set-up ${setup} and check its reference before the links are blamed.`,
      related: others
        .slice(0, said - 1)
        .map(({ place, object }) => ({ place, message: `the same in ${object}` })),
      details: { setup, wavelength: nanometres, readings, objects: of.length },
    },
    first!.object,
  );
}
