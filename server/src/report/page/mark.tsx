/** A verdict as its mark and its word: shape and word carry it, colour is an addition. */
import type { Verdict } from '../../evaluate/result.ts';
import { lookOf } from '../verdicts.ts';

export function Mark({ verdict }: { readonly verdict: Verdict }) {
  const { mark, tone } = lookOf(verdict);
  return (
    <svg class={`mark tone-${tone}`} viewBox="0 0 20 12" width="20" height="12" aria-hidden="true">
      {mark.map(({ path, width, dash }) => (
        <path key={path} d={path} stroke-width={width} stroke-dasharray={dash} />
      ))}
    </svg>
  );
}

export function Word({ verdict }: { readonly verdict: Verdict }) {
  const { word, tone, strong } = lookOf(verdict);
  return <span class={`word text-${tone}${strong ? ' strong' : ''}`}>{word}</span>;
}

/** Class of a value's or margin's text under a verdict. */
export function toneOf(verdict: Verdict): string {
  const { tone, strong } = lookOf(verdict);
  return `text-${tone}${strong ? ' strong' : ''}`;
}
