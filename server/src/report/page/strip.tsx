/**
 * The margin strip: readings placed by limit minus loss. The limit line, the
 * grid and the ground beyond the limit lie under all strips of a table at once
 * (`Ground`), so that the line is one line; a strip holds only its readings.
 * Strokes of one kind are one path, stretched across without growing wider.
 */
import type { Verdict } from '../../evaluate/result.ts';
import { limitAt, placeOf } from '../scale.ts';
import { lookOf, rankOf, type Tone } from '../verdicts.ts';
import type { Lane, ScaleView, Side, Stroke } from '../view.ts';

/** Units across the strip: a thousandth of its width. */
const across = 1000;
/** A stroke reaches so far from the middle of its lane, px. */
const reachOfStroke = 6;
/** Lanes lower than this are shared, px. */
const leastLane = 8;

interface StripProps {
  readonly lanes: readonly Lane[];
  readonly reach: number;
  readonly height: number;
  /** Strokes in full and whiskers: rows of fibres and readings. */
  readonly full: boolean;
}

export function Strip({ lanes, reach, height, full }: StripProps) {
  const shown = Math.max(1, Math.min(lanes.length, Math.floor(height / leastLane)));
  const each = height / shown;
  const middle = (index: number) =>
    (Math.floor((index * shown) / Math.max(1, lanes.length)) + 0.5) * each;
  return (
    <svg class="strip" width="100%" height={height} aria-hidden="true">
      <svg
        aria-hidden="true"
        width="100%"
        height={height}
        viewBox={`0 0 ${across} ${height}`}
        preserveAspectRatio="none"
      >
        {lanes.map((lane, index) => (
          <Strokes
            key={lane.wavelength}
            lane={lane}
            reach={reach}
            middle={middle(index)}
            half={each / 2}
            full={full}
          />
        ))}
      </svg>
      {lanes.map((lane, index) => (
        <Signs key={lane.wavelength} lane={lane} reach={reach} middle={middle(index)} />
      ))}
    </svg>
  );
}

interface LaneProps {
  readonly lane: Lane;
  readonly reach: number;
  readonly middle: number;
}

function Strokes({ lane, reach, middle, half, full }: LaneProps & { half: number; full: boolean }) {
  const up = Math.min(reachOfStroke, half - 0.5);
  const stroke = (margin: number, side: Side) => {
    const x = Math.round(placeOf(margin, reach) * across * 10) / 10;
    return `M${x} ${side === 'down' ? middle : middle - up}V${side === 'up' ? middle : middle + up}`;
  };
  const inside = lane.marked.filter(({ margin }) => isInside(margin, reach));
  const plain = (['up', 'down', 'both'] as const).flatMap((side) =>
    lane.plain[side]
      .filter((margin) => isInside(margin, reach))
      .map((margin) => stroke(margin, side)),
  );
  const { whisker } = lane;
  const ofTone = new Map<string, Stroke[]>();
  for (const each of inside) {
    if (each.verdict === 'conceded') continue;
    const tone = `${lookOf(each.verdict).tone}${isBroken(each.verdict) ? ' broken' : ''}`;
    ofTone.set(tone, [...(ofTone.get(tone) ?? []), each]);
  }
  return (
    <g>
      {lane.expected !== undefined && isInside(lane.expected, reach) ? (
        <Path
          kind="expected"
          d={`M${placeOf(lane.expected, reach) * across} ${middle - half}v${2 * half}`}
        />
      ) : null}
      {lane.density ? <path class="density" d={densityPath(lane.density, middle, up)} /> : null}
      {full && whisker ? (
        <Path
          kind="whisker"
          d={`M${clamped(whisker.from, reach)} ${middle}H${clamped(whisker.to, reach)}`}
        />
      ) : null}
      {plain.length > 0 ? (
        <Path kind={full ? 'stroke' : 'stroke faint'} d={plain.join('')} />
      ) : null}
      {[...ofTone].map(([tone, strokes]) => (
        <Path
          key={tone}
          kind={`marked tone-${tone}`}
          d={strokes.map(({ margin, side }) => stroke(margin, side)).join('')}
        />
      ))}
    </g>
  );
}

function Path({ kind, d }: { readonly kind: string; readonly d: string }) {
  return <path class={`line ${kind}`} d={d} vector-effect="non-scaling-stroke" />;
}

/** What must not be stretched: hollow strokes of conceded readings, chevrons at the edges, the word `dark`. */
function Signs({ lane, reach, middle }: LaneProps) {
  const conceded = lane.marked.filter(
    ({ verdict, margin }) => verdict === 'conceded' && isInside(margin, reach),
  );
  return (
    <>
      {conceded.map(({ margin, side }, index) => (
        <svg
          key={index}
          aria-hidden="true"
          x={`${placeOf(margin, reach) * 100}%`}
          y={middle}
          class="open-sign"
        >
          <rect
            class="hollow tone-conceded"
            x="-2"
            y={side === 'down' ? 0.7 : -6}
            width="4"
            height={side === 'both' ? 12 : 5.3}
          />
        </svg>
      ))}
      {edges(lane, reach).map(({ left, tone }) => (
        <svg
          key={`${left}${tone}`}
          x={left ? '0%' : '100%'}
          y={middle}
          class="open-sign"
          aria-hidden="true"
        >
          <path
            class={`line edge tone-${tone}`}
            d={
              left
                ? 'M5 -3.5L1.5 0L5 3.5M10 -3.5L6.5 0L10 3.5'
                : 'M-5 -3.5L-1.5 0L-5 3.5M-10 -3.5L-6.5 0L-10 3.5'
            }
          />
        </svg>
      ))}
      {lane.dark ? (
        <text class="dark-word" x="100%" y={middle + 3.5} text-anchor="end">
          dark
        </text>
      ) : null}
    </>
  );
}

/** Readings off the scale, once for each edge. */
function edges(lane: Lane, reach: number): readonly { left: boolean; tone: Tone }[] {
  const outside: Stroke[] = [
    ...(['up', 'down', 'both'] as const).flatMap((side) =>
      lane.plain[side].map((margin): Stroke => ({ margin, side, verdict: 'pass' })),
    ),
    ...lane.marked,
  ].filter(({ margin }) => !isInside(margin, reach));
  const found = new Map<boolean, { left: boolean; tone: Tone }>();
  // One sign at an edge, of the worst; `dark` at the right says more than that something lies beyond.
  const worstFirst = outside.toSorted((a, b) => rankOf(a.verdict) - rankOf(b.verdict));
  for (const { margin, verdict } of worstFirst) {
    const left = placeOf(margin, reach) < 0;
    if (found.has(left) || (!left && lane.dark)) continue;
    const { tone } = lookOf(verdict);
    found.set(left, { left, tone });
  }
  return [...found.values()];
}

function densityPath(density: NonNullable<Lane['density']>, middle: number, up: number): string {
  const most = Math.max(1, ...density.up, ...density.down);
  const width = across / density.up.length;
  const outline = (counts: readonly number[], way: 1 | -1) =>
    counts
      .map((count, bin) => `L${(bin + 0.5) * width} ${middle + (way * up * count) / most}`)
      .join('');
  return `M0 ${middle}${outline(density.up, -1)}L${across} ${middle}ZM0 ${middle}${outline(density.down, 1)}L${across} ${middle}Z`;
}

function isInside(margin: number, reach: number): boolean {
  const place = placeOf(margin, reach);
  return place >= 0 && place <= 1;
}

function isBroken(verdict: Verdict): boolean {
  return verdict === 'invalid' || verdict === 'stale';
}

function clamped(margin: number, reach: number): number {
  return Math.min(1, Math.max(0, placeOf(margin, reach))) * across;
}

/** Under all strips: grid, margin wanted, the ground beyond the limit, and the limit as one line. */
export function Ground({ scale }: { readonly scale: ScaleView }) {
  const at = (place: number) => ({ left: `${place * 100}%` });
  return (
    <div class="ground" aria-hidden="true">
      {scale.ticks.map(({ at: place, label }) =>
        place > 0.02 && place < limitAt - 0.02 ? (
          <span key={label} class="grid-line" style={at(place)} />
        ) : null,
      )}
      <span class="over-ground" style={at(limitAt)} />
      {scale.wanted === undefined ? null : (
        <span class="wanted-line" style={at(placeOf(scale.wanted, scale.reach))} />
      )}
      <span class="limit-line" style={at(limitAt)} />
    </div>
  );
}

/** Head of the strip: signed figures over the grid, and the word `limit` over the line. */
export function StripHead({ scale, few }: { readonly scale: ScaleView; readonly few: boolean }) {
  // Where there is little room, only the left end, the middle and the limit are named.
  const middle = scale.ticks.find(({ at }) => at > 0.3 && at < limitAt - 0.15);
  const shown = scale.ticks.filter(
    (tick, index) => !few || index === 0 || tick === middle || tick.label === 'limit',
  );
  return (
    <div class="strip-head">
      <svg width="100%" height="16" aria-hidden="true">
        {shown.map(({ at, label }) => (
          <text
            key={label}
            class={wordOf(label, at, at === middle?.at)}
            // The head of the next column begins where the strip ends.
            x={`${(at > 0.95 ? 0.94 : at) * 100}%`}
            y="12"
            text-anchor={at < 0.03 ? 'start' : at > 0.95 ? 'end' : 'middle'}
          >
            {label}
          </text>
        ))}
      </svg>
    </div>
  );
}

/** What is left out where there is little room, and beyond the limit where the word itself takes it. */
function wordOf(label: string, at: number, isMiddle: boolean): string {
  if (label === 'limit') return 'limit-word';
  if (at > limitAt) return 'minor beyond';
  return at === 0 || isMiddle ? '' : 'minor';
}
