import { describe, expect, test } from 'vitest';
import { resultsOf } from '../../server/src/report/answer.ts';
import { plainDisplay } from '../../server/src/report/figures.ts';
import { plainView } from '../../server/src/report/question.ts';
import { limitAt, placeOf } from '../../server/src/report/scale.ts';
import { cleanPlan } from '../support/clean-plans.ts';
import { judge } from '../support/judge.ts';

const link = (name: string, losses: readonly string[]) => `link ${name} {
  fibres      1..${losses.length}
  connector   LC
  segment     180 m OM4
  connector   LC
}

readings ${name} {
  setup       MM-1
  tested      2026-03-14 09:05 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
${losses.map((loss, index) => `  ${index + 1}  ${loss}`).join('\n')}
}
`;

const plan = (...links: readonly string[]) => `plan "Table" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED
  meter       "M-5" floor -60 dBm
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
}

${links.join('\n')}`;

function tableOf(text: string, view: Partial<typeof plainView> = {}, from = 0, to = 1000) {
  const { plan: judged } = judge(text);
  return resultsOf({ plan: judged, display: plainDisplay }, { ...plainView, ...view }, from, to);
}

/** Limit of each link: 3.0 × 0.180 + 2 × 0.75 = 2.04 dB. */
const three = plan(
  link('KQ-A', ['1.02', '0.98']),
  link('KQ-B', ['2.51', '1.01']),
  link('KQ-C', ['-', '-']),
);

describe('the results table', () => {
  test('begins with the worst margin, and keeps the plan’s order when asked', () => {
    const names = (results: ReturnType<typeof tableOf>) =>
      results.slice.rows.flatMap((row) => (row.kind === 'link' ? [row.name] : []));
    expect(names(tableOf(three))).toEqual(['KQ-B', 'KQ-C', 'KQ-A']);
    expect(names(tableOf(three, { order: 'plan' }))).toEqual(['KQ-A', 'KQ-B', 'KQ-C']);
  });

  test('is sorted by what a column says, from either end', () => {
    const [before, own = ''] = three.split(/(?=link KQ-B )/u);
    const text = `${before}${own.replace('180 m', '90 m').replace(/(link KQ-C [^}]*)180 m/u, '$1270 m')}`;
    const names = (view: Partial<typeof plainView>) =>
      tableOf(text, view)
        .slice.rows.flatMap((row) => (row.kind === 'link' ? [row.name] : []))
        .join(' ');
    expect(names({ order: 'length' })).toBe('KQ-B KQ-A KQ-C');
    expect(names({ order: 'length', turned: true })).toBe('KQ-C KQ-A KQ-B');
    expect(names({ order: 'tested' })).toBe('KQ-C KQ-A KQ-B');
    expect(names({ order: 'tested', turned: true })).toBe('KQ-A KQ-B KQ-C');
    expect(names({ order: 'limit' })).toBe('KQ-B KQ-A KQ-C');
    expect(names({ order: 'name', turned: true })).toBe('KQ-C KQ-B KQ-A');
    expect(names({ turned: true })).toBe('KQ-A KQ-C KQ-B');
  });

  test('says margins with their sign and the head names the worst', () => {
    const { head, slice } = tableOf(three, { open: ['KQ-B'] });
    expect(head.worst).toMatchObject({ text: '−0.47 dB', where: 'KQ-B fibre 1', verdict: 'fail' });
    const fibres = slice.rows.flatMap((row) => (row.kind === 'fibre' ? [row] : []));
    expect(fibres.map(({ margin }) => margin?.text)).toEqual(['−0.47', '+1.03']);
    expect(fibres[0]?.spoken).toContain('fail');
  });

  test('opens into a head, its fibres and its limits', () => {
    const { slice } = tableOf(three, { open: ['KQ-A'] });
    expect(slice.rows.map(({ kind }) => kind)).toEqual([
      'link',
      'link',
      'link',
      'columns',
      'fibre',
      'fibre',
      'limits',
    ]);
  });

  test('a slice is the same rows as the whole', () => {
    const open = { open: ['KQ-A', 'KQ-B', 'KQ-C'] };
    const whole = tableOf(three, open);
    const part = tableOf(three, open, 3, 7);
    expect(part.slice.rows).toEqual(whole.slice.rows.slice(3, 7));
    expect(whole.outline.rows).toBe(whole.slice.rows.length);
    expect(whole.outline.runs.reduce((sum, [, count]) => sum + count, 0)).toBe(whole.outline.rows);
  });

  test('filters by verdict and by name, and counts what is left', () => {
    expect(tableOf(three, { hidden: ['pass'] }).outline.fibresShown).toBe(3);
    expect(
      tableOf(three, { find: 'kq-b' }).slice.rows.map((row) => 'name' in row && row.name),
    ).toEqual(['KQ-B']);
  });

  test('every limit falls on one line, at 10/13 of the width, whatever the plan', () => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const { scale } = tableOf(cleanPlan(seed));
      expect(placeOf(0, scale.reach)).toBeCloseTo(10 / 13, 12);
      expect(scale.ticks.find(({ label }) => label === 'limit')?.at).toBe(limitAt);
    }
  });

  test('two figures that would contradict the verdict get more digits', () => {
    const { slice } = tableOf(plan(link('KQ-A', ['2.0401', '1.00'])), { open: ['KQ-A'] });
    const fibre = slice.rows.find((row) => row.kind === 'fibre');
    expect(JSON.stringify(fibre)).not.toContain('"2.04"');
    expect(fibre?.kind === 'fibre' && fibre.margin?.text).toBe('−0.0001');
  });
});
