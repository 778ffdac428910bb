/** What a record is made of: a plan with the texts of its files, and whether it is issued or a draft. */
import { fingerprintOf } from '../json.ts';
import type { Documented } from '../paper/plan.ts';
import { type Missing, missingIn } from './required.ts';

export interface Recorded extends Documented {
  /** Every file of the plan, in its order. */
  readonly files: readonly RecordedFile[];
  /** Whether it is to be issued; it is not while something is missing. */
  readonly issue: boolean;
}

export interface RecordedFile {
  readonly uri: string;
  /** As seen from the plan's first file, with `/`. */
  readonly path: string;
  readonly text: string;
}

export interface RecordState {
  readonly state: 'draft' | 'issued';
  readonly missing: readonly Missing[];
  readonly fingerprint: string;
}

export function stateOf(recorded: Recorded): RecordState {
  const missing = missingIn(recorded);
  return {
    state: recorded.issue && missing.length === 0 ? 'issued' : 'draft',
    missing,
    fingerprint: fingerprintOf(recorded.files),
  };
}

/** The files of a plan by their paths from its first: the same from wherever somebody looks. */
export function filesOf(
  { root, files }: Pick<Recorded['plan'], 'root' | 'files'>,
  textOf: (uri: string) => string | undefined,
): readonly RecordedFile[] {
  return files.map((uri) => ({ uri, path: pathFrom(root, uri), text: textOf(uri) ?? '' }));
}

/** The path from the folder of one file to another: `readings/day-1.lwl`, `../cables.lwl`. */
export function pathFrom(root: string, uri: string): string {
  const from = root.split('/').slice(0, -1);
  const to = uri.split('/');
  let common = 0;
  while (common < from.length && from[common] === to[common]) common += 1;
  return [...from.slice(common).map(() => '..'), ...to.slice(common)].map(plain).join('/');
}

function plain(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
