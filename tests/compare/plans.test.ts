/** Which plan of the old files is which of the new ones, and what is told of one that is on one side only. */
import { describe, expect, it } from 'vitest';
import { changeInWords, comparePlans } from '../support/compare.ts';

const plan = (title: string, more = '') => `plan "${title}" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  reference   one-cord
  uncertainty 0.15 dB
}
${more}`;

const link = (name: string, length = 120) => `
link ${name} {
  fibres      1..2
  connector   LC
  segment     ${length} m OM4
  connector   LC
}
`;

function told(before: Readonly<Record<string, string>>, after: Readonly<Record<string, string>>) {
  return comparePlans(before, after).map(({ root, before: was, after: is, comparison }) => ({
    root,
    sides: `${was ? 'before' : ''} ${is ? 'after' : ''}`.trim(),
    changes: comparison.changes.map(changeInWords),
    effects: comparison.effects.length,
  }));
}

const two = {
  'north/plan.lwl': plan('North pier', link('N-1')),
  'south/plan.lwl': plan('South pier', link('S-1')),
};

describe('plans of two sets of files', () => {
  it('are paired by the path of their own file', () => {
    const after = { ...two, 'south/plan.lwl': plan('South pier', link('S-1', 140)) };
    expect(told(two, after)).toEqual([
      { root: 'north/plan.lwl', sides: 'before after', changes: [], effects: 0 },
      {
        root: 'south/plan.lwl',
        sides: 'before after',
        changes: ['medium changed: length of segment of S-1, 120 m now 140 m'],
        effects: 2,
      },
    ]);
  });

  it('are paired by title where the file has moved', () => {
    const after = {
      'north/plan.lwl': two['north/plan.lwl'],
      'piers/south.lwl': two['south/plan.lwl'],
    };
    const [north, south, ...others] = told(two, after);
    expect(others).toEqual([]);
    expect(north).toMatchObject({ sides: 'before after', changes: [] });
    expect(south).toMatchObject({ root: 'piers/south.lwl', sides: 'before after', effects: 0 });
  });

  it('are told as one change where they are on one side only', () => {
    const north = { 'north/plan.lwl': two['north/plan.lwl'] };
    const [, come] = told(north, two);
    // One link, four keys to measure, its design at 850 nm.
    expect(come).toEqual({
      root: 'south/plan.lwl',
      sides: 'after',
      changes: ['connection new: plan South pier'],
      effects: 6,
    });
    const gone = told(two, north).find(({ root }) => root === 'south/plan.lwl');
    expect(gone).toEqual({
      root: 'south/plan.lwl',
      sides: 'before',
      changes: ['connection gone: plan South pier'],
      effects: 6,
    });
  });

  it('that are the only ones are the same, whatever they are called', () => {
    const [one, ...others] = told(
      { 'plan.lwl': plan('Kestrel Quay', link('KQ-1')) },
      { 'terminal.lwl': plan('Kestrel Quay ferry terminal', link('KQ-1')) },
    );
    expect(others).toEqual([]);
    expect(one).toMatchObject({ root: 'terminal.lwl', sides: 'before after', effects: 0 });
  });

  it('take in a file that stood alone without telling it twice', () => {
    const alone = { 'plan.lwl': plan('Kestrel Quay'), 'links.lwl': link('KQ-1') };
    const taken = { ...alone, 'plan.lwl': plan('Kestrel Quay', '\ninclude "links.lwl"\n') };
    expect(told(alone, taken).map(({ root }) => root)).toEqual(['plan.lwl']);
    expect(told(taken, alone).map(({ root }) => root)).toEqual(['plan.lwl']);
    const [come] = comparePlans(alone, taken);
    expect(come!.comparison.after.summary.objects).toBe(1);
    for (const { causes } of come!.comparison.effects) expect(causes.length).toBeGreaterThan(0);
  });

  it('have names that are no plain letters', () => {
    const odd = { 'Nördlicher Kai #2/plan 50%.lwl': plan('Kai', '\ninclude "Strecken 1.lwl"\n') };
    const lines = (length: number) => ({
      ...odd,
      'Nördlicher Kai #2/Strecken 1.lwl': link('KQ-1', length),
    });
    const [one, ...others] = comparePlans(lines(100), lines(110));
    expect(others).toEqual([]);
    expect(one!.root).toBe('Nördlicher Kai #2/plan 50%.lwl');
    expect(one!.comparison.changes[0]!.after!.path).toBe('Strecken 1.lwl');
  });

  it('are none where there is no file', () => {
    expect(comparePlans({}, {})).toEqual([]);
    expect(comparePlans({}, { 'plan.lwl': '' }).length).toBeLessThanOrEqual(1);
  });
});
