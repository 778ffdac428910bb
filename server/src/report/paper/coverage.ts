/** Which characters a font of the TrueType kind draws, read from its table of characters (OpenType, cmap formats 4 and 12). */

/** True where the font has a glyph of its own for a code point. */
export type Covers = (codePoint: number) => boolean;

export function coverageOf(font: Uint8Array): Covers {
  const view = new DataView(font.buffer, font.byteOffset, font.byteLength);
  const ranges = tablesOf(view).flatMap((at) => rangesOf(view, at));
  return (codePoint) => ranges.some(([from, to]) => codePoint >= from && codePoint <= to);
}

/** Offsets of the tables for Unicode. */
function tablesOf(view: DataView): readonly number[] {
  const count = view.getUint16(4);
  for (let index = 0; index < count; index += 1) {
    const record = 12 + index * 16;
    if (view.getUint32(record) !== 0x636d6170) continue;
    const cmap = view.getUint32(record + 8);
    const tables = view.getUint16(cmap + 2);
    return Array.from({ length: tables }, (_, each) => cmap + 4 + each * 8)
      .filter((each) => view.getUint16(each) === 0 || view.getUint16(each) === 3)
      .map((each) => cmap + view.getUint32(each + 4));
  }
  return [];
}

type CodeRange = readonly [from: number, to: number];

function rangesOf(view: DataView, at: number): readonly CodeRange[] {
  const format = view.getUint16(at);
  if (format === 12) {
    return Array.from({ length: view.getUint32(at + 12) }, (_, index): CodeRange => {
      const group = at + 16 + index * 12;
      return [view.getUint32(group), view.getUint32(group + 4)];
    });
  }
  if (format !== 4) return [];
  const doubled = view.getUint16(at + 6);
  return Array.from({ length: doubled / 2 }, (_, index): CodeRange => {
    const end = view.getUint16(at + 14 + index * 2);
    const start = view.getUint16(at + 16 + doubled + index * 2);
    return [start, end];
  }).filter(([from]) => from !== 0xffff);
}
