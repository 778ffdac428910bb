import { type Check, type Found, type LinkContext, noticed } from './check.ts';
import {
  example,
  soundTrace,
  spliceLimits,
  traceLink,
  tracePlan,
  traceSetup,
  traces,
} from './examples.ts';

const each = noticed('measured-twice', (d) =>
  d.has('rows')
    ? `Fibres ${d.text('fibres')}, ${d.text('what')}: two values each of ${d.text('tested')}, and nothing says which is the later. Look whether rows were pasted twice; else give each its time, or take one out.`
    : `Fibre ${d.text('fibre')}, ${d.text('what')}: two values of ${d.text('tested')}, and nothing says which is the later. Give each row its time, or take one out.`,
);

/** An event has a value for each direction: its row is one mistake. */
function* find(context: LinkContext): Iterable<Found> {
  const told = new Set<string>();
  for (const found of each(context)) {
    const key = `${found.place.block} ${found.message}`;
    if (told.has(key)) continue;
    told.add(key);
    yield found;
  }
}

export const measuredTwice: Check = {
  name: 'measured-twice',
  kind: 'doubt',
  severity: 'warning',
  title: 'The same was measured twice at one time',
  explanation:
    'Attempts are told apart by their time: the later one stands. Two of one key at one time have no order, so that nobody can tell which was meant to stand. Most often a row was pasted twice, or two rows lack their own time.',
  source: 'Our own rule: never the best of several, and the last by time stands.',
  bad: example(
    tracePlan,
    spliceLimits,
    traceLink,
    traceSetup,
    traces(
      '1  0    connector   0.31   0.28',
      '1  4.2  splice      0.05   0.09',
      '1  4.2  splice      0.15   0.19',
    ),
  ),
  good: soundTrace,
  link: find,
};
