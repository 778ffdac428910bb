/** The library's files as documents: declared once, under every plan, opened read-only. */
import { libraryFiles } from '../../../grammar/library/index.ts';
import { type Declaration, type Namespace, namespaceOf } from '../model/api.ts';
import { LiveDocument } from './document.ts';
import { libraryScheme } from './include.ts';
import type { LibraryNames } from './names.ts';

const none: readonly Declaration[] = [];

export class Library implements LibraryNames {
  readonly documents: ReadonlyMap<string, LiveDocument>;
  readonly #declared = new Map<Namespace, Map<string, readonly Declaration[]>>();

  /** `files` are texts by name: `fibres.lwl`. */
  constructor(files: Readonly<Record<string, string>>) {
    const documents = new Map<string, LiveDocument>();
    for (const [name, text] of Object.entries(files)) {
      const uri = `${libraryScheme}:/${name}`;
      documents.set(uri, new LiveDocument(uri, text, null, 'library'));
    }
    this.documents = documents;
    for (const declaration of this.all()) {
      const namespace = namespaceOf(declaration.kind);
      const names = this.#declared.get(namespace) ?? new Map<string, readonly Declaration[]>();
      names.set(declaration.name, [...(names.get(declaration.name) ?? none), declaration]);
      this.#declared.set(namespace, names);
    }
  }

  declared(namespace: Namespace, name: string): readonly Declaration[] {
    return this.#declared.get(namespace)?.get(name) ?? none;
  }

  names(namespace: Namespace): Iterable<string> {
    return this.#declared.get(namespace)?.keys() ?? [];
  }

  *all(): Iterable<Declaration> {
    for (const document of this.documents.values()) {
      for (const { declarations } of document.declared()) yield* declarations;
    }
  }
}

let shared: Library | undefined;

/** One library for the whole process; read when the first project asks. */
export function sharedLibrary(): Library {
  shared ??= new Library(libraryFiles);
  return shared;
}
