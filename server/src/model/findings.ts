/**
 * Every finding about names and structure: what kind it is and the sentence it
 * speaks. Numbers and names come in as details; the condition stands where the
 * model is built.
 */
import type { Severity } from '../../../grammar/src/tree.ts';
import type { ModelFinding } from './finding.ts';
import type { Place } from './types.ts';

type Details = Readonly<Record<string, string | number>>;

interface Sentence {
  readonly kind: ModelFinding['kind'];
  readonly severity: Severity;
  readonly says: (details: Details) => string;
}

const mistake = (says: Sentence['says']): Sentence => ({
  kind: 'notation',
  severity: 'error',
  says,
});
const contradiction = (says: Sentence['says']): Sentence => ({
  kind: 'contradiction',
  severity: 'error',
  says,
});
const doubt = (says: Sentence['says'], severity: Severity = 'warning'): Sentence => ({
  kind: 'doubt',
  severity,
  says,
});
const note = (says: Sentence['says']): Sentence => ({ kind: 'note', severity: 'note', says });

/** `1 fibre`, `12 fibres`. */
function counted(number: number, noun: string): string {
  return `${number} ${noun}${number === 1 ? '' : 's'}`;
}

const table = {
  'unknown-reference': mistake(
    (d) =>
      `There is no ${d.what} ${d.name} in this plan or the library.` +
      (d.nearest ? ` Did you mean ${d.nearest}?` : ' Declare it, or correct the name.'),
  ),
  'wrong-kind': mistake(
    (d) => `${d.name} is a ${d.is}, and a ${d.what} is wanted here. Name a ${d.what}.`,
  ),
  'duplicate-definition': contradiction(
    (d) =>
      `${d.name} is declared twice in this plan; this one, a ${d.what}, is not used. Rename one of the two, or merge them.`,
  ),
  'library-shadowed': note(
    (d) =>
      `This ${d.what} ${d.name} stands before the library's everywhere in this plan. Check that its figures are meant.`,
  ),
  'like-cycle': mistake(
    (d) => `${d.name} takes after itself: ${d.chain}. Let one of them stand for itself.`,
  ),
  'pattern-cycle': mistake(
    (d) => `The pattern ${d.name} contains itself: ${d.chain}. Take one of the two uses out.`,
  ),
  'hole-unfilled': mistake(
    (d) =>
      `The pattern ${d.pattern} has a hole <${d.hole}> that is not filled here. ` +
      (d.column
        ? `Give the row a value in the column ${d.hole}.`
        : `Write ${d.hole} and its value behind the pattern's name.`),
  ),
  'hole-unknown': mistake(
    (d) =>
      `The pattern ${d.pattern} has no hole <${d.hole}>.` +
      (d.nearest
        ? ` Did you mean ${d.nearest}?`
        : ' Take the value out, or put the hole into the pattern.'),
  ),
  'hole-name-taken': mistake(
    (d) =>
      `A hole cannot be called ${d.hole}: behind a pattern's name that word has a meaning of its own. Give the hole another name.`,
  ),
  'hole-misfit': mistake(
    (d) =>
      `The hole <${d.hole}> wants ${d.wanted} here, and ${d.given} is not that. Give it ${d.wanted}.`,
  ),
  'count-mismatch': contradiction((d) => {
    const fibres = `${d.link} has ${counted(Number(d.fibres), 'fibre')}`;
    return d.ports
      ? `${d.list} names ${counted(Number(d.given), 'port')}, and ${fibres}. Name as many ports, or a number that divides ${d.fibres}.`
      : `${d.list} has ${counted(Number(d.given), 'member')}, and ${fibres}. Give both the same number.`;
  }),
  'fibre-listed-twice': contradiction(
    (d) => `Fibre ${d.fibre} stands twice in ${d.list}. Each fibre stands there once.`,
  ),
  'fibre-out-of-range': contradiction((d) =>
    d.count !== undefined
      ? `${d.of} has ${counted(Number(d.count), 'fibre')}, and fibre ${d.fibre} is taken. Correct the numbers, or the count.`
      : `${d.of} has no fibre ${d.fibre}; its fibres are ${d.fibres}. Correct the number.`,
  ),
  'tube-out-of-range': contradiction((d) =>
    Number(d.tubes) > 0
      ? `${d.cable} has ${counted(Number(d.tubes), 'tube')}, and tube ${d.tube} is taken. Correct the number.`
      : `${d.cable} does not say in how many tubes its fibres lie. Write tubes behind its count.`,
  ),
  'cable-fibre-used-twice': contradiction(
    (d) =>
      `Fibre ${d.fibre} of ${d.cable} is taken by ${d.first} already, and by ${d.link} here. One of the two must take another fibre.`,
  ),
  'fibres-missing': doubt(
    (d) =>
      `${d.link} does not say how many fibres it has, so no reading is expected of it. Name its ports in from, or its fibres.`,
  ),
  'path-missing': doubt(
    (d) => `${d.link} has no path, so no limit can be built. Say what light crosses from A to B.`,
  ),
  'missing-length': doubt(
    (d) =>
      `${d.what} has no length, so no limit can be built. Write its length; unknown counts as none, on purpose.`,
  ),
  'length-not-positive': contradiction(
    (d) =>
      `A length of ${d.length} is none. Write the length, or unknown if it is to count as none.`,
  ),
  'open-end': doubt(
    (d) =>
      `The path of ${d.link} ${d.end === 'A' ? 'begins' : 'ends'} in a ${d.what}: its end ${d.end} is open. Put a connector, a plug or a component there.`,
  ),
  'joint-missing': doubt(
    (d) =>
      `The ${d.before} and the ${d.after} meet without a joint, so no loss is counted between them. Write the splice or the connector that joins them.`,
    'error',
  ),
  'plug-inside-path': contradiction(
    (d) =>
      `A plug stands inside the path of ${d.link}. A plug is an end that is not mated; where two meet, write connector.`,
  ),
  'direction-missing': doubt(
    (d) =>
      `The column ${d.column} does not say in which direction light went. Write A>B or B>A behind the wavelength.`,
  ),
  'tested-backwards': contradiction(
    (d) => `The readings end at ${d.to}, before they begin at ${d.from}. Correct one of the two.`,
  ),
  'not-yet-judged': doubt(
    (d) =>
      `${d.what} cannot be judged by this version, so ${d.about} has no limit and no verdict from it.`,
  ),
} satisfies Record<string, Sentence>;

export type FindingName = keyof typeof table;

export const findingNames = Object.keys(table) as readonly FindingName[];

export interface Beside {
  readonly related?: ModelFinding['related'];
  readonly fix?: ModelFinding['fix'];
  readonly about?: string;
}

/** A finding of the table at its place. */
export function finding(
  name: FindingName,
  place: Place,
  details: Details,
  beside: Beside = {},
): ModelFinding {
  const { kind, severity, says } = table[name];
  return { name, kind, severity, place, message: says(details), related: [], details, ...beside };
}
