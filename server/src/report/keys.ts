/** Names of rows: the same row keeps its key through every change, filter and order. */
import type { FibreResult, ReadingResult } from '../evaluate/result.ts';
import { key } from './figures.ts';

const apart = '\n';

export const linkKey = (link: string) => ['link', link].join(apart);
export const columnsKey = (link: string) => ['columns', link].join(apart);
export const limitsKey = (link: string) => ['limits', link].join(apart);
export const foldKey = (fold: string) => ['fold', fold].join(apart);

export function fibreKey(link: string, fibre: FibreResult['fibre']): string {
  return ['fibre', link, fibre].join(apart);
}

export function readingKey(link: string, reading: ReadingResult): string {
  return ['reading', link, reading.fibre, key(reading), reading.attempt ?? 'to make'].join(apart);
}

export interface KeyParts {
  readonly kind: string;
  readonly link: string;
  readonly fibre?: number;
}

/** What a key names. */
export function partsOf(rowKey: string): KeyParts {
  const [kind = '', link = '', fibre] = rowKey.split(apart);
  return { kind, link, ...(fibre === undefined ? {} : { fibre: Number(fibre) }) };
}
