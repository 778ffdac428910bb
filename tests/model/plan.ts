/** A plan of texts, read as the product reads them: split, parsed, bound, declared, and looked up by name. */

import { libraryFiles } from '../../grammar/library/index.ts';
import { bindBlock } from '../../grammar/src/binding.ts';
import { splitBlocks } from '../../grammar/src/blocks.ts';
import { parseBlock } from '../../grammar/src/parser.ts';
import type { NotationFinding } from '../../grammar/src/tree.ts';
import type {
  BlockDeclarations,
  Declaration,
  EvidencePart,
  ModelFinding,
  Names,
  ReadKind,
  Scope,
} from '../../server/src/model/api.ts';
import * as model from '../../server/src/model/api.ts';
import type { LinkModel, Place, Setup } from '../../server/src/model/types.ts';

export interface PlanText {
  readonly scope: Scope;
  readonly blocks: readonly BlockDeclarations[];
  readonly notation: readonly NotationFinding[];
  /** Reads made through the scope, as `kind name`. */
  readonly reads: Set<string>;
  declaration(name: string, namespace?: model.Namespace): Declaration;
  link(name: string): LinkModel;
  setup(name: string): Setup;
  /** Every finding of declarations, evidence and plan, without those of the notation. */
  findings(): readonly ModelFinding[];
  /** Text that a place covers. */
  textAt(place: Place): string;
  names: Names;
}

let nextBlock = 1;
const texts = new Map<number, string>();

export function declareText(
  text: string,
  options: model.DeclareOptions = {},
): { declared: BlockDeclarations; notation: readonly NotationFinding[] } {
  const bound = bindBlock(parseBlock(text), text);
  const block = options.previous?.block ?? nextBlock++;
  texts.set(block, text);
  return { declared: model.declareBlock(bound, block, options), notation: bound.findings };
}

const library = Object.values(libraryFiles)
  .flatMap(splitBlocks)
  .map((text) => declareText(text, { origin: 'library' }).declared);

const libraryNames = new Map<string, Declaration[]>();
for (const declaration of library.flatMap(({ declarations }) => declarations)) {
  const key = `${model.namespaceOf(declaration.kind)} ${declaration.name}`;
  libraryNames.set(key, [...(libraryNames.get(key) ?? []), declaration]);
}

export function planOf(...files: readonly string[]): PlanText {
  const read = files.flatMap(splitBlocks).map((text) => declareText(text));
  return planOfBlocks(
    read.map(({ declared }) => declared),
    read.flatMap(({ notation }) => notation),
  );
}

export function planOfBlocks(
  blocks: readonly BlockDeclarations[],
  notation: readonly NotationFinding[] = [],
): PlanText {
  const declared = new Map<string, Declaration[]>();
  const former = new Map<string, Declaration[]>();
  const evidence = new Map<string, EvidencePart[]>();
  const fields = new Map<string, model.PlacedEntry[]>();
  const add = <Item>(map: Map<string, Item[]>, key: string, item: Item) => {
    const items = map.get(key);
    if (items) items.push(item);
    else map.set(key, [item]);
  };
  for (const block of blocks) {
    for (const declaration of block.declarations) {
      const namespace = model.namespaceOf(declaration.kind);
      add(declared, `${namespace} ${declaration.name}`, declaration);
      for (const name of declaration.was) add(former, `${namespace} ${name}`, declaration);
    }
    for (const part of block.evidence) add(evidence, part.object, part);
    for (const [word, entries] of block.plan?.fields ?? []) {
      for (const entry of entries) add(fields, word, { block: block.block, entry });
    }
  }
  const names: Names = {
    declared: (namespace, name) => {
      const key = `${namespace} ${name}`;
      return [...(declared.get(key) ?? []), ...(libraryNames.get(key) ?? [])];
    },
    former: (namespace, name) => former.get(`${namespace} ${name}`) ?? [],
    plan: (field) => fields.get(field) ?? [],
    evidence: (object) => evidence.get(object) ?? [],
    names: (namespace) =>
      [...declared.keys(), ...libraryNames.keys()]
        .filter((key) => key.startsWith(`${namespace} `))
        .map((key) => key.slice(namespace.length + 1)),
  };
  const reads = new Set<string>();
  const scope = model.scopeOf(names, (kind: ReadKind, name: string) =>
    reads.add(`${kind} ${name}`),
  );
  const declaration = (name: string, namespace: model.Namespace = 'object'): Declaration => {
    const [found] = names.declared(namespace, name);
    if (!found) throw new Error(`no ${namespace} ${name} in this plan`);
    return found;
  };
  return {
    scope,
    blocks,
    notation,
    reads,
    names,
    declaration,
    link: (name) => model.buildLink(declaration(name), scope).model,
    setup: (name) => model.buildSetup(declaration(name, 'setup'), scope).model,
    textAt: ({ block, span }) => (texts.get(block) ?? '').slice(span.start, span.end),
    findings: () => [
      ...model.checkPlan(scope),
      ...blocks.flatMap((block) => [
        ...block.declarations.flatMap((each) => model.checkDeclaration(each, scope)),
        ...block.evidence.flatMap((part) => model.checkEvidence(part, scope)),
      ]),
    ],
  };
}
