/** A verdict's mark as a picture for paper: black, the shape alone tells. */
import type { Verdict } from '../../evaluate/result.ts';
import { lookOf } from '../verdicts.ts';

export const markWidth = 20;
export const markHeight = 12;

export function markSvg(verdict: Verdict): string {
  const lines = lookOf(verdict).mark.map(
    ({ path, width, dash }) =>
      `<path d="${path}" fill="none" stroke="#000000" stroke-width="${width}"${dash ? ` stroke-dasharray="${dash}"` : ''}/>`,
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${markWidth}" height="${markHeight}" viewBox="0 0 ${markWidth} ${markHeight}">${lines.join('')}</svg>`;
}
