/**
 * The library's files as documents: under every plan, opened read-only. A plan
 * uses a few dozen of its names, so that a block is read when one of its names
 * is asked for; until then only its first words are known.
 */
import { libraryFiles } from '../../../grammar/library/index.ts';
import {
  type Declaration,
  type DeclaredKind,
  isDeclaredKind,
  type Namespace,
  namespaceOf,
} from '../model/api.ts';
import type { LiveBlock } from './block.ts';
import { LiveDocument } from './document.ts';
import { libraryScheme } from './include.ts';
import type { LibraryNames } from './names.ts';

const none: readonly Declaration[] = [];

/** First line of a declaration whose name is as plain as the library's are. */
const plainHead = /^([a-z]+) +([\w.+/-]*[A-Za-z][\w.+/-]*)(?=\s)/mu;

export class Library implements LibraryNames {
  readonly documents: ReadonlyMap<string, LiveDocument>;
  readonly #blocks = new Map<Namespace, Map<string, readonly LiveBlock[]>>();
  readonly #declared = new Map<Namespace, Map<string, readonly Declaration[]>>();

  /** `files` are texts by name: `fibres.lwl`. */
  constructor(files: Readonly<Record<string, string>>) {
    const documents = new Map<string, LiveDocument>();
    for (const [name, text] of Object.entries(files)) {
      const uri = `${libraryScheme}:/${name}`;
      documents.set(uri, new LiveDocument(uri, text, null, 'library'));
    }
    this.documents = documents;
    for (const document of documents.values()) {
      for (const block of document.blocks()) {
        for (const { kind, name } of headsOf(block)) this.#add(namespaceOf(kind), name, block);
      }
    }
  }

  declared(namespace: Namespace, name: string): readonly Declaration[] {
    const blocks = this.#blocks.get(namespace)?.get(name);
    if (!blocks) return none;
    const answers = within(this.#declared, namespace);
    const known = answers.get(name);
    if (known) return known;
    const answer = blocks.flatMap(({ declared }) =>
      declared.declarations.filter(
        (each) => each.name === name && namespaceOf(each.kind) === namespace,
      ),
    );
    answers.set(name, answer);
    return answer;
  }

  names(namespace: Namespace): Iterable<string> {
    return this.#blocks.get(namespace)?.keys() ?? [];
  }

  *all(): Iterable<Declaration> {
    for (const document of this.documents.values()) {
      for (const { declarations } of document.declared()) yield* declarations;
    }
  }

  #add(namespace: Namespace, name: string, block: LiveBlock): void {
    const blocks = within(this.#blocks, namespace);
    const there = blocks.get(name) ?? [];
    if (!there.includes(block)) blocks.set(name, [...there, block]);
  }
}

/** What a block declares, by its first line; one that begins otherwise is read at once. */
function headsOf(block: LiveBlock): readonly { kind: DeclaredKind; name: string }[] {
  const [, kind, name] = plainHead.exec(block.text) ?? [];
  if (kind !== undefined && name !== undefined && isDeclaredKind(kind)) return [{ kind, name }];
  return block.declared.declarations;
}

function within<Key, Inner>(outer: Map<Key, Map<string, Inner>>, key: Key): Map<string, Inner> {
  const known = outer.get(key) ?? new Map<string, Inner>();
  outer.set(key, known);
  return known;
}

let shared: Library | undefined;

/** One library for the whole process; read when the first project asks. */
export function sharedLibrary(): Library {
  shared ??= new Library(libraryFiles);
  return shared;
}
