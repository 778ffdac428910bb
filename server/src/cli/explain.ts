/** `explain`: a finding, a word of the language, or an entry of the library, with its source. */
import type { Command } from 'commander';
import {
  C,
  choicesOf,
  meaningsOf,
  signature,
  vocabulary,
  W,
} from '../../../grammar/src/vocabulary/index.ts';
import { checks, findCheck } from '../checks/index.ts';
import { type Declaration, nearestSpelling, sayingsInWords, sayingsOf } from '../model/api.ts';
import { boundsInWords, otherFindings } from '../project/finding-pages.ts';
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
  const parts = [
    ...explainCheck(name),
    ...explainWord(name),
    ...explainChoice(name),
    ...explainEntry(name, library),
    ...explainLaunch(name, library),
  ];
  if (parts.length > 0) return `${parts.join('\n\n')}\n`;
  const known = [
    ...checks.map((check) => check.name),
    ...otherFindings.map((page) => page.name),
    ...vocabulary.map(({ word }) => word),
    ...vocabulary.flatMap(choicesIn),
    ...library.map(({ declaration }) => declaration.name),
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
    ...boundsInWords(check),
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

/** What an argument may say: the words that take it, with their help. */
function explainChoice(name: string): readonly string[] {
  return vocabulary
    .filter((entry) => choicesIn(entry).includes(name))
    .map((entry) =>
      [
        `${name} (an argument of ${entry.word}, in ${entry.contexts.join(', ')})`,
        ...entry.forms.map((form) => `  ${signature(entry, form)}`),
        entry.doc,
        `Example:\n${indent(entry.example)}`,
      ].join('\n'),
    );
}

const choicesIn = (entry: (typeof vocabulary)[number]): readonly string[] =>
  entry.forms.flatMap(({ slots }) => slots.flatMap(({ kinds }) => choicesOf(kinds)));

/** What the library holds of a way to launch. */
function explainLaunch(name: string, library: readonly LibraryEntry[]): readonly string[] {
  const kinds: Readonly<Record<string, string>> = {
    [C.encircledFlux]: W.flux,
    [C.mandrel]: W.mandrel,
  };
  return library
    .filter(({ declaration: { kind } }) => kind === kinds[name])
    .map(
      ({ declaration, text }) =>
        `${declaration.name} (${declaration.kind}, of the library)\n${indent(text)}`,
    );
}

interface LibraryEntry {
  readonly declaration: Declaration;
  /** As it is written. */
  readonly text: string;
}

function libraryEntries(): readonly LibraryEntry[] {
  return [...new LiveProject({ asOf: 0 }).library].flatMap((document) =>
    document.blocks().flatMap((block) =>
      block.declared.declarations.map((declaration) => {
        const { start, end } = declaration.place.span;
        return { declaration, text: block.text.slice(start, end) };
      }),
    ),
  );
}

/** A declaration of the library with what it and all limits say of it, figure beside figure. */
function explainEntry(name: string, library: readonly LibraryEntry[]): readonly string[] {
  return library
    .filter(({ declaration }) => declaration.name === name)
    .flatMap(({ declaration: { kind, entries }, text }) => {
      const base = entries.find(({ word }) => word === W.like);
      const like = base && textOf(base);
      const all = library.map(({ declaration }) => declaration);
      const said = sayingsInWords(sayingsOf(kind, name, all));
      return [
        `${name} (${kind}, of the library)\n${indent(text)}`,
        ...(like === undefined || like === name
          ? []
          : [`What it is like:\n${indent(baseText(kind, like, library))}`]),
        ...(said.length > 0 ? [`What is said of it:\n${indent(said.join('\n'))}`] : []),
      ];
    });
}

function baseText(kind: string, name: string, library: readonly LibraryEntry[]): string {
  const found = library.find(({ declaration: d }) => d.kind === kind && d.name === name);
  return found?.text ?? name;
}

function textOf({ slots }: Declaration['entries'][number]): string | undefined {
  const [value] = slots.name ?? [];
  return value && 'text' in value ? value.text : undefined;
}

function indent(text: string): string {
  return text
    .trimEnd()
    .split('\n')
    .map((line) => (line === '' ? line : `  ${line}`))
    .join('\n');
}
