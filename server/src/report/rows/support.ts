/** What a table says of applications and of light, of links that were read and of those that were not. */
import { type ExactDb, toNanometres } from '../../../../grammar/src/quantity/index.ts';
import type { LinkResult, PowerResult, SupportWord } from '../../evaluate/result.ts';
import { margin, wavelength } from '../figures.ts';
import { ownWavelengths } from '../strip.ts';
import type { SupportView } from '../view.ts';

/** What holds least first. */
const ranks: readonly SupportWord[] = ['not supported', 'predicted', 'by design', 'by measurement'];

/** Every application with its support, and what is left of the light that carries it. */
export function supportsOf(result: LinkResult, places: number): readonly SupportView[] {
  return result.applications.map(({ name, support, row = '', because, recalled, way = '' }) => {
    const least = leastLight(result, name);
    return {
      name,
      support,
      row,
      because: [way && !because.startsWith(way) ? way : '', because].filter(Boolean).join(': '),
      recalled,
      ...(least ? { power: lightInWords(least, places) } : {}),
    };
  });
}

/** What holds least and how: `10GBASE-SR, 1 more`, `predicted`; undefined where nothing is carried. */
export function leastSupport({
  applications,
}: LinkResult): readonly [string, SupportWord] | undefined {
  const [worst] = [...applications].sort(
    (a, b) => ranks.indexOf(a.support) - ranks.indexOf(b.support),
  );
  if (!worst) return undefined;
  const more = applications.length - 1;
  return [`${worst.name}${more > 0 ? `, ${more} more` : ''}`, worst.support];
}

export interface LeastLight {
  readonly value: ExactDb;
  /** The end of the receiver's window that is nearest. */
  readonly end: 'low' | 'high';
  readonly power: PowerResult;
  readonly way: string;
}

/** Where the receiver has least left, over all ways, directions and both ends of its window. */
export function leastLight(result: LinkResult, application?: string): LeastLight | undefined {
  const all = [
    ...result.power.map((power) => ({ power, way: '' })),
    ...result.ways.flatMap(({ name, power }) => power.map((each) => ({ power: each, way: name }))),
  ];
  let least: LeastLight | undefined;
  for (const { power, way } of all) {
    if (application !== undefined && power.application !== application) continue;
    const ends = [
      ['low', power.margin],
      ['high', power.overloadMargin],
    ] as const;
    for (const [end, value] of ends) {
      if (value === undefined || (least && least.value <= value)) continue;
      least = { value, end, power, way };
    }
  }
  return least;
}

/** `+0.20 dB left at the high end, 1531 nm A>B`. */
function lightInWords({ value, end, power, way }: LeastLight, places: number): string {
  const where = [`${toNanometres(power.wavelength)} nm ${power.direction}`, way];
  return `${margin(value, places)} dB left at the ${end} end of the receiver’s window, ${where.filter(Boolean).join(', ')}`;
}

export interface ByDesign {
  readonly text: string;
  /** `expected, 850 nm`, `light, high end`. */
  readonly what: string;
}

/**
 * What stands in place of a margin while nothing is read: what is expected to
 * be left of the limit, else what the greatest figures leave, else what the
 * receiver has left of its light.
 */
export function marginByDesign(result: LinkResult, places: number): ByDesign | undefined {
  let least: { readonly value: ExactDb; readonly what: string } | undefined;
  for (const at of ownWavelengths(result)) {
    const limit = at.governing?.value;
    if (limit === undefined) continue;
    const expected = at.expected === undefined ? undefined : ((limit - at.expected) as ExactDb);
    const value = expected ?? at.designMargin;
    if (value === undefined || (least && least.value <= value)) continue;
    const word = expected === undefined ? 'by design' : 'expected';
    least = { value, what: `${word}, ${wavelength(at.wavelength)}` };
  }
  if (least) return { text: margin(least.value, places), what: least.what };
  const light = leastLight(result);
  return light && { text: margin(light.value, places), what: `of light, ${light.end} end` };
}
