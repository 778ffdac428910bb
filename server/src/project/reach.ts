/** How far a block of text reaches: the objects that are made of what it declares, or judged with it. */
import { type BlockDeclarations, type Declaration, namespaceOf } from '../model/api.ts';
import type { Judgement } from './judgement.ts';
import { type ReaderIndex, readKey } from './readers.ts';
import type { Task } from './tasks.ts';

/** Names of the links, channels and rings that are made of what a block declares, in no order. */
export function madeOf(
  { declarations }: BlockDeclarations,
  judgements: Iterable<Judgement>,
  readers: ReaderIndex<Task>,
): readonly string[] {
  const tasks = new Set(
    declarations.flatMap(({ kind, name }) => [...readers.of(readKey(namespaceOf(kind), name))]),
  );
  return [...judgements].flatMap(({ name, modelling, declaration }) =>
    tasks.has(modelling) || declarations.includes(declaration) ? name : [],
  );
}

/**
 * Names of what is judged with what a block declares, in no order: what is made
 * of it, measured with it or told by its evidence, and what is foretold from one
 * of these. With a name, only what that one declaration, the evidence of that
 * object or that field of the plan has a part in.
 */
export function reachOf(
  block: BlockDeclarations,
  only: string | undefined,
  readers: ReaderIndex<Task>,
  isJudged: (declaration: Declaration) => boolean,
): ReadonlySet<string> {
  const reached = new Set<string>();
  const reach = (key: string) => {
    for (const { object } of readers.of(key)) if (object !== undefined) reached.add(object);
  };
  const asked = (name: string) => only === undefined || only === name;
  for (const declaration of block.declarations) {
    const { kind, name, was } = declaration;
    if (!asked(name)) continue;
    reach(readKey(namespaceOf(kind), name));
    for (const each of was) reach(readKey('former', each));
    if (isJudged(declaration)) reached.add(name);
  }
  for (const { object } of block.evidence) if (asked(object)) reach(readKey('evidence', object));
  for (const field of block.plan?.fields.keys() ?? []) {
    if (asked(field)) reach(readKey('plan', field));
  }
  // A set goes on to what is added to it meanwhile.
  for (const object of reached) reach(readKey('result', object));
  return reached;
}
