/** How an editor handles the text of a plan: comments, brackets, quotes, words, indentation. */

/** The language configuration as an object, ready to be written as JSON. */
export function languageConfiguration(): object {
  return {
    comments: { lineComment: '#' },
    brackets: [['{', '}']],
    autoClosingPairs: [
      { open: '{', close: '}' },
      { open: '"', close: '"', notIn: ['string', 'comment'] },
    ],
    surroundingPairs: [
      ['{', '}'],
      ['"', '"'],
    ],
    // names hold these characters, so that a double click takes OPS/R2/A:01..12 whole
    wordPattern: { pattern: String.raw`[\p{L}\p{M}\p{N}_./:+%·²√°-]+`, flags: 'u' },
    indentationRules: {
      increaseIndentPattern: { pattern: String.raw`^[^#"]*(?:"[^"]*"[^#"]*)*\{\s*(?:#.*)?$` },
      decreaseIndentPattern: { pattern: String.raw`^\s*\}` },
    },
    folding: {
      offSide: false,
      markers: { start: String.raw`^[^#]*\{\s*(?:#.*)?$`, end: String.raw`^\s*\}` },
    },
  };
}
