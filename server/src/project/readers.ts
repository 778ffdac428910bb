/** Who read what: from a name to the judgements that asked for it. */

export class ReaderIndex<Reader extends object> {
  readonly #readers = new Map<string, Set<Reader>>();
  readonly #reads = new Map<Reader, ReadonlySet<string>>();

  /** Replaces what a reader has read. */
  record(reader: Reader, reads: ReadonlySet<string>): void {
    const before = this.#reads.get(reader);
    if (before) {
      for (const key of before) if (!reads.has(key)) this.#drop(key, reader);
    }
    for (const key of reads) {
      if (before?.has(key)) continue;
      const there = this.#readers.get(key);
      if (there) there.add(reader);
      else this.#readers.set(key, new Set([reader]));
    }
    this.#reads.set(reader, reads);
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

/** Key of a read; no kind holds a blank. */
export function readKey(kind: string, name: string): string {
  return `${kind} ${name}`;
}
