/**
 * Other people's themes: where a colour mixed from the editor's own does not
 * reach 4.5 to 1 for text or 3 to 1 for marks over every ground it stands on,
 * its share of ink is raised by steps of 10 % until it does (contrast ratio of
 * WCAG 2.2, success criteria 1.4.3 and 1.4.11).
 */

export type Colour = readonly [number, number, number];

export interface Token {
  /** Custom property of the share, in per cent, of `of` over `base`. */
  readonly share: string;
  readonly of: string;
  readonly base: string;
  readonly least: number;
  /** A greater share is more ink. */
  readonly inkFirst: boolean;
}

const hue = (name: string): readonly Token[] => [
  { share: `--share-${name}`, of: `--theme-${name}`, base: '--ink', least: 3, inkFirst: false },
  {
    share: `--share-${name}-text`,
    of: `--theme-${name}`,
    base: '--ink',
    least: 4.5,
    inkFirst: false,
  },
];

export const tokens: readonly Token[] = [
  { share: '--share-quiet', of: '--ink', base: '--paper', least: 4.5, inkFirst: true },
  { share: '--share-ghost', of: '--ink', base: '--paper', least: 3, inkFirst: true },
  ...['fail', 'marginal', 'conceded', 'invalid'].flatMap(hue),
];

const step = 10;

/** Reads the theme's colours once and sets the shares that they need. */
export function raiseContrast(root: HTMLElement): void {
  for (const { share } of tokens) root.style.removeProperty(share);
  const paper = colourOf(root, 'var(--paper)');
  const ink = colourOf(root, 'var(--ink)');
  const fail = colourOf(root, 'var(--theme-fail)');
  const hover = colourOf(root, 'var(--hover)');
  if (!paper || !ink || !fail || !hover) return;
  const grounds = groundsOf(
    { paper, ink, fail, hover },
    shareOf(root, '--share-over'),
    shareOf(root, '--share-fill'),
  );
  for (const token of tokens) {
    const of = colourOf(root, `var(${token.of})`);
    const base = token.base === '--ink' ? ink : paper;
    const before = shareOf(root, token.share);
    if (!of) continue;
    const share = neededShare(token, { of, base }, before, grounds);
    if (share !== before) root.style.setProperty(token.share, `${share}%`);
  }
}

export interface Theme {
  readonly paper: Colour;
  readonly ink: Colour;
  readonly fail: Colour;
  readonly hover: Colour;
}

/** What colours stand on: paper, the ground over the limit, an opened link, the row under the pointer. */
export function groundsOf(
  { paper, ink, fail, hover }: Theme,
  over: number,
  fill: number,
): readonly Colour[] {
  return [paper, mix(fail, paper, over / 100), mix(ink, paper, fill / 100), hover];
}

export function neededShare(
  { least, inkFirst }: Token,
  { of, base }: { readonly of: Colour; readonly base: Colour },
  share: number,
  grounds: readonly Colour[],
): number {
  let now = share;
  while (
    leastContrast(mix(of, base, now / 100), grounds) < least &&
    (inkFirst ? now < 100 : now > 0)
  ) {
    now = inkFirst ? Math.min(100, now + step) : Math.max(0, now - step);
  }
  return now;
}

export function leastContrast(colour: Colour, grounds: readonly Colour[]): number {
  return Math.min(...grounds.map((ground) => contrast(colour, ground)));
}

function shareOf(root: HTMLElement, share: string): number {
  return Number.parseFloat(getComputedStyle(root).getPropertyValue(share));
}

/** A colour may be made of others, so the browser is asked what it comes to. */
function colourOf(root: HTMLElement, colour: string): Colour | undefined {
  const probe = document.createElement('span');
  probe.style.color = colour;
  root.append(probe);
  const text = getComputedStyle(probe).color;
  probe.remove();
  const [r, g, b] = text.match(/[\d.]+/gu)?.map(Number) ?? [];
  if (r === undefined || g === undefined || b === undefined) return undefined;
  // `color(srgb 0.2 0.2 0.2)` counts from 0 to 1.
  return text.startsWith('color(') ? [r * 255, g * 255, b * 255] : [r, g, b];
}

export function mix(a: Colour, b: Colour, share: number): Colour {
  const at = (index: 0 | 1 | 2) => a[index] * share + b[index] * (1 - share);
  return [at(0), at(1), at(2)];
}

/** Ratio of relative luminances, 1 to 21. */
export function contrast(a: Colour, b: Colour): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return ((light ?? 0) + 0.05) / ((dark ?? 0) + 0.05);
}

function luminance(colour: Colour): number {
  const [r, g, b] = colour.map((value) => {
    const share = value / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * (r ?? 0) + 0.7152 * (g ?? 0) + 0.0722 * (b ?? 0);
}
