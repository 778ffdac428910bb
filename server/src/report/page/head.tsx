/** Head of the page: what plan this is, by what it is judged, its worst margin, and how its fibres stand. */
import type { Verdict } from '../../evaluate/result.ts';
import { count, counted } from '../figures.ts';
import { lookOf } from '../verdicts.ts';
import type { Head, TallyEntry, TextPlace } from '../view.ts';
import { GoTo } from './go-to.tsx';
import { Mark, toneOf } from './mark.tsx';

interface HeadProps {
  readonly head: Head;
  readonly show?: (place: TextPlace) => void;
}

export function HeadView({ head, show }: HeadProps) {
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
          <span class="quiet">worst margin</span>
          <span class={`worst-figure ${toneOf(worst.verdict)}`}>{worst.text}</span>
          <span>
            <GoTo place={worst.at} show={show}>
              {worst.where}
            </GoTo>{' '}
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
  return (
    <div class="tally">
      {tally.map(({ verdict, count: fibres, shown }) => {
        const { word, tone, strong } = lookOf(verdict);
        const inside = (
          <>
            <Mark verdict={verdict} />
            <span class={`text-${tone}`}>
              <b>{count(fibres)}</b> <span class={strong ? 'strong-word' : ''}>{word}</span>
            </span>
          </>
        );
        return toggle ? (
          <button
            key={verdict}
            type="button"
            class={`tally-entry${shown ? '' : ' off'}`}
            aria-pressed={shown}
            title={shown ? `Hide fibres that are ${word}` : `Show fibres that are ${word}`}
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
      <Sums head={head} />
    </div>
  );
}

function Sums({ head: { sums } }: { readonly head: Head }) {
  const things = [
    counted(sums.links, 'link'),
    sums.channels > 0 ? counted(sums.channels, 'channel') : '',
    sums.rings > 0 ? counted(sums.rings, 'ring') : '',
    sums.sections > 0 ? counted(sums.sections, 'cable') : '',
    counted(sums.fibres, 'fibre'),
  ].filter(Boolean);
  return (
    <span class="sums">
      {things.join(' · ')} · <b>{count(sums.present)}</b> of {count(sums.expected)} readings made
      {sums.toMake > 0 ? ` · ${count(sums.toMake)} to make` : ''}
      {sums.toRepeat > 0 ? ` · ${count(sums.toRepeat)} to repeat` : ''}
    </span>
  );
}
