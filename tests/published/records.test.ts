/**
 * Worked examples that others published, computed through the language where a
 * plan can say them, else by the functions of `optics` and `quantity`; laws of
 * textbooks that the product has no use for stand beside their records. Each is
 * compared with the value recomputed from the source's own inputs, within the
 * record's tolerance; where a source slipped, its printed figure is not the
 * measure. Source, place in it and how it was read stand in `records.json` and
 * in the name of each test.
 */
import { describe, expect, it } from 'vitest';
import book from './records.json' with { type: 'json' };
import { computed as budgets } from './records-budgets.ts';
import { computed as joints } from './records-joints.ts';
import { computed as lengths } from './records-lengths.ts';
import { computed as powers } from './records-powers.ts';
import { computed as signal } from './records-signal.ts';
import { computed as splits } from './records-splits.ts';
import { computed as statistics } from './records-statistics.ts';
import type { Computed, Inputs } from './records-with.ts';

const subjects = { budgets, lengths, powers, joints, signal, splits, statistics };
const computed: Computed = Object.assign({}, ...Object.values(subjects));

/** Records that nothing can be computed of. */
const skipped: Readonly<Record<string, string>> = {
  K05: 'the source prints percentiles without the distribution they come from, and its sums were taken from its figures backwards',
};

const { records } = book;
type Published = (typeof records)[number];

const provenances = ['READ', 'READ-COMPANION', 'READ-QUOTED', 'RULE-DERIVED', 'MEMORY'];

describe('published records', () => {
  it('are all computed but those that cannot be', () => {
    const run = records.filter(({ id }) => computed[id]);
    const left = records.filter(({ id }) => !computed[id]);
    console.log(`published records: ${run.length} computed, ${left.length} skipped`);
    for (const { id, title } of left) console.log(`  skipped ${id} ${title}: ${skipped[id]}`);
    expect(records.length).toBe(122);
    expect(run.length).toBe(121);
    expect(left.map(({ id }) => id)).toEqual(Object.keys(skipped));
    const known = new Set(records.map(({ id }) => id));
    expect(known.size).toBe(records.length);
    expect(Object.keys(computed).filter((id) => !known.has(id))).toEqual([]);
  });

  it('each name a source, a place in it and how it was read', () => {
    for (const { id, source, provenance } of records) {
      expect(source.title, id).not.toBe('');
      expect(source.locator, id).not.toBe('');
      expect(provenances, id).toContain(provenance);
    }
  });
});

describe.each(Object.entries(subjects))('published records of %s', (_subject, computations) => {
  const own = records.filter(({ id }) => computations[id]);
  it.each(own.map((record) => [record.id, record.title, sourceOf(record), record] as const))(
    '%s %s (%s)',
    (id, _title, _source, record) => {
      const answers = computations[id]?.(record.inputs as unknown as Inputs) ?? [];
      expect(answers.length).toBe(record.outputs.length);
      for (const [index, output] of record.outputs.entries())
        compare(answers[index], output, record.publishedSlip);
    },
  );
});

function sourceOf({ source, provenance }: Published): string {
  const { title, publisher, locator } = source as Record<string, string>;
  return [title, publisher, locator, provenance].filter(Boolean).join('; ');
}

function compare(
  answer: number | string | undefined,
  output: Published['outputs'][number],
  slipped: boolean,
): void {
  if (typeof output.expected === 'string') {
    expect(answer, output.name).toBe(output.expected);
    return;
  }
  // One micro-unit is how finely powers and roots are held; a look-up must be exact.
  const tolerance =
    output.tool_tolerance === 'exact' ? 0 : Math.max(Number(output.tool_tolerance), 1.1e-6);
  expect(Math.abs(Number(answer) - output.expected), output.name).toBeLessThanOrEqual(tolerance);
  const printed = 'stated' in output ? Number(output.stated) : output.expected;
  const allowed = Number(output.tolerance);
  if (slipped && Math.abs(printed - output.expected) > allowed)
    expect(Math.abs(Number(answer) - printed), 'a printed slip').toBeGreaterThan(allowed);
}
