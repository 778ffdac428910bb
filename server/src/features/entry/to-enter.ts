import type { TextDocumentPositionParams } from 'vscode-languageserver-protocol';
import { printRounded } from '../../../../grammar/src/quantity/index.ts';
import type { LinkResult } from '../../evaluate/result.ts';
import { placeName } from '../../model/ways.ts';
import type { Plan } from '../../project/types.ts';
import { resultAt } from '../coverage.ts';
import { feature } from '../feature.ts';
import { headingOf } from './grid.ts';
import { type WantedKey, wantedOf } from './wanted.ts';

/** One reading that is to be typed, as it is asked for. */
export interface ToEnter extends WantedKey {
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
    const { precision } = session.settings;
    return {
      object: link.name,
      title: link.title ?? '',
      again,
      present,
      expected,
      readings: keys.map((key) => ({
        ...key,
        place: placeName(link, key.fibre),
        column: headingOf(key),
        ports: portsOf(result, key.fibre),
        limit: limitOf(result, key, precision),
      })),
    };
  },
});

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
