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
      told: new Set(),
      asking: { stage: stages.rest, urgent: () => false, run: () => this.#ask(setup, pool) },
    };
    this.#bySetup.set(setup, pool);
    return pool;
  }

  #ask(setup: string, pool: Pool): void {
    const high = pool.told.size > 0 ? undefined : highTogether([...pool.few.values()].flat());
    this.#store.set(pool, high ? [findingOf(setup, high)] : []);
    if (pool.few.size === 0 && pool.told.size === 0) this.#bySetup.delete(setup);
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
