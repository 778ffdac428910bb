/**
 * A margin that moves, on the strip of the table: what it was as a dashed
 * stroke, what it is as a whole one under its verdict, and a line between.
 */
import type { EffectRow } from '../changes/view.ts';
import { placeOf } from '../scale.ts';
import type { Lane } from '../view.ts';
import { Strip } from './strip.tsx';

const across = 1000;
/** A stroke reaches so far from the middle, px. */
const reachOfStroke = 6;

interface MovedStripProps {
  readonly effect: EffectRow;
  readonly reach: number;
  readonly height: number;
}

export function MovedStrip({ effect, reach, height }: MovedStripProps) {
  const { was, now } = effect;
  const middle = height / 2;
  const at = (margin: number) =>
    Math.round(Math.min(1, Math.max(0, placeOf(margin, reach))) * across * 10) / 10;
  return (
    <svg class="moved-strip" width="100%" height={height} aria-hidden="true">
      <svg
        aria-hidden="true"
        width="100%"
        height={height}
        viewBox={`0 0 ${across} ${height}`}
        preserveAspectRatio="none"
      >
        {was ? (
          <path
            class="line expected"
            d={`M${at(was.margin)} ${middle - reachOfStroke}v${2 * reachOfStroke}`}
            vector-effect="non-scaling-stroke"
          />
        ) : null}
        {was && now ? (
          <path
            class="line between"
            d={`M${at(was.margin)} ${middle}H${at(now.margin)}`}
            vector-effect="non-scaling-stroke"
          />
        ) : null}
      </svg>
      <Strip lanes={[laneOf(effect)]} reach={reach} height={height} full />
    </svg>
  );
}

function laneOf({ now, after, side }: EffectRow): Lane {
  const lane: Lane = {
    wavelength: '',
    plain: { up: [], down: [], both: [] },
    marked: [],
    dark: false,
  };
  if (!now) return lane;
  if (after === undefined || after === 'pass')
    return { ...lane, plain: { ...lane.plain, [side]: [now.margin] } };
  return { ...lane, marked: [{ margin: now.margin, side, verdict: after }] };
}
