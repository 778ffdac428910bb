/** Who read what: from a name to the judgements that asked for it. */

export class ReaderIndex<Reader extends object> {
  readonly #readers = new Map<string, Set<Reader>>();
  readonly #reads = new Map<Reader, readonly string[]>();

  /** Replaces what a reader has read. */
  record(reader: Reader, reads: ReadonlySet<string>): void {
    const before = this.#reads.get(reader) ?? [];
    const gone = before.filter((key) => !reads.has(key));
    // What is worked out again mostly reads the same: of a figure that all use, thousands do.
    if (gone.length === 0 && before.length === reads.size) return;
    for (const key of gone) this.#drop(key, reader);
    for (const key of reads) {
      const there = this.#readers.get(key);
      if (there) there.add(reader);
      else this.#readers.set(key, new Set([reader]));
    }
    this.#reads.set(reader, [...reads]);
  }

  forget(reader: Reader): void {
    for (const key of this.#reads.get(reader) ?? []) this.#drop(key, reader);
    this.#reads.delete(reader);
  }

  of(key: string): Iterable<Reader> {
    return this.#readers.get(key) ?? [];
  }

  #drop(key: string, reader: Reader): void {
    const there = this.#readers.get(key);
    there?.delete(reader);
    if (there?.size === 0) this.#readers.delete(key);
  }
}

/** Thousands of judgements read the same few names: each key is made once. */
const keys = new Map<string, Map<string, string>>();

/** Names of one kind remembered at most; beyond it they are forgotten, and made anew when read. */
const mostKeys = 100_000;

/** Key of a read; no kind holds a blank. */
export function readKey(kind: string, name: string): string {
  let ofKind = keys.get(kind);
  if (!ofKind || ofKind.size >= mostKeys) {
    ofKind = new Map();
    keys.set(kind, ofKind);
  }
  let key = ofKind.get(name);
  if (key === undefined) {
    key = `${kind} ${name}`;
    ofKind.set(name, key);
  }
  return key;
}
