/** A mandrel that does not fit the core or the thickness of the launch cord, or is wound too often. */
import { C } from '../../../grammar/src/vocabulary/index.ts';
import type { MandrelDiameter, MandrelType, Setup, TestCord } from '../model/types.ts';
import type { Check, Found, SetupContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';
import { inMicrons, inMillimetres } from './figures.ts';

type Mandrel = NonNullable<NonNullable<Setup['launch']>['mandrel']>;

function* find({ setup }: SetupContext): Iterable<Found> {
  const used = setup.launch?.mandrel;
  if (!setup.launch || !used) return;
  const { place } = setup.launch;
  // One set-up is one mistake, however many launch cords it had.
  for (const cord of setup.cords) {
    const meant = cord.role === 'launch' ? cord.fibreType?.mandrel : undefined;
    const message = meant && wrong(used, meant, cord);
    if (!message) continue;
    yield {
      place,
      message,
      details: { setup: setup.name, mandrel: used.written, cord: cord.name },
    };
    return;
  }
}

function wrong(used: Mandrel, meant: MandrelType, cord: TestCord): string | undefined {
  const { type, diameter } = used;
  const fitting = meant.diameters.filter((one) => fits(one, cord));
  const what = `The launch cord ${cord.name} is ${cord.fibre}${cord.diameter === undefined ? '' : `, ${inMillimetres(cord.diameter)} thick`}`;
  if (type && (type.core !== meant.core || type.mode !== meant.mode)) {
    return `${what}, and the mandrel ${used.written} is for another core${type.core ? ` of ${inMicrons(type.core)}` : ''}. Take ${meant.name}, or correct the name.`;
  }
  if (diameter !== undefined && fitting.length > 0 && !fitting.some((one) => isNear(diameter, one)))
    return `${what}, and a mandrel of ${used.written} ${pull(diameter, fitting, meant)}: ${meant.name} asks for ${inWords(fitting)}. Wind the cord round one of that size and measure again, or correct the figure.`;
  const turns = (type ?? meant).turns;
  if (used.turns !== undefined && turns !== undefined && used.turns !== turns) {
    return `${what} and wound ${used.turns === 1 ? 'once' : `${used.turns} times`} round its mandrel, and ${meant.name} asks for ${turns} ${turns === 1 ? 'turn' : 'turns'}. Wind it so and measure again, or correct the figure.`;
  }
  return undefined;
}

/** What is asked of a cord of that thickness; of a cord that says none, all there is. */
const fits = (one: MandrelDiameter, cord: TestCord): boolean =>
  one.cord === undefined || cord.diameter === undefined || one.cord === cord.diameter;

/** Figures are exact to their last place: less than one of it away is no other size. */
const isNear = (diameter: number, one: MandrelDiameter): boolean =>
  Math.abs(diameter - one.diameter) < one.step;

/** Thinner bends harder: it strips light that the link would carry. */
function pull(
  diameter: number,
  fitting: readonly MandrelDiameter[],
  { mode }: MandrelType,
): string {
  const reads = (how: string) => (mode === C.multimode ? `, so that losses read ${how}` : '');
  if (fitting.every((one) => diameter < one.diameter)) return `is too thin${reads('low')}`;
  if (fitting.every((one) => diameter > one.diameter)) return `is too thick${reads('high')}`;
  return 'fits no cord of it';
}

function inWords(fitting: readonly MandrelDiameter[]): string {
  const all = [...new Set(fitting.map(({ diameter }) => diameter))].sort((a, b) => a - b);
  const words = all.map((diameter) => inMillimetres(diameter));
  return words.length < 2 ? `${words[0]}` : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}

const setupWith = (launch: string, thickness = ' diameter 3.0 mm') =>
  multimodeSetup
    .replace('launch      encircled-flux', `launch      ${launch}`)
    .replace(
      'TC-1 launch LC OM4 reference-grade',
      `TC-1 launch LC OM4 reference-grade${thickness}`,
    );

export const mandrelSizeWrong: Check = {
  name: 'mandrel-size-wrong',
  kind: 'doubt',
  severity: 'warning',
  title: 'The mandrel does not fit the launch cord',
  explanation:
    'A mandrel strips the light at the rim of the core, which a link would lose anyway. Its size goes with the core and with the thickness of the cord, since the fibre lies in its middle: too thin, and it takes light that a link would carry, so that losses read low; too thick, and they read high. ' +
    'All fibres of a batch are off by the same little, so that readings alone do not show it: what a set-up says of its mandrel does. A set-up whose cord does not say how thick it is is held against every size for its core. ' +
    'Less than one of the last place of a figure is no other size. A cord of fibre that bears bends defeats a mandrel of any size (from memory).',
  source:
    'TIA/EIA-568-B.1 and TIA/EIA-526-14-A as a public project’s specification quotes them: 20 mm for 62.5 µm and 25 mm for 50 µm, less the thickness of the cord, rounded up; five turns. Their effect on readings: common practice, no source.',
  bad: example(
    multimodePlan,
    multimodeLink,
    setupWith('mandrel 17 mm turns 5'),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    setupWith('mandrel 22 mm turns 5'),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  setup: find,
};
