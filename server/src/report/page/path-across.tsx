/** A path from left to right over its distance: signs, figures, set-up, and loss that rises to the gauge at B. */
import { scaleLinear } from 'd3-scale';
import type { Drawing, DrawnElement } from '../drawing.ts';
import type { TextPlace } from '../view.ts';
import { isFibre, type Placed, placeElements, placeFigures, placeWords } from './placing.ts';
import { Profile } from './profile.tsx';
import { SignShape } from './sign.tsx';

/** Room for the labels of the axes, and for the gauge with its labels, px. */
const left = 104;
const gaugeRoom = 250;
/** Cords outside of the link, px. */
const cordLength = 60;

const bracketY = 26;
const wordsY = 48;
const rowOfWords = 28;
const pathY = 112;
const figuresY = 138;
const setupY = 182;
const profileTop = 206;
const profileBottom = 384;

interface AcrossProps {
  readonly drawing: Drawing;
  readonly width: number;
  readonly show?: (place: TextPlace) => void;
}

export function PathAcross({ drawing, width, show }: AcrossProps) {
  const room = Math.max(
    width,
    640,
    drawing.elements.length > 40 ? drawing.elements.length * 32 : 0,
  );
  const from = left + cordLength;
  const to = room - gaugeRoom;
  const placed = placeElements(drawing, from, to);
  return (
    <svg class="drawing" width={room} height="408" viewBox={`0 0 ${room} 408`} aria-hidden="true">
      <Brackets drawing={drawing} from={from} to={to} />
      <Path drawing={drawing} placed={placed} from={from} to={to} />
      <Elements placed={placed} left={left} right={to + cordLength} show={show} />
      <text class="quiet" x="0" y={figuresY}>
        limit, dB
      </text>
      <text class="quiet" x="0" y={figuresY + 17}>
        expected, dB
      </text>
      <Setup drawing={drawing} placed={placed} />
      <Profile
        drawing={drawing}
        placed={placed}
        left={left}
        to={to}
        top={profileTop}
        bottom={profileBottom}
      />
    </svg>
  );
}

function Brackets({ drawing, from, to }: { drawing: Drawing; from: number; to: number }) {
  const x = scaleLinear()
    .domain([0, Math.max(1e-9, drawing.metres)])
    .range([from, to]);
  return (
    <>
      {drawing.brackets.map(({ what, name, length, from: start, to: end }, index) => {
        const y = drawing.brackets.length > 1 && index === 0 ? bracketY - 16 : bracketY + 4;
        return (
          <g key={name} class={`bracket ${what}`}>
            <path d={`M${x(start)} ${y + 6}v-6H${x(end)}v6`} />
            <text x={x(start) + 4} y={y - 4}>
              {[`${what} ${name}`, length].filter(Boolean).join(', ')}
            </text>
          </g>
        );
      })}
    </>
  );
}

interface PathProps {
  readonly drawing: Drawing;
  readonly placed: readonly Placed[];
  readonly from: number;
  readonly to: number;
}

/** Fibre as two lines where it is multimode, one where it is single-mode; cords outside dashed. */
function Path({ drawing, placed, from, to }: PathProps) {
  const shifts = drawing.lines === 2 ? [-2, 2] : [0];
  return (
    <>
      {shifts.map((shift) => (
        <g key={shift}>
          <path class="outside" d={`M${from - cordLength} ${pathY + shift}H${from}`} />
          <path class="outside" d={`M${to} ${pathY + shift}H${to + cordLength}`} />
          {placed
            .filter(({ element }) => isFibre(element))
            .map(({ element, from: a, to: b, x }, index) =>
              element.crossing && drawing.lines === 2 ? (
                <path
                  key={index}
                  class="fibre"
                  d={`M${a} ${pathY + shift}H${x - 8}L${x + 8} ${pathY - shift}H${b}`}
                />
              ) : (
                <path
                  key={index}
                  class={element.sign === 'cord' ? 'outside' : 'fibre'}
                  d={`M${a} ${pathY + shift}H${b}`}
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
  readonly left: number;
  readonly right: number;
  readonly show: AcrossProps['show'];
}

function Elements({ placed, left: leftEnd, right, show }: ElementsProps) {
  const words = new Map(placeWords(placed, leftEnd, right).map((each) => [each.index, each]));
  const roomFor = placeFigures(placed);
  return (
    <>
      {placed.map(({ element, x, own }, index) => {
        const { place } = element;
        const word = words.get(index);
        const y = wordsY + (word?.row === 1 ? 0 : rowOfWords);
        const figures = element.counted ? '' : 'quiet';
        return (
          // biome-ignore lint/a11y/noStaticElementInteractions: the list of elements is the way for the keyboard
          <g
            key={index}
            class={place && show ? 'clickable' : ''}
            onClick={place && show ? () => show(place) : undefined}
          >
            <title>{titleOf(element)}</title>
            {Math.abs(own - x) < 1 ? null : (
              <path class="leader" d={`M${own} ${pathY + 14}L${x} ${pathY + 8}`} />
            )}
            <SignShape sign={element.sign} x={x} y={pathY} />
            {word ? (
              <>
                <text class="mono" x={x} y={y} text-anchor="middle">
                  {word.name}
                </text>
                <text class="quiet" x={x} y={y + 14} text-anchor="middle">
                  {word.kind}
                </text>
                {word.row === 1 ? (
                  <path class="leader" d={`M${x} ${y + 18}V${pathY - 12}`} />
                ) : null}
              </>
            ) : null}
            {element.severity ? (
              <text
                class={`severity-${element.severity}`}
                x={x}
                y={pathY - 13}
                text-anchor="middle"
              >
                {element.severity}
              </text>
            ) : null}
            {roomFor.has(index) ? (
              <>
                <text class={figures} x={x} y={figuresY} text-anchor="middle">
                  {element.counted ? element.allowed?.text : ''}
                </text>
                <text class="quiet" x={x} y={figuresY + 17} text-anchor="middle">
                  {element.counted ? element.expected?.text : 'not in it'}
                </text>
              </>
            ) : null}
          </g>
        );
      })}
    </>
  );
}

/** `R-01, G.652.D, 4210 m; limit 1.47 dB, expected 1.43 dB`. */
function titleOf({ name, kind, counted, allowed, expected }: DrawnElement): string {
  const figures = [
    allowed ? `limit ${allowed.text} dB` : '',
    expected ? `expected ${expected.text} dB` : '',
  ].filter(Boolean);
  const what = [name, kind].filter(Boolean).join(', ');
  return [what, counted ? figures.join(', ') : 'not in it'].filter(Boolean).join('; ');
}

/** Where the reading begins and ends, with the sentence that says it in the middle. */
function Setup({ drawing, placed }: { drawing: Drawing; placed: readonly Placed[] }) {
  const counted = placed.filter(({ element }) => element.counted && !isFibre(element));
  const first = placed[0];
  const last = placed.at(-1);
  const outer = (each: Placed | undefined, way: 1 | -1) =>
    each ? each.x + way * (each.element.counted || isFibre(each.element) ? 18 : -18) : 0;
  const begin = outer(first, -1);
  const end = outer(last, 1);
  const middle = (begin + end) / 2;
  const half = drawing.setup.sentence.length * 3;
  const fits = end - begin > 2 * half + 40 && counted.length >= 0;
  return (
    <g class="setup">
      <path class="setup-end" d={`M${begin} ${setupY - 10}v12M${end} ${setupY - 10}v12`} />
      {fits ? (
        <path
          class="dots"
          d={`M${begin + 4} ${setupY - 4}H${middle - half - 8}M${middle + half + 8} ${setupY - 4}H${end - 4}`}
        />
      ) : null}
      <text x={middle} y={setupY} text-anchor="middle">
        {drawing.setup.sentence}
      </text>
      {fits ? (
        <>
          <text class="quiet" x={begin - 6} y={setupY} text-anchor="end">
            {drawing.setup.launch}
          </text>
          <text class="quiet" x={end + 6} y={setupY}>
            {drawing.setup.receive}
          </text>
        </>
      ) : null}
    </g>
  );
}
