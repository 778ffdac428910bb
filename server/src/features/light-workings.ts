/** Windows of power as Markdown: what arrives at least and at most, and what is left at both ends, by design. */
import {
  type ExactDb,
  exactDb,
  type MicroDbm,
  microDb,
  subtractDb,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import type { LinkResult, PowerResult } from '../evaluate/result.ts';
import type { Place } from '../model/types.ts';
import { fully, signed, unsigned, wavelengthInWords } from './wording.ts';

/** Most windows that are written out of one line; a tree has one per end and direction. */
const most = 4;

/** What the light of one `carries … with …` comes to, the tightest ways first; empty where it names no transceivers. */
export function lightAsMarkdown(result: LinkResult, at: Place, places: number): readonly string[] {
  const all = [
    ...result.power.map((power) => ({ power, way: undefined })),
    ...result.ways.flatMap(({ name, power }) => power.map((one) => ({ power: one, way: name }))),
  ].filter(
    ({ power: { place } }) =>
      place.block === at.block &&
      place.span.start <= at.span.start &&
      at.span.end <= place.span.end,
  );
  const tightest = [...all].sort((a, b) => tightness(a.power) - tightness(b.power));
  const shown = tightest
    .slice(0, most)
    .map(({ power, way }) => windowAsMarkdown(power, way, places));
  return all.length > most ? [...shown, `and ${all.length - most} windows that are wider`] : shown;
}

function windowAsMarkdown(power: PowerResult, way: string | undefined, places: number): string {
  const { launch, input, margin, overloadMargin, leastLoss, attenuator, dispersion } = power;
  const on = way === undefined ? '' : `, ${way}`;
  const lines = [
    `**${power.from} to ${power.to}, ${wavelengthInWords(power.wavelength)} ${power.direction}**${on}, by design${power.recalled ? ', on a recalled figure' : ''}`,
  ];
  if (launch && input && margin !== undefined) {
    const taken = power.terms.map(({ what, count, total }) => {
      const times = count === 1 ? '' : `${count} × `;
      return ` − ${times}${what} ${unsigned(total, places)}`;
    });
    lines.push(
      `weakest: ${dbm(launch.min)}${taken.join('')}; ${dbm(input.min)} is needed: margin ${signed(margin, places)} dB`,
    );
  } else if (power.because !== undefined) lines.push(`weakest: not known, ${power.because}`);
  if (launch && input && leastLoss !== undefined && overloadMargin !== undefined) {
    const side =
      overloadMargin < zeroDb
        ? `${unsigned(-overloadMargin as ExactDb, places)} dB too strong`
        : `${unsigned(overloadMargin, places)} dB below it`;
    lines.push(
      `strongest: ${dbm(launch.max)} − ${unsigned(leastLoss, places)} at least = ${fully(subtractDb(exactDb(microDb(launch.max)), leastLoss))} dBm; ${dbm(input.max)} is taken well: ${side}`,
    );
  }
  if (attenuator) {
    const { least, most: spare } = attenuator;
    lines.push(
      least <= spare
        ? `attenuator: ${unsigned(least, places)} to ${unsigned(spare, places)} dB`
        : `attenuator: none, ${unsigned(least, places)} dB would be too little and ${signed(spare, places)} dB is all that can be spared`,
    );
  }
  if (dispersion) {
    const path = dispersion.path === undefined ? 'not known' : `${dispersion.path / 1e6}`;
    const recalled = dispersion.trust === 'recalled' ? ', recalled' : '';
    lines.push(`dispersion: ${path} of ${dispersion.bears / 1e6} ps/nm${recalled}`);
  }
  return lines.join('  \n');
}

function dbm(power: MicroDbm): string {
  return `${fully(exactDb(microDb(power)))} dBm`;
}

/** What is not known is looked at first, then whichever end of a window has least left. */
function tightness({ margin, overloadMargin }: PowerResult): number {
  return Math.min(Number(margin ?? -Infinity), Number(overloadMargin ?? -Infinity));
}
