/** Where the reading begins and ends, with the sentence that says it in the middle. */
import type { SetupWords } from '../surroundings.ts';
import { isFibre, type Placed } from './placing.ts';
import { textWidth } from './text-width.ts';

interface SetupProps {
  readonly setup: SetupWords;
  readonly placed: readonly Placed[];
  readonly y: number;
}

export function SetupLine({ setup: { sentence, launch, receive }, placed, y }: SetupProps) {
  // The strokes stand outside the pairs that count, and inside those that do not.
  const outer = (each: Placed | undefined, way: 1 | -1) =>
    each ? each.x + way * (each.element.counted || isFibre(each.element) ? 18 : -18) : 0;
  const first = placed[0];
  const last = placed.at(-1);
  const begin = first && isFibre(first.element) ? first.from : outer(first, -1);
  const end = last && isFibre(last.element) ? last.to : outer(last, 1);
  const middle = (begin + end) / 2;
  const [short = sentence] = sentence.split(':');
  const fits = (words: string) => textWidth(words) + 40 < end - begin;
  const said = fits(sentence) ? sentence : fits(short) ? short : '';
  const half = textWidth(said) / 2;
  const before = [launch, launch.split(',')[0] ?? ''].find((words) => textWidth(words) < begin - 8);
  return (
    <g class="setup">
      <title>{sentence}</title>
      <path class="setup-end" d={`M${begin} ${y - 10}v12M${end} ${y - 10}v12`} />
      <path
        class="dots"
        d={`M${begin + 4} ${y - 4}H${middle - half - 8}M${middle + half + 8} ${y - 4}H${end - 4}`}
      />
      <text x={middle} y={y} text-anchor="middle">
        {said}
      </text>
      <text class="quiet" x={begin - 6} y={y} text-anchor="end">
        {before}
      </text>
      <text class="quiet" x={end + 6} y={y}>
        {receive}
      </text>
    </g>
  );
}
