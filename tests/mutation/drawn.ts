/**
 * Draws a random sample of all changes of lines: each is kept or left by a hash of
 * a seed and of itself, so that neither its place in a file nor what was kept before
 * has a part in it, and the same seed draws the same changes again. Asked by the
 * runner, as one of its checkers, before a change is shown to any test.
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { refused as byTypes } from './typed.ts';

/** A change as the runner hands it over; lines and columns count from 0. */
export interface Change {
  readonly id: string;
  readonly fileName: string;
  readonly location: { readonly start: Place; readonly end: Place };
  readonly mutatorName: string;
  readonly replacement: string;
}
interface Place {
  readonly line: number;
  readonly column: number;
}

/** Whether a change belongs to the sample of that seed; the share runs from 0 to 1. */
export function isDrawn(change: Change, seed: string, share: number): boolean {
  const { fileName, location, mutatorName, replacement } = change;
  const file = fileName.replaceAll('\\', '/').replace(/^.*\/(?=server\/src\/)/u, '');
  const { start, end } = location;
  const place = `${start.line}:${start.column}-${end.line}:${end.column}`;
  const digest = createHash('sha256')
    .update([seed, file, place, mutatorName, replacement].join('\n'))
    .digest();
  return digest.readUInt32BE(0) / 2 ** 32 < share;
}

/**
 * 95 % interval of a share, by the score method of E. B. Wilson, "Probable
 * inference, the law of succession, and statistical inference" (1927).
 */
export function scoreInterval(noticed: number, of: number): readonly [number, number] {
  const z = 1.959964;
  const share = noticed / of;
  const centre = share + z ** 2 / (2 * of);
  const half = z * Math.sqrt((share * (1 - share)) / of + z ** 2 / (4 * of ** 2));
  const whole = 1 + z ** 2 / of;
  return [(centre - half) / whole, (centre + half) / whole];
}

/** Changes that the compiler refused, that were tried else, and those of them that a test noticed. */
export interface Counts {
  readonly noticed: number;
  readonly tried: number;
  readonly refused: number;
}

export function countsIn(report: string): Counts {
  const { files } = JSON.parse(readFileSync(report, 'utf8')) as Report;
  const all = Object.values(files).flatMap(({ mutants }) => mutants);
  const count = (...of: string[]) => all.filter(({ status }) => of.includes(status)).length;
  const noticed = count('Killed', 'Timeout');
  const tried = noticed + count('Survived', 'NoCoverage');
  const refused = all.filter(({ statusReason }) => statusReason?.startsWith(byTypes)).length;
  return { noticed, tried, refused };
}

export function addCounts(a: Counts, b: Counts): Counts {
  return {
    noticed: a.noticed + b.noticed,
    tried: a.tried + b.tried,
    refused: a.refused + b.refused,
  };
}

/** The score and its interval, as a sentence. */
export function scoreInWords({ noticed, tried, refused }: Counts): string {
  if (tried === 0) return 'Nothing was drawn.';
  const [score = 0, from = 0, to = 0] = [noticed / tried, ...scoreInterval(noticed, tried)].map(
    (share) => Math.round(share * 1000) / 10,
  );
  return `${noticed} of ${tried} changes were noticed: ${score} %, and of all between ${from} and ${to} % (19 of 20 such samples); the compiler refused ${refused} more`;
}

interface Report {
  readonly files: Readonly<Record<string, { readonly mutants: readonly Tried[] }>>;
}

interface Tried {
  readonly status: string;
  readonly statusReason?: string;
}

class Drawn {
  async init(): Promise<void> {}

  async check(changes: readonly Change[]): Promise<Record<string, object>> {
    const [seed = '', share = '1'] = (process.env.LINKWRIGHT_DRAWN ?? '').split(':');
    const left = { status: 'compileError', reason: 'not drawn' };
    return Object.fromEntries(
      changes.map((change) => [
        change.id,
        isDrawn(change, seed, Number(share)) ? { status: 'passed' } : left,
      ]),
    );
  }

  /** All in one go, since nothing is compiled. */
  async group(changes: readonly Change[]): Promise<string[][]> {
    return [changes.map(({ id }) => id)];
  }
}

export const strykerPlugins = [{ kind: 'Checker', name: 'drawn', injectableClass: Drawn }];
