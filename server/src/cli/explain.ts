/** `explain`: a finding, a word of the language, or an entry of the library, with its source. */
import type { Command } from 'commander';
import { meaningsOf, signature, vocabulary } from '../../../grammar/src/vocabulary/index.ts';
import { checks, findCheck } from '../checks/index.ts';
import { nearestSpelling } from '../model/api.ts';
import { otherFindings } from '../project/finding-pages.ts';
import { LiveProject } from '../project/index.ts';
import { answer, CommandError } from './console.ts';
import { outOption } from './options.ts';

export function addExplain(program: Command): void {
  program
    .command('explain')
    .description('explain a finding, a word or an entry of the library')
    .argument('<name>', 'for example core-size-mismatch, segment or OM4')
    .addOption(outOption())
    .action(async (name: string, { out }: { readonly out?: string }) => {
      await answer(explain(name), out);
    });
}

/** Everything that a name means, one paragraph after another. */
export function explain(name: string): string {
  const library = libraryEntries();
  const parts = [...explainCheck(name), ...explainWord(name), ...(library.get(name) ?? [])];
  if (parts.length > 0) return `${parts.join('\n\n')}\n`;
  const known = [
    ...checks.map((check) => check.name),
    ...otherFindings.map((page) => page.name),
    ...vocabulary.map(({ word }) => word),
    ...library.keys(),
  ];
  const near = nearestSpelling(name, known);
  throw new CommandError(
    `Nothing here is named "${name}".${near === undefined ? '' : ` Did you mean "${near}"?`}`,
  );
}

function explainCheck(name: string): readonly string[] {
  const check = findCheck(name);
  if (!check) {
    return otherFindings
      .filter((page) => page.name === name)
      .map(({ group, severity, says }) => `${name} (finding, ${group}, ${severity})\n${says}`);
  }
  return [
    `${check.name} (finding, ${check.kind}, ${check.severity})\n${check.title}.`,
    check.explanation,
    `Source: ${check.source}`,
    `Where it is said:\n${indent(check.bad)}`,
    `Put right:\n${indent(check.good)}`,
  ];
}

function explainWord(name: string): readonly string[] {
  return meaningsOf(name).map((entry) => {
    const where = entry.contexts.map((context) => (context === 'file' ? 'a file' : context));
    const forms = entry.forms.map((form) => `  ${signature(entry, form)}`);
    return [
      `${entry.word} (word, in ${where.join(', ')})`,
      ...forms,
      entry.doc,
      `Example:\n${indent(entry.example)}`,
    ].join('\n');
  });
}

/** The library's declarations as they are written, by name. */
function libraryEntries(): ReadonlyMap<string, readonly string[]> {
  const entries = new Map<string, string[]>();
  for (const document of new LiveProject({ asOf: 0 }).library) {
    for (const block of document.blocks()) {
      for (const { name, kind, place } of block.declared.declarations) {
        const text = block.text.slice(place.span.start, place.span.end);
        const entry = `${name} (${kind}, of the library)\n${indent(text)}`;
        entries.set(name, [...(entries.get(name) ?? []), entry]);
      }
    }
  }
  return entries;
}

function indent(text: string): string {
  return text
    .trimEnd()
    .split('\n')
    .map((line) => (line === '' ? line : `  ${line}`))
    .join('\n');
}
