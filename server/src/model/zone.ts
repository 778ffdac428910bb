/** The site's clock against UTC, as a plan writes it. */
import { W } from '../../../grammar/src/vocabulary/index.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import type { Scope } from './scope.ts';
import { nameOf, valuePlace } from './values.ts';

/** No clock on earth is further ahead of UTC, or behind it. From memory. */
const furthestMinutes = 14 * 60;

/** Minutes that a zone is ahead of UTC: `+01:00`, `-3:30`, `UTC`, `UTC+1`; undefined where it says none. */
export function offsetOf(zone: string | undefined): number | undefined {
  const match = /^(?:UTC|Z)?\s*(?:([+\-−])(\d{1,2})(?::?([0-5]\d))?)?$/u.exec(zone?.trim() || '?');
  if (!match) return undefined;
  const [, sign, hours = '0', minutes = '0'] = match;
  const size = Number(hours) * 60 + Number(minutes);
  if (size > furthestMinutes) return undefined;
  return sign === undefined || sign === '+' ? size : -size;
}

/** A zone of the plan that is no such clock. */
export function zoneUnreadable(scope: Scope): readonly ModelFinding[] {
  return scope.plan(W.zone).flatMap((line) => {
    const [value] = line.entry.slots.zone ?? [];
    const zone = nameOf(line.entry.slots.zone);
    if (!value || zone === undefined || offsetOf(zone) !== undefined) return [];
    return [finding('zone-unreadable', valuePlace(line, value), { zone })];
  });
}
