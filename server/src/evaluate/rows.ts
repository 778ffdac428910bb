/**
 * Rows of an application: category, reach, loss, joint allowance and least
 * loss hold together or not at all; never the reach of one row with the loss
 * of another (the tables of IEEE 802.3 are rows of this kind).
 */
import {
  type ExactDb,
  exactDb,
  type MicroDb,
  type Micrometres,
  printMicro,
  toMetres,
} from '../../../grammar/src/quantity/index.ts';
import type { ApplicationRow, ApplicationType } from '../model/types.ts';
import { meets } from './figures.ts';
import { fibresOf, type Piece } from './path.ts';

/** Rows that may be used: every fibre of the path is the row's, or meets all that is asked of it. */
export function usableRows(
  application: ApplicationType,
  pieces: readonly Piece[],
): readonly ApplicationRow[] {
  const fibres = fibresOf(pieces);
  if (fibres.length === 0) return [];
  const own = new Set(fibres.map((piece) => piece.name));
  const usable = application.rows.filter((row) =>
    fibres.every((piece) => meets(piece.type, row.fibre)),
  );
  // Rows of the path's own category stand before those that it meets as well.
  return usable.sort((a, b) => Number(own.has(b.fibre)) - Number(own.has(a.fibre)));
}

function reaches(row: ApplicationRow, length: Micrometres): boolean {
  return row.reach === undefined || length <= row.reach;
}

/**
 * The row that gives the limit of loss: the most generous of those that reach.
 * Where none does, the one of longest reach, so that a longer path never has a
 * softer limit than a shorter one.
 */
export function limitingRow(
  rows: readonly ApplicationRow[],
  length: Micrometres | undefined,
): ApplicationRow | undefined {
  const withLoss = rows.filter((row) => row.loss !== undefined);
  const reaching = length === undefined ? [] : withLoss.filter((row) => reaches(row, length));
  if (reaching.length > 0) {
    return reaching.reduce((best, row) => ((row.loss ?? 0) > (best.loss ?? 0) ? row : best));
  }
  return withLoss.reduce<ApplicationRow | undefined>((best, row) => {
    if (!best) return row;
    const [reach, known] = [row.reach ?? Infinity, best.reach ?? Infinity];
    if (reach !== known) return reach > known ? row : best;
    return (row.loss ?? 0) > (best.loss ?? 0) ? row : best;
  }, undefined);
}

/** What keeps a path from a row; empty where all of the row's terms hold. */
export interface RowFacts {
  readonly length?: Micrometres;
  /** Loss to compare: designed, predicted or measured. */
  readonly loss?: ExactDb;
  readonly connections?: ExactDb;
  readonly least?: ExactDb;
}

/** `fibre`: no row is for the fibres of the path. */
export type RowTerm = 'fibre' | 'reach' | 'loss' | 'connections' | 'least loss';

export function brokenTerms(row: ApplicationRow, facts: RowFacts): readonly RowTerm[] {
  const broken: RowTerm[] = [];
  const over = (value: ExactDb | undefined, limit: MicroDb | undefined) =>
    limit !== undefined && (value === undefined || value > exactDb(limit));
  if (row.reach !== undefined && (facts.length === undefined || facts.length > row.reach)) {
    broken.push('reach');
  }
  if (over(facts.loss, row.loss)) broken.push('loss');
  if (over(facts.connections, row.connections)) broken.push('connections');
  if (row.min !== undefined && (facts.least === undefined || facts.least < exactDb(row.min))) {
    broken.push('least loss');
  }
  return broken;
}

/** `OM4, 400 m, 2.9 dB`. */
export function rowInWords(row: ApplicationRow): string {
  const parts = [row.fibre];
  if (row.reach !== undefined) parts.push(lengthInWords(row.reach));
  if (row.loss !== undefined) parts.push(`${printMicro(row.loss)} dB`);
  return parts.join(', ');
}

export function lengthInWords(length: Micrometres): string {
  const metres = toMetres(length);
  return metres >= 1000 ? `${Number((metres / 1000).toFixed(6))} km` : `${metres} m`;
}
