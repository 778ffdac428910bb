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

export const reflectometerMissing: Check = {
  name: 'reflectometer-missing',
  kind: 'contradiction',
  severity: 'error',
  title: 'Traces name a set-up that has no reflectometer',
  explanation:
    'Events come from a trace, and a trace from a reflectometer. A set-up of source and meter cannot have seen them: another set-up was meant, or its line is missing. Nothing of such traces is judged.',
  source: 'Common practice, no source.',
  bad: example(
    tracePlan,
    spliceLimits,
    traceLink,
    traceSetup.replace(/ {2}otdr .*\n/u, ''),
    traces('1  0    connector   0.31   0.28'),
  ),
  good: soundTrace,
  link: noticed(
    'reflectometer-missing',
    (d) =>
      `These traces name the set-up ${d.text('setup')}, which has no reflectometer, so they are not judged. Name the set-up they were made with, or write its otdr line.`,
  ),
};
