/**
 * Messages to an editor over a stream. Most of what follows a key says again
 * what was said before: an answer about a whole file is a list of which one
 * member is new. What is the very object it was is not written out again.
 */
import {
  AbstractMessageWriter,
  type Message,
  type MessageWriter,
} from 'vscode-languageserver/node';

/** Shorter lists are not worth remembering. */
const longList = 64;

/** Members of a long list that are written together. */
const stretch = 64;

/** How deep a long list lies in a message: `params.diagnostics`. */
const deepest = 2;

interface Written {
  readonly list: readonly unknown[];
  /** JSON of its stretches in order, the comma before each included. */
  readonly stretches: readonly Buffer[];
}

export class TextWriter extends AbstractMessageWriter implements MessageWriter {
  readonly #stream: NodeJS.WritableStream & { cork(): void; uncork(): void };
  readonly #text = new MessageText();

  constructor(stream: NodeJS.WritableStream & { cork(): void; uncork(): void }) {
    super();
    this.#stream = stream;
    stream.on('error', (error) => this.fireError(error));
    stream.on('close', () => this.fireClose());
  }

  /** In one piece and at once: messages go out in the order in which they were handed over. */
  write(message: Message): Promise<void> {
    const parts = this.#text.of(message);
    const length = parts.reduce((sum, part) => sum + part.length, 0);
    this.#stream.cork();
    this.#stream.write(`Content-Length: ${length}\r\n\r\n`);
    for (const part of parts) this.#stream.write(part);
    this.#stream.uncork();
    return Promise.resolve();
  }

  end(): void {
    this.#stream.end();
  }
}

/**
 * JSON of messages, in UTF-8, the same as `JSON.stringify` gives. A long list
 * is compared with the last one that began with the same object: no object in
 * one may ever be changed.
 */
export class MessageText {
  readonly #written = new WeakMap<object, Written>();
  #parts: Buffer[] = [];
  #text = '';

  /** Parts that are to be sent one after the other. */
  of(message: Message): readonly Buffer[] {
    this.#parts = [];
    this.#text = '';
    this.#put(message, 0);
    this.#endText();
    return this.#parts;
  }

  #put(value: unknown, depth: number): void {
    if (depth > deepest || typeof value !== 'object' || value === null) {
      this.#text += JSON.stringify(value);
    } else if (Array.isArray(value)) {
      if (value.length < longList) this.#text += JSON.stringify(value);
      else this.#putList(value);
    } else {
      this.#putMembers(value, depth);
    }
  }

  #putMembers(value: object, depth: number): void {
    let before = '{';
    for (const [name, member] of Object.entries(value)) {
      if (member === undefined) continue;
      this.#text += `${before}${JSON.stringify(name)}:`;
      before = ',';
      this.#put(member, depth + 1);
    }
    this.#text += before === '{' ? '{}' : '}';
  }

  #putList(list: readonly unknown[]): void {
    const [first] = list;
    if (typeof first !== 'object' || first === null) {
      this.#text += JSON.stringify(list);
      return;
    }
    const stretches = stretchesOf(list, this.#written.get(first));
    this.#written.set(first, { list, stretches });
    this.#text += '[';
    this.#endText();
    this.#parts.push(...stretches);
    this.#text = ']';
  }

  #endText(): void {
    if (this.#text !== '') this.#parts.push(Buffer.from(this.#text));
    this.#text = '';
  }
}

function stretchesOf(list: readonly unknown[], former: Written | undefined): readonly Buffer[] {
  if (former?.list === list) return former.stretches;
  const stretches: Buffer[] = [];
  for (let from = 0; from < list.length; from += stretch) {
    const to = Math.min(from + stretch, list.length);
    const known = former?.stretches[from / stretch];
    if (known && sameMembers(list, former.list, from, to)) stretches.push(known);
    else stretches.push(write(list.slice(from, to), from > 0));
  }
  return stretches;
}

/** Whether both lists hold the same objects in a stretch, and both end it there. */
function sameMembers(
  list: readonly unknown[],
  former: readonly unknown[],
  from: number,
  to: number,
): boolean {
  if (Math.min(from + stretch, former.length) !== to) return false;
  for (let at = from; at < to; at++) if (list[at] !== former[at]) return false;
  return true;
}

function write(members: readonly unknown[], goesOn: boolean): Buffer {
  const inside = JSON.stringify(members).slice(1, -1);
  return Buffer.from(goesOn ? `,${inside}` : inside);
}
