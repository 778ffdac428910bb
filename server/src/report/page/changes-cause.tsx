/** One change: what the text says otherwise, and beside it what that does. */

import type { ChangeRow, EffectRow } from '../changes/view.ts';
import { counted } from '../figures.ts';
import { lookOf } from '../verdicts.ts';
import type { ScaleView } from '../view.ts';
import { PlaceLink, Places, type ShowSide } from './changes-place.tsx';
import { MovedStrip } from './changes-strip.tsx';
import type { Layout } from './layout.ts';
import { Mark, toneOf, Word } from './mark.tsx';
import { Ground } from './strip.tsx';

interface ChangeProps {
  readonly change: ChangeRow;
  readonly scale: ScaleView;
  readonly layout: Layout;
  readonly show: ShowSide | undefined;
  readonly toggle: ((number: number) => void) | undefined;
  readonly open: boolean;
  readonly marked: boolean;
}

export function ChangeItem({ change, scale, layout, show, toggle, open, marked }: ChangeProps) {
  const { number, label, alarming, subject, was, now, notes, places } = change;
  return (
    <li class={`change change-tracks${marked ? ' at-cursor' : ''}`} data-change={number}>
      <div class="cause">
        <div class="cause-top small">
          <span class={alarming ? 'strong text-fail' : 'quiet'}>
            {number} {label}
          </span>
          <span class="cause-where">
            <Places places={places} show={show} />
          </span>
        </div>
        <h2 class="cause-subject">{subject}</h2>
        {was === undefined && now === undefined ? null : (
          <p>
            <Values was={was} now={now} />
          </p>
        )}
        {notes.map((note) => (
          <p key={note} class="small quiet">
            {note}
          </p>
        ))}
      </div>
      <Effects
        change={change}
        scale={scale}
        layout={layout}
        show={show}
        toggle={toggle}
        open={open}
      />
    </li>
  );
}

function Values({
  was,
  now,
}: {
  readonly was: string | undefined;
  readonly now: string | undefined;
}) {
  if (was === undefined) return <b>{now}</b>;
  return (
    <>
      <span class="quiet">was</span> {was}
      {now === undefined ? null : (
        <>
          , <span class="quiet">now</span> <b>{now}</b>
        </>
      )}
    </>
  );
}

function Effects({ change, scale, layout, show, toggle, open }: Omit<ChangeProps, 'marked'>) {
  const { effects, shown, rest, left, number } = change;
  if (effects.length === 0) return null;
  const items = (rows: readonly EffectRow[]) =>
    rows.map((effect) => (
      <EffectItem key={effect.key} effect={effect} scale={scale} layout={layout} show={show} />
    ));
  const beyond =
    left > 0 ? <span class="quiet"> and {counted(left, 'more row')}, in the JSON form</span> : null;
  const further = effects.slice(shown);
  return (
    <ul class="effects" aria-label={`What change ${number} does`}>
      {items(open && toggle ? effects : effects.slice(0, shown))}
      {further.length === 0 ? null : toggle ? (
        <li class="effects-more small">
          <button type="button" class="goto" aria-expanded={open} onClick={() => toggle(number)}>
            {open ? 'Show the first five' : rest}
          </button>
          {open ? beyond : null}
        </li>
      ) : (
        // A file has no script: the browser itself opens and shuts it.
        <li class="effects-more further small">
          <details>
            <summary>{rest}</summary>
            <ul class="effects">{items(further)}</ul>
            {beyond}
          </details>
        </li>
      )}
    </ul>
  );
}

interface EffectProps {
  readonly effect: EffectRow;
  readonly scale: ScaleView;
  readonly layout: Layout;
  readonly show: ShowSide | undefined;
}

/** Heights of the strip in a row, px. */
const stripHeight = 24;

function EffectItem({ effect, scale, layout, show }: EffectProps) {
  const { object, fibres, what, before, after, words, was, now, place, spoken } = effect;
  const narrow = layout === 'narrow';
  const drawn = was !== undefined || now !== undefined;
  return (
    <li class="effect">
      <span class="unseen">{spoken}</span>
      <span class="effect-where mono small">
        <PlaceLink place={place} show={show}>
          {[object, fibres].filter(Boolean).join(' ')}
        </PlaceLink>
      </span>
      <span class="effect-verdict" aria-hidden="true">
        <VerdictMove before={before} after={after} words={words} />
        {what ? <span class="small quiet effect-what">{what}</span> : null}
      </span>
      {drawn ? (
        <span class="effect-strip" aria-hidden="true">
          {narrow ? <Ground scale={scale} /> : null}
          <MovedStrip effect={effect} reach={scale.reach} height={stripHeight} />
        </span>
      ) : null}
      {drawn ? (
        <span class="effect-margins number" aria-hidden="true">
          <span class="quiet">{was?.text ?? 'none'}</span>{' '}
          <span class={after ? `${toneOf(after)} strong` : 'strong'}>{now?.text ?? 'none'}</span>
        </span>
      ) : null}
    </li>
  );
}

function VerdictMove({ before, after, words }: Pick<EffectRow, 'before' | 'after' | 'words'>) {
  if (words !== undefined) return <span>{words}</span>;
  if (before && after && before !== after) {
    return (
      <span class="verdict-move">
        <span class="stand">
          <Mark verdict={before} />
          <span class={`text-${lookOf(before).tone}`}>{lookOf(before).word}</span>
        </span>
        <span class="quiet">to</span>
        <span class="stand">
          <Mark verdict={after} />
          <Word verdict={after} />
        </span>
      </span>
    );
  }
  const only = after ?? before;
  if (!only) return null;
  return (
    <span class="verdict-move">
      <Mark verdict={only} />
      <Word verdict={only} />
      <span class="quiet">{before && after ? 'stays' : after ? 'new' : 'no longer there'}</span>
    </span>
  );
}
