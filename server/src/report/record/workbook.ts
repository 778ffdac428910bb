/** The record as a workbook: numbers are numbers, texts are never formulas, heads stay while the rows are scrolled. */
import writeWorkbook, { type CellObject, type Sheet } from 'write-excel-file/universal';
import {
  microToNumber,
  toMetres,
  toNanometres,
  toNumberDb,
} from '../../../../grammar/src/quantity/index.ts';
import type { SetupEvent } from '../../model/types.ts';
import type { FieldValue } from '../fleet/table.ts';
import { fingerprintOf } from '../json.ts';
import { launchInWords } from '../launch.ts';
import {
  answeredIn,
  concessionsIn,
  exceptionsIn,
  retestsIn,
  untestedIn,
  withdrawalsIn,
  workIn,
} from './exceptions.ts';
import { judgedBy, resultsIn } from './judged.ts';
import type { Recorded, RecordState } from './recorded.ts';
import { recordColumns, recordRows } from './rows.ts';
import { sealOf, writtenSeal } from './seal.ts';
import { instrumentInWords, setupsIn } from './setups.ts';

/** Most characters that a cell of a workbook holds (ECMA-376 readers agree on 32,767). */
const mostCharacters = 32_000;
/** Rows above the data: the state, then the heads. */
const headRows = 2;

export async function recordWorkbook(recorded: Recorded, state: RecordState): Promise<Uint8Array> {
  const { plan, asOf } = recorded;
  const about = [
    state.state === 'issued' ? `Issued ${asOf}` : `Draft of ${asOf}, not issued`,
    plan.settings.title,
    plan.settings.revision && `revision ${plan.settings.revision.text}`,
  ]
    .filter(Boolean)
    .join(', ');
  const sheets = tablesOf(recorded, state).map(
    ({ name, heads, rows }): Sheet<Blob> => ({
      sheet: name,
      stickyRowsCount: headRows,
      columns: heads.map((head, index) => ({ width: widthOf(head, rows, index) })),
      data: [
        [{ value: about, type: String, fontWeight: 'bold' }],
        heads.map(
          (value): CellObject => ({
            value,
            type: String,
            fontWeight: 'bold',
            bottomBorderStyle: 'thin',
          }),
        ),
        ...rows.map((row) => row.map(cell)),
      ],
    }),
  );
  const blob = await writeWorkbook(sheets).toBlob();
  return new Uint8Array(await blob.arrayBuffer());
}

interface NamedTable {
  readonly name: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly FieldValue[])[];
}

function tablesOf(recorded: Recorded, state: RecordState): readonly NamedTable[] {
  const pairs = (all: readonly object[]) => all.map((each) => Object.values(each) as FieldValue[]);
  const all: readonly NamedTable[] = [
    { name: 'Record', heads: ['what', 'value'], rows: factsOf(recorded, state) },
    {
      name: 'Missing',
      heads: ['of', 'what'],
      rows: state.missing.map(({ of, what }) => [of, what]),
    },
    {
      name: 'Links',
      heads: [
        'name',
        'title',
        'verdict',
        'length_m',
        'readings',
        'expected',
        'limit_db',
        'governs',
        'least_margin_db',
      ],
      rows: linkRows(recorded),
    },
    {
      name: 'Readings',
      heads: recordColumns,
      rows: recordRows(recorded, state).map((row) => recordColumns.map((column) => row[column])),
    },
    {
      name: 'Exceptions',
      heads: ['object', 'place', 'at', 'loss', 'limit', 'margin', 'verdict', 'because'],
      rows: pairs(exceptionsIn(recorded)),
    },
    {
      name: 'Concessions',
      heads: ['object', 'of', 'what', 'because', 'by'],
      rows: pairs(concessionsIn(recorded)),
    },
    {
      name: 'Withdrawn',
      heads: ['object', 'of', 'what', 'because', 'by'],
      rows: pairs(withdrawalsIn(recorded)),
    },
    {
      name: 'Read again',
      heads: ['object', 'place', 'at', 'attempts'],
      rows: retestsIn(recorded).map(({ object, place, what, attempts }) => [
        object,
        place,
        what,
        attempts.join('; '),
      ]),
    },
    { name: 'Not tested', heads: ['object', 'what', 'why'], rows: pairs(untestedIn(recorded)) },
    { name: 'Set-ups', heads: ['set-up', 'what', 'value', 'time'], rows: setupRows(recorded) },
    { name: 'Work', heads: ['object', 'what', 'on', 'by'], rows: pairs(workIn(recorded)) },
    {
      name: 'Answered',
      heads: ['about', 'finding', 'found', 'answer'],
      rows: pairs(answeredIn(recorded)),
    },
    {
      name: 'Files',
      heads: ['file', 'fingerprint'],
      rows: recorded.files.map((file) => [file.path, fingerprintOf([file])]),
    },
  ];
  return all.filter(({ name, rows }) => rows.length > 0 || name === 'Readings');
}

function factsOf(recorded: Recorded, state: RecordState): readonly FieldValue[][] {
  const { plan, asOf, tool } = recorded;
  const { title, client, site, revision } = plan.settings;
  const seal = sealOf(recorded, state);
  const word = writtenSeal(seal);
  const rows: (readonly [string, string | undefined])[] = [
    ['State', state.state],
    ['Judged as of', asOf],
    ['Project', title],
    ['Client', client],
    ['Site', site],
    ['Revision', revision && [revision.text, revision.on].filter(Boolean).join(' of ')],
    ['Fingerprint', state.fingerprint],
    ['Made with', tool],
    ...judgedBy(recorded),
    // With the fingerprint of every file, as long as a cell holds it.
    ['Seal', word.length < mostCharacters ? word : writtenSeal({ ...seal, files: [] })],
  ];
  return rows.flatMap(([what, value]) => (value ? [[what, value]] : []));
}

function linkRows(recorded: Recorded): readonly FieldValue[][] {
  return resultsIn(recorded).map(
    ({ link, verdict, length, present, expected, worstMargin, wavelengths }) => {
      const limit = worstMargin?.reading.limit ?? wavelengths[0]?.governing;
      return [
        link.name,
        link.title ?? null,
        verdict,
        length === undefined ? null : toMetres(length),
        present,
        expected,
        limit?.value === undefined ? null : toNumberDb(limit.value),
        limit?.kind ?? null,
        worstMargin ? toNumberDb(worstMargin.margin) : null,
      ];
    },
  );
}

type SetupRow = readonly [what: string, value: FieldValue, time: string];

function setupRows(recorded: Recorded): readonly FieldValue[][] {
  return setupsIn(recorded).flatMap((setup) => {
    const { name, reference, source, meter, cords, events } = setup;
    const rows: readonly SetupRow[] = [
      ['reference', reference ?? '', ''],
      ['source', instrumentInWords(source) ?? '', ''],
      ['meter', instrumentInWords(meter) ?? '', ''],
      ['launch', launchInWords(setup) ?? '', ''],
      ...cords.map(
        (cord): SetupRow => [
          `${cord.role} cord`,
          [cord.name, cord.connector, cord.fibre, cord.grade].filter(Boolean).join(', '),
          cord.since?.text ?? '',
        ],
      ),
      ...cords.flatMap(({ name: cord, verified }): SetupRow[] =>
        verified === undefined ? [] : [[`${cord} proven at, dB`, microToNumber(verified), '']],
      ),
      ...events.map(eventRow),
    ];
    return rows.filter(([, value]) => value !== '').map((row) => [name, ...row]);
  });
}

function eventRow(event: SetupEvent): SetupRow {
  const { text } = event.at;
  switch (event.kind) {
    case 'taken':
    case 'checked':
      return [
        `${event.kind} at ${toNanometres(event.wavelength)} nm, dBm`,
        microToNumber(event.power),
        text,
      ];
    case 'verified':
      return [`${event.cord} proven at, dB`, microToNumber(event.loss), text];
    case 'disturbed':
      return ['disturbed', event.because ?? 'no reason said', text];
  }
}

/** Characters that XML cannot hold, and halves of characters. */
const unwritable = /(?![\t\n\r])\p{Cc}|[\uFFFE\uFFFF]|\p{Surrogate}/gu;

/** A text is told to be one, so that nothing is read as a formula. */
function cell(value: FieldValue): CellObject | null {
  switch (typeof value) {
    case 'number':
      return { value, type: Number, format: Number.isInteger(value) ? '0' : '0.00####' };
    case 'boolean':
      return { value, type: Boolean };
    case 'string':
      return value === ''
        ? null
        : { value: value.replaceAll(unwritable, '\uFFFD').slice(0, mostCharacters), type: String };
    default:
      return null;
  }
}

function widthOf(head: string, rows: NamedTable['rows'], index: number): number {
  const longest = rows
    .slice(0, 200)
    .reduce((most, row) => Math.max(most, String(row[index] ?? '').length), head.length);
  return Math.min(60, longest + 2);
}
