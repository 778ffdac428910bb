/** The moment of typing: the reading at the cursor, large, beside its limit. */

import { Mark, toneOf } from '../../../../server/src/report/page/mark.tsx';
import { Strip } from '../../../../server/src/report/page/strip.tsx';
import { ticks } from '../../../../server/src/report/scale.ts';
import { lookOf } from '../../../../server/src/report/verdicts.ts';
import type { Typed } from '../../../../server/src/report/view.ts';

export function TypedView({ typed }: { readonly typed: Typed }) {
  return (
    <header class="typed">
      <div class="small quiet">
        line {typed.line} · {typed.made}
      </div>
      <h1>
        <Mark verdict={typed.verdict} />{' '}
        <span class={toneOf(typed.verdict)}>{lookOf(typed.verdict).word}</span>{' '}
        <span class="mono">{typed.object}</span> fibre {typed.fibre}, {typed.what}{' '}
        <b>{typed.value}</b>
      </h1>
      <Strip
        lanes={[typed.lane]}
        scale={{ reach: typed.reach, ticks: ticks(typed.reach) }}
        height={32}
        full={true}
      />
      <div>
        {typed.sentence} {typed.advice}
      </div>
      <div class="small quiet">{typed.next}</div>
    </header>
  );
}
