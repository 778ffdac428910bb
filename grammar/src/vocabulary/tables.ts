/** The tables that blocks end in: which headings stand there, and what a cell under each holds. */
import {
  type Column,
  type Context,
  choice,
  DATE,
  LEN,
  N,
  refers,
  type SlotKind,
  type TableSpec,
  TEXT,
  TIME,
  type WordEntry,
} from './kinds.ts';
import { pathWords } from './paths.ts';
import { planWords } from './plan.ts';
import { C, W } from './spelling.ts';

const remark: Column = {
  word: W.remark,
  kinds: [TEXT],
  doc: 'A remark in quotes. As the last column it may be left out of a row.',
};

const object: Column = {
  word: W.link,
  kinds: [refers('object')],
  first: true,
  doc: 'The link, channel or cable of this row, where the block names none.',
};
const fibre: Column = {
  word: W.fibre,
  kinds: [N],
  first: true,
  doc: 'The fibre, by the object’s own number. One row names one fibre.',
};
const end: Column = {
  word: W.end,
  kinds: [refers('port')],
  first: true,
  doc: 'The end of a tree, by its port.',
};
const who: readonly Column[] = [
  {
    word: W.time,
    kinds: [TIME, DATE],
    doc: 'When the row was measured, on the day of `tested`; after midnight with its date.',
  },
  { word: W.by, kinds: [TEXT], doc: 'Who measured it, if not the one named in `tested`.' },
  remark,
];

/** Words of a link or channel that head a column: the cell is their first argument. */
function rowColumns(context: Context): Column[] {
  return [...pathWords, ...planWords]
    .filter((entry) => entry.contexts.includes(context) && isRowWord(entry))
    .map((entry) => {
      const kinds = entry.forms[0].slots.find((slot) => slot.keyword === undefined)?.kinds ?? [];
      return { word: entry.word, kinds, ...dimensionOf(kinds), doc: entry.doc };
    });
}

const rowWords: readonly string[] = [
  W.from,
  W.to,
  W.fibres,
  W.was,
  W.carries,
  W.limits,
  W.compare,
  W.margin,
  W.measure,
  W.directions,
  W.reference,
  W.spare,
  W.wavelength,
];
const isRowWord = (entry: WordEntry): boolean => rowWords.includes(entry.word);

function dimensionOf(kinds: readonly SlotKind[]): Pick<Column, 'dimension'> {
  const quantity = kinds.find((kind) => kind.kind === 'quantity');
  return quantity ? { dimension: quantity.dimension } : {};
}

const title: Column = { word: W.title, kinds: [TEXT], doc: 'What it is, in words.' };
const note: Column = { word: W.note, kinds: [TEXT], doc: 'A remark for people.' };

export const tables: readonly TableSpec[] = [
  {
    context: 'links',
    required: true,
    columns: [
      {
        word: W.link,
        kinds: [{ kind: 'name', of: ['link'], declares: true }],
        first: true,
        doc: 'The name of the row’s link.',
      },
      title,
      ...rowColumns('link'),
      note,
      remark,
    ],
    holes: true,
  },
  {
    context: 'channels',
    required: true,
    columns: [
      {
        word: W.channel,
        kinds: [{ kind: 'name', of: ['channel'], declares: true }],
        first: true,
        doc: 'The name of the row’s channel.',
      },
      title,
      ...rowColumns('channel'),
      note,
      remark,
    ],
    holes: true,
  },
  {
    context: 'readings',
    required: true,
    columns: [
      object,
      fibre,
      end,
      {
        word: W.length,
        kinds: [LEN],
        dimension: 'length',
        doc: 'The length that was measured.',
      },
      {
        word: W.seen,
        kinds: [refers('port')],
        doc: 'The port where the light came out.',
      },
      ...who,
    ],
    readings: true,
  },
  {
    context: 'events',
    required: true,
    columns: [
      object,
      fibre,
      end,
      {
        word: W.at,
        kinds: [LEN],
        dimension: 'length',
        doc: 'How far along the fibre from end A the event lies.',
      },
      {
        word: W.kind,
        kinds: [choice(C.connector, C.splice, C.bend, C.splitter, C.reflection, C.end)],
        doc: 'What the event is.',
      },
      ...who,
    ],
    readings: true,
  },
  {
    context: 'inspection',
    required: true,
    columns: [
      object,
      fibre,
      end,
      {
        word: W.endA,
        kinds: [choice(C.pass, C.fail, C.cleaned)],
        doc: 'The end face at A. `cleaned` alone says that it was cleaned and not looked at since.',
      },
      {
        word: W.endB,
        kinds: [choice(C.pass, C.fail, C.cleaned)],
        doc: 'The end face at B.',
      },
      ...who,
    ],
  },
];
