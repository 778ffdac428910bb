/** What is drawn round a path: brackets that name what it belongs to, and what a reading of it holds. */
import type { LinkResult, WavelengthResult } from '../evaluate/result.ts';
import { length } from './figures.ts';
import type { LaidElement } from './path.ts';
import type { Subject } from './subject.ts';

export interface Bracket {
  readonly what: 'link' | 'channel' | 'cable';
  readonly name: string;
  readonly length: string;
  /** Indices of the elements that it spans. */
  readonly first: number;
  readonly last: number;
}

export interface SetupWords {
  readonly sentence: string;
  readonly launch: string;
  readonly receive: string;
}

export function bracketsOf(
  subject: Subject,
  result: LinkResult,
  laid: readonly LaidElement[],
): readonly Bracket[] {
  if (laid.length === 0) return [];
  const { kind } = result.link;
  const bracket = (what: Bracket['what'], of: LinkResult, first: number, last: number) => ({
    what,
    name: of.link.name,
    length: of.length === undefined ? '' : length(of.length, subject.display),
    first,
    last,
  });
  const whole = kind === 'link' ? 'link' : kind === 'section' ? 'cable' : 'channel';
  const inner = [...new Set(laid.flatMap((each) => each.link ?? []))].flatMap((name) => {
    const of = subject.plan.result.link(name);
    const own = [...laid.keys()].filter((index) => laid[index]?.link === name);
    const [first, last] = [own[0], own.at(-1)];
    return of && first !== undefined && last !== undefined
      ? [bracket('link', of, first, last)]
      : [];
  });
  return [bracket(whole, result, 0, laid.length - 1), ...inner];
}

/** What the reference takes out of a reading, in words. */
export function setupOf(at: WavelengthResult): SetupWords {
  if (!at.reference) return { sentence: 'reference method not said', launch: '', receive: '' };
  const receive = at.receiveCord ? 'receive cord' : 'straight into the meter';
  const sentences = {
    'one-cord': at.receiveCord
      ? 'one-cord reference: both end pairs are in the reading'
      : 'one-cord reference: the pair at A is in the reading',
    'two-cord': 'two-cord reference: one end pair is in the reading',
    'three-cord': 'three-cord reference: no end pair is in the reading',
    'equipment-cord':
      'reference over the equipment cords: only what lies between is in the reading',
  } as const;
  return { sentence: sentences[at.reference], launch: 'launch cord, not counted', receive };
}

/** How many end pairs the reference takes out of the reading. */
export function referencePairs(at: WavelengthResult | undefined): number {
  if (at?.reference === 'two-cord') return 1;
  return at?.reference === 'three-cord' ? 2 : 0;
}
