/** Set-ups and instruments behind the readings: with what, how referenced, how proven, how it held. */
import { microToNumber, toMetres } from '../../../../grammar/src/quantity/index.ts';
import type { Setup } from '../../model/types.ts';
import { micro, microInColumn, wavelength } from '../figures.ts';
import { launchInWords } from '../launch.ts';
import { type Block, type Cell, facts, heading } from '../paper/blocks.ts';
import type { Documented } from '../paper/plan.ts';
import { resultsIn } from './judged.ts';

/** Set-ups of all readings, those that no longer stand too, in order of their first use. */
export function setupsIn(subject: Documented): readonly Setup[] {
  const names = resultsIn(subject).flatMap(({ link, readings }) => [
    ...readings.flatMap(({ setup }) => setup ?? []),
    ...subject.plan.evidence(link.name).events.map(({ setup }) => setup),
    ...subject.plan.evidence(link.name).lengths.map(({ setup }) => setup),
  ]);
  return [...new Set(names)].flatMap((name) => subject.plan.setup(name) ?? []);
}

export function setupBlocks(setup: Setup): readonly Block[] {
  const { reference, direct, source, meter, pulse, averaging, range, index } = setup;
  const method = reference
    ? `${reference} reference${direct ? ', far plug straight into the meter' : ''}`
    : '';
  return [
    heading(3, setup.name, { note: setup.otdr ? 'reflectometer' : method }),
    facts([
      ['Source', instrumentInWords(source)],
      ['Meter', instrumentInWords(meter)],
      ['Launch condition', launchInWords(setup)],
      ['Pulse', pulse === undefined ? undefined : `${pulse / 1000} ns`],
      ['Averaging', averaging === undefined ? undefined : `${averaging / 1e12} s`],
      ['Range', range === undefined ? undefined : `${toMetres(range)} m`],
      [
        'Group index set',
        index.map(({ wavelength: at, value }) => `${value} at ${wavelength(at)}`).join(', ') ||
          undefined,
      ],
      ['Notes', setup.notes.join('; ') || undefined],
    ]),
    ...cordTable(setup),
    ...referenceTable(setup),
  ];
}

/** `S-3, LED, calibrated 2026-01-12, due 2027-01-12`. */
export function instrumentInWords(instrument: Setup['source']): string | undefined {
  if (!instrument) return undefined;
  const { text, light, wavelengths, floor, calibrated, due } = instrument;
  return [
    text,
    light,
    wavelengths.map(wavelength).join(', '),
    floor === undefined ? '' : `reads down to ${micro(floor)} dBm`,
    calibrated ? `calibrated ${calibrated.text}` : '',
    due ? `due ${due.text}` : '',
  ]
    .filter(Boolean)
    .join(', ');
}

function cordTable({ cords }: Setup): readonly Block[] {
  if (cords.length === 0) return [];
  return [
    {
      kind: 'table',
      caption: 'Cords',
      columns: [
        { head: 'cord' },
        { head: 'role' },
        { head: 'plugs' },
        { head: 'fibre' },
        { head: 'grade' },
        { head: 'length', align: 'right' },
        { head: 'proven at, dB', align: 'right' },
        { head: 'since', grows: true },
      ],
      rows: cords.map((cord): Cell[] => [
        { text: cord.name, look: 'strong' },
        cord.role,
        cord.connector,
        cord.fibre,
        cord.grade ?? '',
        cord.length === undefined ? '' : `${toMetres(cord.length)} m`,
        cord.verified === undefined ? '' : String(microToNumber(cord.verified)),
        cord.since?.text ?? '',
      ]),
    },
  ];
}

function referenceTable({ events }: Setup): readonly Block[] {
  if (events.length === 0) return [];
  return [
    {
      kind: 'table',
      caption: 'Reference, its checks, and what happened to it',
      columns: [
        { head: 'time' },
        { head: 'what' },
        { head: 'wavelength' },
        { head: 'power, dBm', align: 'right' },
        { head: 'from reference, dB', align: 'right' },
        { head: '', grows: true },
      ],
      rows: events.map((event, at): Cell[] => {
        switch (event.kind) {
          case 'taken':
          case 'checked':
            return [
              event.at.text,
              event.kind,
              wavelength(event.wavelength),
              microInColumn(event.power),
              event.kind === 'checked' ? driftAt(events, at) : '',
              '',
            ];
          case 'verified':
            return [
              event.at.text,
              'cord proven',
              '',
              '',
              '',
              `${event.cord}: ${microInColumn(event.loss)} dB`,
            ];
          case 'disturbed':
            return [event.at.text, 'disturbed', '', '', '', event.because ?? ''];
        }
        return [];
      }),
    },
  ];
}

/** Power of a check less that of the last reference before it at the same wavelength. */
function driftAt(events: Setup['events'], at: number): string {
  const check = events[at];
  if (check?.kind !== 'checked') return '';
  const reference = events
    .slice(0, at)
    .findLast((each) => each.kind === 'taken' && each.wavelength === check.wavelength);
  return reference?.kind === 'taken' ? signedInColumn(check.power - reference.power) : '';
}

/** What the light rose by, or fell. */
function signedInColumn(difference: number): string {
  return `${difference > 0 ? '+' : ''}${microInColumn(difference)}`;
}
