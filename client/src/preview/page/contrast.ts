/**
 * Other people's themes: where a text colour mixed from the editor's own does
 * not reach 4.5 to 1 on the page, the share of ink is raised by steps of 10 %
 * until it does (contrast ratio of WCAG 2.2, success criterion 1.4.3).
 */

interface Mixed {
  readonly variable: string;
  readonly of: string;
  /** Share of `of` over the second colour, in per cent. */
  readonly share: number;
  readonly over: string;
  /** True where a greater share of `of` is more ink. */
  readonly inkFirst: boolean;
}

const texts: readonly Mixed[] = [
  { variable: '--mix-quiet', of: '--ink', share: 74, over: '--paper', inkFirst: true },
  { variable: '--mix-fail', of: '--fail', share: 70, over: '--ink', inkFirst: false },
  {
    variable: '--mix-marginal',
    of: '--vscode-editorWarning-foreground',
    share: 56,
    over: '--ink',
    inkFirst: false,
  },
  { variable: '--mix-conceded', of: '--conceded', share: 85, over: '--ink', inkFirst: false },
  { variable: '--mix-invalid', of: '--invalid', share: 85, over: '--ink', inkFirst: false },
];

export function raiseContrast(root: HTMLElement): void {
  const paper = colourOf(root, '--paper');
  for (const { variable, of, share, over, inkFirst } of texts) {
    const [a, b] = [colourOf(root, of), colourOf(root, over)];
    if (!paper || !a || !b) continue;
    let now = share;
    while (contrast(mix(a, b, now / 100), paper) < 4.5 && (inkFirst ? now < 100 : now > 0)) {
      now = inkFirst ? Math.min(100, now + 10) : Math.max(0, now - 10);
    }
    root.style.setProperty(variable, `${now}%`);
  }
}

type Colour = readonly [number, number, number];

/** A variable may be made of others, so the browser is asked what it comes to. */
function colourOf(root: HTMLElement, variable: string): Colour | undefined {
  const probe = document.createElement('span');
  probe.style.color = `var(${variable})`;
  root.append(probe);
  const [r, g, b] =
    getComputedStyle(probe)
      .color.match(/[\d.]+/gu)
      ?.map(Number) ?? [];
  probe.remove();
  return r === undefined || g === undefined || b === undefined ? undefined : [r, g, b];
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
