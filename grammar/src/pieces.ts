/** The tokens that the parser reads: one for each argument, comma and brace. */
import { createToken, type IToken, type TokenType } from 'chevrotain';
import type { Argument } from './tree.ts';

export const Word = createToken({ name: 'Word' });
export const Columns = createToken({ name: 'Columns' });
/** First cell of a row; it begins the row as a word begins an entry. */
export const FirstCell = createToken({ name: 'FirstCell' });
export const Item = createToken({ name: 'Item' });
export const Comma = createToken({ name: 'Comma' });
export const Open = createToken({ name: 'Open' });
export const Close = createToken({ name: 'Close' });

export const pieceTypes = [Word, Columns, FirstCell, Item, Comma, Open, Close];

/**
 * One token. Offsets are those of the block, `endOffset` is exclusive; a brace
 * that nobody typed has both alike. Items carry the argument they are.
 */
export class Piece implements IToken {
  image = '';
  startOffset: number;
  endOffset: number;
  tokenType: TokenType;
  tokenTypeIdx: number;
  argument: Argument | undefined;

  constructor(type: TokenType, start: number, end: number, argument?: Argument) {
    this.startOffset = start;
    this.endOffset = end;
    this.tokenType = type;
    this.tokenTypeIdx = type.tokenTypeIdx!;
    this.argument = argument;
  }

  become(type: TokenType): void {
    this.tokenType = type;
    this.tokenTypeIdx = type.tokenTypeIdx!;
  }
}
