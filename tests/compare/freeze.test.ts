/** A frozen plan answers for ever what it answered when it was taken; and what is equal is not judged twice. */
import { describe, expect, it } from 'vitest';
import { stateOf } from '../../server/src/compare/state.ts';
import type { PlanState } from '../../server/src/compare/types.ts';
import { head, links, planText } from '../bench/plan.ts';
import { comparePlans } from '../support/compare.ts';
import { judge } from '../support/judge.ts';

const plan = `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  reference   one-cord
  uncertainty 0.15 dB
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
}

pattern berth {
  fibres      1..2
  connector   LC
  segment     <length> OM4
  connector   LC
}

links "Berths" as berth {
  columns link,  length in m
  KQ-1           120
  KQ-2           140
}

readings {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns link,  fibre, 850 nm A>B
  KQ-1               1        0.81
  KQ-2               1        0.92
  KQ-2               2        0.95
}
`;

/** Everything that a state answers about two objects and what its findings point at, as plain data. */
function answersOf(state: PlanState, other: string): string {
  const places = new Map<object, unknown>();
  const plain = (_: string, value: unknown): unknown => {
    if (typeof value === 'bigint') return `${value}n`;
    if (typeof value === 'object' && value !== null && 'block' in value && 'span' in value) {
      if (!places.has(value)) places.set(value, state.locate(value as never) ?? 'nowhere');
      return places.get(value);
    }
    return value;
  };
  // Of blocks that stay as they are nobody asks how far they reached.
  const changing = state.files.flatMap(({ blocks }) =>
    blocks.filter(({ text }) => !other.includes(text)),
  );
  const objects = ['KQ-1', 'KQ-2', 'KQ-3'];
  return JSON.stringify(
    {
      files: state.files.map(({ path, text, blocks }) => ({
        path,
        text,
        blocks: blocks.map(({ line, lines, text: block }) => ({ line, lines, block })),
      })),
      settings: state.settings,
      totals: { ...state.result.totals, worst: state.result.totals.worst?.margin },
      order: state.result.order,
      results: objects.map((name) => state.result.link(name)),
      findings: state.findings.map(({ name, message, place }) => ({ name, message, place })),
      evidence: objects.map((name) => state.evidence(name)),
      setup: state.setup('MM-1'),
      found: objects.map((name) => state.find('object', name)),
      reach: changing.map(({ id }) => [state.reach(id), state.reach(id, 'KQ-2')]),
    },
    plain,
    1,
  );
}

function live(text: string): PlanState {
  const { plan: judged, project } = judge(text);
  return stateOf(judged, project, 'before');
}

describe('a frozen state', () => {
  it.each([
    [
      'a row more above others',
      'KQ-1               1        0.81\n',
      'KQ-1 1 0.81\n  KQ-1 2 0.7\n',
    ],
    ['a row less', '  KQ-1               1        0.81\n', ''],
    [
      'a link more in the table',
      '  KQ-1           120\n',
      '  KQ-0           100\n  KQ-1           120\n',
    ],
    [
      'a field of the plan',
      '  limits      TIA-568.3-E\n',
      '  client "Harbour board"\n  limits TIA-568.3-E\n',
    ],
    ['a set-up gone', /setup MM-1[^}]*\}\n/u, ''],
    ['the reference power', '-20.05', '-20.25'],
    ['another name', /KQ-2/gu, 'KQ-3'],
    ['nothing left', /.*/su, 'plan "Empty" {\n}\n'],
  ])('answers as it did, whatever was put in its place: %s', (_, from, to) => {
    const after = plan.replace(from, to);
    expect(after).not.toBe(plan);
    const [compared] = comparePlans(plan, after);
    expect(answersOf(compared!.before!, after)).toBe(answersOf(live(plan), after));
    expect(answersOf(compared!.after!, plan)).toBe(answersOf(live(after), plan));
  });

  it('keeps the results of what does not change: only that is judged again', () => {
    const text = `${head}\n${planText(links(12))}`;
    const sameResults = (after: string) => {
      expect(after).not.toBe(text);
      const [{ before: was, after: is } = {}] = comparePlans(text, after);
      const order = was!.result.order;
      expect(order).toHaveLength(12);
      return order.filter((name) => was!.result.link(name) === is!.result.link(name)).length;
    };
    expect(sameResults(text.replace('segment     27 m OM4', 'segment     28 m OM4'))).toBe(11);
    expect(sameResults(text.replace('"Harbour board"', '"Harbour trust"'))).toBe(12);
    expect(sameResults(text.replaceAll('\n\n', '\n# a remark\n\n'))).toBe(12);
    const third = /link KQ-00003 [^}]*\}\n/u;
    expect(
      sameResults(text.replace(third, (block) => `# before it\n\n${block}\n# behind it\n`)),
    ).toBe(12);
    // Two edits far apart leave what lies between them as it is.
    const twice = text
      .replace('segment     20 m', 'segment     21 m')
      .replace('segment     31 m', 'segment     32 m');
    expect(sameResults(twice)).toBe(10);
  });
});
