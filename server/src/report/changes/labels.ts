/** What a change is about, in two or three words: the line over its subject. */
import type { Change, ChangeForm, ChangeKind } from '../../compare/types.ts';

const labels: Readonly<Record<ChangeKind, string>> = {
  evidence: 'evidence',
  basis: 'limits and basis',
  method: 'set-up and reference',
  connection: 'path',
  application: 'application',
  medium: 'fibre and length',
  joints: 'joints',
  shared: 'shared definition',
  readings: 'readings',
  coverage: 'coverage',
  identity: 'name and place',
  concession: 'concession',
  instrument: 'instrument',
  words: 'words',
  text: 'text only',
};

const forms: Readonly<Record<ChangeForm, string>> = {
  new: 'new',
  gone: 'gone',
  changed: 'changed',
  moved: 'moved',
};

export function labelOf({ kind, form }: Pick<Change, 'kind' | 'form'>): string {
  if (kind === 'text') return labels.text;
  if (kind === 'evidence')
    return form === 'changed' ? 'evidence edited in place' : `evidence ${forms[form]}`;
  return `${labels[kind]}, ${forms[form]}`;
}
