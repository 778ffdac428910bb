/**
 * What each character is to the notation, and where a line and a text end.
 * Margins and tokens are found by the same rules, so they never disagree.
 */

export const Class = {
  /** Space, tab, no-break space. A byte-order mark is one too, but only where a line starts. */
  blank: 1,
  digit: 2,
  /** Letters and marks. */
  letter: 3,
  /** The other characters of a run: `- _ . / : + %` and `· ² √ °` and the true minus. */
  joiner: 4,
  comma: 5,
  open: 6,
  close: 7,
  quote: 8,
  hash: 9,
  less: 10,
  /** Skipped with a finding, and never part of what stands beside it. */
  separator: 11,
  /** Skipped with a finding; between two characters of a run it spoils the whole. */
  stray: 12,
  lineEnd: 13,
} as const;

export const byteOrderMark = 0xfeff;

const asciiClass = new Uint8Array(128).fill(Class.stray);
function assign(characters: string, value: number): void {
  for (const character of characters) asciiClass[character.charCodeAt(0)] = value;
}
assign(' \t', Class.blank);
assign('0123456789', Class.digit);
assign('abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ', Class.letter);
assign('-_./:+%', Class.joiner);
assign(',', Class.comma);
assign('{', Class.open);
assign('}', Class.close);
assign('"\'', Class.quote);
assign('#', Class.hash);
assign('<', Class.less);
assign('=;()[]|', Class.separator);
assign('\n\r', Class.lineEnd);

const inRun = asciiClass.map((kind) => Number(isRun(kind)));

/** Quotes that are read as `"`, with a finding. */
const otherQuotes = '“”„‟‘’‚‛';
const joiners = '·²√°\u2212';
const letterOrMark = /^[\p{L}\p{M}]$/u;
const anyDigit = /^\p{Nd}$/u;

/** Class of the character at `at`; call {@link widthAt} for how many code units it takes. */
export function classAt(text: string, at: number): number {
  const code = text.charCodeAt(at);
  return code < 128 ? asciiClass[code]! : classOfWide(text, at);
}

function classOfWide(text: string, at: number): number {
  const character = String.fromCodePoint(text.codePointAt(at)!);
  if (character === '\u00a0') return Class.blank;
  if (joiners.includes(character)) return Class.joiner;
  if (otherQuotes.includes(character)) return Class.quote;
  if (letterOrMark.test(character)) return Class.letter;
  if (anyDigit.test(character)) return Class.joiner;
  return Class.stray;
}

/** One code unit, or two for a character outside the basic plane. */
export function widthAt(text: string, at: number): number {
  return text.codePointAt(at)! > 0xffff ? 2 : 1;
}

export function isRun(characterClass: number): boolean {
  return (
    characterClass === Class.letter ||
    characterClass === Class.digit ||
    characterClass === Class.joiner
  );
}

/** Where the run that starts at `from` ends, at most at `end`. */
export function endOfRun(text: string, from: number, end: number): number {
  let at = from;
  while (at < end) {
    const code = text.charCodeAt(at);
    if (code < 128) {
      if (!inRun[code]) return at;
      at++;
    } else {
      if (!isRun(classOfWide(text, at))) return at;
      at += widthAt(text, at);
    }
  }
  return at;
}

/** Start of the next line after `from`, or -1; LF, CRLF and CR end a line. */
export function nextLine(text: string, from: number): number {
  for (let at = from; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 10) return at + 1;
    if (code === 13) return text.charCodeAt(at + 1) === 10 ? at + 2 : at + 1;
  }
  return -1;
}

/** Number of line ends in a text. */
export function countLineEnds(text: string): number {
  let count = 0;
  if (!text.includes('\r')) {
    for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) count++;
    return count;
  }
  for (let at = nextLine(text, 0); at >= 0; at = nextLine(text, at)) count++;
  return count;
}

/** A text in quotes: where it ends, and what is odd about it. */
export interface QuotedText {
  /** After the closing quote, or where an open text ends. */
  readonly end: number;
  /** What stands between the quotes. */
  readonly innerStart: number;
  readonly innerEnd: number;
  readonly open: boolean;
  /** True where a quote is not `"`. */
  readonly odd: boolean;
}

/**
 * Reads a text that starts at `start`. It stays in its line, and an open one
 * ends before a `{` that ends the line.
 */
export function readQuoted(text: string, start: number, lineEnd: number): QuotedText {
  const first = text[start]!;
  const straight = first === '"';
  const single = "'‘’‚‛".includes(first);
  const closers = straight ? '"' : single ? "'‘’" : '"“”';
  let curly = -1;
  for (let at = start + 1; at < lineEnd; at++) {
    const character = text[at]!;
    if (character === '\\' && at + 1 < lineEnd) {
      at++;
    } else if (closers.includes(character)) {
      if (single && at + 1 < lineEnd && isRun(classAt(text, at + 1))) continue;
      return { end: at + 1, innerStart: start + 1, innerEnd: at, open: false, odd: !straight };
    } else if (straight && character === '”' && curly < 0) {
      curly = at;
    }
  }
  if (curly >= 0) {
    return { end: curly + 1, innerStart: start + 1, innerEnd: curly, open: false, odd: true };
  }
  let end = trimBlanks(text, start + 1, lineEnd);
  if (end > start + 1 && text[end - 1] === '{') end = trimBlanks(text, start + 1, end - 1);
  return { end, innerStart: start + 1, innerEnd: end, open: true, odd: !straight };
}

function trimBlanks(text: string, start: number, end: number): number {
  let at = end;
  while (at > start && classAt(text, at - 1) === Class.blank) at--;
  return at;
}

/** The composed form (NFC), in which names are compared. */
export function composed(text: string): string {
  for (let at = 0; at < text.length; at++) {
    if (text.charCodeAt(at) > 127) return text.normalize('NFC');
  }
  return text;
}

/** A string that does not keep the document it was cut from alive. */
export function copied(text: string): string {
  // V8 makes a slice of 13 characters or more a reference into its parent; a
  // string that was joined first is its own parent.
  return text.length < 13 ? text : ` ${text}`.slice(1);
}

/** True for what no person typed: a file of another kind opened by mistake. */
export function isBinary(text: string): boolean {
  const length = Math.min(text.length, 4096);
  let odd = 0;
  for (let at = 0; at < length; at++) {
    const code = text.charCodeAt(at);
    if ((code < 32 && code !== 9 && code !== 10 && code !== 13) || code === 0xfffd) odd++;
  }
  return odd >= 8 && odd * 20 > length;
}
