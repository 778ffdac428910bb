/**
 * Text of one block to its tree. The grammar, LL(1), over tokens that the brace
 * pass has balanced; the first token of a line is of its own type, so line ends
 * are none:
 *
 *     file  = { entry }
 *     entry = Word [ lists ] [ Open body Close ]
 *     body  = { entry } [ Columns [ lists ] { row } ]
 *     row   = FirstCell { Item }
 *     lists = Item { Item } { Comma Item { Item } }
 */
import { EmbeddedActionsParser } from 'chevrotain';
import { balance } from './braces.ts';
import { composed, copied } from './characters.ts';
import { inRows, toFindings } from './findings.ts';
import {
  Close,
  Columns,
  Comma,
  FirstCell,
  Item,
  Open,
  type Piece,
  pieceTypes,
  Word,
} from './pieces.ts';
import { tokenize } from './tokens.ts';
import type { Argument, ArgumentList, BlockTree, Body, Entry, Row, Span, Table } from './tree.ts';

/** Reads one block. Total: any string has a tree, and what could not be read is a finding. */
export function parseBlock(text: string): BlockTree {
  const tokens = tokenize(text);
  const structure = balance(tokens);
  const entries = parser.read(structure.pieces, text);
  const mistakes = [...inRows(tokens, structure.shapes, text), ...structure.mistakes];
  const skipped = [...tokens.skipped, ...structure.skipped].sort((a, b) => a.start - b.start);
  if (!entries) {
    mistakes.push({ name: 'not-read', line: 0, span: { start: 0, end: text.length } });
  }
  return {
    entries: entries ?? [],
    comments: tokens.lines.flatMap(({ comment }) => (comment ? [{ span: comment }] : [])),
    skipped,
    findings: toFindings(mistakes, tokens.lines, structure.shapes),
  };
}

class PlanParser extends EmbeddedActionsParser {
  #text = '';

  constructor() {
    super(pieceTypes, { maxLookahead: 1, recoveryEnabled: false, skipValidations: true });
    this.performSelfAnalysis();
  }

  /** Entries of the tokens, or undefined if they do not fit the grammar (a defect of the brace pass). */
  read(pieces: Piece[], text: string): Entry[] | undefined {
    this.#text = text;
    this.input = pieces;
    const entries = this.file();
    const read = this.errors.length === 0;
    this.input = [];
    this.#text = '';
    return read ? entries : undefined;
  }

  readonly file = this.RULE('file', (): Entry[] => {
    const entries: Entry[] = [];
    this.MANY(() => {
      entries.push(this.SUBRULE(this.entry));
    });
    return entries;
  });

  readonly entry = this.RULE('entry', (): Entry => {
    const first = this.CONSUME(Word) as Piece;
    let lists: ArgumentList[] = [];
    let body: Body | undefined;
    this.OPTION(() => {
      lists = this.SUBRULE(this.lists);
    });
    this.OPTION1(() => {
      body = this.SUBRULE(this.body);
    });
    return this.ACTION(() => {
      const wordSpan = { start: first.startOffset, end: first.endOffset };
      const end = body?.span.end ?? lists.at(-1)?.span.end ?? wordSpan.end;
      const span = { start: wordSpan.start, end };
      const word = { text: this.#wordText(first), span: wordSpan };
      return body ? { span, word, lists, body } : { span, word, lists };
    });
  });

  readonly body = this.RULE('body', (): Body => {
    const open = this.CONSUME(Open) as Piece;
    const entries: Entry[] = [];
    let table: Table | undefined;
    this.MANY(() => {
      entries.push(this.SUBRULE(this.entry));
    });
    this.OPTION(() => {
      table = this.SUBRULE(this.table);
    });
    const close = this.CONSUME(Close) as Piece;
    return this.ACTION(() => ({
      span: { start: open.startOffset, end: close.endOffset },
      open: spanOf(open),
      ...(close.endOffset > close.startOffset && { close: spanOf(close) }),
      entries,
      ...(table && { table }),
    }));
  });

  readonly table = this.RULE('table', (): Table => {
    const columns = this.CONSUME(Columns) as Piece;
    let headings: ArgumentList[] = [];
    const rows: Row[] = [];
    this.OPTION(() => {
      headings = this.SUBRULE(this.lists);
    });
    this.MANY(() => {
      rows.push(this.SUBRULE(this.row));
    });
    return this.ACTION(() => {
      const word = spanOf(columns);
      const end = rows.at(-1)?.span.end ?? headings.at(-1)?.span.end ?? word.end;
      return { span: { start: word.start, end }, word, headings, rows };
    });
  });

  readonly row = this.RULE('row', (): Row => {
    const first = this.CONSUME(FirstCell) as Piece;
    const cells: Argument[] = [];
    this.ACTION(() => cells.push(first.argument!));
    let end = first.endOffset;
    this.MANY(() => {
      const item = this.CONSUME(Item) as Piece;
      cells.push(item.argument!);
      end = item.endOffset;
    });
    return this.ACTION(() => ({ span: { start: first.startOffset, end }, cells }));
  });

  readonly lists = this.RULE('lists', (): ArgumentList[] => {
    const lists: ArgumentList[] = [];
    this.AT_LEAST_ONE_SEP({
      SEP: Comma,
      DEF: () => {
        lists.push(this.SUBRULE(this.list));
      },
    });
    return lists;
  });

  readonly list = this.RULE('list', (): ArgumentList => {
    const items: Argument[] = [];
    this.AT_LEAST_ONE(() => {
      items.push((this.CONSUME(Item) as Piece).argument!);
    });
    return this.ACTION(() => ({
      span: { start: items[0]!.span.start, end: items.at(-1)!.span.end },
      arguments: items,
    }));
  });

  #wordText(piece: Piece): string {
    const argument = piece.argument;
    if (argument?.kind === 'name') return argument.text;
    return copied(composed(this.#text.slice(piece.startOffset, piece.endOffset)));
  }
}

function spanOf(piece: Piece): Span {
  return { start: piece.startOffset, end: piece.endOffset };
}

/** One instance: building its lookahead costs more than most blocks. */
const parser = new PlanParser();
