/** The one limit that is shown of a link. */
import type { LinkResult, WavelengthResult } from '../../evaluate/result.ts';

/** The limit that governs the worst reading, else the smallest that governs. */
export function governingOf(result: LinkResult): WavelengthResult['governing'] {
  const { worstMargin, wavelengths } = result;
  if (worstMargin?.reading.limit) return worstMargin.reading.limit;
  return wavelengths
    .flatMap(({ governing }) => (governing?.value === undefined ? [] : [governing]))
    .reduce<WavelengthResult['governing']>(
      (least, each) => (least && least.value! <= each.value! ? least : each),
      undefined,
    );
}
