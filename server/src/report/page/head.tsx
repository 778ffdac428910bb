/** Head of the page: what plan this is, by what it is judged, its worst margin, and how its fibres stand. */
import type { Verdict } from '../../evaluate/result.ts';
import { lookOf } from '../verdicts.ts';
import type { Head, TallyEntry, TextPlace } from '../view.ts';
import { Mark, toneOf } from './mark.tsx';

export function HeadView({
  head,
  show,
}: {
  readonly head: Head;
  readonly show?: (place: TextPlace) => void;
}) {
  const { worst } = head;
  return (
    <header class="head">
      <div class="head-left">
        <h1>{head.title}</h1>
        <dl class="facts">
          {head.facts.map(({ label, value }) => (
            <div key={label}>
              <dt>{label}</dt> <dd>{value}</dd>
            </div>
          ))}
        </dl>
      </div>
      {worst ? (
        <div class="head-worst">
          <span class="small quiet">worst margin</span>
          <span class={`worst-figure ${toneOf(worst.verdict)}`}>{worst.text}</span>
          <span class="small">
            {worst.at && show ? (
              <button type="button" class="goto" onClick={() => worst.at && show(worst.at)}>
                {worst.where}
              </button>
            ) : (
              worst.where
            )}{' '}
            <span class="quiet">{worst.what}</span>
          </span>
        </div>
      ) : null}
    </header>
  );
}

interface TallyProps {
  readonly tally: readonly TallyEntry[];
  readonly head: Head;
  readonly toggle?: (verdict: Verdict) => void;
}

export function Tally({ tally, head, toggle }: TallyProps) {
  const { sums } = head;
  return (
    <div class="tally">
      {tally.map(({ verdict, count, shown }) => {
        const inside = (
          <>
            <Mark verdict={verdict} /> <b>{count}</b> {lookOf(verdict).word}
          </>
        );
        return toggle ? (
          <button
            key={verdict}
            type="button"
            class={`tally-entry${shown ? '' : ' off'}`}
            aria-pressed={shown}
            onClick={() => toggle(verdict)}
          >
            {inside}
          </button>
        ) : (
          <span key={verdict} class="tally-entry">
            {inside}
          </span>
        );
      })}
      <span class="sums">
        {many(sums.links, 'link')}
        {sums.channels > 0 ? ` · ${many(sums.channels, 'channel')}` : ''} ·{' '}
        {many(sums.fibres, 'fibre')} · <b>{grouped(sums.present)}</b> of {grouped(sums.expected)}{' '}
        readings made
        {sums.toMake > 0 ? ` · ${grouped(sums.toMake)} to make` : ''}
        {sums.toRepeat > 0 ? ` · ${grouped(sums.toRepeat)} to repeat` : ''}
      </span>
    </div>
  );
}

function many(count: number, one: string): string {
  return `${grouped(count)} ${one}${count === 1 ? '' : 's'}`;
}

function grouped(count: number): string {
  return String(count).replaceAll(/\B(?=(\d{3})+$)/gu, ',');
}
