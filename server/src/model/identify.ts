/** Names and the shape that the plan wants of them. */
import type { BoundEntry, Value } from '../../../grammar/src/bound.ts';
import { C, K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration } from './declaration.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import type { Scope } from './scope.ts';
import { nameOf, namesOf, placeIn, valuePlace } from './values.ts';

/** Names of a declaration, and of its ports, that do not follow the plan's shape. */
export function* namesOffShape(declaration: Declaration, scope: Scope): Iterable<ModelFinding> {
  const shapes = shapesOf(scope);
  if (shapes.size === 0) return;
  const { kind, name, block, namePlace } = declaration;
  const own = shapes.get(kind);
  if (own && !own.matches(name)) {
    yield finding('name-off-shape', namePlace, { what: kind, name, shape: own.text, more: 0 });
  }
  const port = shapes.get(C.port);
  if (!port || (kind !== W.link && kind !== W.channel)) return;
  for (const value of portsIn(declaration.entries)) {
    const astray = namesOf([value]).filter((each) => !port.matches(each));
    const [first] = astray;
    if (first === undefined) continue;
    yield finding('name-off-shape', placeIn(block, value.span), {
      what: C.port,
      name: first,
      shape: port.text,
      more: astray.length - 1,
    });
  }
}

/** Shapes of the plan that say something no name can follow. */
export function shapesUnreadable(scope: Scope): readonly ModelFinding[] {
  return scope.plan(W.identify).flatMap((line) => {
    const [value] = line.entry.slots.shape ?? [];
    const text = nameOf(line.entry.slots.shape);
    const strange = text === undefined ? undefined : strangePart(text);
    if (!value || strange === undefined) return [];
    return [finding('shape-unreadable', valuePlace(line, value), { part: strange })];
  });
}

interface Shape {
  readonly text: string;
  matches(name: string): boolean;
}

function shapesOf(scope: Scope): ReadonlyMap<string, Shape> {
  const shapes = new Map<string, Shape>();
  for (const { entry } of scope.plan(W.identify)) {
    const what = nameOf(entry.slots.what);
    const text = nameOf(entry.slots.shape);
    if (what !== undefined && text !== undefined && strangePart(text) === undefined) {
      shapes.set(what, shapeOf(text));
    }
  }
  return shapes;
}

const known = new Map<string, Shape>();

function shapeOf(text: string): Shape {
  const before = known.get(text);
  if (before) return before;
  const source = text
    .split(/(\{[^{}]*\})/u)
    .map((part) => patternOf(part) ?? part.replaceAll(/[\\^$.*+?()[\]{}|/]/gu, '\\$&'))
    .join('');
  const expression = new RegExp(`^${source}$`, 'u');
  const shape = { text, matches: (name: string) => expression.test(name.normalize('NFC')) };
  known.set(text, shape);
  return shape;
}

/** What stands for a part in braces; undefined where it stands for itself. */
function patternOf(part: string): string | undefined {
  if (part === '{area}') return '[\\p{L}\\p{Nd}]+';
  const digits = /^\{(0+)\}$/u.exec(part)?.[1];
  return digits === undefined ? undefined : `\\d{${digits.length}}`;
}

/** A part in braces that means nothing, or a brace that is alone. */
function strangePart(text: string): string | undefined {
  for (const part of text.split(/(\{[^{}]*\})/u)) {
    const braced = /[{}]/u.test(part);
    if (braced && patternOf(part) === undefined) return part;
  }
  return undefined;
}

function* portsIn(entries: readonly BoundEntry[]): Iterable<Value> {
  for (const { word, slots, body } of entries) {
    if (word === W.from || word === W.to) yield* slots.port ?? [];
    if (word === W.out) yield* slots[K.to] ?? [];
    if (body) yield* portsIn(body.entries);
  }
}
