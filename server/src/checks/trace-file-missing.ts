import { C } from '../../../grammar/src/vocabulary/index.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { soundTrace } from './examples.ts';

const wanted = soundTrace.replace('  zone', '  require     events\n  zone');

/** Once for each block of traces. */
function* find({ link, evidence }: LinkContext): Iterable<Found> {
  if (!link.terms.require.some(({ kind }) => kind === C.events)) return;
  const told = new Set<number>();
  for (const { trace, place, at } of evidence.events) {
    if (trace.length > 0 || told.has(place.block)) continue;
    told.add(place.block);
    yield {
      place: at.place,
      message: `The events of ${link.name} of ${at.text} do not say where the trace itself is kept, and the contract wants traces. Write trace and the name of the file.`,
      details: { link: link.name, tested: at.text },
    };
  }
}

export const traceFileMissing: Check = {
  name: 'trace-file-missing',
  kind: 'note',
  severity: 'note',
  title: 'Events without the trace they were read from',
  explanation:
    'Events are a reading of a trace: somebody set the markers. Who doubts one, or looks for a fault years later, wants the trace itself, as the instrument wrote it. Where traces are required, the block of events names the files they are kept in; they are handed over with the record.',
  source:
    'Public contracts ask for the instrument’s own files beside a summary (read in secondary texts).',
  bad: wanted,
  good: wanted.replace('  values', '  trace       "traces/kq-1.txt"\n  values'),
  link: find,
};
