/**
 * The example of wavelengths on one line, summed by hand: fibre 0.3 dB/km and
 * 0.75 dB a pair from the library, the parts' figures from their own lines.
 */
import { describe, expect, it } from 'vitest';
import { printExactDb } from '../../grammar/src/quantity/index.ts';
import { openExample } from './open.ts';

const { plans } = openExample('wavelengths');

function powerOf(name: string) {
  const power = plans[0]?.result.link(name)?.power ?? [];
  const text = (value: Parameters<typeof printExactDb>[0] | undefined) =>
    value === undefined ? undefined : printExactDb(value);
  return power.map(({ greatestLoss, leastLoss, margin, overloadMargin }) => ({
    greatest: text(greatestLoss),
    least: text(leastLoss),
    margin: text(margin),
    overload: text(overloadMargin),
  }));
}

describe('a channel takes each part at its port and its own wavelength', () => {
  it('taken out at the lighthouse: 0.3·2.404 + 2·0.75 + 1.3 + 0.9 + 8.5 = 12.9212 dB', () => {
    // Least: 0.4 + 0.3 + 7.5 = 8.2 dB, so 3 − 8.2 = −5.2 dBm against −5 dBm at most.
    const expected = { greatest: '12.9212', least: '8.2', margin: '8.0788', overload: '0.2' };
    expect(powerOf('SIGNALS-1531')).toEqual([expected, expected]);
  });

  it('let past it: 0.3·3.504 + 4·0.75 + 2·1.4 + 0.7 + 8.5 = 16.0512 dB', () => {
    // Least: 2·0.5 + 0.2 + 7.5 = 8.7 dB.
    const expected = { greatest: '16.0512', least: '8.7', margin: '4.9488', overload: '0.7' };
    expect(powerOf('CAMERAS-1551')).toEqual([expected, expected]);
  });
});
