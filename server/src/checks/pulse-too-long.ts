import { type Check, noticed } from './check.ts';
import {
  example,
  soundTrace,
  spliceLimits,
  traceLink,
  tracePlan,
  traceSetup,
  traces,
} from './examples.ts';
import { metresInWords } from './figures.ts';

export const pulseTooLong: Check = {
  name: 'pulse-too-long',
  kind: 'note',
  severity: 'note',
  title: 'Two events lie nearer than the pulse is long',
  explanation:
    'On a trace a pulse is as long as light goes in half its time. Two joints nearer than that show as one, so figures for each of them were not read off this trace, or a shorter pulse was used than the set-up says.',
  source: 'Length of a pulse in fibre, c·τ ÷ (2·n): textbook.',
  bad: example(
    tracePlan,
    spliceLimits,
    traceLink,
    traceSetup.replace('100 ns', '10 us'),
    traces('1  4.2  splice      0.05   0.09', '1  4.6  splice      0.05   0.06'),
  ),
  good: soundTrace,
  link: noticed(
    'pulse-too-long',
    (d) =>
      `Two events of fibre ${d.text('fibre')} lie ${metresInWords(d.number('apart'))} apart, and a pulse of ${d.text('pulse')} ns is ${metresInWords(Math.round(d.number('length') * 10) / 10)} long: they show as one. Look which pulse was used.`,
  ),
};
