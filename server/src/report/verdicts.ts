/**
 * What a verdict looks like, in one place: its word, its mark and its colour.
 * Word and shape carry it alone; colour is an addition.
 */
import { type Verdict, verdicts } from '../evaluate/result.ts';

/** Names of the colours of marks; the sheet mixes them from the editor's own. */
export type Tone = 'ink' | 'quiet' | 'fail' | 'marginal' | 'conceded' | 'invalid';

/** A line of a mark on a grid 20 wide and 12 high. */
interface MarkLine {
  readonly path: string;
  readonly width: number;
  readonly dash?: string;
}

export interface VerdictLook {
  readonly verdict: Verdict;
  readonly word: string;
  readonly tone: Tone;
  /** Its word and its values are set in 600. */
  readonly strong: boolean;
  readonly mark: readonly MarkLine[];
}

const bar: MarkLine = { path: 'M13 0V12', width: 1.6 };

/** A stroke, the value, meets a bar, the limit; how they meet is the verdict. */
const looks: Readonly<Record<Verdict, Omit<VerdictLook, 'verdict'>>> = {
  fail: { word: 'fail', tone: 'fail', strong: true, mark: [{ path: 'M1 6H20', width: 3.6 }, bar] },
  'marginal-fail': {
    word: 'marginal-fail',
    tone: 'marginal',
    strong: true,
    mark: [
      { path: 'M1 6H13', width: 2.2 },
      bar,
      { path: 'M13 6L16.5 2.5L20 6L16.5 9.5Z', width: 1.4 },
    ],
  },
  invalid: {
    word: 'invalid',
    tone: 'invalid',
    strong: true,
    mark: [
      { path: 'M1 8L3.4 3.5L5.8 8.5L8.2 3.5L10 7', width: 1.8 },
      { ...bar, dash: '2.6 2' },
    ],
  },
  stale: {
    word: 'stale',
    tone: 'quiet',
    strong: true,
    mark: [{ path: 'M1 6H7', width: 2.2 }, { path: 'M8.6 9L11 3', width: 1.6 }, bar],
  },
  untested: {
    word: 'untested',
    tone: 'quiet',
    strong: false,
    mark: [{ path: 'M1 6H10', width: 2.2, dash: '2 1.5' }, bar],
  },
  'not-judged': {
    word: 'not judged',
    tone: 'quiet',
    strong: false,
    mark: [{ path: 'M1 6H19', width: 2.2 }],
  },
  conceded: {
    word: 'conceded',
    tone: 'conceded',
    strong: true,
    mark: [{ path: 'M0 8H8.2A4.8 4.8 0 0 1 17.8 8H20', width: 2.2 }, bar],
  },
  'marginal-pass': {
    word: 'marginal-pass',
    tone: 'marginal',
    strong: true,
    mark: [{ path: 'M1 6H6', width: 2.2 }, { path: 'M6 6L9.5 2.5L13 6L9.5 9.5Z', width: 1.4 }, bar],
  },
  pass: { word: 'pass', tone: 'ink', strong: false, mark: [{ path: 'M1 6H9', width: 2.2 }, bar] },
};

export function lookOf(verdict: Verdict): VerdictLook {
  return { verdict, ...looks[verdict] };
}

/** Place in the order that holds everywhere, worst first. */
export function rankOf(verdict: Verdict): number {
  return verdicts.indexOf(verdict);
}

export function worstOf(all: Iterable<Verdict>): Verdict | undefined {
  let worst: Verdict | undefined;
  for (const each of all) {
    if (worst === undefined || rankOf(each) < rankOf(worst)) worst = each;
  }
  return worst;
}

/** The margin of such a reading speaks of the link as it is now, and is not accepted already. */
export function countsForWorst(verdict: Verdict): boolean {
  return verdict !== 'conceded' && verdict !== 'invalid' && verdict !== 'stale';
}
