/**
 * A path as a small picture for paper: its elements from A to B in their order,
 * evenly spaced, with the source and the meter of the first direction at its ends.
 */
import type { LinkModel, PathElement } from '../../model/types.ts';
import { elementsIn } from '../../model/ways.ts';
import { type Display, length } from '../figures.ts';
import { layOut } from '../path.ts';
import type { Block } from './blocks.ts';
import { escaped } from './escaped.ts';

/** Units of the picture: points of print. */
const width = 510;
const middle = 34;
/** Longer paths are told by their tables. */
const mostElements = 16;

/** Undefined where a path has too many elements, several ways, or none. */
export function pathPicture(link: LinkModel, display: Display): Block | undefined {
  if (link.ways.length > 0 || link.kind === 'ring') return undefined;
  const elements = layOut(link).elements.map(({ element }) => element);
  if (elements.length === 0 || elements.length > mostElements) return undefined;
  const left = 70;
  const step = (width - 2 * left) / Math.max(1, elements.length - 1);
  const most = Math.max(5, Math.floor(step / 3.6));
  const drawn = elements.map((element, index) => {
    const x = elements.length === 1 ? width / 2 : left + index * step;
    return `${sign(element, x)}${word(nameOf(element), x, middle - 12, most)}${word(moreOf(element, display), x, middle + 19, most)}`;
  });
  const lines = link.mode === 'multimode' ? [middle - 1.5, middle + 1.5] : [middle];
  const fibre = lines
    .map(
      (y) =>
        `<path d="M${left - 12} ${y}H${width - left + 12}" stroke="#000000" stroke-width="0.8"/>`,
    )
    .join('');
  const cords = lines
    .map(
      (y) =>
        `<path d="M24 ${y}H${left - 12}M${width - left + 12} ${y}H${width - 24}" stroke="#777777" stroke-width="0.8" stroke-dasharray="3 2"/>`,
    )
    .join('');
  const ends = `<text x="0" y="${middle + 3}" font-size="10" font-weight="bold">A</text><text x="${width}" y="${middle + 3}" font-size="10" font-weight="bold" text-anchor="end">B</text>${word('source for A>B', 0, middle + 31, 40, 'start')}${word('meter for A>B', width, middle + 31, 40, 'end')}`;
  return {
    kind: 'picture',
    width,
    height: middle + 36,
    says: `From A to B: ${elements.map((element) => [nameOf(element), moreOf(element, display)].filter(Boolean).join(' ')).join(', ')}`,
    svg: `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${middle + 36}" viewBox="0 0 ${width} ${middle + 36}" font-family="sans-serif" fill="#000000">${cords}${fibre}${drawn.join('')}${ends}</svg>`,
  };
}

/** Kinds of parts in words, for a list of what a path holds. */
export function partsInWords(link: LinkModel): readonly string[] {
  const counts = new Map<string, number>();
  const laid =
    link.ways.length > 0 ? elementsIn(link) : layOut(link).elements.map((each) => each.element);
  for (const element of laid) {
    // Of a tree each stands once for every output that light takes: they are counted where they stand.
    const what = element.kind === 'split' ? '' : kindOf(element);
    if (what) counts.set(what, (counts.get(what) ?? 0) + 1);
  }
  for (const { splitter, stands } of link.splits ?? []) {
    const what = `splitter ${splitter}`;
    counts.set(what, (counts.get(what) ?? 0) + stands);
  }
  return [...counts].map(([what, count]) => `${count} × ${what}`);
}

function kindOf(element: PathElement): string {
  switch (element.kind) {
    case 'connector':
      return `pair ${element.name}`;
    case 'plug':
      return `plug ${element.name}`;
    case 'splice':
      return `splice ${element.name}`;
    case 'component':
      return element.name;
    case 'split':
      return `splitter ${element.splitter}`;
    default:
      return '';
  }
}

function nameOf(element: PathElement): string {
  switch (element.kind) {
    case 'segment':
      return element.cable?.name ?? element.fibreName;
    case 'cord':
      return 'cord';
    case 'split':
      return element.name || element.splitter;
    default:
      return element.name;
  }
}

function moreOf(element: PathElement, display: Display): string {
  switch (element.kind) {
    case 'segment':
    case 'cord':
      return element.length === undefined ? 'length unknown' : length(element.length, display);
    case 'connector':
    case 'splice':
    case 'component':
      return element.at ?? '';
    default:
      return '';
  }
}

function sign({ kind }: PathElement, x: number): string {
  const outline = 'fill="#ffffff" stroke="#000000" stroke-width="1.2"';
  switch (kind) {
    case 'connector':
      return `<path d="M${x - 7} ${middle - 6}h5.5v12h-5.5zM${x + 1.5} ${middle - 6}h5.5v12h-5.5z" ${outline}/>`;
    case 'plug':
      return `<path d="M${x - 2.75} ${middle - 6}h5.5v12h-5.5z" ${outline}/>`;
    case 'splice':
      return `<path d="M${x - 5} ${middle}l5 -5l5 5l-5 5z" ${outline}/>`;
    case 'component':
    case 'split':
      return `<path d="M${x - 9} ${middle - 6}h18v12h-18z" ${outline}/>`;
    default:
      return '';
  }
}

function word(text: string, x: number, y: number, most: number, anchor = 'middle'): string {
  const short = text.length > most ? `${text.slice(0, Math.max(1, most - 1))}…` : text;
  return short
    ? `<text x="${x}" y="${y}" font-size="7" text-anchor="${anchor}">${escaped(short)}</text>`
    : '';
}
