/** All features of the server. The wiring registers each under its method and merges the capabilities. */
import { codeActions } from './code-actions.ts';
import { codeLens } from './code-lens.ts';
import { comparison, earlierText } from './comparison.ts';
import { completion } from './completion.ts';
import { coverage } from './coverage.ts';
import { definition } from './definition.ts';
import { documentHighlight } from './document-highlight.ts';
import { documentLinks } from './document-links.ts';
import { enterReading } from './entry/enter.ts';
import { layOutReadings } from './entry/lay-out.ts';
import { pasteReadings } from './entry/paste.ts';
import { readingsByPanel, readingsStanding, readingsToEnter } from './entry/to-enter.ts';
import type { Feature } from './feature.ts';
import { folding } from './folding.ts';
import { formatting, onTypeFormatting, rangeFormatting } from './formatting.ts';
import { hover } from './hover.ts';
import { lookAtTable } from './import/look.ts';
import { importReadings } from './import/read.ts';
import { inlayHints } from './inlay-hints.ts';
import { papers } from './papers.ts';
import { fibreTests, readingTests } from './reading-tests.ts';
import { references } from './references.ts';
import { prepareRename, rename } from './rename.ts';
import { results } from './results.ts';
import { selectionRange } from './selection-range.ts';
import { semanticTokensRange } from './semantic-tokens.ts';
import { signatureHelp } from './signature-help.ts';
import { documentSymbols, workspaceSymbols } from './symbols.ts';

// biome-ignore lint/suspicious/noExplicitAny: the list holds features of all parameter types
export const features: readonly Feature<any, unknown>[] = [
  hover,
  completion,
  signatureHelp,
  inlayHints,
  definition,
  references,
  documentHighlight,
  prepareRename,
  rename,
  documentSymbols,
  workspaceSymbols,
  folding,
  selectionRange,
  semanticTokensRange,
  codeActions,
  codeLens,
  coverage,
  readingsToEnter,
  readingsByPanel,
  readingsStanding,
  enterReading,
  layOutReadings,
  pasteReadings,
  lookAtTable,
  importReadings,
  readingTests,
  fibreTests,
  results,
  papers,
  comparison,
  earlierText,
  documentLinks,
  formatting,
  rangeFormatting,
  onTypeFormatting,
];
