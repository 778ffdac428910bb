import type {
  TextDocumentIdentifier,
  TextDocumentPositionParams,
} from 'vscode-languageserver-protocol';
import { printRounded } from '../../../../grammar/src/quantity/index.ts';
import type { LinkResult } from '../../evaluate/result.ts';
import { placeName } from '../../model/ways.ts';
import type { Plan } from '../../project/types.ts';
import { type Panel, panelsOf } from '../../report/sheet/walk.ts';
import { resultAt } from '../coverage.ts';
import { feature, subject } from '../feature.ts';
import { headingOf } from './grid.ts';
import { sameKey, type WantedKey, wantedOf } from './wanted.ts';

/** One reading that is to be typed, as it is asked for. */
export interface ToEnter extends WantedKey {
  /** Of which it is a reading. */
  readonly object: string;
  /** `OPS/R2, panel A`, where its end A is; empty where the plan does not say. */
  readonly panel: string;
  /** `fibre 7`, or the port of a tree's end. */
  readonly place: string;
  /** `850 nm A>B`. */
  readonly column: string;
  /** What the plug goes into, from A to B, where the plan names the ports. */
  readonly ports: string;
  /** `1.80 dB`; empty where nothing limits it. */
  readonly limit: string;
}

export interface ReadingsToEnter {
  readonly object: string;
  readonly title: string;
  /** Nothing is missing; these failed, were invalid or are older than work on their fibre. */
  readonly again: boolean;
  readonly present: number;
  readonly expected: number;
  readonly readings: readonly ToEnter[];
}

/** The readings to type for the link at the cursor; in none, of the first of the plan that lacks some. Null: there is none. */
export const readingsToEnter = feature<TextDocumentPositionParams, ReadingsToEnter | null>({
  method: 'linkwright/readingsToEnter',
  capabilities: {},
  answer(session, { textDocument, position }) {
    const found = resultAt(session, textDocument.uri, position);
    if (!found) return null;
    const result = found.result ?? firstLacking(found.plan);
    if (!result) return null;
    const { link, present, expected } = result;
    const { keys, again } = wantedOf(result);
    return {
      object: link.name,
      title: link.title ?? '',
      again,
      present,
      expected,
      readings: keys.map((key) => toEnter(result, key, session.settings.precision)),
    };
  },
});

/** More are not typed in one go, and an editor would not show them. */
const mostReadings = 2000;

/**
 * The readings to type of all links of a plan, panel by panel as a tester walks, the panel first
 * at which the link at the cursor begins. Null: no link of the plan wants any.
 */
export const readingsByPanel = feature<TextDocumentPositionParams, ReadingsToEnter | null>({
  method: 'linkwright/readingsByPanel',
  capabilities: {},
  answer(session, { textDocument, position }) {
    const found = resultAt(session, textDocument.uri, position);
    if (!found) return null;
    const { order, link } = found.plan.result;
    const results = order.flatMap((name) => link(name) ?? []);
    const wanted = results.map((result) => ({ result, ...wantedOf(result) }));
    const again = wanted.every(({ keys, again }) => again || keys.length === 0);
    const places = wanted
      .filter((each) => each.again === again)
      .flatMap(({ result, keys }) =>
        keys.map((key) => ({ result, key, port: portAtA(result, key.fibre) })),
      );
    const here = found.result ?? firstLacking(found.plan) ?? places[0]?.result;
    const panels = startingWith(panelsOf(places), (each) => each.result === here);
    const readings = panels
      .flatMap(({ places }) => places)
      .slice(0, mostReadings)
      .map(({ result, key }) => toEnter(result, key, session.settings.precision));
    if (readings.length === 0) return null;
    const { present, expected } = found.plan.result.totals;
    return { object: found.plan.result.title ?? '', title: '', again, present, expected, readings };
  },
});

export interface StandingParams {
  readonly textDocument: TextDocumentIdentifier;
  readonly readings: readonly (WantedKey & { readonly object: string })[];
}

/** Which of these readings stand in the text by now, whoever wrote them. */
export const readingsStanding = feature<StandingParams, readonly boolean[]>({
  method: 'linkwright/readingsStanding',
  capabilities: {},
  answer(session, { textDocument, readings }) {
    const result = subject(session, textDocument.uri)?.plan?.result;
    const made = new Map<string, LinkResult['readings']>();
    return readings.map(({ object, ...key }) => {
      const own =
        made.get(object) ??
        (result?.link(object)?.readings ?? []).filter(
          ({ attempt, current }) => attempt !== null && current,
        );
      made.set(object, own);
      return own.some((each) => sameKey(key, each));
    });
  },
});

/** Round the walk, from the panel of what is looked for. */
function startingWith<T>(panels: readonly Panel<T>[], is: (each: T) => boolean): Panel<T>[] {
  const first = Math.max(
    0,
    panels.findIndex(({ places }) => places.some(is)),
  );
  return [...panels.slice(first), ...panels.slice(0, first)];
}

function toEnter(result: LinkResult, key: WantedKey, precision: number): ToEnter {
  const port = portAtA(result, key.fibre);
  return {
    ...key,
    object: result.link.name,
    panel: port === '' ? '' : (panelsOf([{ port }])[0]?.name ?? ''),
    place: placeName(result.link, key.fibre),
    column: headingOf(key),
    ports: portsOf(result, key.fibre),
    limit: limitOf(result, key, precision),
  };
}

function portAtA({ fibres }: LinkResult, fibre: number): string {
  return fibres.find((each) => each.fibre === fibre)?.fromPort ?? '';
}

function firstLacking(plan: Plan): LinkResult | undefined {
  for (const name of plan.result.order) {
    const result = plan.result.link(name);
    if (result && result.present < result.expected) return result;
  }
  return undefined;
}

function portsOf({ fibres }: LinkResult, fibre: number): string {
  const { fromPort, toPort } = fibres.find((each) => each.fibre === fibre) ?? {};
  return [fromPort, toPort].filter(Boolean).join(' to ');
}

function limitOf({ wavelengths }: LinkResult, key: WantedKey, places: number): string {
  const at = wavelengths.find(
    ({ wavelength, direction }) =>
      wavelength === key.wavelength &&
      (direction === null || direction === undefined || direction === key.direction),
  );
  const value = at?.governing?.value;
  return value === undefined ? '' : `${printRounded(value, places)} dB`;
}
