import type { Check, Found, SetupContext } from './check.ts';
import { soundTrace, traceSetup } from './examples.ts';

function* find({ setup }: SetupContext): Iterable<Found> {
  if (!setup.otdr || setup.index.length > 0) return;
  yield {
    place: setup.meter?.place ?? setup.namePlace,
    message: `${setup.name} does not say to which group index its reflectometer was set, so its distances stand as they were read: a hundredth in the index is seven metres in a kilometre. Write index, the wavelength and the value.`,
    details: { setup: setup.name },
  };
}

export const groupIndexMissing: Check = {
  name: 'group-index-missing',
  kind: 'note',
  severity: 'note',
  title: 'The group index of the reflectometer is not said',
  explanation:
    'A reflectometer measures time; the group index it was set to makes a distance of it. Where the index is known, a length is brought to that of the fibre and compared; where it is not, a wrong setting looks like a wrong cable. Read it from the instrument or from the head of the trace.',
  source:
    'Contracts name the index that traces are made with (read in secondary texts); distance = light speed × time / (2 × index).',
  bad: soundTrace.replace(traceSetup, traceSetup.replace(/ {2}index .*\n/u, '')),
  good: soundTrace,
  setup: find,
};
