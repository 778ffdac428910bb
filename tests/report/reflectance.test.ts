/**
 * Reflectance readings: negative, judged by the least return loss of the
 * connector at the end where the light goes in. The grades are those that
 * IEC 61753-1 prints (60 dB and more for angled plugs), as makers quote them.
 */
import { describe, expect, test } from 'vitest';
import {
  angledPlan,
  example,
  multimodeSetup,
  reflected,
} from '../../server/src/checks/examples.ts';
import { plainDisplay } from '../../server/src/report/figures.ts';
import { toJson } from '../../server/src/report/json.ts';
import { readingRow, readingsOf } from '../../server/src/report/rows/reading.ts';
import { readingsCsv } from '../support/fleet.ts';
import { judge } from '../support/judge.ts';

const bare = angledPlan.replace('  return-loss LC min 60 dB\n', '');

function asked(plan: string, readings: string, ...more: readonly string[]) {
  const judged = judge(example(plan, multimodeSetup, readings, ...more));
  const result = judged.plan.result.link('KQ-1')!;
  return {
    ...judged,
    result,
    reflectances: result.reflectances,
    names: judged.findings.map(({ name }) => name),
    accepted: judged.plan.result.totals.accepted,
  };
}

describe('a reflectance', () => {
  test.each([
    ['-62.0', 'pass', 2],
    ['-60', 'pass', 0],
    ['-59.99', 'fail', -0.01],
    ['-48', 'fail', -12],
  ])('of %s dB against 60 dB is a %s', (typed, verdict, margin) => {
    const { reflectances, names, accepted, result } = asked(angledPlan, reflected(typed));
    expect(reflectances).toHaveLength(1);
    expect(reflectances[0]).toMatchObject({ verdict, current: true, attempt: 1 });
    expect(Number(reflectances[0]?.margin) / 1e15).toBeCloseTo(margin, 9);
    // It is beside the losses: the doubt it raises is what blocks, not a loss.
    expect(result).toMatchObject({ verdict: 'pass', expected: 1, present: 1 });
    expect(names).toEqual(verdict === 'fail' ? ['return-loss-low'] : []);
    expect(accepted).toBe(verdict === 'pass');
  });

  test('may be answered for in words', () => {
    const plan = angledPlan.replace(
      '  zone',
      '  silence     return-loss-low because "video does not run here"\n  zone',
    );
    expect(asked(plan, reflected('-48'))).toMatchObject({ accepted: true, names: [] });
  });

  test('is of the end where the light goes in', () => {
    const plan = angledPlan
      .replace(/connector {3}LC\n\}/u, 'connector   SC\n}')
      .replace('directions  A>B', 'directions  both');
    const both = reflected('-62.0').replace(
      /columns.*$/su,
      'columns fibre, 850 nm A>B reflectance, 850 nm B>A reflectance\n  1  -62  -40\n}\n',
    );
    const { reflectances } = asked(plan, both.replace('  values      loss in dB\n', ''));
    expect(reflectances.map(({ verdict }) => verdict)).toEqual(['pass', 'not-judged']);
    expect(reflectances[1]?.because).toBe('no return loss is asked of pair SC at end B');
  });

  test('takes the connector’s own figure where the limits have none', () => {
    const own = `connector LC {
  like        LC
  return-loss min 45 dB
}
`;
    const { reflectances } = asked(bare, reflected('-44'), own);
    expect(reflectances[0]).toMatchObject({ verdict: 'fail' });
    expect(reflectances[0]?.because).toBe('return loss 44.00 dB of 45.00 dB at least, at end A');
  });

  test('without any figure is not judged, and said', () => {
    const { reflectances, names, accepted } = asked(bare, reflected('-62'));
    expect(reflectances[0]).toMatchObject({ verdict: 'not-judged', reason: 'no-limit' });
    expect(names).toEqual(['reflectance-not-judged']);
    expect(accepted).toBe(true);
  });

  test('cannot be positive: that is a return loss, unless the block says so', () => {
    const wrong = asked(angledPlan, reflected('62'));
    expect(wrong.reflectances[0]).toMatchObject({
      verdict: 'invalid',
      reason: 'reflectance-positive',
    });
    expect(wrong.names).toEqual(['reflectance-positive']);
    const said = reflected('62').replace('reflectance in dB', 'reflectance in dB sign negative');
    expect(asked(angledPlan, said).reflectances[0]).toMatchObject({ verdict: 'pass' });
  });

  test('ages by work, and a later one stands for it', () => {
    const cleaned = 'work KQ-1 {\n  done        cleaned\n  on          2026-03-20\n}\n';
    const stale = asked(angledPlan, reflected('-48'), cleaned);
    expect(stale.reflectances[0]).toMatchObject({ verdict: 'stale', reason: 'work' });
    const again = reflected('-63').replaceAll('03-14 09', '03-14 11');
    const twice = asked(angledPlan, reflected('-48'), again);
    expect(twice.reflectances.map(({ verdict, current }) => [verdict, current])).toEqual([
      ['fail', false],
      ['pass', true],
    ]);
    expect(twice.names).not.toContain('return-loss-low');
  });
});

test('it stands among the readings in every form, with what it is', () => {
  const { plan, result } = asked(angledPlan, reflected('-48.5'));
  const form = toJson({ tool: 'test', result: plan.result, files: [], findings: [] });
  expect(form.links[0]?.readings.map(({ quantity }) => quantity)).toEqual(['loss', 'reflectance']);
  expect(form.links[0]?.readings[1]).toMatchObject({
    loss_db: null,
    reflectance_db: -48.5,
    limit_db: 60,
    margin_db: -11.5,
    verdict: 'fail',
    limit_name: 'KQ-OWNER',
  });
  const lines = readingsCsv(plan, [result]).text.split('\r\n');
  expect(lines[1]).toMatch(/,loss,,/u);
  expect(lines[2]).toMatch(/^KQ-1,1,850,A>B,1,MM-1,.*,reflectance,-48\.5,/u);
  const fibre = result.fibres[0]!;
  const rows = readingsOf(result, fibre).map((one) =>
    readingRow({ plan, display: plainDisplay }, result, fibre, one),
  );
  expect(rows.map(({ what, loss }) => [what, loss])).toEqual([
    ['850 nm A>B', '1.12'],
    ['850 nm A>B reflectance', '−48.50'],
  ]);
  expect(rows[1]?.facts.join('; ')).toContain('at least 60.00 contract');
  expect(new Set(rows.map(({ key }) => key)).size).toBe(2);
});
