/** What the text of two states says otherwise, as lines; a plan and a few places of it said otherwise. */
import { editsOf } from '../../server/src/compare/edits/index.ts';
import type { Edit } from '../../server/src/compare/types.ts';
import { comparePlans, type FileTexts } from '../support/compare.ts';

export function edits(before: FileTexts, after: FileTexts): readonly Edit[] {
  const [one] = comparePlans(before, after);
  if (!one?.before || !one.after) throw new Error('the plan does not stand on both sides');
  return editsOf(one.before, one.after);
}

/** `medium changed: length of cable C-101: 142 m -> 150 m`; without a side that was not there. */
export function told(all: readonly Edit[]): string[] {
  return all.map(({ kind, form, subject, was, now, count }) => {
    const values =
      was === undefined && now === undefined ? [] : [was ?? [], '->', now ?? []].flat();
    const what = [subject, values.join(' ')].filter(Boolean).join(': ');
    return `${kind} ${form}: ${what}${count > 1 ? ` (${count})` : ''}`;
  });
}

/** Every text put in the place of another, each of which has to be there. */
export function said(text: string, ...changes: readonly (readonly [string, string])[]): string {
  return changes.reduce((now, [was, is]) => {
    if (!now.includes(was)) throw new Error(`not in the plan: ${was}`);
    return now.replaceAll(was, is);
  }, text);
}
