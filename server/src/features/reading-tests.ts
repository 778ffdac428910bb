/**
 * Links and fibres as an editor's list of tests shows them: a fibre passes, fails
 * or waits as its readings do, and says at the reading why. The list asks when it
 * is shown; it is told what has changed since it asked last, so that an answer is
 * as large as the change.
 */
import type { Location } from 'vscode-languageserver-protocol';
import { type LinkResult, type ReadingResult, type Verdict, verdicts } from '../evaluate/result.ts';
import { placeName } from '../model/ways.ts';
import type { Plan } from '../project/types.ts';
import { limitWords, lossBeside } from '../report/figures.ts';
import { feature } from './feature.ts';
import { linkInWords, readingInWords, rowInWords, verdictInWords } from './wording.ts';

/** What a test comes to; one that waits for a reading, or whose reading no longer counts, is skipped. */
export type Outcome = 'passed' | 'failed' | 'skipped';

export interface LinkTest {
  readonly name: string;
  readonly at: Location | null;
  readonly outcome: Outcome;
  /** Title, verdict, limit and least margin. */
  readonly says: string;
}

export interface FibreTest {
  readonly fibre: number;
  /** `fibre 7`, or the port of that end of a tree. */
  readonly label: string;
  /** Its row of readings; of one without, its link. */
  readonly at: Location | null;
  readonly outcome: Outcome;
  readonly says: string;
  /** One for each reading that fails, at its place. */
  readonly messages: readonly { readonly text: string; readonly at: Location | null }[];
}

export interface ReadingTests {
  /** To be handed in with the next question. */
  readonly upTo: number;
  readonly plans: readonly {
    readonly root: string;
    readonly title: string | null;
    /** Every link, in order of the text. */
    readonly names: readonly string[];
    /** Those that changed or moved. */
    readonly changed: readonly LinkTest[];
  }[];
}

/** Every plan, with the links that are not as they were. */
export const readingTests = feature<{ readonly since: number }, ReadingTests>({
  method: 'linkwright/readingTests',
  capabilities: {},
  answer(session, { since }) {
    const plans = session.project.plans.map((plan) => {
      const results = plan.result.order.flatMap((name) => plan.result.link(name) ?? []);
      return {
        root: plan.root,
        title: plan.result.title ?? null,
        names: results.map(({ link }) => link.name),
        changed: results.flatMap((result) => {
          const at = locationOf(plan, result);
          return editionOf(result, at) > since
            ? [linkTest(result, at, session.settings.precision)]
            : [];
        }),
      };
    });
    return { upTo: latest, plans };
  },
});

/** The fibres of one link; null where it is no longer there. */
export const fibreTests = feature<
  { readonly root: string; readonly name: string },
  readonly FibreTest[] | null
>({
  method: 'linkwright/fibreTests',
  capabilities: {},
  answer(session, { root, name }) {
    const plan = session.project.plans.find((each) => each.root === root);
    const result = plan?.result.link(name);
    if (!plan || !result) return null;
    return result.fibres.map((fibre) => fibreTest(plan, result, fibre, session.settings.precision));
  },
});

interface Edition {
  readonly number: number;
  readonly stood: string;
}

let latest = 0;
const editions = new WeakMap<LinkResult, Edition>();

/** A result is another object as soon as anything of it is judged anew. */
function editionOf(result: LinkResult, at: Location | null): number {
  const stands = at ? `${at.uri} ${at.range.start.line}` : '';
  const known = editions.get(result);
  if (known?.stood === stands) return known.number;
  latest += 1;
  editions.set(result, { number: latest, stood: stands });
  return latest;
}

function locationOf(plan: Plan, { link }: LinkResult): Location | null {
  return plan.locate(link.row ?? link.namePlace) ?? null;
}

function linkTest(result: LinkResult, at: Location | null, places: number): LinkTest {
  const verdict = worstOf([result.verdict, ...reflected(result).map((each) => each.verdict)]);
  return {
    name: result.link.name,
    at,
    outcome: outcomeOf(verdict),
    says: [result.link.title, verdictInWords(verdict), linkInWords(result, places)]
      .filter(Boolean)
      .join(' · '),
  };
}

function fibreTest(
  plan: Plan,
  result: LinkResult,
  { fibre, verdict, current }: LinkResult['fibres'][number],
  places: number,
): FibreTest {
  const readings = [...current, ...reflected(result).filter((each) => each.fibre === fibre)];
  const outcome = outcomeOf(worstOf([verdict, ...readings.map((each) => each.verdict)]));
  const row = readings.find(({ reading }) => reading)?.reading?.row;
  const toRead = current.filter((each) => each.attempt === null && each.expectedSet).length;
  return {
    fibre,
    label: placeName(result.link, fibre),
    at: (row && plan.locate(row)) ?? locationOf(plan, result),
    outcome,
    says:
      [rowInWords(readings, places), toRead > 0 && `${toRead} to read`]
        .filter(Boolean)
        .join(', ') || verdictInWords(verdict),
    messages: readings
      .filter((each) => outcomeOf(each.verdict) === 'failed')
      .map((each) => ({
        text: messageOf(each, places),
        at: (each.reading && plan.locate(each.reading.place)) ?? null,
      })),
  };
}

/** `fail, 0.27 over the limit at 850 nm A>B: 2.31 dB read, limit 2.04 dB (components)`. */
function messageOf(reading: ReadingResult, places: number): string {
  const { loss, limit, margin } = reading;
  const words = readingInWords(reading, places);
  if (margin === undefined || loss === undefined || limit?.value === undefined) return words;
  return `${words}: ${lossBeside(loss, limit.value, places)} dB read, ${limitWords(limit, places)}`;
}

/** Reflectances that stand. */
function reflected({ reflectances }: LinkResult): readonly ReadingResult[] {
  return reflectances.filter(({ current }) => current);
}

function worstOf(all: readonly Verdict[]): Verdict {
  return verdicts.find((verdict) => all.includes(verdict)) ?? 'pass';
}

function outcomeOf(verdict: Verdict): Outcome {
  switch (verdict) {
    case 'pass':
    case 'marginal-pass':
    case 'conceded':
      return 'passed';
    case 'fail':
    case 'marginal-fail':
    case 'invalid':
      return 'failed';
    case 'stale':
    case 'untested':
    case 'not-judged':
      return 'skipped';
  }
}
