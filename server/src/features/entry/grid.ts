/** The text of a block of readings with a row per fibre and a column per wavelength and direction. */
import { formatBlock } from '../../../../grammar/src/format.ts';
import { toNanometres } from '../../../../grammar/src/quantity/index.ts';
import { quoted, spelt } from '../../../../grammar/src/spelt.ts';
import { C, K, W } from '../../../../grammar/src/vocabulary/index.ts';
import type { LinkModel } from '../../model/types.ts';
import { isTree, placeName } from '../../model/ways.ts';
import type { WantedKey } from './wanted.ts';

export interface Grid {
  readonly link: LinkModel;
  readonly keys: readonly WantedKey[];
  readonly setup: string | undefined;
  /** `2026-03-14 09:05`; undefined: left to be written. */
  readonly tested: string | undefined;
  /** Who measures; left out where it is not known. */
  readonly by?: string;
  /** What stands in cells already, by `cellName` of their key. */
  readonly typed?: ReadonlyMap<string, string>;
}

/** Canonical text of the block, with `-` in every cell that is not typed yet. */
export function gridText({ link, keys, setup, tested, by, typed }: Grid): string {
  const headings = [...new Set(keys.map(headingOf))];
  const fibres = [...new Set(keys.map(({ fibre }) => fibre))];
  const lines = [
    `${W.readings} ${spelt(link.name)} {`,
    ...(setup === undefined ? [] : [`${W.setup} ${spelt(setup)}`]),
    ...(tested === undefined ? [] : [`${W.tested} ${tested}${by ? ` ${K.by} ${quoted(by)}` : ''}`]),
    `${W.values} ${C.loss} ${K.in} dB`,
    `${W.columns} ${[isTree(link) ? W.end : W.fibre, ...headings].join(', ')}`,
    ...fibres.map((fibre) => {
      const cells = headings.map((heading) => typed?.get(`${fibre} ${heading}`) ?? '-');
      return [isTree(link) ? spelt(placeName(link, fibre)) : fibre, ...cells].join('  ');
    }),
    '}',
  ];
  return formatBlock(`${lines.join('\n')}\n`).trimEnd();
}

/** One text per cell: `7 850 nm A>B`. */
export function cellName(key: WantedKey): string {
  return `${key.fibre} ${headingOf(key)}`;
}

/** As a column is headed: `850 nm A>B`. */
export function headingOf({ wavelength, direction }: Omit<WantedKey, 'fibre'>): string {
  return `${toNanometres(wavelength)} nm ${direction}`;
}
