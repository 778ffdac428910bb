/**
 * From the bytes of a file to its text, and what is to be said where they are
 * none. Nothing is lost: the file itself is never written by reading it.
 */

/** What is wrong with a file as a whole; `at` is an offset in `text`. */
export interface FileProblem {
  readonly kind: 'not-utf-8' | 'utf-16' | 'binary';
  readonly at: number;
}

export interface DecodedFile {
  readonly text: string;
  readonly problem?: FileProblem;
}

/** Bytes looked at to tell a text from something else. */
const sampleSize = 8192;

/**
 * Reads UTF-8. A mark at the beginning stays in the text, so that offsets are
 * those an editor and a later write agree on. Bytes that are not UTF-8 become
 * U+FFFD, and the first of them is the problem's place. Binary content and
 * UTF-16 are not read at all: their text is empty.
 */
export function decodeFile(bytes: Uint8Array): DecodedFile {
  if (startsWith(bytes, 0xff, 0xfe) || startsWith(bytes, 0xfe, 0xff)) {
    return { text: '', problem: { kind: 'utf-16', at: 0 } };
  }
  if (looksBinary(bytes)) return { text: '', problem: { kind: 'binary', at: 0 } };
  try {
    return { text: strict.decode(bytes) };
  } catch {
    const text = lenient.decode(bytes);
    return { text, problem: { kind: 'not-utf-8', at: Math.max(text.indexOf('\uFFFD'), 0) } };
  }
}

const strict = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
const lenient = new TextDecoder('utf-8', { ignoreBOM: true });

/**
 * A text holds no control characters but tab and line ends. One stray NUL is a
 * slip in a text and gets its own finding; one in a hundred is another kind of file.
 */
function looksBinary(bytes: Uint8Array): boolean {
  const sample = bytes.subarray(0, sampleSize);
  let control = 0;
  for (const byte of sample) {
    if (byte < 0x20 && byte !== 0x09 && byte !== 0x0a && byte !== 0x0d) control += 1;
  }
  return control > 2 && control * 100 > sample.length;
}

function startsWith(bytes: Uint8Array, first: number, second: number): boolean {
  return bytes[0] === first && bytes[1] === second;
}
