/** Readings judged on a copy of the plan before they are written, and what is doubtful of them. */
import type { PlacedEdit } from '../../checks/finding.ts';
import { checkLink, type Finding } from '../../checks/index.ts';
import { evaluateLink } from '../../evaluate/index.ts';
import type { LinkResult, ReadingResult } from '../../evaluate/result.ts';
import type { Place } from '../../model/types.ts';
import type { Plan } from '../../project/types.ts';
import { sameKey, type WantedKey } from './wanted.ts';

export interface Tried {
  readonly result: LinkResult;
  readonly findings: readonly Finding[];
}

/** An object as it would be judged with edits; undefined where the plan does not have it. */
export function triedWith(
  plan: Plan,
  object: string,
  edits: readonly PlacedEdit[],
): Tried | undefined {
  const input = plan.tried(object, edits);
  if (!input) return undefined;
  const { link, evidence, settings, asOf, setup } = input;
  const result = evaluateLink(input);
  return { result, findings: checkLink({ link, result, evidence, settings, asOf, setup }) };
}

/** The reading that stands at a key. */
export function readingOf(
  result: LinkResult | undefined,
  key: WantedKey,
): ReadingResult | undefined {
  return result?.readings.findLast(
    (each) => each.attempt !== null && each.current && sameKey(key, each),
  );
}

/** What the verdict says already. */
const sayVerdict: ReadonlySet<string> = new Set(['over-limit', 'marginal-fail', 'marginal-pass']);

/** Notes that ask for a second look while the plug is still in. */
const notesToAsk: ReadonlySet<string> = new Set(['pass-but-outlier']);

/** What asks for a second look: of the cells that are written, or of others and of another kind than before. */
export function doubtsOf(
  after: Tried,
  before: Tried | undefined,
  cells: readonly Place[],
): readonly Finding[] {
  const known = new Set(before?.findings.map(({ name }) => name));
  const written = new Set(cells.map(({ block, span }) => `${block} ${span.start}`));
  return after.findings.filter(({ name, kind, place }) => {
    if (sayVerdict.has(name)) return false;
    const isWritten = written.has(`${place.block} ${place.span.start}`);
    return kind === 'note' ? isWritten && notesToAsk.has(name) : isWritten || !known.has(name);
  });
}
