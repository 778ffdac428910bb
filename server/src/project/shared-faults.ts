/**
 * Mistakes that whole batches of several objects share, since one set-up or one
 * table made them: told once, at the first of their names, with the others
 * beside it. Each object keeps what it found for its own acceptance.
 */
import type { Finding } from '../checks/finding.ts';
import type { FindingStore } from './findings.ts';

/** What is wrong with a set-up or with a table, rather than with one object. */
const shared: ReadonlySet<string> = new Set([
  'batch-too-low',
  'batch-too-high',
  'drift-while-testing',
  'level-changes',
  'wavelengths-exchanged',
  'directions-exchanged',
  'unit-suspect',
  'sign-suspect',
]);

/** Of so many the names and places are said. */
const said = 6;

export class SharedFaults {
  readonly #store: FindingStore;
  /** By what is shared: what each object found of it. */
  readonly #groups = new Map<string, Map<unknown, readonly Finding[]>>();
  readonly #keys = new Map<unknown, readonly string[]>();

  constructor(store: FindingStore) {
    this.#store = store;
  }

  /** Replaces what an object found. */
  set(owner: unknown, findings: readonly Finding[]): void {
    const own: Finding[] = [];
    const byKey = new Map<string, Finding[]>();
    for (const finding of findings) {
      const key = keyOf(finding);
      if (key === undefined) own.push(finding);
      else byKey.set(key, [...(byKey.get(key) ?? []), finding]);
    }
    this.#store.set(owner, own);
    const before = this.#keys.get(owner) ?? [];
    if (byKey.size > 0) this.#keys.set(owner, [...byKey.keys()]);
    else this.#keys.delete(owner);
    for (const key of new Set([...before, ...byKey.keys()])) {
      const group = this.#groups.get(key) ?? new Map<unknown, readonly Finding[]>();
      const now = byKey.get(key);
      if (now) this.#groups.set(key, group.set(owner, now));
      else group.delete(owner);
      if (group.size === 0) this.#groups.delete(key);
      this.#store.set(`shared ${key}`, folded([...group.values()]));
    }
  }
}

/** The set-up, else the table that the finding stands in; undefined where it is told by itself. */
function keyOf({ name, details, place, about, silenced }: Finding): string | undefined {
  if (!shared.has(name) || about === undefined || silenced !== undefined) return undefined;
  const { setup, up = '', likely = '' } = details;
  return `${name} ${up} ${likely} ${setup === undefined ? `table ${place.block}` : `set-up ${setup}`}`;
}

/** All that one object found; of several the first, with the others beside it. */
function folded(each: readonly (readonly Finding[])[]): readonly Finding[] {
  if (each.length < 2) return each.flat();
  const inOrder = each
    .flatMap(([first]) => first ?? [])
    .sort((a, b) => ((a.about ?? '') < (b.about ?? '') ? -1 : 1));
  const [first, ...others] = inOrder;
  if (!first) return [];
  const listed = others.slice(0, said);
  const names = listed.map(({ about }) => about ?? '');
  const more = others.length - listed.length;
  const rest = more > 0 ? `, and ${more} more` : '';
  const { setup } = first.details;
  const where = setup === undefined ? 'in this table' : `measured with set-up ${setup}`;
  // A contradiction takes no answer in words.
  const answer = first.kind === 'contradiction' ? '' : ' An answer in the plan holds for all.';
  const them = others.length === 1 ? 'Another one' : `${others.length} others`;
  return [
    {
      ...first,
      message: `${first.message} ${them} ${where} ${others.length === 1 ? 'shows' : 'show'} the same (${names.join(', ')}${rest}): look for one cause.${answer}`,
      related: [
        ...first.related,
        ...listed.map(({ place, about }) => ({ place, message: `the same in ${about}` })),
      ],
      details: { ...first.details, objects: inOrder.length },
    },
  ];
}
