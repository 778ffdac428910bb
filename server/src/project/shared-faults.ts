/**
 * Mistakes that whole batches of several objects share, since one set-up or one
 * table made them: told once, at the first of their names, with the others
 * beside it. Each object keeps what it found for its own acceptance.
 */
import type { Finding } from '../checks/finding.ts';
import type { FindingStore } from './findings.ts';

/** What is suspected of a set-up or of a table, rather than of one object; the same where these details are. */
const suspected: Readonly<Record<string, readonly string[]>> = {
  'batch-too-low': ['up', 'likely'],
  'batch-too-high': ['up', 'likely'],
  'drift-while-testing': ['up', 'likely'],
  'level-changes': ['up', 'likely'],
  'wavelengths-exchanged': ['up', 'likely'],
  'directions-exchanged': ['up', 'likely'],
  'unit-suspect': ['up', 'likely'],
  'sign-suspect': ['up', 'likely'],
};

/** What is known of a set-up, and follows for whatever is measured with it. */
const known: Readonly<Record<string, readonly string[]>> = {
  'calibration-expired': ['instrument'],
  'cord-connector-mismatch': ['cord'],
  'cord-fibre-mismatch': ['cord'],
  'cord-grade-missing': ['cord'],
  'cord-not-verified': ['cord'],
  'cord-out-of-spec': ['cord'],
  'cord-polish-mismatch': ['cord'],
  'reference-disturbed': ['wavelength', 'disturbed'],
  'reference-drift': ['wavelength', 'checked'],
  'reference-expired': ['wavelength', 'last'],
  'reference-missing': ['wavelength'],
};

const shared: ReadonlyMap<string, readonly string[]> = new Map(
  Object.entries({ ...suspected, ...known }),
);

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
  const alike = shared.get(name);
  if (!alike || about === undefined || silenced !== undefined) return undefined;
  const { setup } = details;
  const where = setup === undefined ? `table ${place.block}` : `set-up ${setup}`;
  return [name, where, ...alike.map((detail) => details[detail] ?? '')].join(' ');
}

/** All that one object found; of several the first, with the others beside it. */
function folded(each: readonly (readonly Finding[])[]): readonly Finding[] {
  if (each.length < 2) return each.flat();
  const [first, ...listed] = firstOf(each, said + 1);
  if (!first) return [];
  const others = each.length - 1;
  const more = others > listed.length ? ` and ${others - listed.length} more` : '';
  const names = `${listed.map(({ about }) => about ?? '').join(', ')}${more}`;
  const { setup } = first.details;
  const where = setup === undefined ? 'in this table' : `measured with set-up ${setup}`;
  const shows = others === 1 ? 'Another one' : `${others} others`;
  const same =
    first.name in suspected
      ? `${shows} ${where} ${others === 1 ? 'shows' : 'show'} the same (${names}): look for one cause.`
      : `The same holds for ${names}, ${where} as well.`;
  // A contradiction takes no answer in words.
  const answer = first.kind === 'contradiction' ? '' : ' An answer in the plan holds for all.';
  return [
    {
      ...first,
      message: `${first.message} ${same}${answer}`,
      related: [
        ...first.related,
        ...listed.map(({ place, about }) => ({ place, message: `the same in ${about}` })),
      ],
      details: { ...first.details, objects: each.length },
    },
  ];
}

/** Of each object one finding, of the first so many objects by name. One pass: a key changes one object of thousands. */
function firstOf(each: readonly (readonly Finding[])[], count: number): readonly Finding[] {
  const firsts: Finding[] = [];
  for (const [finding] of each) {
    if (!finding) continue;
    const at = firsts.findIndex(({ about = '' }) => (finding.about ?? '') < about);
    if (at < 0 && firsts.length >= count) continue;
    firsts.splice(at < 0 ? firsts.length : at, 0, finding);
    if (firsts.length > count) firsts.pop();
  }
  return firsts;
}
