/** Every finding that binding can make: its weight and its sentence. */
import type { Fix, NotationFinding, Severity, Span } from '../tree.ts';

export type Details = Readonly<Record<string, string | number>>;

interface Sentence {
  readonly severity: Severity;
  /** What the name means, for its page. */
  readonly meaning: string;
  readonly say: (details: Details) => string;
}

const meant = (d: Details): string => (d.nearest ? ` \`${d.nearest}\` was probably meant.` : '');

const table = {
  'unknown-word': {
    severity: 'error',
    meaning: 'An entry begins with a word that the notation does not have.',
    say: (d) => `\`${d.word}\` is not a word of ${d.place}.${meant(d)}`,
  },
  'word-not-here': {
    severity: 'error',
    meaning: 'An entry begins with a word that belongs into another block.',
    say: (d) => `\`${d.word}\` stands in ${d.belongs}, not in ${d.place}.${meant(d)}`,
  },
  'missing-block': {
    severity: 'error',
    meaning: 'An entry that opens a block has none.',
    say: (d) => `\`${d.word}\` opens a block: its line ends in \`{\`, and \`}\` closes it.`,
  },
  'block-not-here': {
    severity: 'error',
    meaning: 'An entry that takes no block has one.',
    say: (d) => `\`${d.word}\` has no block here: it is one line.`,
  },
  'missing-argument': {
    severity: 'error',
    meaning: 'An entry, or a keyword in it, lacks what has to stand behind it.',
    say: (d) => `\`${d.word}\` lacks ${d.want}.`,
  },
  'missing-figure': {
    severity: 'error',
    meaning: 'An entry needs one of several keywords and has none of them.',
    say: (d) => `\`${d.word}\` needs ${d.want}.`,
  },
  'missing-keyword': {
    severity: 'error',
    meaning: 'A value stands where its keyword should stand before it.',
    say: (d) =>
      `${d.found} needs a keyword before it. Write ${d.keyword} ${d.found}, if that is meant.`,
  },
  'too-many-arguments': {
    severity: 'error',
    meaning: 'More stands on the line than the word takes.',
    say: (d) => `\`${d.found}\` is more than \`${d.word}\` takes: \`${d.signature}\`.`,
  },
  'no-list': {
    severity: 'error',
    meaning: 'A comma stands where one value is taken.',
    say: () => `One value is taken here, not a list: a comma means the next of the same kind.`,
  },
  'repeated-argument': {
    severity: 'error',
    meaning: 'A keyword stands twice on one line.',
    say: (d) => `\`${d.keyword}\` stands twice on this line.`,
  },
  'misplaced-argument': {
    severity: 'error',
    meaning: 'A keyword stands without the one that it belongs to.',
    say: (d) => `\`${d.keyword}\` stands only where \`${d.after}\` does, behind it.`,
  },
  'wrong-kind': {
    severity: 'error',
    meaning: 'A value of one kind stands where another is taken.',
    say: (d) => `${d.found} is ${d.is}; what is taken here is ${d.want}.`,
  },
  'unquoted-text': {
    severity: 'error',
    meaning: 'A text stands without quotes.',
    say: () => `A text stands in quotes. Put quotes round it.`,
  },
  'unquoted-remark': {
    severity: 'error',
    meaning: 'A remark in a row stands without quotes.',
    say: () => `A remark stands in quotes. Put quotes round it.`,
  },
  'missing-unit': {
    severity: 'error',
    meaning: 'A bare number stands where a quantity is taken.',
    say: (d) => `${d.found} has no unit. Write ${d.found} ${d.unit}, if that is meant.`,
  },
  'unknown-unit': {
    severity: 'error',
    meaning: 'A number has a unit that the notation does not have.',
    say: (d) => `\`${d.unit}\` is not a unit of ${d.dimension}: ${d.units}.${meant(d)}`,
  },
  'wrong-dimension': {
    severity: 'error',
    meaning: 'A quantity measures something else than what is taken.',
    say: (d) => `${d.found} is ${d.is}; what is taken here is ${d.want}, in ${d.units}.`,
  },
  'too-fine': {
    severity: 'error',
    meaning: 'A number has more decimals than can be held exactly.',
    say: (d) =>
      d.base
        ? `\`${d.found}\` is no whole number of ${d.base}, and nothing finer is held. Round it, or write it in another unit.`
        : `\`${d.found}\` has more decimals than are held: at most ${d.places} in ${d.unit}. Round it.`,
  },
  'too-large': {
    severity: 'error',
    meaning: 'A number is too large to be held exactly.',
    say: (d) =>
      `\`${d.found}\` is too large to be held exactly${d.most ? `: at most ${d.most} is` : ''}. Look at the number and at its unit.`,
  },
  'not-positive': {
    severity: 'error',
    meaning: 'A power in watts is zero or below, which no level in dBm equals.',
    say: (d) => `\`${d.found}\` has no level in dBm. Where no light was seen, write \`${d.dark}\`.`,
  },
  'zero-or-below': {
    severity: 'error',
    meaning: 'A wavelength, a size, a bandwidth, a count or a part of a ratio is zero or below.',
    say: (d) => `\`${d.found}\` is no ${d.want}: it lies above zero. Correct the number.`,
  },
  'out-of-bounds': {
    severity: 'error',
    meaning: 'A figure lies where no such figure can: a loss below zero, a share above the whole.',
    say: (d) => `\`${d.found}\` cannot be: what stands here is ${d.bounds}. Correct the number.`,
  },
  'not-whole': {
    severity: 'error',
    meaning: 'A number with a fraction, or below zero, stands where a whole one is taken.',
    say: (d) => `A whole number is taken here, from 0 upwards; \`${d.found}\` is not one.`,
  },
  'unknown-choice': {
    severity: 'error',
    meaning: 'A word stands where one of a few is taken, and is none of them.',
    say: (d) => `\`${d.found}\` is none of ${d.choices}.${meant(d)}`,
  },
  'unknown-argument': {
    severity: 'error',
    meaning: 'A keyword of a line is misspelt.',
    say: (d) => `\`${d.found}\` is no argument of \`${d.word}\`.${meant(d)}`,
  },
  'repeated-word': {
    severity: 'error',
    meaning: 'A word stands again that may stand once, or once for what it names.',
    say: (d) =>
      `\`${d.word}\`${d.key ? ` for ${d.key}` : ''} stands here already. Take one of the two out.`,
  },
  'missing-word': {
    severity: 'error',
    meaning: 'A block lacks an entry that it cannot do without.',
    say: (d) => `\`${d.block}\` lacks ${d.words}.`,
  },
  'missing-columns': {
    severity: 'error',
    meaning: 'A block that ends in a table has none.',
    say: (d) => `\`${d.block}\` lacks its table: a line \`${d.columns}\`, and the rows below it.`,
  },
  'rows-without-columns': {
    severity: 'error',
    meaning: 'Rows stand in a block without the line that names their columns.',
    say: (d) =>
      d.word
        ? `\`${d.word}\` is not \`${d.columns}\`, which names the columns of the rows below it. Write \`${d.columns}\`, a blank, and the headings.`
        : `These rows of \`${d.block}\` have no line above them that names their columns. Write \`${d.columns}\` and the headings there.`,
  },
  'columns-not-here': {
    severity: 'error',
    meaning: 'A block that has no table has one.',
    say: (d) => `\`${d.block}\` has no table: no line \`${d.columns}\` stands in it.`,
  },
  'unknown-heading': {
    severity: 'error',
    meaning: 'A column has a heading that its table does not know.',
    say: (d) => `\`${d.found}\` heads no column here: ${d.choices}.${meant(d)}`,
  },
  'repeated-heading': {
    severity: 'error',
    meaning: 'Two columns have the same heading.',
    say: (d) => `Two columns are headed \`${d.found}\`.`,
  },
  'missing-heading': {
    severity: 'error',
    meaning: 'A table lacks the column that says what its rows are about.',
    say: (d) => `The table lacks a column ${d.choices}.`,
  },
  'short-row': {
    severity: 'error',
    meaning: 'A row has fewer cells than its table has columns.',
    say: (d) =>
      `This row has ${d.cells} of ${d.headings} cells. Write - in each where nothing is there.`,
  },
  'long-row': {
    severity: 'error',
    meaning: 'A row has more cells than its table has columns.',
    say: (d) =>
      `This row has ${d.cells} cells under ${d.headings} headings. Take out what is too much, or head a column.`,
  },
  'missing-cell': {
    severity: 'error',
    meaning: 'A row does not say what it is about.',
    say: (d) => `Every row names its \`${d.heading}\`.`,
  },
  'range-in-row': {
    severity: 'error',
    meaning: 'A row of evidence names several fibres at once.',
    say: (d) => `A row of evidence names one fibre; \`${d.found}\` is several.`,
  },
  'hole-outside-pattern': {
    severity: 'error',
    meaning: 'A hole stands outside a pattern, where nothing fills it.',
    say: (d) => `\`${d.found}\` is a hole, and holes stand only in a pattern.`,
  },
} as const satisfies Record<string, Sentence>;

export type BindingFindingName = keyof typeof table;

/** The findings of binding by name: severity and meaning of each. */
export const bindingFindings: Readonly<Record<BindingFindingName, Sentence>> = table;

/** A finding from its name and what it is about. */
export function finding(
  name: BindingFindingName,
  span: Span,
  details: Details,
  more: { readonly fix?: Fix | undefined; readonly related?: NotationFinding['related'] } = {},
): NotationFinding {
  const { severity, say } = bindingFindings[name];
  // code marks are for the reference: where findings are shown, text is plain
  const message = plain(say(details));
  const fix = more.fix && { ...more.fix, title: plain(more.fix.title) };
  return {
    name,
    severity,
    span,
    message,
    details,
    ...(fix ? { fix } : {}),
    ...(more.related ? { related: more.related } : {}),
  };
}

const plain = (text: string): string => text.replace(/`/gu, '');

/** A fix that puts a text in place of a span. */
export function replace(title: string, span: Span, text: string): Fix {
  return { title, edits: [{ span, text }] };
}

/** `a`, `b` or `c`, in quotes. */
export function oneOf(words: readonly string[], last = 'or'): string {
  const quoted = words.map((word) => `\`${word}\``);
  if (quoted.length < 2) return quoted[0] ?? '';
  return `${quoted.slice(0, -1).join(', ')} ${last} ${quoted.at(-1)}`;
}
