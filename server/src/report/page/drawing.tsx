/**
 * The drawing of a link over its length: the path, figures per element, loss
 * that rises from A to B, and the limit as the gauge at B. The ordered list
 * below it says the same in words, and is the drawing where the page is narrow.
 */
import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { Drawing, DrawnElement } from '../drawing.ts';
import { lookOf } from '../verdicts.ts';
import type { TextPlace } from '../view.ts';

const WIDTH = 1160;
const LEFT = 112;
const RIGHT = WIDTH - 300;
const PATH_Y = 96;
const PROFILE_TOP = 190;
const PROFILE_BOTTOM = 330;
/** Elements nearer than this are spread evenly and tied to their true place by a leader. */
const APART = 46;

interface DrawingProps {
  readonly drawing: Drawing;
  readonly show?: (place: TextPlace) => void;
  readonly choose?: (nanometres: number) => void;
}

export function DrawingView({ drawing, show, choose }: DrawingProps) {
  return (
    <section id="link" aria-label={`Drawing of ${drawing.object}`}>
      <div class="drawing-head">
        <h2>
          <span class="mono">{drawing.object}</span> {drawing.title}
          <span class="quiet"> {drawing.length}</span>
        </h2>
        <div class="waves" role="radiogroup" aria-label="Wavelength">
          {drawing.wavelengths.map(({ nanometres, label }) =>
            choose ? (
              // biome-ignore lint/a11y/useSemanticElements: words in a row, not a form
              <button
                key={label}
                type="button"
                role="radio"
                aria-checked={nanometres === drawing.chosen}
                class={`section-word${nanometres === drawing.chosen ? ' current' : ''}`}
                onClick={() => choose(nanometres)}
              >
                {label}
              </button>
            ) : nanometres === drawing.chosen ? (
              <span key={label}>{label}</span>
            ) : null,
          )}
        </div>
      </div>
      <Picture drawing={drawing} show={show} />
      <ol class="drawing-list">
        {drawing.elements.map((element, index) => (
          <li key={index}>
            <span class="mono">{element.name}</span> {element.kind}
            <span class="drawing-figures">
              {element.allowed ? `most allowed ${element.allowed.text} dB` : ''}
              {element.expected ? `, expected ${element.expected.text} dB` : ''}
              {element.counted ? '' : ', not in the reading'}
            </span>
          </li>
        ))}
        {drawing.rest.map(({ what, figure }) => (
          <li key={what}>
            {what} <span class="drawing-figures">{figure} dB</span>
          </li>
        ))}
        <li class="drawing-sum">
          {drawing.allowed
            ? `sum ${drawing.allowed.figure} dB (${drawing.allowed.kind}, ${drawing.allowed.name})`
            : 'no sum'}
          {drawing.limit ? `; limit ${drawing.limit.figure} dB (${drawing.limit.kind})` : ''}
        </li>
      </ol>
      {drawing.applications.length > 0 ? (
        <ul class="applications">
          {drawing.applications.map(({ name, support, row, because }) => (
            <li key={name}>
              <b class="mono">{name}</b> {support}
              {row ? <span class="quiet"> ({row})</span> : null}. {because}
            </li>
          ))}
        </ul>
      ) : null}
    </section>
  );
}

interface Spread {
  readonly element: DrawnElement;
  readonly true: number;
  readonly x: number;
}

/** Joints at their distance, pushed apart to the least gap from A on, then back from B. */
function spread(drawing: Drawing): readonly Spread[] {
  const distance = scaleLinear()
    .domain([0, Math.max(1, drawing.metres)])
    .range([LEFT, RIGHT]);
  const joints = drawing.elements.filter(({ sign }) => sign !== 'segment' && sign !== 'cord');
  const at = joints.map((element) => distance(element.at));
  const gap = Math.min(APART, (RIGHT - LEFT) / Math.max(1, joints.length - 1));
  const x = [...at];
  for (let index = 1; index < x.length; index += 1)
    x[index] = Math.max(x[index] ?? 0, (x[index - 1] ?? 0) + gap);
  for (let index = x.length - 1; index >= 0; index -= 1) {
    x[index] = Math.min(
      x[index] ?? 0,
      index === x.length - 1 ? RIGHT : (x[index + 1] ?? RIGHT) - gap,
    );
  }
  let joint = 0;
  return drawing.elements.map((element) => {
    if (element.sign !== 'segment' && element.sign !== 'cord') {
      const place = { element, true: at[joint] ?? LEFT, x: x[joint] ?? LEFT };
      joint += 1;
      return place;
    }
    const before = joint === 0 ? LEFT : (x[joint - 1] ?? LEFT);
    const after = joint < x.length ? (x[joint] ?? RIGHT) : RIGHT;
    return { element, true: (before + after) / 2, x: (before + after) / 2 };
  });
}

function Picture({ drawing, show }: DrawingProps) {
  const places = spread(drawing);
  const most = Math.max(
    0.1,
    drawing.limit?.loss ?? 0,
    drawing.allowed?.loss ?? 0,
    ...drawing.readings.map(({ loss }) => loss),
  );
  const loss = scaleLinear()
    .domain([0, most * 1.08])
    .range([PROFILE_BOTTOM, PROFILE_TOP]);
  const lines = drawing.lines === 2 ? [-2, 2] : [0];
  const ends = [places.find(isJoint)?.x ?? LEFT, places.findLast(isJoint)?.x ?? RIGHT];
  return (
    <svg class="drawing" viewBox={`0 0 ${WIDTH} 350`} role="presentation" aria-hidden="true">
      {drawing.brackets.map(({ what, name, length }, index) => (
        <g key={name} class={`bracket ${what}`}>
          <path
            d={`M${ends[0]! - (index ? 14 : 0)} ${34 - index * 18}v-6H${ends[1]! + (index ? 14 : 0)}v6`}
          />
          <text
            x={(ends[0]! + ends[1]!) / 2}
            y={24 - index * 18}
            text-anchor="middle"
          >{`${what} ${name}, ${length}`}</text>
        </g>
      ))}
      <path class="cord" d={`M8 ${PATH_Y}H${ends[0]}M${ends[1]} ${PATH_Y}H${RIGHT + 50}`} />
      {lines.map((shift) => (
        <path key={shift} class="fibre" d={`M${ends[0]} ${PATH_Y + shift}H${ends[1]}`} />
      ))}
      {places.map(({ element, x, true: own }, index) => {
        const segment = element.sign === 'segment' || element.sign === 'cord';
        const row = segment ? 62 : index % 4 < 2 ? 48 : 62;
        const open = element.place && show ? () => element.place && show(element.place) : undefined;
        return (
          // biome-ignore lint/a11y/noStaticElementInteractions: the list below is the way for the keyboard
          <g
            key={index}
            onClick={open}
            class={`${open ? 'clickable ' : ''}${element.counted ? '' : 'uncounted'}`}
          >
            <title>{[element.name, element.kind].filter(Boolean).join(', ')}</title>
            {segment || Math.abs(own - x) < 1 ? null : (
              <path class="leader" d={`M${own} ${PATH_Y}L${x} ${PATH_Y + 12}`} />
            )}
            <SignShape element={element} x={x} />
            <text class={element.name ? 'mono' : ''} x={x} y={row} text-anchor="middle">
              {shortened(element.name || element.kind, segment ? 30 : 12)}
            </text>
            <text class="quiet" x={x} y={row + 14} text-anchor="middle">
              {element.name ? shortened(element.kind, segment ? 30 : 14) : ''}
            </text>
            {element.severity ? (
              <text
                class={`severity severity-${element.severity}`}
                x={x}
                y={row - 14}
                text-anchor="middle"
              >
                {element.severity}
              </text>
            ) : null}
            <text x={x} y={PATH_Y + 40} text-anchor="middle">
              {element.allowed?.text ?? ''}
            </text>
            <text class="quiet" x={x} y={PATH_Y + 56} text-anchor="middle">
              {element.expected?.text ?? ''}
            </text>
          </g>
        );
      })}
      <text class="quiet" x="8" y={PATH_Y + 40}>
        most, dB
      </text>
      <text class="quiet" x="8" y={PATH_Y + 56}>
        expected
      </text>
      <text class="quiet setup" x={(ends[0]! + ends[1]!) / 2} y={PATH_Y + 76} text-anchor="middle">
        {[drawing.setup.launch, drawing.setup.sentence, drawing.setup.receive]
          .filter(Boolean)
          .join(' · ')}
      </text>
      <Profile places={places} drawing={drawing} loss={loss} ends={ends} />
    </svg>
  );
}

type LossScale = (loss: number) => number;

function Profile({
  places,
  drawing,
  loss,
  ends,
}: {
  places: readonly Spread[];
  drawing: Drawing;
  loss: LossScale;
  ends: readonly (number | undefined)[];
}) {
  const gauge = RIGHT + 70;
  const stair = (pick: (element: DrawnElement) => number | undefined) => {
    const points: [number, number][] = [[ends[0] ?? LEFT, loss(0)]];
    let last = 0;
    places.forEach(({ element, x }, index) => {
      const upTo = pick(element);
      if (upTo === undefined) return;
      if (element.sign === 'segment' || element.sign === 'cord') {
        const next = places[index + 1]?.x ?? ends[1] ?? RIGHT;
        points.push([next, loss(upTo)]);
      } else points.push([x, loss(last)], [x, loss(upTo)]);
      last = upTo;
    });
    points.push([gauge, loss(last)]);
    return line()(points) ?? '';
  };
  const labels = spreadLabels(drawing, loss);
  return (
    <g class="profile">
      <text class="quiet" x="8" y={PROFILE_TOP + 4}>
        loss from A,
      </text>
      <text class="quiet" x="8" y={PROFILE_TOP + 20}>
        dB
      </text>
      <path class="axis" d={`M${ends[0]} ${PROFILE_BOTTOM}H${gauge}`} />
      {drawing.limit ? (
        <>
          <rect
            class="over"
            x={gauge}
            y={PROFILE_TOP - 6}
            width="60"
            height={loss(drawing.limit.loss) - PROFILE_TOP + 6}
          />
          <path class="gauge-limit" d={`M${gauge - 8} ${loss(drawing.limit.loss)}h76`} />
        </>
      ) : null}
      <path class="stair expected" d={stair(({ expected }) => expected?.upTo)} />
      <path class="stair allowed" d={stair(({ allowed }) => allowed?.upTo)} />
      <path
        class="axis"
        d={`M${gauge} ${PROFILE_TOP - 6}V${PROFILE_BOTTOM}M${gauge + 60} ${PROFILE_TOP - 6}V${PROFILE_BOTTOM}`}
      />
      {drawing.readings.map(({ loss: value, side, verdict }, index) => {
        const [from, to] = side === 'up' ? [8, 30] : side === 'down' ? [30, 52] : [8, 52];
        return (
          <path
            key={index}
            class={`gauge-reading tone-${lookOf(verdict).tone}`}
            d={`M${gauge + from} ${loss(value)}H${gauge + to}`}
          />
        );
      })}
      {labels.map(({ text, y, verdict, strength }) => (
        <text
          key={text}
          class={`gauge-label ${strength} ${verdict ? `text-${lookOf(verdict).tone}` : ''}`}
          x={gauge + 66}
          y={y + 4}
        >
          {text}
        </text>
      ))}
    </g>
  );
}

/** Labels at their height, at least 13 apart. */
function spreadLabels(drawing: Drawing, loss: LossScale) {
  const labels = drawing.labels
    .map((label) => ({ ...label, y: loss(label.loss) }))
    .sort((a, b) => a.y - b.y);
  labels.forEach((label, index) => {
    const above = labels[index - 1];
    if (above && label.y < above.y + 13) label.y = above.y + 13;
  });
  return labels;
}

function SignShape({ element, x }: { readonly element: DrawnElement; readonly x: number }) {
  switch (element.sign) {
    case 'pair':
      return (
        <path
          class="sign"
          d={`M${x - 7} ${PATH_Y - 7}h5.5v14h-5.5zM${x + 1.5} ${PATH_Y - 7}h5.5v14h-5.5z`}
        />
      );
    case 'plug':
      return <path class="sign" d={`M${x - 3} ${PATH_Y - 7}h5.5v14h-5.5z`} />;
    case 'fusion':
      return <path class="sign filled" d={`M${x - 6} ${PATH_Y}l6 -6l6 6l-6 6z`} />;
    case 'splice':
      return <path class="sign" d={`M${x - 6} ${PATH_Y}l6 -6l6 6l-6 6z`} />;
    case 'part':
      return <path class="sign" d={`M${x - 12} ${PATH_Y - 8}h24v16h-24z`} />;
    default:
      return element.crossing ? (
        <path
          class="sign"
          d={`M${x - 10} ${PATH_Y - 4}L${x + 10} ${PATH_Y + 4}M${x - 10} ${PATH_Y + 4}L${x + 10} ${PATH_Y - 4}`}
        />
      ) : null;
  }
}

function isJoint({ element }: Spread): boolean {
  return element.sign !== 'segment' && element.sign !== 'cord';
}

function shortened(text: string, most: number): string {
  return text.length <= most ? text : `${text.slice(0, most - 1)}…`;
}
