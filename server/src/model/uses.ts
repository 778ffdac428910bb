/** The names that stand in one declaration, or in the plan itself, whatever they name there. */
import type { BoundBlock, BoundEntry, Value } from '../../../grammar/src/bound.ts';
import type { Argument, Entry, Span } from '../../../grammar/src/tree.ts';
import type { Declaration, PlanDeclaration } from './declaration.ts';

/**
 * Once each, its own not among them: to take after what the library calls alike
 * is no use of itself. A hole may want a name of any kind, so that kinds are not told.
 */
export function namesStandingIn(subject: Declaration | PlanDeclaration): ReadonlySet<string> {
  const names = new Set<string>();
  if ('fields' in subject) {
    for (const entries of subject.fields.values()) addEntries(entries, names);
    return names;
  }
  const { entries, table, holes, name } = subject;
  addEntries(entries, names);
  addValues(holes?.values() ?? [], names);
  if (table) {
    addEntries(table.entries, names);
    addValues(table.holes.values(), names);
    if (table.pattern) names.add(table.pattern.name);
  }
  names.delete(name);
  return names;
}

/** What is named on lines of a block that hold a mistake of the notation; none where there is none. */
export function namesUnread({ tree, findings }: BoundBlock): ReadonlySet<string> | undefined {
  const errors = findings.filter(({ severity }) => severity === 'error');
  if (errors.length === 0) return undefined;
  const holdsError = ({ start, end }: Span) =>
    errors.some(({ span }) => span.start >= start && span.start < end);
  const names = new Set<string>();
  const addArguments = (args: readonly Argument[]) => {
    for (const one of args) if (one.kind === 'name' || one.kind === 'text') names.add(one.text);
  };
  const visit = ({ span, lists, body }: Entry) => {
    const line = { start: span.start, end: body?.span.start ?? span.end };
    if (holdsError(line)) for (const list of lists) addArguments(list.arguments);
    for (const entry of body?.entries ?? []) visit(entry);
    for (const row of body?.table?.rows ?? []) if (holdsError(row.span)) addArguments(row.cells);
  };
  for (const entry of tree.entries) visit(entry);
  return names;
}

function addEntries(entries: readonly BoundEntry[], names: Set<string>): void {
  for (const { slots, body } of entries) {
    for (const values of Object.values(slots)) addValues(values, names);
    if (body) addEntries(body.entries, names);
  }
}

function addValues(values: Iterable<Value>, names: Set<string>): void {
  for (const value of values) {
    if (value.kind === 'name' || value.kind === 'text') names.add(value.text);
  }
}
