/** A text as lines, with what it is joined by again: its mark, its line ends, and whether the last line is ended. */
import { byteOrderMark, nextLine } from '../../../grammar/src/characters.ts';

export interface Lines {
  readonly mark: boolean;
  readonly lineEnd: '\n' | '\r\n' | '\r';
  readonly ended: boolean;
  readonly lines: readonly string[];
}

export function linesOf(text: string): Lines {
  const mark = text.charCodeAt(0) === byteOrderMark;
  const rest = mark ? text.slice(1) : text;
  const lines: string[] = [];
  let start = 0;
  for (let next = nextLine(rest, 0); next >= 0; next = nextLine(rest, next)) {
    lines.push(rest.slice(start, next).replace(/\r?\n$|\r$/u, ''));
    start = next;
  }
  const ended = start === rest.length;
  if (!ended) lines.push(rest.slice(start));
  return { mark, lineEnd: lineEndOf(rest), ended, lines };
}

/** The first line end decides, as the formatter keeps it. */
function lineEndOf(text: string): Lines['lineEnd'] {
  const first = /\r\n|\n|\r/u.exec(text)?.[0];
  return first === '\r\n' || first === '\r' ? first : '\n';
}

export function joined({ mark, lineEnd, ended, lines }: Lines): string {
  const end = ended && lines.length > 0 ? lineEnd : '';
  return `${mark ? '\uFEFF' : ''}${lines.join(lineEnd)}${end}`;
}

/** What one of two sides changed, else what both have; where both changed it, what we have. */
export function either<Of>(base: Of, ours: Of, theirs: Of): Of {
  return ours === base ? theirs : ours;
}
