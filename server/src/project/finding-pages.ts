/**
 * Every name of a finding, with what stands on its page. Checks carry their
 * page with them; of what the notation, the model and files say, the sentence
 * itself is the page, with `…` where a finding puts its own words and numbers.
 */
import { bindingFindings } from '../../../grammar/src/binding/sentences.ts';
import { notationFindings, sentenceOf } from '../../../grammar/src/sentences.ts';
import type { Severity } from '../../../grammar/src/tree.ts';
import { findWord, signature, W } from '../../../grammar/src/vocabulary/index.ts';
import { evidenceGuards } from '../checks/evidence-guard.ts';
import { type Check, checks, type FindingKind } from '../checks/index.ts';
import { finding, findingNames } from '../model/findings.ts';
import { type IncludeProblem, includeFindingNames, includeMessage } from './include.ts';

export interface FindingPage {
  readonly name: string;
  readonly group: 'notation' | 'names and structure' | 'files' | 'comparison of two states';
  readonly kind: FindingKind;
  readonly severity: Severity;
  /** What the finding says or means. */
  readonly says: string;
}

/** Whatever a sentence asks for is `…`. */
const open: Readonly<Record<string, string>> = new Proxy({}, { get: () => '…', has: () => true });
const nowhere = { block: -1, span: { start: 0, end: 0 } };

const ofNotation: readonly FindingPage[] = [
  ...notationFindings.map((name): FindingPage => {
    const { severity, message } = sentenceOf(name, open);
    return {
      name,
      group: 'notation',
      kind: 'notation',
      severity,
      says: message.replaceAll('NaN', '…'),
    };
  }),
  ...Object.entries(bindingFindings).map(
    ([name, { severity, meaning }]): FindingPage => ({
      name,
      group: 'notation',
      kind: 'notation',
      severity,
      says: meaning,
    }),
  ),
];

const ofNames = findingNames.map((name): FindingPage => {
  const { kind, severity, message } = finding(name, nowhere, open);
  return {
    name,
    group: 'names and structure',
    kind,
    severity,
    says: message.replaceAll('NaN', '…'),
  };
});

const ofFiles: readonly FindingPage[] = [
  ...(Object.keys(includeFindingNames) as IncludeProblem[]).map(
    (problem): FindingPage => ({
      name: includeFindingNames[problem],
      group: 'files',
      kind: 'contradiction',
      severity: 'error',
      says: includeMessage(problem, '…'),
    }),
  ),
  file('plan-twice', 'error', 'A plan has one plan block; a second one in its files is not used.'),
  file('file-not-utf-8', 'error', 'A file holds bytes that are not UTF-8. The rest of it is read.'),
  file('file-utf-16', 'error', 'A file is UTF-16 and is not read. Save it as UTF-8.'),
  file('file-not-text', 'error', 'A file is not a text and is not read.'),
  file('file-empty', 'note', 'A file holds no declaration: it is empty, or all of it is comments.'),
  file('file-large', 'note', 'A file is larger than editing is quick for. It is read whole.'),
  file(
    'more-findings',
    'note',
    'A file has more findings than an editor shows; the rest is counted.',
  ),
  file(
    'not-worked-out',
    'error',
    'A fault of the tool kept something from being judged. Please report it with the text.',
  ),
];

const ofComparison = evidenceGuards.map(
  (page): FindingPage => ({ ...page, group: 'comparison of two states' }),
);

function file(name: string, severity: Severity, says: string): FindingPage {
  return { name, group: 'files', kind: 'notation', severity, says };
}

/** Names that are no check's own; a name that both have is the check's. */
export const otherFindings: readonly FindingPage[] = [
  ...ofNotation,
  ...ofNames,
  ...ofFiles,
  ...ofComparison,
].filter(
  ({ name }, index, all) =>
    !checks.some((check) => check.name === name) &&
    all.findIndex((other) => other.name === name) === index,
);

const kinds: ReadonlyMap<string, FindingKind> = new Map(
  [...otherFindings, ...checks].map(({ name, kind }) => [name, kind]),
);

/** What kind of finding has a name; undefined where none has it. */
export function kindOfFinding(name: string): FindingKind | undefined {
  return kinds.get(name);
}

/** What a plan can set of a check, one paragraph a word of its `doubts`. */
export function boundsInWords({ bounds = [] }: Check): readonly string[] {
  return bounds.flatMap((word) => {
    const entry = findWord(word, W.doubts);
    return entry
      ? [`Set in \`${W.doubts}\` of the plan, as \`${signature(entry)}\`. ${entry.doc}`]
      : [];
  });
}

/** All findings as one page of Markdown, an anchor for each. */
export function findingsPage(): string {
  const groups = ['notation', 'names and structure', 'files', 'comparison of two states'] as const;
  return [
    '# Findings',
    '',
    'Written by `npm run generate` from the checks themselves: the examples are the ones that tests run. A *contradiction* makes its readings invalid; a *doubt* leaves the verdict and waits for an answer in words (`silence … because …`); a *note* does neither.',
    '',
    '## Plans, set-ups and readings',
    '',
    ...checks.flatMap(checkSection),
    ...groups.flatMap((group) => [
      `## ${group[0]!.toUpperCase()}${group.slice(1)}`,
      '',
      ...otherFindings
        .filter((page) => page.group === group)
        .flatMap(({ name, kind, severity, says }) => [
          `### ${name}`,
          '',
          `${kind}, ${severity}. ${says}`,
          '',
        ]),
    ]),
  ].join('\n');
}

function checkSection(check: Check): string[] {
  return [
    `### ${check.name}`,
    '',
    `${check.title}. *${check.kind}, ${check.severity}.*`,
    '',
    check.explanation,
    '',
    `Source: ${check.source}`,
    '',
    ...boundsInWords(check).flatMap((line) => [line, '']),
    '<details><summary>Where it is said, and put right</summary>',
    '',
    '```lwl',
    check.bad.trimEnd(),
    '```',
    '',
    '```lwl',
    check.good.trimEnd(),
    '```',
    '',
    '</details>',
    '',
  ];
}
