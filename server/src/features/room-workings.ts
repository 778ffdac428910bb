/** What a design leaves, as Markdown: what weighs most, how long it may be, what more it bears, what its ways share. */
import {
  addDb,
  type ExactDb,
  type Micrometres,
  microToNumber,
  toMetres,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import { heaviest } from '../evaluate/design.ts';
import { commonGround, sharedGround } from '../evaluate/ground.ts';
import { type Left, type Room, roomOf } from '../evaluate/index.ts';
import type { LinkResult, WavelengthResult } from '../evaluate/result.ts';
import type { Cable, LinkModel, Place } from '../model/types.ts';
import type { Plan } from '../project/types.ts';
import { sparesInWords } from './cable-fibres.ts';
import { eachInWords, fully, ownMethod, signed, unsigned, wavelengthInWords } from './wording.ts';

/** Of a whole link: what weighs most where least is left, the room of all that it carries, and its diversity. */
export function roomOfLink(plan: Plan, result: LinkResult, places: number): readonly string[] {
  const { link } = result;
  const { name, terms, ways } = link;
  const tightest = tightestOf(result);
  const input = terms.carries.length > 0 ? plan.tried(name) : undefined;
  return [
    ...(tightest ? [weightsAsMarkdown(tightest, places)] : []),
    ...(input ? roomOf(input).map((room) => roomAsMarkdown(room, places)) : []),
    ...diversityInWords(ways),
    ...besideInWords(plan, link),
    ...sparesOf(plan, link),
  ];
}

/** Of what one line of the plan carries. */
export function roomOfCarried(plan: Plan, object: string, at: Place, places: number): string[] {
  const input = plan.tried(object);
  if (!input) return [];
  return roomOf(input).flatMap((room) =>
    room.place.block === at.block &&
    room.place.span.start <= at.span.start &&
    at.span.end <= room.place.span.end
      ? [roomAsMarkdown(room, places)]
      : [],
  );
}

/** The wavelength with the least design margin; where no limit is, the one that may lose most. */
function tightestOf(result: LinkResult): WavelengthResult | undefined {
  const known = ownMethod(result).filter(({ worst }) => worst !== undefined);
  return known.reduce<WavelengthResult | undefined>((a, b) => {
    if (a === undefined) return b;
    if (a.designMargin === undefined || b.designMargin === undefined)
      return a.designMargin === undefined && b.worst! > a.worst! ? b : a;
    return b.designMargin < a.designMargin ? b : a;
  }, undefined);
}

/** Terms of the greatest loss, heaviest first, each with its share. */
function weightsAsMarkdown(at: WavelengthResult, places: number): string {
  const { worst, worstTerms, governing, designMargin, wavelength, direction } = at;
  const all = addDb(zeroDb, ...worstTerms.filter(({ total }) => total > 0n).map((t) => t.total));
  const rows = heaviest(worstTerms).map(({ what, total, count, length }) => {
    const many =
      length !== undefined ? `, ${toMetres(length)} m` : Math.abs(count) > 1 ? `, ${count}` : '';
    return `| ${what}${many} | ${fully(total)} | ${shareInWords(total, all)} |`;
  });
  const side =
    governing?.value === undefined || designMargin === undefined || worst === undefined
      ? 'No limit governs here.'
      : `${governing.kind} (${governing.name}) limits it: ${fully(governing.value)} − ${fully(worst)} = ${signed(designMargin, places)} dB ${designMargin < 0n ? 'short' : 'left'}.`;
  return [
    `**What weighs most** at ${wavelengthInWords(wavelength)}${direction ? ` ${direction}` : ''}, every part at its most`,
    '',
    '| | dB | share |',
    '| :-- | --: | --: |',
    ...rows,
    '',
    side,
  ].join('\n');
}

function shareInWords(total: ExactDb, all: ExactDb): string {
  if (all <= 0n || total <= 0n) return '';
  return `${Number((200n * total + all) / (2n * all))} %`;
}

function roomAsMarkdown(room: Room, places: number): string {
  const { application, row, way, stretch, others, byReach, byLoss, longest, never, left } = room;
  const lines = [
    `**How far ${application} goes**${way === undefined ? '' : `, ${way}`} (row ${row})`,
  ];
  if (byReach) {
    const { reach, longest: most } = byReach;
    const rest =
      others > 0 ? ` − ${lengthInWords(others)} of other fibre = ${lengthInWords(most)}` : '';
    lines.push(`by reach: ${lengthInWords(reach)}${rest}`);
  }
  if (byLoss) {
    const { allowed, fixed, rate, wavelength, longest: most } = byLoss;
    lines.push(
      `by loss at ${wavelengthInWords(wavelength)}: (${eachInWords(allowed)} − ${fully(fixed)}) ÷ ${microToNumber(rate)} dB/km = ${lengthInWords(most)}`,
    );
  }
  lines.push(endInWords({ byReach, byLoss, longest, never, stretch }));
  if (left) lines.push(leftInWords(left, places));
  if (room.recalled) lines.push('This rests on a recalled figure.');
  return lines.join('  \n');
}

function endInWords({
  byReach,
  byLoss,
  longest,
  never,
  stretch,
}: Pick<Room, 'byReach' | 'byLoss' | 'longest' | 'never' | 'stretch'>): string {
  const now = `${lengthInWords(stretch.length)} ${stretch.length === 0 ? 'is' : 'are'} planned`;
  if (never !== undefined) return `No length would do: ${never}.`;
  if (longest === undefined) return `Nothing that is stated ends it; ${now}.`;
  const which =
    byReach && byLoss ? (byReach.longest <= byLoss.longest ? 'Reach' : 'Loss') : undefined;
  const ends = which ? `${which} ends it first: ` : '';
  const over = stretch.length - longest;
  const rest =
    over > 0
      ? `${lengthInWords(over as Micrometres)} too many`
      : `${lengthInWords(-over as Micrometres)} to spare`;
  return `${ends}at most **${lengthInWords(longest)}** of ${stretch.fibre}, ${now}: ${rest}.`;
}

function leftInWords({ wavelength, loss, pairs }: Left, places: number): string {
  const at = `at ${wavelengthInWords(wavelength)}`;
  if (loss < 0n) return `${unsigned(-loss as ExactDb, places)} dB more than it allows ${at}.`;
  const more =
    pairs === undefined
      ? ''
      : pairs.more === 0
        ? `: no more pair ${pairs.name} of ${eachInWords(pairs.each)} dB goes into that`
        : `: ${pairs.more} more ${pairs.more === 1 ? 'pair' : 'pairs'} ${pairs.name} of ${eachInWords(pairs.each)} dB would fit`;
  return `${unsigned(loss, places)} dB left ${at}${more}.`;
}

/** Spans of a ring that lie in one ground; that all of them keep apart is said as well. */
function diversityInWords(ways: LinkResult['link']['ways']): readonly string[] {
  const spans = ways.filter(({ kind }) => kind === 'span');
  if (spans.length < 2) return [];
  const shared = sharedGround(ways);
  if (shared.length === 0)
    return ['**Ways round**: no two spans share a cable, a route or a closure.'];
  return [
    `**Ways round**: ${shared
      .map(
        ({ first, second, shared: all }) =>
          `${first.name} and ${second.name} share ${all.join(', ')}`,
      )
      .join('; ')}.`,
  ];
}

/** Most objects of a plan that are looked through for one hover, and most that are named. */
const mostSought = 500;
const mostNamed = 4;

/** Others of its kind between the same two places, and what each shares with it: two that protect each other share nothing. */
function besideInWords(plan: Plan, link: LinkModel): readonly string[] {
  const { order } = plan.result;
  const places = placesOf(link);
  if (places === undefined || link.kind === 'section' || order.length > mostSought) return [];
  const beside = order.flatMap((name) => {
    const other = name === link.name ? undefined : plan.result.link(name)?.link;
    return other?.kind === link.kind && placesOf(other) === places ? [other] : [];
  });
  if (beside.length === 0) return [];
  const said = beside.slice(0, mostNamed).map((other) => {
    const shared = commonGround(link.path, other.path);
    return `${other.name} shares ${shared.length > 0 ? shared.join(', ') : 'no cable, route or closure with it'}`;
  });
  const more = beside.length - said.length;
  return [
    `**Between the same places**: ${said.join('; ')}${more > 0 ? `; and ${more} more` : ''}.`,
  ];
}

/** The two places that a link joins, as its ports begin: `B3` of `B3/R1/A:01`. Undefined where ports say no place. */
function placesOf({ from, to }: LinkModel): string | undefined {
  const areas = [from[0], to[0]].map((port) => /^([^/]+)\//u.exec(port ?? '')?.[1]);
  return areas.includes(undefined) ? undefined : [...areas].sort().join(' ');
}

/** Fibres that are free in the cables that a link lies in. */
function sparesOf(plan: Plan, { path }: LinkModel): readonly string[] {
  const cables = new Map<string, Cable>();
  for (const element of path)
    if (element.kind === 'segment' && element.cable) cables.set(element.cable.name, element.cable);
  return [...cables.values()].map(
    (cable) =>
      `${cable.name}: ${sparesInWords(cable, plan.fibresNeeded(cable.name), plan.settings.spares)}`,
  );
}

/** Down to a centimetre where it is not whole: a length that fits never prints as one that does not. */
function lengthInWords(length: Micrometres): string {
  const metres = toMetres(length);
  if (Number.isInteger(metres)) return metres >= 10_000 ? `${metres / 1000} km` : `${metres} m`;
  return `${Math.floor(metres * 100) / 100} m`;
}
