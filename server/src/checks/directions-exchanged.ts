import { W } from '../../../grammar/src/vocabulary/index.ts';
import { type Check, noticed } from './check.ts';
import { example, multimodeLink, multimodePlan, multimodeSetup, readings } from './examples.ts';

const bothWays = multimodePlan
  .replace('directions  A>B', 'directions  both')
  .replace('850 nm, 1300 nm', '850 nm');

const steppedLink = multimodeLink
  .replace('1..2', '1..4')
  .replace('180 m OM4\n', '220 m OM1\n  connector   LC\n  segment     40 m OM4\n');

/** Each cord is of the fibre that it meets. */
const narrowing = multimodeSetup.replace('launch LC OM4', 'launch LC OM1');
const widening = multimodeSetup.replace('MM-1', 'MM-2').replace('receive LC OM4', 'receive LC OM1');

export const directionsExchanged: Check = {
  name: 'directions-exchanged',
  kind: 'doubt',
  severity: 'warning',
  title: 'All fibres lose more against the step of their cores',
  explanation:
    'Light loses most where it goes from a greater core into a smaller. Where every fibre loses more in the other direction, the headings of the directions are exchanged, or end A of the path is end B. Without a step in the cores both directions lose alike, and nothing tells one from the other.',
  source:
    'Loss of an overfilled step from a greater core to a smaller (published formula of core and aperture ratio); the bound is that of two directions that differ.',
  bounds: [W.asymmetry, W.exchanged],
  bad: example(
    bothWays,
    steppedLink,
    narrowing,
    widening,
    readings('MM-1', '850 nm A>B', ['1  1.41', '2  1.38', '3  1.45', '4  1.36']),
    readings('MM-2', '850 nm B>A', ['1  3.62', '2  3.55', '3  3.70', '4  3.58']),
  ),
  good: example(
    bothWays,
    steppedLink,
    narrowing,
    widening,
    readings('MM-1', '850 nm A>B', ['1  3.62', '2  3.55', '3  3.70', '4  3.58']),
    readings('MM-2', '850 nm B>A', ['1  1.41', '2  1.38', '3  1.45', '4  1.36']),
  ),
  link: noticed(
    'directions-exchanged',
    (d) =>
      `${d.beginReadings('is', 'are')} the wrong way round: light narrows its core ${d.text('narrowing')}, and loses ${d.db('less')} less there than the other way. Most likely the headings of both directions are exchanged, or ends A and B of the path are: look where the source stood.`,
  ),
};
