/**
 * The highlighting grammar, for editors that colour before the server answers.
 * Made from the vocabulary; the server's semantic tokens refine it.
 */
import { units } from '../quantity/index.ts';
import { C, canonical, K, otherSpellings, vocabulary, W } from '../vocabulary/index.ts';

/** Characters of a run: what a name, number or unit is written with. */
const run = String.raw`[\p{L}\p{M}\p{N}\-_./:+%·²√°−]`;
const bare = (body: string): string => `(?<!${run})(?:${body})(?!${run})`;
const literally = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/gu, String.raw`\$&`);

/** Alternatives, longest first, so that none hides another. */
function alternatives(words: Iterable<string>): string {
  const all = new Set(words);
  for (const [other, word] of Object.entries(otherSpellings)) if (all.has(word)) all.add(other);
  return [...all]
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
    .map(literally)
    .join('|');
}

/** The grammar as an object, ready to be written as JSON. */
export function textmateGrammar(): object {
  const atMargin = vocabulary.filter((entry) => entry.contexts.includes('file'));
  const inside = vocabulary.filter((entry) => entry.contexts.some((context) => context !== 'file'));
  const names = (entries: typeof vocabulary) => alternatives(entries.map((entry) => entry.word));
  const choices = [...Object.values(C).filter((choice) => !isWord(choice)), K.dark];
  const unitNames = alternatives([
    ...units.map((unit) => unit.name),
    ...units.map((unit) => unit.name.replace(/^u/u, 'µ')),
  ]);
  const number = String.raw`[-−]?(?:\d+(?:\.\d+)?|\.\d+)`;
  return {
    name: 'Linkwright',
    scopeName: 'source.linkwright',
    fileTypes: ['lwl'],
    patterns: [
      { include: '#comment' },
      { include: '#declaration' },
      { include: '#columns' },
      { include: '#word' },
      { include: '#argument' },
    ],
    repository: {
      comment: {
        name: 'comment.line.number-sign.linkwright',
        match: String.raw`(?:^|(?<=[ \t\x{A0}]))#.*$`,
      },
      declaration: {
        begin: `^(${names(atMargin)})(?!${run})`,
        beginCaptures: { 1: { name: 'storage.type.linkwright' } },
        end: '$',
        patterns: [
          { include: '#comment' },
          {
            // the name that is declared, or the object that evidence is about
            match: String.raw`\G[ \t]+(?!${K.as}(?!${run}))(${run}+)`,
            captures: { 1: { name: 'entity.name.type.linkwright' } },
          },
          { include: '#argument' },
        ],
      },
      columns: {
        begin: String.raw`^[ \t]*(${W.columns})(?!${run})`,
        beginCaptures: { 1: { name: 'keyword.control.linkwright' } },
        end: '$',
        patterns: [
          { include: '#comment' },
          { include: '#text' },
          { include: '#value' },
          { name: 'variable.other.property.linkwright', match: bare(`(?!\\d)${run}+`) },
          { include: '#punctuation' },
        ],
      },
      word: {
        match: String.raw`^[ \t]+(${names(inside)})(?!${run})`,
        captures: { 1: { name: 'keyword.other.linkwright' } },
      },
      argument: {
        patterns: [
          { include: '#comment' },
          { include: '#text' },
          { include: '#value' },
          { name: 'constant.language.linkwright', match: bare(alternatives(choices)) },
          { name: 'keyword.operator.word.linkwright', match: bare(alternatives(Object.values(K))) },
          { include: '#punctuation' },
        ],
      },
      text: {
        name: 'string.quoted.double.linkwright',
        begin: '"',
        end: '"|$',
        patterns: [{ name: 'constant.character.escape.linkwright', match: String.raw`\\["\\]` }],
      },
      value: {
        patterns: [
          {
            name: 'constant.other.date.linkwright',
            match: bare(String.raw`\d{4}-\d{2}-\d{2}(?:[ \t]+\d{1,2}:\d{2})?`),
          },
          { name: 'constant.language.direction.linkwright', match: bare('A>B|B>A') },
          { name: 'variable.parameter.linkwright', match: `<${run}+>` },
          {
            match: String.raw`(?<!${run})(${number})[ \t]*(${unitNames})(?!${run})`,
            captures: {
              1: { name: 'constant.numeric.linkwright' },
              2: { name: 'keyword.other.unit.linkwright' },
            },
          },
          {
            match: String.raw`(?<!${run})(\d+)(\.\.)(\d+)(?:[ \t]+(step)[ \t]+(\d+))?(?!${run})`,
            captures: {
              1: { name: 'constant.numeric.linkwright' },
              2: { name: 'keyword.operator.range.linkwright' },
              3: { name: 'constant.numeric.linkwright' },
              4: { name: 'keyword.operator.word.linkwright' },
              5: { name: 'constant.numeric.linkwright' },
            },
          },
          { name: 'constant.numeric.linkwright', match: bare(`${number}|\\d+:\\d+`) },
        ],
      },
      punctuation: {
        patterns: [
          { name: 'punctuation.section.block.begin.linkwright', match: String.raw`\{` },
          { name: 'punctuation.section.block.end.linkwright', match: String.raw`\}` },
          { name: 'punctuation.separator.linkwright', match: ',' },
        ],
      },
    },
  };
}

const keywords = new Set<string>(Object.values(K));

/** Choices that are keywords too are coloured as keywords; names such as `A` as names. */
const isWord = (choice: string): boolean => keywords.has(canonical(choice)) || choice.length < 2;
