/** Readings after a repair: the new limit, the rise over the reading before, what counts as one, what is used up. */
import { describe, expect, it } from 'vitest';
import { exactDb, printExactDb } from '../../grammar/src/quantity/index.ts';
import { repairsUsed } from '../../server/src/evaluate/repairs.ts';
import type { LinkModel, PathElement, ReadingCell, Repair } from '../../server/src/model/types.ts';
import {
  betweenPairs,
  cell,
  connector,
  db,
  evaluate,
  evidence,
  link,
  oneWay,
  place,
  setup,
  stretch,
  taken,
  welded,
  when,
} from '../support/build.ts';

/** Two splices and 100 m: 2 × 0.3 + 0.1 × 3.0 = 0.9 dB at 850 nm. */
const put = [welded(), stretch(100), welded()];

function repair(name: string, minute: number, fibres = [1], path: readonly PathElement[] = put) {
  return { name, fibres, on: when(minute), path, place: place() } satisfies Repair;
}

/** 1 km between two pairs: 3.0 + 2 × 0.75 = 4.5 dB. */
function repaired(...repairs: readonly Repair[]): LinkModel {
  return { ...link(betweenPairs(1000)), repairs };
}

const references = setup({}, [taken(480, -20), taken(1000, -20), taken(2000, -20)]);

function judge(model: LinkModel, readings: readonly ReadingCell[], more = {}) {
  const result = evaluate(model, evidence({ readings, ...more }), references);
  const current = result.readings.find((one) => one.current && one.attempt !== null);
  return { result, current, names: result.doubts.map(({ name }) => name) };
}

describe('a repair in one fibre', () => {
  const model = repaired(repair('REP-1', 900));

  it('gives it the new limit from then on, and the others the old one', () => {
    const readings = [cell(1, 2.1, 'A>B', 600), cell(1, 2.9, 'A>B', 1100), cell(2, 2, 'A>B', 1100)];
    const { result } = judge(model, readings);
    const limits = result.readings
      .filter(({ attempt }) => attempt !== null)
      .map(({ limit }) => limit?.value && printExactDb(limit.value));
    expect(limits).toEqual(['4.5', '5.4', '4.5']);
    expect(result.readings[0]).toMatchObject({
      verdict: 'stale',
      because: 'repair REP-1 on minute 900, after it was measured',
    });
    // What was read in the very minute was read on what was put in.
    const [then] = judge(model, [cell(1, 2.9, 'A>B', 900)]).result.readings;
    expect(then?.limit?.value).toBe(exactDb(db(5.4)));
  });

  it('lets a rise of just what was put in pass', () => {
    const { current } = judge(model, [cell(1, 2.1, 'A>B', 600), cell(1, 3, 'A>B', 1100)]);
    expect(current?.verdict).toBe('pass');
    expect(current?.limit?.value).toBe(exactDb(db(5.4)));
  });

  it('fails a rise above it, plainly, whatever the uncertainty', () => {
    const { current, names } = judge(model, [
      cell(1, 2.1, 'A>B', 600),
      cell(1, 3.000001, 'A>B', 1100),
    ]);
    expect(current?.verdict).toBe('fail');
    expect(current?.margin && printExactDb(current.margin)).toBe('-0.000001');
    expect(names).toContain('rise-after-repair');
    expect(names).not.toContain('over-limit');
  });

  it('says over the limit, once, where that is smaller still', () => {
    const { current, names } = judge(model, [cell(1, 4.8, 'A>B', 600), cell(1, 6, 'A>B', 1100)]);
    expect(current?.limit?.value).toBe(exactDb(db(5.4)));
    expect(names).toContain('over-limit');
    expect(names).not.toContain('rise-after-repair');
  });

  it('judges by the last attempt after it', () => {
    const { current } = judge(model, [
      cell(1, 2.1, 'A>B', 600),
      cell(1, 3.4, 'A>B', 1100),
      cell(1, 2.8, 'A>B', 1200),
    ]);
    expect(current?.verdict).toBe('pass');
  });

  it('can be conceded like any other excess', () => {
    const concession = {
      object: 'KQ-1',
      accepted: db(3.5),
      because: 'closure reopened in spring',
      by: 'M. Ashdown',
      place: place(),
    };
    const { current, names } = judge(model, [cell(1, 2.1, 'A>B', 600), cell(1, 3.4, 'A>B', 1100)], {
      concessions: [concession],
    });
    expect(current?.verdict).toBe('conceded');
    expect(names).toContain('excess-conceded');
    expect(names).not.toContain('rise-after-repair');
  });
});

describe('the reading before', () => {
  const model = repaired(repair('REP-1', 900));
  const after = cell(1, 3.4, 'A>B', 1100);

  it('is the last valid one, not the lowest', () => {
    const { current } = judge(model, [cell(1, 2.1, 'A>B', 600), cell(1, 2.6, 'A>B', 700), after]);
    expect(current?.verdict).toBe('pass');
  });

  it('is none that was withdrawn', () => {
    const good = cell(1, 2.1, 'A>B', 600);
    const wrong = cell(1, 2.6, 'A>B', 700);
    const withdrawal = {
      object: 'KQ-1',
      tested: when(700),
      because: 'wrong panel',
      by: 'R. Vale',
      place: place(),
    };
    const { current } = judge(model, [good, wrong, after], { withdrawals: [withdrawal] });
    expect(current?.verdict).toBe('fail');
  });

  it('is none without a reference', () => {
    const { current, names } = judge(model, [cell(1, 2.1, 'A>B', 300), after]);
    expect(current?.verdict).toBe('pass');
    expect(names).toContain('reading-before-repair-missing');
  });

  it('is of the same wavelength and direction', () => {
    const { names } = judge(model, [cell(1, 2.1, 'B>A', 600), after]);
    expect(names).toContain('reading-before-repair-missing');
    expect(names).not.toContain('rise-after-repair');
  });
});

describe('several repairs', () => {
  it('allow what each put in since the reading', () => {
    const model = repaired(repair('REP-1', 700), repair('REP-2', 900, [1], [welded()]));
    const verdict = (loss: number) =>
      judge(model, [cell(1, 2.1, 'A>B', 600), cell(1, loss, 'A>B', 1100)]).current?.verdict;
    expect([verdict(3.3), verdict(3.31)]).toEqual(['pass', 'fail']);
  });

  it('count from a reading between them by the later one alone', () => {
    const model = repaired(repair('REP-1', 700), repair('REP-2', 900, [1], [welded()]));
    const { current, result } = judge(model, [
      cell(1, 2.1, 'A>B', 600),
      cell(1, 2.9, 'A>B', 800),
      cell(1, 3.3, 'A>B', 1100),
    ]);
    expect(current?.verdict).toBe('fail');
    const doubt = result.doubts.find(({ name }) => name === 'rise-after-repair');
    expect(doubt?.details).toMatchObject({ rise: 0.4, allowed: 0.3, repairs: 'repair REP-2' });
  });

  it('are counted by the fibre that has had most, against the reserve', () => {
    const repairs = [repair('REP-1', 700, [1, 2]), repair('REP-2', 900, [2])];
    const model = repaired(...repairs);
    expect(repairsUsed(model)).toBe(2);
    const reserved = (count: number) => ({
      ...model,
      terms: { ...model.terms, reserve: { splices: 0, repairs: count, ageing: db(0) } },
    });
    expect(judge(reserved(2), []).names).not.toContain('repair-reserve-used-up');
    expect(judge(reserved(1), []).names).toContain('repair-reserve-used-up');
    expect(judge(model, []).names).not.toContain('repair-reserve-used-up');
  });
});

describe('a repair and an array joint', () => {
  const array: PathElement = {
    kind: 'connector',
    name: 'ARRAY',
    type: { ...connector, name: 'ARRAY', positions: 4 },
    place: place(),
  };
  const model = {
    ...link([array, stretch(1000), array]),
    repairs: [repair('REP-1', 900, [2])],
  };

  it('touches its own fibre, not those that share the joint', () => {
    const { result } = judge(model, [cell(1, 2.1, 'A>B', 600), cell(2, 2.1, 'A>B', 600)]);
    const read = result.readings.filter(({ attempt }) => attempt !== null);
    expect(read.map(({ fibre, verdict }) => `${fibre} ${verdict}`)).toEqual(['1 pass', '2 stale']);
  });
});

it('a repair of all fibres in use is part of the path as it is now', () => {
  const now = repaired(repair('REP-1', 900, [1, 2, 3, 4]));
  const limitOf = (model: LinkModel) => {
    const value = judge(model, []).result.wavelengths[0]?.governing?.value;
    return value && printExactDb(value);
  };
  expect(limitOf(now)).toBe('5.4');
  expect(limitOf({ ...now, repairs: [repair('REP-1', 900, [1, 2, 3])] })).toBe('4.5');
  const dead = [{ fibre: 4, because: 'crushed' }];
  expect(limitOf({ ...now, dead, repairs: [repair('REP-1', 900, [1, 2, 3])] })).toBe('5.4');
  const planned = { ...now, repairs: [repair('REP-1', 2_000_000, [1, 2, 3, 4])] };
  expect(limitOf(planned)).toBe('4.5');
  // From its own minute on, and not while no fibre is in use.
  const due = { ...now, repairs: [repair('REP-1', 1_000_000, [1, 2, 3, 4])] };
  expect(limitOf(due)).toBe('5.4');
  const all = [1, 2, 3, 4].map((fibre) => ({ fibre, because: 'crushed' }));
  expect(limitOf({ ...now, dead: all })).toBe('4.5');
});

it('after a repair, both what it rose by and what was put in are told', () => {
  const readings = [cell(1, 1, 'A>B', 500), cell(1, 2.2, 'A>B', 600)];
  const model = { ...link(betweenPairs(500), oneWay, 1), repairs: [repair('REP-1', 550)] };
  const { doubts, readings: results } = judge(model, readings).result;
  // Two splices of 0.3 dB and 0.3 dB of fibre are 0.9 dB; it rose by 1.2 dB.
  const because = '1.20 dB more than before repair REP-1, and what was put in allows 0.90 dB';
  expect(results[1]).toMatchObject({
    verdict: 'fail',
    because,
    reason: 'rise-after-repair',
    margin: exactDb(db(-0.3)),
  });
  expect(results[1]?.limit).toMatchObject({
    kind: 'components',
    name: 'reading before repair REP-1 and what was put in',
    value: exactDb(db(1.9)),
    floor: db(1.9),
    beside: false,
    recalled: false,
  });
  expect(
    results[1]?.limit?.terms.map(({ what, total, source }) => [what, Number(total) / 1e15, source]),
  ).toEqual([
    ['reading of minute 500', 1, 'the last valid one before repair REP-1'],
    ['splices', 0.6, 'SET, splice any'],
    ['fibre GLASS', 0.3, 'SET, fibre GLASS at 850 nm'],
  ]);
  expect(doubts.filter(({ name }) => name === 'rise-after-repair')).toMatchObject([
    {
      place: readings[1]?.place,
      details: { rise: 1.2, allowed: 0.9, before: 1, repairs: 'repair REP-1', over: 0.3 },
    },
  ]);
});
