/** What is said of a file as a whole: its bytes, its size, what it includes. */
import type { Finding } from '../checks/finding.ts';
import type { Include } from '../model/api.ts';
import type { FileProblem } from './decode.ts';
import type { LiveDocument } from './document.ts';
import { type IncludeProblem, includeFindingNames, includeMessage } from './include.ts';

/** Up to here the cost of a key is flat, and measured; editors themselves give up further on. */
const largestFile = { characters: 2_000_000, lines: 20_000 } as const;

const problemNames: Readonly<Record<FileProblem['kind'], string>> = {
  'not-utf-8': 'file-not-utf-8',
  'utf-16': 'file-utf-16',
  binary: 'file-not-text',
};

const problemMessages: Readonly<Record<FileProblem['kind'], string>> = {
  'not-utf-8':
    'This file holds bytes that are not UTF-8, the first of them here. Save it as UTF-8; the rest of it is read as it stands.',
  'utf-16': 'This file is UTF-16 and is not read. Save it as UTF-8.',
  binary: 'This file is not a text and is not read. A plan is a text in UTF-8.',
};

export function fileFindings(document: LiveDocument): readonly Finding[] {
  const findings: Finding[] = [];
  const { problem } = document;
  if (problem) {
    findings.push({
      name: problemNames[problem.kind],
      kind: 'notation',
      severity: 'error',
      place: document.placeAt(problem.at, 1),
      message: problemMessages[problem.kind],
      related: [],
      details: {},
    });
  }
  if (!problem && saysNothing(document)) {
    findings.push({
      name: 'file-empty',
      kind: 'note',
      severity: 'note',
      place: document.placeAt(0, 0),
      message:
        'This file declares nothing yet, so nothing is judged in it. Begin with a plan or a link and its brace, or take it out of the plan.',
      related: [],
      details: {},
    });
  }
  const { lineCount, length } = document;
  if (length > largestFile.characters || lineCount > largestFile.lines) {
    findings.push({
      name: 'file-large',
      kind: 'note',
      severity: 'note',
      place: document.placeAt(0, 0),
      message: `This file has ${lineCount} lines and ${(length / 1e6).toFixed(1)} MB. It is read whole, but editing is only as quick as it should be up to ${largestFile.lines} lines and ${largestFile.characters / 1e6} MB: split it into files of one plan.`,
      related: [],
      details: { lines: lineCount, characters: length },
    });
  }
  return findings;
}

/** Begins, after blanks, with something that is no comment. */
const sayingLine = /(?<![^\r\n])[^\S\r\n]*[^\s#]/u;

/** Whether every line is blank or a comment; looks no further than the first block that says more. */
function saysNothing(document: LiveDocument): boolean {
  return document.blocks().every(({ text }) => !sayingLine.test(text));
}

export function includeFinding(include: Include, problem: IncludeProblem): Finding {
  return {
    name: includeFindingNames[problem],
    kind: 'contradiction',
    severity: 'error',
    place: include.place,
    message: includeMessage(problem, include.path),
    related: [],
    details: { path: include.path },
  };
}
