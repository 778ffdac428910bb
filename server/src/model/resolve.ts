/** Finds what a name means, and says so where it means nothing or something of another kind. */
import type { BoundEntry, NameKind, Value } from '../../../grammar/src/bound.ts';
import { type Context, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration, DeclaredKind } from './declaration.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { namesUsed } from './references.ts';
import { namespaceOf, type Scope } from './scope.ts';
import type { BlockId, Place } from './types.ts';
import { nameOfValue, placeIn } from './values.ts';

/** The declaration that a value names; undefined where it names none, which is reported where the text is checked. */
export function resolve(
  kind: DeclaredKind,
  value: Value | undefined,
  scope: Scope,
): Declaration | undefined {
  const name = value && nameOfValue(value);
  return name === undefined ? undefined : scope.find(kind, name);
}

/** Kinds whose names are looked up across files; others are local to their block, or free. */
const lookedUp: ReadonlySet<NameKind> = new Set<NameKind>([
  'fibre',
  'connector',
  'splice',
  'splitter',
  'component',
  'cable',
  'colours',
  'mandrel',
  'flux',
  'criterion',
  'limits',
  'application',
  'transceiver',
  'setup',
  'link',
  'channel',
  'ring',
  'pattern',
  'object',
]);

/** A kind as prose says it. */
export function kindInWords(kind: DeclaredKind | 'object'): string {
  switch (kind) {
    case 'object':
      return 'link, channel, ring or cable';
    case 'setup':
      return 'set-up';
    case 'limits':
      return 'set of limits';
    case 'colours':
      return 'order of colours';
    case 'flux':
      return 'set of bounds of encircled flux';
    default:
      return kind;
  }
}

/** Names in entries of a block that mean nothing. Former names and what `like` names are judged elsewhere. */
export function unknownNames(
  entries: readonly BoundEntry[],
  context: Context,
  block: BlockId,
  scope: Scope,
  misread: readonly BoundEntry[] = [],
): readonly ModelFinding[] {
  const findings: ModelFinding[] = [];
  for (const { kinds, value, entry } of namesUsed(entries, context)) {
    if (entry?.word === W.was || entry?.word === W.like) continue;
    // What was meant by a line that could not be read as a whole is not known.
    if (entry && misread.includes(entry)) continue;
    const unknown = unknownName(kinds, value, placeIn(block, value.span), scope);
    if (unknown) findings.push(unknown);
  }
  return findings;
}

/** What to say of one name, if it means nothing of these kinds. */
export function unknownName(
  kinds: readonly NameKind[],
  value: Value,
  place: Place,
  scope: Scope,
): ModelFinding | undefined {
  const wanted = kinds.filter((kind) => lookedUp.has(kind)) as (DeclaredKind | 'object')[];
  const name = nameOfValue(value);
  const [kind] = wanted;
  if (name === undefined || kind === undefined || wanted.length < kinds.length) return undefined;
  if (wanted.some((each) => scope.find(each, name) !== undefined)) return undefined;
  const what = wanted.map(kindInWords).join(' or ');
  const other = namespaceOf(kind) === 'object' ? scope.find('object', name) : undefined;
  if (other) return finding('wrong-kind', place, { name, is: kindInWords(other.kind), what });
  const nearest = scope.nearest(kind, name);
  return finding(
    'unknown-reference',
    place,
    { what, name, ...(nearest !== undefined && { nearest }) },
    nearest === undefined
      ? {}
      : { fix: { title: `Change to ${nearest}`, edits: [{ place, text: nearest }] } },
  );
}
