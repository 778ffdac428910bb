/** A path from left to right over its distance: signs, figures, set-up, and loss that rises to the gauge at B. */
import type { Drawing } from '../drawing.ts';
import type { DrawnElement } from '../elements.ts';
import type { TextPlace } from '../view.ts';
import { Brackets, bracketRow, placeBrackets } from './brackets.tsx';
import { FigureRows, figureRow, rowsOf } from './figure-rows.tsx';
import { isFibre, type Placed, placeElements, placeWords, type Words } from './placing.ts';
import { gaugeRoom, Profile } from './profile.tsx';
import { SetupLine } from './setup-line.tsx';
import { SignShape } from './sign.tsx';

/** Room for the labels of the axes, px. */
const left = 104;
/** Cords outside of the link, px. */
const cordLength = 72;
const rowOfWords = 28;
const profileHeight = 172;

interface AcrossProps {
  readonly drawing: Drawing;
  readonly width: number;
  readonly show?: (place: TextPlace) => void;
}

export function PathAcross({ drawing, width, show }: AcrossProps) {
  const { elements } = drawing;
  const room = Math.max(width, 640, elements.length > 40 ? elements.length * 32 : 0);
  const outside = drawing.what === 'channel' ? 24 : cordLength;
  const from = left + outside;
  const to = room - gaugeRoom(drawing, room);
  const placed = placeElements(drawing, from, to);
  const brackets = placeBrackets(drawing, placed, room);
  const words = placeWords(placed, left, to + outside);
  const rows = rowsOf(drawing);
  const places = heights(drawing, brackets, words, rows.length);
  return (
    <svg
      class="drawing"
      width={room}
      height={places.end}
      viewBox={`0 0 ${room} ${places.end}`}
      aria-hidden="true"
    >
      <Brackets brackets={brackets} />
      <Path drawing={drawing} placed={placed} y={places.path} outside={outside} />
      <Elements placed={placed} words={words} places={places} show={show} />
      <FigureRows drawing={drawing} placed={placed} rows={rows} y={places.figures} />
      {places.setup === undefined || !drawing.setup ? null : (
        <SetupLine setup={drawing.setup} placed={placed} y={places.setup} />
      )}
      {places.profile === undefined ? null : (
        <Profile
          drawing={drawing}
          placed={placed}
          left={left}
          to={to}
          room={room}
          top={places.profile}
          bottom={places.profile + profileHeight}
        />
      )}
    </svg>
  );
}

interface Heights {
  /** Names of the upper and of the lower row of words. */
  readonly upper: number;
  readonly lower: number;
  readonly path: number;
  readonly figures: number;
  readonly setup?: number;
  readonly profile?: number;
  readonly end: number;
}

/** Everything from above to below, each only where it has something to show. */
function heights(
  drawing: Drawing,
  brackets: readonly { readonly row: number }[],
  words: readonly Words[],
  rows: number,
): Heights {
  const lastRow = Math.max(-1, ...brackets.map(({ row }) => row));
  const upper = 16 + lastRow * bracketRow + 26;
  const lower = words.some(({ row }) => row === 1) ? upper + rowOfWords : upper;
  const { elements } = drawing;
  const over =
    (elements.some(({ mark }) => mark) ? 12 : 0) +
    (elements.some(({ severity }) => severity) ? 12 : 0);
  const path = lower + 34 + over;
  const figures = path + 26;
  let y = rows > 0 ? figures + (rows - 1) * figureRow : path + 12;
  let setup: number | undefined;
  if (drawing.setup) {
    y += 27;
    setup = y;
  }
  const { allowed, expected, limit, readings } = drawing;
  if (!allowed && !expected && !limit && readings.length === 0) {
    return { upper, lower, path, figures, setup, end: y + 12 };
  }
  const profile = y + 36;
  return { upper, lower, path, figures, setup, profile, end: profile + profileHeight + 24 };
}

interface PathProps {
  readonly drawing: Drawing;
  readonly placed: readonly Placed[];
  readonly y: number;
  /** Cords outside of the object, px. */
  readonly outside: number;
}

/** Fibre as two lines where it is multimode, one where it is single-mode; cords outside dashed. */
function Path({ drawing, placed, y, outside }: PathProps) {
  const shifts = drawing.lines === 2 ? [-2, 2] : [0];
  const from = placed[0]?.from ?? 0;
  const to = placed.at(-1)?.to ?? from;
  return (
    <>
      {shifts.map((shift) => (
        <g key={shift}>
          {drawing.what === 'channel' ? null : (
            <path
              class="outside"
              d={`M${from - outside} ${y + shift}H${from}M${to} ${y + shift}H${to + outside}`}
            />
          )}
          {placed
            .filter(({ element }) => isFibre(element))
            .map(({ element, from: a, to: b, x }, index) =>
              element.crossing && drawing.lines === 2 ? (
                <path
                  key={index}
                  class={element.sign === 'cord' ? 'outside' : 'fibre'}
                  d={`M${a} ${y + shift}H${x - 8}L${x + 8} ${y - shift}H${b}`}
                />
              ) : (
                <path
                  key={index}
                  class={element.sign === 'cord' ? 'outside' : 'fibre'}
                  d={`M${a} ${y + shift}H${b}`}
                />
              ),
            )}
        </g>
      ))}
    </>
  );
}

interface ElementsProps {
  readonly placed: readonly Placed[];
  readonly words: readonly Words[];
  readonly places: Heights;
  readonly show: AcrossProps['show'];
}

function Elements({ placed, words, places, show }: ElementsProps) {
  const wordsOf = new Map(words.map((each) => [each.index, each]));
  return (
    <>
      {placed.map(({ element, x, own }, index) => {
        const { place, mark, severity } = element;
        const over = places.path - 12;
        return (
          // biome-ignore lint/a11y/noStaticElementInteractions: the list of elements is the way for the keyboard
          <g
            key={index}
            class={place && show ? 'clickable' : ''}
            onClick={place && show ? () => show(place) : undefined}
          >
            <title>{titleOf(element)}</title>
            {Math.abs(own - x) < 1 ? null : (
              <path class="leader" d={`M${own} ${places.path + 14}L${x} ${places.path + 8}`} />
            )}
            <SignShape sign={element.sign} x={x} y={places.path} />
            <ElementWords element={element} words={wordsOf.get(index)} x={x} places={places} />
            {mark ? (
              <text class="quiet" x={x} y={over} text-anchor="middle">
                {mark}
              </text>
            ) : null}
            {severity ? (
              <text
                class={`severity-${severity}`}
                x={x}
                y={mark ? over - 12 : over}
                text-anchor="middle"
              >
                {severity}
              </text>
            ) : null}
          </g>
        );
      })}
    </>
  );
}

interface ElementWordsProps {
  readonly element: DrawnElement;
  readonly words: Words | undefined;
  readonly x: number;
  readonly places: Heights;
}

/** Name and kind; from the upper row a line leads to what they stand for. */
function ElementWords({ element, words, x, places }: ElementWordsProps) {
  if (!words) return null;
  const y = words.row === 1 ? places.upper : places.lower;
  // Without a name the kind stands where both would end, nearest to the path.
  const over = (element.mark ? 12 : 0) + (element.severity ? 12 : 0);
  return (
    <>
      {words.name ? (
        <text class="mono" x={words.x} y={y} text-anchor="middle">
          {words.name}
        </text>
      ) : null}
      <text class="quiet" x={words.x} y={y + 14} text-anchor="middle">
        {words.kind}
      </text>
      {words.row === 1 ? (
        <path class="leader" d={`M${x} ${y + 18}V${places.path - 11 - over}`} />
      ) : null}
    </>
  );
}

/** `R-01, G.652.D, 4210 m; limit 1.47 dB, expected 1.43 dB`. */
function titleOf({ name, kind, what, mark, counted, allowed, expected }: DrawnElement): string {
  const figures = [
    allowed ? `at most ${allowed.text} dB` : '',
    expected ? `expected ${expected.text} dB` : '',
  ].filter(Boolean);
  const words = [name, kind, what, mark].filter(Boolean).join(', ');
  return [words, counted ? figures.join(', ') : 'not in the reading'].filter(Boolean).join('; ');
}
