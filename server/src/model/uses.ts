/** The names that stand in one declaration, or in the plan itself, whatever they name there. */
import type { BoundEntry, Value } from '../../../grammar/src/bound.ts';
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
