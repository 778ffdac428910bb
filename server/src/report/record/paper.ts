/** The record as a document for paper. Its parts stand in the files beside this one. */
import { overallOf } from '../head.ts';
import { fingerprintOf } from '../json.ts';
import { type Block, type Cell, heading, type Paper, text } from '../paper/blocks.ts';
import { plainView } from '../question.ts';
import { cautions } from '../sheet/cautions.ts';
import { courseChart, marginChart } from './charts.ts';
import { coverBlocks } from './cover.ts';
import {
  answeredIn,
  concessionsIn,
  type Decision,
  exceptionsIn,
  retestsIn,
  untestedIn,
  withdrawalsIn,
  workIn,
} from './exceptions.ts';
import { resultsIn } from './judged.ts';
import { linkBlocks } from './links.ts';
import type { Recorded, RecordState } from './recorded.ts';
import { sealOf, writtenSeal } from './seal.ts';
import { setupBlocks, setupsIn } from './setups.ts';

export function recordPaper(recorded: Recorded, state: RecordState): Paper {
  const { plan, asOf } = recorded;
  const { title = 'Plan without a title', revision } = plan.settings;
  const { scale } = overallOf(recorded, plainView);
  const course = courseChart(recorded);
  return {
    title: `Acceptance record: ${title}`,
    foot: [
      title,
      revision && `revision ${revision.text}`,
      state.state === 'issued' ? `issued ${asOf}` : `draft of ${asOf}`,
      state.fingerprint.slice(0, 16),
    ]
      .filter(Boolean)
      .join(', '),
    ...(state.state === 'draft' ? { stamp: 'Draft' } : {}),
    seal: writtenSeal(sealOf(recorded, state)),
    blocks: [
      ...coverBlocks(recorded, state, scale),
      ...exceptionBlocks(recorded),
      heading(2, 'Readings by margin'),
      ...marginChart(recorded, scale),
      ...(course.length > 0 ? [heading(2, 'Readings in the order of measuring'), ...course] : []),
      heading(2, 'Links', { newPage: true }),
      text(
        'Limits are compared unrounded. Margin is limit less loss; U is the expanded uncertainty of the least margin. What passes is set plain, what does not is set heavy.',
      ),
      ...resultsIn(recorded).flatMap((result) => linkBlocks(recorded, result)),
      heading(2, 'Set-ups and instruments', { newPage: true }),
      ...setupsIn(recorded).flatMap(setupBlocks),
      ...answeredBlocks(recorded),
      ...filesBlocks(recorded),
      heading(2, 'Cautions'),
      text(cautions[0] ?? ''),
      text(cautions.at(-1) ?? ''),
    ],
  };
}

function exceptionBlocks(recorded: Recorded): readonly Block[] {
  const { precision } = recorded.display;
  const exceptions = exceptionsIn(recorded);
  return [
    heading(2, 'Exceptions'),
    ...tableOr('Every reading that stands is a plain pass, or there is none.', {
      columns: [
        { head: 'verdict' },
        { head: 'where' },
        { head: 'at' },
        { head: 'loss, dB', align: 'right' },
        { head: 'limit', align: 'right' },
        { head: 'margin', align: 'right' },
        { head: 'because', grows: true },
      ],
      rows: exceptions.map((each): Cell[] => [
        { text: each.verdict, verdict: each.verdict, look: 'strong' },
        `${each.object} ${each.place}`,
        each.what,
        each.loss,
        each.limit,
        each.margin,
        each.because,
      ]),
    }),
    ...decisions('Concessions', 'None.', concessionsIn(recorded)),
    ...decisions('Withdrawn', 'None.', withdrawalsIn(recorded)),
    heading(2, 'Read again'),
    ...tableOr('Nothing was read more than once.', {
      columns: [
        { head: 'where' },
        { head: 'at' },
        { head: `attempts in order, dB (${precision} decimals)`, grows: true },
      ],
      rows: retestsIn(recorded).map((each): Cell[] => [
        `${each.object} ${each.place}`,
        each.what,
        each.attempts.join('; '),
      ]),
    }),
    heading(2, 'Not tested'),
    ...tableOr('Every reading that the plan asks for was made.', {
      columns: [{ head: 'link' }, { head: 'what', grows: true }, { head: 'why', grows: true }],
      rows: untestedIn(recorded).map((each): Cell[] => [each.object, each.what, each.why]),
    }),
  ];
}

function decisions(title: string, none: string, all: readonly Decision[]): readonly Block[] {
  return [
    heading(2, title),
    ...tableOr(none, {
      columns: [
        { head: 'link' },
        { head: 'of' },
        { head: 'what' },
        { head: 'because', grows: true },
        { head: 'by' },
      ],
      rows: all.map((each): Cell[] => [each.object, each.of, each.what, each.because, each.by]),
    }),
  ];
}

type Rows = Omit<Extract<Block, { kind: 'table' }>, 'kind'>;

function tableOr(none: string, table: Rows): readonly Block[] {
  return table.rows.length === 0 ? [text(none)] : [{ kind: 'table', ...table }];
}

function answeredBlocks(recorded: Recorded): readonly Block[] {
  return [
    heading(2, 'Work done'),
    ...tableOr('None recorded.', {
      columns: [{ head: 'link' }, { head: 'what', grows: true }, { head: 'when' }, { head: 'by' }],
      rows: workIn(recorded).map((each): Cell[] => [each.object, each.what, each.on, each.by]),
    }),
    heading(2, 'Doubts answered'),
    ...tableOr('None.', {
      columns: [
        { head: 'of' },
        { head: 'finding' },
        { head: 'what was found', grows: true },
        { head: 'answer', grows: true },
      ],
      rows: answeredIn(recorded).map((each): Cell[] => [
        each.about,
        each.name,
        each.message,
        each.answer,
      ]),
    }),
  ];
}

function filesBlocks({ files }: Recorded): readonly Block[] {
  return [
    heading(2, 'Files', { note: 'SHA-256 over name and text of each' }),
    {
      kind: 'table',
      columns: [{ head: 'file', grows: true }, { head: 'fingerprint' }],
      rows: files.map((file): Cell[] => [file.path, fingerprintOf([file])]),
    },
  ];
}
