/** Laws of evaluation: worse input never improves a verdict, and every total is the sum of its parts. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareDb } from '../../grammar/src/quantity/index.ts';
import {
  addTotals,
  emptyTotals,
  type LinkResult,
  readTotals,
  removeTotals,
  type Verdict,
  verdicts,
} from '../../server/src/evaluate/index.ts';
import type {
  DecisionRule,
  LinkModel,
  PairPolicy,
  PathElement,
} from '../../server/src/model/types.ts';
import {
  application,
  carried,
  cell,
  checked,
  db,
  disturbed,
  evaluate,
  evidence,
  limitsSet,
  link,
  mated,
  place,
  settings,
  setup,
  stretch,
  taken,
  welded,
  when,
} from '../support/build.ts';

/** Hundredths of a decibel, so that equal values meet. */
const loss = fc.integer({ min: 0, max: 600 }).map((n) => n / 100);
const more = fc.integer({ min: 0, max: 300 }).map((n) => n / 100);
const rule = fc.constantFrom<DecisionRule>(
  'flagged',
  'simple',
  'guarded-acceptance',
  'guarded-rejection',
);
const accepting = fc.constantFrom(
  'none' as const,
  'marginal-pass' as const,
  'marginal-fail' as const,
);
const policy = fc.constantFrom<PairPolicy>('counting', 'reference-grade', 'enhanced');
const length = fc.integer({ min: 1, max: 900 });
const inside = fc.array(fc.constantFrom('pair', 'splice', 'stretch'), { maxLength: 6 });

const pathOf = (metres: number, parts: readonly string[]): PathElement[] => [
  mated(),
  stretch(metres),
  ...parts.map((part) => (part === 'pair' ? mated() : part === 'splice' ? welded() : stretch(7))),
  mated(),
];

/** Worst first: a larger rank is a better word. */
const rank = (verdict: Verdict) => verdicts.indexOf(verdict);
const decided = (by: DecisionRule, word: 'none' | 'marginal-pass' | 'marginal-fail') =>
  settings({ decision: { rule: by, accepting: word } });

describe('worse input never improves a verdict', () => {
  it('more loss', () => {
    fc.assert(
      fc.property(
        loss,
        more,
        rule,
        accepting,
        policy,
        length,
        inside,
        fc.boolean(),
        (value, extra, by, word, how, metres, parts, conceded) => {
          const model = link(pathOf(metres, parts), {
            limits: [limitsSet('SET', 0.75, 3, { policy: how })],
          });
          const concessions = conceded
            ? [{ object: 'KQ-1', accepted: db(3), because: 'x', by: 'y', place: place() }]
            : [];
          const judge = (typed: number) =>
            evaluate(
              model,
              evidence({ readings: [cell(1, typed, 'A>B', 500)], concessions }),
              setup(),
              decided(by, word),
            );
          const [a, b] = [judge(value), judge(value + extra)];
          const word1 =
            a.readings.find((one) => one.current && one.attempt === 1)?.verdict ?? 'untested';
          const word2 =
            b.readings.find((one) => one.current && one.attempt === 1)?.verdict ?? 'untested';
          expect(rank(word2)).toBeLessThanOrEqual(rank(word1));
        },
      ),
    );
  });

  it('one more limit in force', () => {
    fc.assert(
      fc.property(
        loss,
        rule,
        length,
        fc.integer({ min: 10, max: 120 }),
        fc.integer({ min: 50, max: 500 }),
        (value, by, metres, pair, reach) => {
          const first = limitsSet('SET', 0.75, 3);
          const second = limitsSet('OTHER', pair / 100, 2.5);
          const service = application([
            { reach, loss: 1.5 },
            { reach: 2 * reach, loss: 2.6 },
          ]);
          const found = evidence({ readings: [cell(1, value, 'A>B', 500)] });
          const verdictOf = (model: LinkModel) =>
            evaluate(model, found, setup(), decided(by, 'marginal-pass')).readings[0]?.verdict ??
            'untested';
          const alone = verdictOf(link(pathOf(metres, []), { limits: [first] }));
          const both = verdictOf(link(pathOf(metres, []), { limits: [first, second] }));
          const carrying = verdictOf(
            link(pathOf(metres, []), { limits: [first], carries: [carried(service, [3])] }),
          );
          expect(rank(both)).toBeLessThanOrEqual(rank(alone));
          expect(rank(carrying)).toBeLessThanOrEqual(rank(alone));
        },
      ),
    );
  });

  it('a longer path or longer cords never soften what an application leaves', () => {
    fc.assert(
      fc.property(
        length,
        length,
        length,
        fc.integer({ min: 50, max: 500 }),
        (metres, extra, cord, reach) => {
          const service = application([
            { reach, loss: 2.6 },
            { reach: 2 * reach, loss: 1.5 },
          ]);
          const left = (far: number, outside: number) => {
            const model = link(pathOf(far, []), { carries: [carried(service, [outside])] });
            const limit = evaluate(model, evidence()).wavelengths[0]?.limits.find(
              (one) => one.kind === 'application',
            );
            return limit?.value;
          };
          const [short, longer, corded] = [
            left(metres, cord),
            left(metres + extra, cord),
            left(metres, cord + extra),
          ];
          expect(short !== undefined && longer !== undefined && corded !== undefined).toBe(true);
          if (short === undefined || longer === undefined || corded === undefined) return;
          expect(longer <= short).toBe(true);
          expect(corded <= short).toBe(true);
        },
      ),
    );
  });

  it('nothing that goes wrong with a set-up makes an object accepted', () => {
    const fault = fc.constantFrom(
      'disturbed',
      'drift',
      'late',
      'work',
      'unproven',
      'no reference',
      'no receive cord',
    );
    fc.assert(
      fc.property(loss, fault, rule, (value, wrong, by) => {
        const model = link(pathOf(100, []), { directions: { wanted: ['A>B'], average: false } }, 1);
        const reading = cell(1, value, 'A>B', wrong === 'late' ? 2000 : 500);
        const good = setup();
        const bad = {
          disturbed: setup({}, [taken(480, -20), disturbed(490)]),
          drift: setup({}, [taken(480, -20), checked(510, -20.2)]),
          late: good,
          work: good,
          unproven: setup({ cords: good.cords.map((cord) => ({ ...cord, verified: undefined })) }),
          'no reference': setup({}, []),
          'no receive cord': setup({ cords: good.cords.filter((cord) => cord.role === 'launch') }),
        }[wrong];
        const work =
          wrong === 'work'
            ? [{ object: 'KQ-1', done: 'cleaned', on: when(600), place: place() }]
            : [];
        const result = evaluate(
          model,
          evidence({ readings: [reading], work }),
          bad,
          decided(by, 'marginal-fail'),
        );
        expect(result.accepted).toBe(false);
        expect(['invalid', 'stale']).toContain(result.verdict);
      }),
    );
  });

  it('a check that drifted further never heals', () => {
    const drift = fc.integer({ min: -40, max: 40 }).map((n) => n / 100);
    fc.assert(
      fc.property(drift, fc.integer({ min: 1, max: 40 }), (found, extra) => {
        const model = link(pathOf(100, []));
        const further = found + Math.sign(found || 1) * (extra / 100);
        const validAt = (d: number) =>
          evaluate(
            model,
            evidence({ readings: [cell(1, 1, 'A>B', 500)] }),
            setup({}, [taken(480, -20), checked(520, -20 + d)]),
          ).readings[0]?.verdict !== 'invalid';
        if (validAt(further)) expect(validAt(found)).toBe(true);
      }),
    );
  });
});

describe('totals are the sum of their parts', () => {
  const model = (
    metres: number,
    parts: readonly string[],
    how: PairPolicy,
    cords: readonly number[],
  ) =>
    link(pathOf(metres, parts), {
      limits: [limitsSet('SET', 0.75, 3, { policy: how }), limitsSet('OTHER', 0.5, 2.7)],
      carries: [carried(application([{ reach: 300, loss: 2.9 }]), cords)],
      reference: 'three-cord',
    });

  it('every limit, expected and greatest loss equals its terms', () => {
    fc.assert(
      fc.property(
        length,
        inside,
        policy,
        fc.array(length, { maxLength: 2 }),
        (metres, parts, how, cords) => {
          const result = evaluate(model(metres, parts, how, cords), evidence());
          for (const at of result.wavelengths) {
            for (const limit of at.limits) {
              if (limit.value === undefined) continue;
              expect(limit.terms.reduce((total, term) => total + term.total, 0n)).toBe(limit.value);
            }
            expect(at.worstTerms.reduce((total, term) => total + term.total, 0n)).toBe(at.worst);
          }
        },
      ),
    );
  });

  const readings = fc.array(
    fc.record({
      fibre: fc.integer({ min: 1, max: 5 }),
      loss: fc.option(loss, { nil: 'dark' as const }),
      direction: fc.constantFrom('A>B' as const, 'B>A' as const),
      minute: fc.integer({ min: 400, max: 1600 }),
    }),
    { maxLength: 24 },
  );

  it('verdicts counted are the verdicts that stand, and present plus missing is expected', () => {
    fc.assert(
      fc.property(readings, (rows) => {
        const cells = rows.map((row) => cell(row.fibre, row.loss, row.direction, row.minute));
        const result = evaluate(link(pathOf(100, [])), evidence({ readings: cells }));
        const standing = result.fibres.flatMap((one) => one.current);
        for (const verdict of verdicts) {
          expect(result.counts[verdict]).toBe(
            standing.filter((one) => one.verdict === verdict).length,
          );
        }
        const missing = standing.filter((one) => one.expectedSet && one.attempt === null).length;
        expect(result.present + missing).toBe(result.expected);
        expect(result.readings.filter((one) => one.attempt !== null).length).toBe(rows.length);
      }),
    );
  });

  it('does not depend on the order in which evidence is handed in', () => {
    fc.assert(
      fc.property(
        readings.chain((rows) => {
          const cells = rows.map((row) => cell(row.fibre, row.loss, row.direction, row.minute));
          return fc.tuple(
            fc.constant(cells),
            fc.shuffledSubarray(cells, { minLength: cells.length }),
          );
        }),
        ([cells, shuffled]) => {
          const of = (list: typeof cells) => {
            const {
              verdict,
              counts,
              fibres,
              accepted,
              readings: all,
            } = evaluate(link(pathOf(100, [])), evidence({ readings: list }));
            return {
              verdict,
              counts,
              accepted,
              words: fibres.map((one) => one.verdict),
              all: all.map((one) => [one.reading?.order, one.verdict, one.attempt]),
            };
          };
          expect(of(shuffled)).toEqual(of(cells));
        },
      ),
    );
  });

  it('a plan kept by differences equals a plan counted afresh', () => {
    const step = fc.record({ name: fc.integer({ min: 0, max: 9 }), loss, drop: fc.boolean() });
    fc.assert(
      fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
        const totals = emptyTotals();
        const standing = new Map<string, LinkResult>();
        for (const { name, loss: value, drop } of steps) {
          const old = standing.get(`L${name}`);
          if (old) removeTotals(totals, old);
          standing.delete(`L${name}`);
          if (drop) continue;
          const named = { ...link(pathOf(100, []), {}, 2), name: `L${name}` };
          const result = evaluate(named, evidence({ readings: [cell(1, value, 'A>B', 500)] }));
          standing.set(`L${name}`, result);
          addTotals(totals, result);
        }
        const fresh = emptyTotals();
        for (const result of standing.values()) addTotals(fresh, result);
        expect(readTotals(totals)).toEqual(readTotals(fresh));
        const margins = [...standing.values()].flatMap((one) => one.worstMargin?.margin ?? []);
        const least = margins.sort(compareDb)[0];
        expect(readTotals(totals).worst?.margin).toBe(least);
      }),
    );
  });
});
