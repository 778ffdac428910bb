/** Losses that are read off a trace: which pairs they hold, and which length of fibre they are judged on. */
import { describe, expect, it } from 'vitest';
import { exact, judged } from '../published/judged.ts';
import { traced, tracedPlan } from './traced-plan.ts';

describe('a loss read off a trace', () => {
  const loss = (value: string, setup: string, plan = '') =>
    traced('', {
      setup,
      plan,
      more: `readings KQ-1 {
  setup       TRACE
  tested      2026-05-20 10:00
  values      loss in dB
  columns fibre, 1550 nm A>B
  1  ${value}
}
`,
    }).readings.find(({ attempt }) => attempt === 1);
  const cords = '  cord        L1 launch PAIR GLASS length 1 km\n';
  const tail = `${cords}  cord        L2 tail PAIR GLASS length 1 km\n`;

  it('holds both end pairs where a tail lets the far one be seen', () => {
    // 0.3 · 5 + 0.2 + 2 · 0.5
    const one = loss('2.1', tail);
    expect(exact(one?.limit?.value)).toBe('2.7');
    expect(one?.verdict).toBe('pass');
  });

  it('and the near pair alone where nothing does', () => {
    expect(exact(loss('2.1', cords)?.limit?.value)).toBe('2.2');
  });

  it('has the uncertainty that the plan states for reflectometers', () => {
    expect(loss('2.1', tail, '  uncertainty 0.70 dB otdr\n')?.verdict).toBe('marginal-pass');
    expect(loss('-0.1', tail)?.verdict).toBe('invalid');
  });

  it('that is below nothing sends to the trace, since there is no reference to look at', () => {
    const text = tracedPlan('', {
      setup: tail,
      more: `readings KQ-1 {
  setup       TRACE
  tested      2026-05-20 10:00
  values      loss in dB
  columns fibre, 1550 nm A>B
  1  -0.1
}
`,
    });
    const found = judged(text).findings.find(({ name }) => name === 'loss-negative')?.message;
    expect(found).toContain('where the markers stood on the trace');
    expect(found).not.toContain('reference');
  });
});

describe('a fibre that measures much shorter than declared', () => {
  const read = (end: string) =>
    traced(`  1  ${end}  end  -  -`, {
      setup: '  cord        L1 launch PAIR GLASS\n  cord        L2 tail PAIR GLASS\n',
      more: `readings KQ-1 {
  setup       TRACE
  tested      2026-05-20 10:00
  values      loss in dB
  columns fibre, 1550 nm A>B
  1  2.5
}
`,
    }).readings.find(({ attempt }) => attempt === 1);

  it('is judged on what was measured: 0.3 dB/km over 4 km instead of 5 km', () => {
    expect(exact(read('4.0')?.limit?.value)).toBe('2.4');
    expect(read('4.0')?.verdict).toBe('marginal-fail');
  });

  it('and on what is declared where the difference is a helix, or the fibre is longer', () => {
    expect(exact(read('4.9')?.limit?.value)).toBe('2.7');
    expect(exact(read('6.0')?.limit?.value)).toBe('2.7');
  });
});
