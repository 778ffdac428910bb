/** A plan of one link that is traced: two pairs, and a splice 2 km along its 5 km. */
import type { LinkResult } from '../../server/src/evaluate/index.ts';
import { doubts, judged } from '../published/judged.ts';

interface Parts {
  readonly plan?: string;
  readonly link?: string;
  readonly setup?: string;
  readonly more?: string;
  readonly columns?: string;
}

/** The plan as a text, with these rows of events and what else a test wants in it. */
export const tracedPlan = (
  rows: string,
  { plan = '', link = '', setup = '', more = '', columns }: Parts = {},
) => `
plan "Traces" {
  limits      SET
  measure     1550 nm
  directions  both
  uncertainty 0.20 dB
${plan}}

limits SET {
  policy      counting
  fibre       GLASS 1550 nm 0.3 dB/km
  connector   any 0.5 dB
  connector   any 0.2 dB reference
  splice      any 0.2 dB
  return-loss PAIR min 45 dB
}

fibre GLASS {
  mode        single-mode core 9 um
}

connector PAIR {
  loss        typ 0.2 dB
}

splice WELD {
  loss        typ 0.05 dB
}

setup TRACE {
  otdr        "T1"
${setup}}

link KQ-1 {
  from        A:01..02
  to          B:01..02
  connector   PAIR
  segment     2 km GLASS
  splice      WELD at "pit 4"
  segment     3 km GLASS
  connector   PAIR
${link}}

events KQ-1 {
  setup       TRACE
  tested      2026-05-20 08:40 by "T. Holm"
  values      loss in dB
  values      reflectance in dB
  columns fibre, at in km, kind, ${columns ?? '1550 nm A>B, 1550 nm B>A'}
${rows}
}
${more}`;

/** Its link as it is judged. */
export const traced = (rows: string, parts?: Parts) =>
  judged(tracedPlan(rows, parts), '2026-06-01 12:00').link('KQ-1');

/** What is said of traces alone: that the link has no readings yet is another matter. */
export const said = (result: LinkResult) =>
  doubts(result).filter((name) => name !== 'readings-missing');
