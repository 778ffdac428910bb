/** The plan's head: what it is judged by, how far it has come, where it is worst. */
import { exactDb, type MicroDb } from '../../../grammar/src/quantity/index.ts';
import { type Verdict, verdicts } from '../evaluate/result.ts';
import type { LinkModel } from '../model/types.ts';
import { placeOfObject } from '../model/ways.ts';
import { decibels, key, listed, margin, micro, microToDb } from './figures.ts';
import type { TableView } from './question.ts';
import { noneHeld, reachFor, ticks } from './scale.ts';
import type { Subject } from './subject.ts';
import { type Summary, summaryOf } from './summary.ts';
import type { Head, ScaleView, TallyEntry } from './view.ts';

export interface Overall {
  readonly head: Head;
  readonly tally: readonly TallyEntry[];
  readonly scale: ScaleView;
}

export function overallOf(subject: Subject, view: TableView): Overall {
  const { result } = subject.plan;
  const summaries = result.order.flatMap((name) => {
    const link = result.link(name);
    return link ? [summaryOf(link)] : [];
  });
  return {
    head: headOf(subject, summaries),
    tally: tallyOf(summaries, view),
    scale: scaleOf(subject, summaries, view.reach),
  };
}

function headOf(subject: Subject, summaries: readonly Summary[]): Head {
  const { result } = subject.plan;
  const { totals } = result;
  const { precision } = subject.display;
  const repeat = summaries.reduce((sum, each) => sum + each.repeat, 0);
  const of = (kind: LinkModel['kind']) =>
    summaries.filter((each) => each.result.link.kind === kind).length;
  const { worst } = totals;
  const place = worst?.reading.reading?.place;
  const at = place && subject.plan.locate(place);
  return {
    title: result.title ?? 'Results',
    facts: factsOf(subject, summaries),
    ...(worst
      ? {
          worst: {
            text: `${margin(worst.margin, precision)} dB`,
            verdict: worst.reading.verdict,
            where: `${worst.link} ${placeOfObject(result.link(worst.link)?.link, worst.reading.fibre)}`,
            what: key(worst.reading),
            ...(at ? { at } : {}),
          },
        }
      : {}),
    sums: {
      links: of('link'),
      channels: of('channel'),
      rings: of('ring'),
      sections: of('section'),
      fibres: summaries.reduce((sum, each) => sum + each.result.fibres.length, 0),
      present: totals.present,
      expected: totals.expected,
      toMake: totals.counts.untested,
      toRepeat: repeat,
    },
  };
}

function factsOf(subject: Subject, summaries: readonly Summary[]): Head['facts'] {
  const uncertainty = uncertaintyOf(subject);
  const wanted = [...new Set(summaries.map((each) => each.wanted))].filter((each) => each > 0);
  const facts: [string, string][] = [
    ['limits', variety(summaries.map((each) => each.limits))],
    ['reference', variety(summaries.map((each) => each.reference))],
    ['directions', variety(summaries.map((each) => each.directions))],
    ['uncertainty', uncertainty],
    [
      'margin wanted',
      wanted.length === 0 ? '' : `${listed(wanted.map((each) => figure(each, subject)))} dB`,
    ],
  ];
  return facts.flatMap(([label, value]) => (value ? [{ label, value }] : []));
}

/** What is said of all, or of most: at most two, then how many more. */
function variety(values: readonly string[]): string {
  const counts = new Map<string, number>();
  for (const value of values) if (value) counts.set(value, (counts.get(value) ?? 0) + 1);
  const often = [...counts].sort((a, b) => b[1] - a[1]).map(([value]) => value);
  const rest = often.length - 2;
  return listed(rest > 0 ? [...often.slice(0, 2), `${rest} more`] : often);
}

function uncertaintyOf({ plan, display }: Subject): string {
  const all = [...new Set(plan.settings.uncertainty.map(({ loss }) => loss))];
  return all.length === 0 ? '' : `${listed(all.map((each) => figure(each, { display })))} dB`;
}

function figure(loss: MicroDb, { display }: Pick<Subject, 'display'>): string {
  const short = decibels(exactDb(loss), display.precision);
  return Number(short) * 1e6 === loss ? short : micro(loss);
}

function tallyOf(summaries: readonly Summary[], view: TableView): readonly TallyEntry[] {
  const counts = new Map<Verdict, number>();
  for (const { fibres } of summaries) {
    for (const [verdict, count] of fibres) counts.set(verdict, (counts.get(verdict) ?? 0) + count);
  }
  return verdicts.flatMap((verdict) => {
    const count = counts.get(verdict) ?? 0;
    const shown = !view.hidden.includes(verdict);
    return count > 0 || !shown ? [{ verdict, count, shown }] : [];
  });
}

function scaleOf(subject: Subject, summaries: readonly Summary[], atLeast: number): ScaleView {
  const held = [...noneHeld];
  let margins = 0;
  for (const summary of summaries) {
    margins += summary.margins;
    for (const [index, count] of summary.held.entries()) held[index] = (held[index] ?? 0) + count;
  }
  const reach = reachFor(held, margins, atLeast);
  const wanted = new Set(summaries.map((each) => each.wanted));
  const [only] = wanted;
  const uncertainty = uncertaintyOf(subject);
  return {
    reach,
    ticks: ticks(reach),
    ...(wanted.size === 1 && only !== undefined && only > 0 ? { wanted: microToDb(only) } : {}),
    ...(uncertainty ? { uncertainty: `± ${uncertainty}` } : {}),
  };
}
