/**
 * How wide a text is about to be: words are laid out before there is a screen
 * to measure them on. The widths are those of a wide sans-serif; where the
 * reader's own is narrower, there is a little more air.
 */

/** px, of the small texts of a drawing. */
const small = 11;

/** Share of the size that a letter takes. */
const sharesOf: readonly (readonly [letters: RegExp, share: number])[] = [
  [/[mwMW@%]/u, 0.93],
  [/[+−=<>~×≤≥]/u, 0.84],
  [/[A-HK-LN-VX-Z]/u, 0.72],
  [/[ijlI.,:;'|!·]/u, 0.32],
  [/[ frt()[\]/-]/u, 0.38],
];
const otherShare = 0.635;
const monoShare = 0.61;
const boldShare = 1.12;

export interface Face {
  readonly mono?: boolean;
  readonly bold?: boolean;
}

/** px across. */
export function textWidth(text: string, { mono = false, bold = false }: Face = {}): number {
  let width = 0;
  for (const letter of text) {
    width += mono
      ? monoShare
      : (sharesOf.find(([letters]) => letters.test(letter))?.[1] ?? otherShare);
  }
  return width * small * (bold && !mono ? boldShare : 1);
}

/** The text, cut with an ellipsis where it would be wider than its room. */
export function cutTo(text: string, room: number, face: Face = {}): string {
  if (textWidth(text, face) <= room) return text;
  let kept = text;
  while (kept.length > 1 && textWidth(`${kept}…`, face) > room) kept = kept.slice(0, -1);
  return `${kept.trimEnd()}…`;
}
