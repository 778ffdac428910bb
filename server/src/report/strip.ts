/** The margin strip: one lane per wavelength, one stroke per reading, placed by limit minus loss. */
import type { Picometres } from '../../../grammar/src/quantity/index.ts';
import type { LinkResult, ReadingResult, WavelengthResult } from '../evaluate/result.ts';
import { microToDb, toDb, wavelength } from './figures.ts';
import { countsAlong } from './spread.ts';
import type { Lane, Side, Stroke } from './view.ts';

/** Above this many readings single strokes become a density. */
const mostStrokes = 400;
const bins = 130;

/** Wavelengths of a link that have a limit or a reading, shortest first. */
export function wavelengthsOf(result: LinkResult): readonly Picometres[] {
  const all = new Set(result.wavelengths.map((each) => each.wavelength));
  for (const each of result.readings) all.add(each.wavelength);
  return [...all].sort((a, b) => a - b);
}

/** The result that readings at this wavelength are judged by: the method in use, else the plan's own. */
export function judgedAt(
  result: LinkResult,
  at: Picometres,
  reading?: ReadingResult,
): WavelengthResult | undefined {
  const here = result.wavelengths.filter((each) => each.wavelength === at);
  const used =
    reading?.limit ??
    result.readings.find((each) => each.current && each.wavelength === at && each.limit)?.limit;
  return here.find((each) => used !== undefined && each.limits.includes(used)) ?? here[0];
}

/** Results that count while nothing is read: of each wavelength those by the plan's own method. */
export function ownWavelengths(result: LinkResult): readonly WavelengthResult[] {
  const first = new Map<Picometres, WavelengthResult['reference']>();
  for (const at of result.wavelengths) {
    if (!first.has(at.wavelength)) first.set(at.wavelength, at.reference);
  }
  return result.wavelengths.filter((at) => first.get(at.wavelength) === at.reference);
}

/** Lanes of a whole link: strokes of all its readings, without whiskers. */
export function linkLanes(result: LinkResult, reach: number): readonly Lane[] {
  return lanesOf([result], reach);
}

/** Lanes of many links together, laid over each other by the order of their wavelengths. */
export function lanesOf(results: readonly LinkResult[], reach: number): readonly Lane[] {
  const lanes: { wavelength: string; readings: ReadingResult[]; expected: number[] }[] = [];
  for (const result of results) {
    wavelengthsOf(result).forEach((at, index) => {
      lanes[index] ??= { wavelength: wavelength(at), readings: [], expected: [] };
      const lane = lanes[index];
      const expected = expectedMargin(judgedAt(result, at));
      if (expected !== undefined) lane.expected.push(expected);
      for (const fibre of result.fibres) {
        for (const reading of fibre.current)
          if (reading.wavelength === at) lane.readings.push(reading);
      }
    });
  }
  const total = lanes.reduce((sum, { readings }) => sum + readings.length, 0);
  return lanes.map(({ wavelength: label, readings, expected }) => {
    const lane = laneOf(label, readings, results.length === 1 ? expected[0] : undefined);
    return total > mostStrokes ? dense(lane, reach) : lane;
  });
}

/** Lanes of one fibre, or of one reading, with the whiskers of its uncertainty. */
export function fibreLanes(
  result: LinkResult,
  readings: readonly ReadingResult[],
): readonly Lane[] {
  return wavelengthsOf(result).map((at) => {
    const here = readings.filter((each) => each.wavelength === at);
    const lane = laneOf(wavelength(at), here, expectedMargin(judgedAt(result, at, here[0])));
    const whisker = whiskerOf(here);
    return whisker ? { ...lane, whisker } : lane;
  });
}

function laneOf(
  label: string,
  readings: readonly ReadingResult[],
  expected: number | undefined,
): Lane {
  const plain: Record<Side, number[]> = { up: [], down: [], both: [] };
  const marked: Stroke[] = [];
  for (const { margin, verdict, direction } of readings) {
    if (margin === undefined) continue;
    const side: Side = direction === 'A>B' ? 'up' : direction === 'B>A' ? 'down' : 'both';
    if (verdict === 'pass') plain[side].push(toDb(margin));
    else marked.push({ margin: toDb(margin), side, verdict });
  }
  const dark = readings.some((each) => each.reading?.typed === 'dark');
  return {
    wavelength: label,
    ...(expected === undefined ? {} : { expected }),
    plain,
    marked,
    dark,
  };
}

function dense(lane: Lane, reach: number): Lane {
  const { up, down, both } = lane.plain;
  const density = {
    up: countsAlong([...up, ...both], reach, bins),
    down: countsAlong([...down, ...both], reach, bins),
  };
  return { ...lane, plain: { up: [], down: [], both: [] }, density };
}

function whiskerOf(readings: readonly ReadingResult[]): Lane['whisker'] {
  const spread = readings.flatMap(({ margin, uncertainty }) => {
    if (margin === undefined || uncertainty === 0) return [];
    const at = toDb(margin);
    const by = microToDb(uncertainty);
    return [at + by, at - by];
  });
  return spread.length === 0 ? undefined : { from: Math.max(...spread), to: Math.min(...spread) };
}

function expectedMargin(at: WavelengthResult | undefined): number | undefined {
  if (at?.governing?.value === undefined || at.expected === undefined) return undefined;
  return toDb(at.governing.value) - toDb(at.expected);
}
