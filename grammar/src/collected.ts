/**
 * What has been read of a text so far: its tokens, and one mistake a line. What
 * belongs to the argument before it (a unit, a time of day, a step) joins it here.
 */
import { Item, Piece } from './pieces.ts';
import { findUnit } from './quantity/index.ts';
import { minutesOfDay, type RunProblem, spoilt } from './runs.ts';
import type { Mistake } from './tokens.ts';
import type { Argument, Span, TextEdit } from './tree.ts';

/** The word between a range and the distance of its members. */
const stepWord = 'step';

export class Collected {
  readonly pieces: Piece[] = [];
  readonly mistakes: Mistake[] = [];
  readonly skipped: Span[] = [];
  /** The line that is being read, and the place of its first token. */
  line = 0;
  lineFrom = 0;
  readonly #text: string;

  constructor(text: string) {
    this.#text = text;
  }

  addItem(argument: Argument): void {
    this.pieces.push(new Piece(Item, argument.span.start, argument.span.end, argument));
  }

  addSpoilt(run: string, span: Span, problem: RunProblem): void {
    const read = spoilt(run, span, problem);
    this.addItem(read.argument);
    this.reportRun(read.problem!, span);
  }

  /** Adds what belongs to the argument before: its unit, its time of day, its step. */
  joined(last: Piece, run: string, span: Span): boolean {
    const before = last.argument!;
    if (before.kind === 'number') {
      if (startsNumber(run)) return false;
      const unit = findUnit(run);
      if (!unit) return false;
      const whole = { start: before.span.start, end: span.end };
      const { digits, value } = before;
      this.#widen(last, { kind: 'quantity', span: whole, digits, value, unit, unitSpan: span });
      return true;
    }
    if (before.kind === 'date') {
      const time = /^(\d+):(\d+)$/u.exec(run);
      if (before.value.minutes !== undefined || !time) return false;
      const minutes = minutesOfDay(time[1]!, time[2]!);
      const whole = { start: before.span.start, end: span.end };
      if (minutes === undefined) {
        const written = this.#text.slice(whole.start, whole.end);
        this.#spoil(
          last,
          whole,
          written,
          { name: 'no-such-time', details: { written: run } },
          span,
        );
      } else {
        this.#widen(last, { kind: 'date', span: whole, value: { day: before.value.day, minutes } });
      }
      return true;
    }
    if (before.kind === 'name' && before.text === stepWord) return this.#joinStep(last, run, span);
    return false;
  }

  report(
    name: string,
    span: Span,
    details?: Record<string, string | number>,
    edits?: TextEdit[],
  ): void {
    const line = this.line;
    // The first of a line is shown, the others wait for it to be put right.
    const shown = this.mistakes.at(-1);
    if (shown?.line === line) {
      if (shown.name === name && name === 'stray-character') this.#addEdits(shown, details, edits);
      return;
    }
    this.mistakes.push({ line, name, span, details, edits });
  }

  skip(span: Span): void {
    this.skipped.push(span);
  }

  lastItem(): Piece | undefined {
    if (this.pieces.length === this.lineFrom) return undefined;
    const last = this.pieces[this.pieces.length - 1]!;
    return last.argument === undefined ? undefined : last;
  }

  #joinStep(last: Piece, run: string, span: Span): boolean {
    const ranged = this.pieces.at(-2);
    const range = ranged?.argument;
    if (this.pieces.length - this.lineFrom < 2 || !ranged || !range) return false;
    if ((range.kind !== 'range' && range.kind !== 'name-range') || !/^\d+$/u.test(run))
      return false;
    const step = Number(run);
    const whole = { start: range.span.start, end: span.end };
    this.pieces.pop();
    if (step < 1 || (range.last - range.first) % step !== 0) {
      const written = this.#text.slice(whole.start, whole.end);
      const details = { first: range.first, last: range.last, step };
      this.#spoil(ranged, whole, written, { name: 'range-step', details }, span);
    } else {
      this.#widen(ranged, { ...range, step, span: whole });
    }
    last.argument = undefined;
    return true;
  }

  #widen(piece: Piece, argument: Argument): void {
    piece.endOffset = argument.span.end;
    piece.argument = argument;
  }

  #spoil(piece: Piece, whole: Span, written: string, problem: RunProblem, span: Span): void {
    this.#widen(piece, spoilt(written, whole, problem).argument);
    this.reportRun(problem, span);
  }

  reportRun(problem: RunProblem, span: Span): void {
    const edits = problem.instead === undefined ? undefined : [{ span, text: problem.instead }];
    const details = { ...problem.details };
    if (problem.instead !== undefined) details.instead = problem.instead;
    this.report(problem.name, span, details, edits);
  }

  /** One fix takes out all characters of a line that mean nothing. */
  #addEdits(shown: Mistake, details?: Mistake['details'], edits: readonly TextEdit[] = []): void {
    if (shown.details?.instead !== details?.instead || !shown.edits) return;
    this.mistakes[this.mistakes.length - 1] = { ...shown, edits: shown.edits.concat(edits) };
  }
}

/** True for a run that cannot be a unit: it begins like a number. */
function startsNumber(run: string): boolean {
  const code = run.charCodeAt(0);
  return (code >= 45 && code <= 57) || code === 58;
}
