/** An event as it is shown: beside its row, under the pointer, and in the JSON form. */
import { describe, expect, it } from 'vitest';
import { hover } from '../../server/src/features/hover.ts';
import { inlayHints } from '../../server/src/features/inlay-hints.ts';
import { toJson } from '../../server/src/report/json.ts';
import { resultSchema } from '../../server/src/report/schema.ts';
import { judged } from '../published/judged.ts';
import { answer, ask } from '../support/ask.ts';
import { tracedPlan } from './traced-plan.ts';

describe('shown', () => {
  const rows = '  1  2.0  splice  -0.06  0.22\n  2  2.0  splice  0.09  -\n  2  5.05  end  -  -';

  it('at the end of the row, in words', () => {
    const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
    const labels = answer(inlayHints, ask(tracedPlan(rows)), { range }).map(({ label }) =>
      String(label).trim(),
    );
    expect(labels).toContain('pass, average 0.08');
    expect(labels).toContain('not judged: seen A>B alone');
    expect(labels).toContain('pass, 5.05 km, 1.00 % over the 5 km declared');
  });

  it('under the pointer, with its limit and where that stands', () => {
    const marked = tracedPlan(rows).replace('-0.06', '-0.$006');
    const shown = answer(hover, ask(marked))?.contents;
    expect(shown).toMatchObject({
      value: `**splice WELD at pit 4, 1550 nm: pass**

average 0.08 dB of −0.06 dB A>B and 0.22 dB B>A

Limit 0.20 dB (SET, splice any), margin +0.12 dB`,
    });
  });

  it('in the JSON form, twice the average as a sum', () => {
    const { plan } = judged(tracedPlan(rows));
    const form = toJson({ tool: 'test', result: plan.result, files: [], findings: [] });
    const plain = resultSchema.parse(JSON.parse(JSON.stringify(form)));
    expect(plain.links[0]?.events[0]).toMatchObject({
      fibre: 1,
      at_m: 2000,
      forward_db: -0.06,
      back_db: 0.22,
      sum_db: 0.16,
      limit_db: 0.2,
      margin_db: 0.12,
      verdict: 'pass',
    });
    expect(plain.links[0]?.lengths).toMatchObject([{ fibre: 2, length_m: 5050, declared_m: 5000 }]);
  });
});
