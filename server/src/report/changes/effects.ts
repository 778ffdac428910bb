/**
 * What one change does, folded for reading: readings of an object that fare
 * alike are one row, the worst of them in front. Never a row per reading.
 */
import type { ExactDb } from '../../../../grammar/src/quantity/index.ts';
import type { Effect, Standing } from '../../compare/types.ts';
import type { Verdict } from '../../evaluate/result.ts';
import { numbersInWords } from '../../model/numbers.ts';
import {
  type Display,
  key as keyInWords,
  length,
  margin as marginText,
  roundedApart,
  toDb,
  wavelength,
} from '../figures.ts';
import { lookOf } from '../verdicts.ts';
import type { Side } from '../view.ts';
import { marginsApart, moveOf } from './moves.ts';
import type { Placer } from './places.ts';
import type { EffectRow, MarginAt } from './view.ts';

type Reading = Extract<Effect, { kind: 'reading' }>;
type Design = Extract<Effect, { kind: 'design' }>;
type Application = Extract<Effect, { kind: 'application' }>;
type Whole = Extract<Effect, { kind: 'object' }>;

/** Rows of one change: those that move a verdict first, else in the order given. */
export function effectRows(
  effects: readonly Effect[],
  place: Placer,
  display: Display,
): readonly EffectRow[] {
  const rows: EffectRow[] = [];
  const measured = new Set<string>();
  for (const group of alike(effects)) {
    const row = readingRow(group, place, display);
    rows.push(row);
    if (row.was || row.now || row.moved) measured.add(row.object);
  }
  for (const group of byObject(effects.filter((each) => each.kind === 'design'))) {
    const row = designRow(group, display);
    if (row && !measured.has(row.object)) {
      measured.add(row.object);
      rows.push(row);
    }
  }
  for (const each of effects) {
    if (each.kind === 'application') rows.push(applicationRow(each, display));
    if (each.kind === 'object' && !measured.has(each.object)) {
      const row = wholeRow(each, display);
      if (row) rows.push(row);
    }
  }
  return [...rows.filter(({ moved }) => moved), ...rows.filter(({ moved }) => !moved)];
}

/** Readings by object and by what their verdict was and is. */
function alike(effects: readonly Effect[]): Iterable<readonly Reading[]> {
  const groups = new Map<string, Reading[]>();
  for (const each of effects) {
    if (each.kind !== 'reading') continue;
    const { object, before, after } = each;
    const name = JSON.stringify([object, before?.verdict, after?.verdict]);
    const group = groups.get(name);
    if (group) group.push(each);
    else groups.set(name, [each]);
  }
  return groups.values();
}

function byObject<Kind extends Effect>(effects: readonly Kind[]): Iterable<readonly Kind[]> {
  const groups = new Map<string, Kind[]>();
  for (const each of effects) groups.set(each.object, [...(groups.get(each.object) ?? []), each]);
  return groups.values();
}

function readingRow(group: readonly Reading[], place: Placer, { precision }: Display): EffectRow {
  const worst = group.reduce((a, b) => (least(b) < least(a) ? b : a));
  const { object, before, after, key } = worst;
  const fibres = [...new Set(group.map((each) => each.key.fibre))].sort((a, b) => a - b);
  const ends = [...new Set(group.flatMap(({ end }) => end ?? []))];
  const named = ends.length > 0 && ends.length <= 2 ? ends.join(', ') : numbersInWords(fibres);
  const wave = keyInWords(key);
  const quantity = key.quantity === 'loss' ? '' : `, ${key.quantity}`;
  const which =
    group.length === 1 ? `${wave}${quantity}` : `worst of ${group.length}, ${wave}${quantity}`;
  const margins = marginPair(before?.margin, after?.margin, precision);
  const moved = before?.verdict !== after?.verdict;
  const standing = after?.place ?? undefined;
  const at = place(standing ?? before?.place, standing ? 'now' : 'was');
  return {
    key: `reading ${object} ${before?.verdict} ${after?.verdict}`,
    object,
    fibres: named,
    what: which,
    ...(before ? { before: before.verdict } : {}),
    ...(after ? { after: after.verdict } : {}),
    moved,
    readings: group.length,
    ...margins,
    side: sideOf(key.direction),
    ...(at ? { place: at } : {}),
    spoken: spoken(
      `${object} ${ends.length > 0 ? '' : 'fibre '}${named}`,
      which,
      verdictWords(before, after),
      margins,
    ),
  };
}

function least({ before, after }: Reading): number {
  const margin = after?.margin ?? before?.margin;
  return margin === undefined ? Number.POSITIVE_INFINITY : toDb(margin);
}

function sideOf(direction: string | undefined): Side {
  return direction === undefined ? 'both' : direction === 'A>B' ? 'up' : 'down';
}

/** Of wavelengths at which the margin moves the one that leaves least; where it moves at none, what the loss becomes. */
function designRow(group: readonly Design[], { precision }: Display): EffectRow | undefined {
  const leastOf = ({ before, after }: Design) => {
    const margin = after?.margin ?? before?.margin;
    return margin === undefined ? Number.POSITIVE_INFINITY : toDb(margin);
  };
  const moved = group.filter(({ before, after }) => before?.margin !== after?.margin);
  if (moved.length === 0) return lossRow(group, precision);
  const worst = moved.reduce((a, b) => (leastOf(b) < leastOf(a) ? b : a));
  const { object, before, after } = worst;
  const margins = marginPair(before?.margin, after?.margin, precision);
  const what = [wavelength(worst.wavelength), worst.direction, worst.way].filter(Boolean).join(' ');
  const words = 'by design';
  return {
    key: `design ${object}`,
    object,
    fibres: '',
    what,
    words,
    moved: false,
    readings: 0,
    ...margins,
    side: 'both',
    spoken: spoken(object, what, words, margins),
  };
}

/** A loss by design that grows with its limit: the margin stays. */
function lossRow(group: readonly Design[], precision: number): EffectRow | undefined {
  for (const figure of ['worst', 'expected'] as const) {
    const found = group.find(({ before, after }) => before?.[figure] !== after?.[figure]);
    const [was, now] = [found?.before?.[figure], found?.after?.[figure]];
    if (!found || was === undefined || now === undefined) continue;
    const { object, direction, way, after } = found;
    const light = [wavelength(found.wavelength), direction, way].filter(Boolean).join(' ');
    const loss = `${figure} loss ${roundedApart(was, now, precision)}, now ${roundedApart(now, was, precision)} dB`;
    const what = `${light}, ${loss}`;
    const stays =
      after?.margin === undefined ? '' : `, margin ${marginText(after.margin, precision)} stays`;
    const words = `by design${stays}`;
    return {
      key: `design ${object}`,
      object,
      fibres: '',
      what,
      words,
      moved: false,
      readings: 0,
      side: 'both',
      spoken: spoken(object, what, words, {}),
    };
  }
  return undefined;
}

function applicationRow(effect: Application, { precision }: Display): EffectRow {
  const { object, application, before, after, way } = effect;
  const moved = before?.support !== after?.support;
  const words = moved
    ? `${application}: ${before?.support ?? 'not asked for'}, now ${after?.support ?? 'not asked for'}`
    : `${application} ${after?.support}`;
  const power = before?.powerMargin ?? after?.powerMargin;
  const [was, now] = marginsApart(before?.powerMargin, after?.powerMargin, precision);
  const what = [way, power === undefined ? '' : `power margin ${was}, now ${now}`]
    .filter(Boolean)
    .join(' ');
  return {
    key: `application ${object} ${application} ${way}`,
    object,
    fibres: '',
    what,
    words,
    moved,
    readings: 0,
    side: 'both',
    spoken: spoken(object, what, words, {}),
  };
}

function notAccepted([first, ...others]: readonly string[]): string {
  if (first === undefined) return 'not accepted any more';
  const more = others.length === 0 ? '' : ` and ${others.length} more`;
  return `not accepted any more before ${first}${more} is answered`;
}

function wholeRow(effect: Whole, display: Display): EffectRow | undefined {
  const { object, before, after } = effect;
  const parts: string[] = [];
  if (before && after && before.expected !== after.expected)
    parts.push(`${after.expected} readings wanted, was ${before.expected}`);
  if (before?.length !== undefined && after?.length !== undefined && before.length !== after.length)
    parts.push(`${length(after.length, display)}, was ${length(before.length, display)}`);
  if (effect.formerly) parts.push(`was ${effect.formerly}`);
  if (before && after && before.accepted !== after.accepted)
    parts.push(after.accepted ? 'accepted now' : notAccepted(after.waitsFor));
  const moved = before?.verdict !== after?.verdict;
  if (!moved && parts.length === 0) return undefined;
  const what = parts.join('; ');
  return {
    key: `object ${object}`,
    object,
    fibres: '',
    what,
    ...(before ? { before: before.verdict } : {}),
    ...(after ? { after: after.verdict } : {}),
    moved,
    readings: 0,
    side: 'both',
    spoken: spoken(object, what, verdictWords(before, after), {}),
  };
}

function marginPair(
  was: ExactDb | undefined,
  now: ExactDb | undefined,
  precision: number,
): { readonly was?: MarginAt; readonly now?: MarginAt } {
  const [wasText, nowText] = marginsApart(was, now, precision);
  return {
    ...(was === undefined ? {} : { was: { margin: toDb(was), text: wasText } }),
    ...(now === undefined ? {} : { now: { margin: toDb(now), text: nowText } }),
  };
}

function verdictWords(
  before: Pick<Standing, 'verdict'> | undefined,
  after: Pick<Standing, 'verdict'> | undefined,
): string {
  const word = (verdict: Verdict) => lookOf(verdict).word;
  switch (moveOf(before?.verdict ?? 'none', after?.verdict ?? 'none')) {
    case 'same':
      return after ? `${word(after.verdict)} stays` : '';
    case 'new':
      return after ? `${word(after.verdict)}, new` : '';
    case 'gone':
      return before ? `${word(before.verdict)}, no longer there` : '';
    default:
      return before && after ? `${word(before.verdict)} to ${word(after.verdict)}` : '';
  }
}

function spoken(
  where: string,
  what: string,
  verdict: string,
  { was, now }: { readonly was?: MarginAt; readonly now?: MarginAt },
): string {
  const margins = was || now ? `margin was ${was?.text ?? 'none'}, now ${now?.text ?? 'none'}` : '';
  return [where, what, verdict, margins].filter(Boolean).join(', ');
}
