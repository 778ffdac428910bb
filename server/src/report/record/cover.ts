/** The first page of a record: what it is about, its state, how it was judged, what came out, who signs. */
import type { LinkResult } from '../../evaluate/result.ts';
import { count, counted, decibels, length, listed, margin } from '../figures.ts';
import { type Block, type Cell, facts, heading, list, text } from '../paper/blocks.ts';
import { stripHeadSvg, stripSvg } from '../paper/strip-svg.ts';
import { linkLanes } from '../strip.ts';
import { lookOf, rankOf } from '../verdicts.ts';
import type { ScaleView } from '../view.ts';
import { judgedBy, resultsIn } from './judged.ts';
import type { Recorded, RecordState } from './recorded.ts';

const stripWidth = 150;

export function coverBlocks(
  recorded: Recorded,
  state: RecordState,
  scale: ScaleView,
): readonly Block[] {
  const { plan, asOf, tool, files } = recorded;
  const { title, client, site, revision, zone } = plan.settings;
  return [
    stateBox(state, asOf),
    heading(1, 'Acceptance record', { note: title ?? 'plan without a title' }),
    heading(2, 'Job'),
    facts([
      ['Project', title],
      ['Client', client],
      ['Site', site],
      ['Revision', revision && [revision.text, revision.on].filter(Boolean).join(' of ')],
      ['Judged as of', [asOf, zone && `clock of the site, ${zone}`].filter(Boolean).join(', ')],
      [
        'Plan',
        `${files[0]?.path ?? ''}${files.length > 1 ? ` and ${files.length - 1} more files, listed at the end` : ''}`,
      ],
      ['Fingerprint', state.fingerprint],
      ['Made with', tool],
    ]),
    heading(2, 'How it was tested and judged'),
    facts(judgedBy(recorded)),
    heading(2, 'Result'),
    text(sentenceOf(recorded)),
    linkTable(recorded, scale),
    ...(state.missing.length > 0 ? missingBlocks(state) : []),
    heading(2, 'Signed'),
    text(
      'Tested as this record says, with the set-ups and instruments named in it; accepted as it stands, with its exceptions and concessions.',
    ),
    {
      kind: 'blanks',
      labels: [
        'Tester, name and date',
        'Signature',
        'Supervisor, name and date',
        'Signature',
        'Customer, name and date',
        'Signature',
      ],
    },
  ];
}

function stateBox({ state, missing }: RecordState, asOf: string): Block {
  if (state === 'issued') return { kind: 'box', title: 'Issued', lines: [asOf] };
  return {
    kind: 'box',
    title: 'Draft',
    lines: [
      missing.length === 0
        ? 'Nothing is missing; it has not been issued.'
        : `${counted(missing.length, 'thing')} missing, listed below. Not to be relied on.`,
      asOf,
    ],
  };
}

function missingBlocks({ missing }: RecordState): readonly Block[] {
  return [
    heading(2, 'Missing before it can be issued'),
    list(missing.map(({ of, what }) => `${of}: ${what}`)),
  ];
}

/** `70 links, 561 of 576 readings made. 540 pass, 12 conceded …` */
export function sentenceOf({ plan, display }: Recorded): string {
  const { totals } = plan.result;
  const verdicts = Object.entries(totals.counts) as [keyof typeof totals.counts, number][];
  const parts = verdicts
    .filter(([, many]) => many > 0)
    .sort(([a], [b]) => rankOf(b) - rankOf(a))
    .map(([verdict, many]) => `${count(many)} ${lookOf(verdict).word}`);
  const worst = totals.worst
    ? ` The least margin is ${margin(totals.worst.margin, display.precision)} dB, at ${totals.worst.link}.`
    : '';
  return `${counted(totals.links, 'link')}, ${count(totals.present)} of ${count(totals.expected)} readings made: ${listed(parts) || 'none'}.${worst} ${totals.accepted ? 'Everything the plan asks for is accepted.' : 'Not everything the plan asks for is accepted.'}`;
}

function linkTable(recorded: Recorded, scale: ScaleView): Block {
  const results = [...resultsIn(recorded)].sort((a, b) => rankOf(a.verdict) - rankOf(b.verdict));
  return {
    kind: 'table',
    columns: [
      { head: 'verdict' },
      { head: 'link', grows: true },
      { head: 'length', align: 'right' },
      { head: 'readings', align: 'right' },
      { head: 'limit', align: 'right' },
      { head: 'governs' },
      { head: 'margins, dB' },
      { head: 'least', align: 'right' },
    ],
    rows: [
      [
        '',
        '',
        '',
        '',
        '',
        '',
        { ...stripHeadSvg(scale, stripWidth), says: 'scale of margins' },
        '',
      ],
      ...results.map((result) => linkRow(recorded, result, scale)),
    ],
  };
}

function linkRow({ display }: Recorded, result: LinkResult, scale: ScaleView): readonly Cell[] {
  const { link, verdict, worstMargin, present, expected } = result;
  const limit = worstMargin?.reading.limit ?? result.wavelengths[0]?.governing;
  const lanes = linkLanes(result, scale.reach);
  const least = worstMargin ? margin(worstMargin.margin, display.precision) : '';
  const word = lookOf(verdict).word;
  return [
    { text: word, verdict, ...(verdict === 'pass' ? {} : { look: 'strong' as const }) },
    link.title && link.title.length < 30 ? `${link.name}, ${link.title}` : link.name,
    result.length === undefined ? '' : length(result.length, display),
    `${present}/${expected}`,
    limit?.value === undefined ? '' : decibels(limit.value, display.precision),
    limit ? `${limit.kind}${limit.recalled ? ', recalled' : ''}` : '',
    lanes.length === 0
      ? ''
      : {
          ...stripSvg(lanes, scale.reach, stripWidth),
          says: `${link.name}: ${word}, least margin ${least || 'none'}`,
        },
    least,
  ];
}
