/** What a plan says of its changes, as the model holds it; what cannot be read is told at its place. */
import { describe, expect, it } from 'vitest';
import { judge } from '../support/judge.ts';

const plan = (...lines: string[]) => judge(['plan "Berth 3" {', ...lines, '}', ''].join('\n'));
const rules = (...lines: string[]) =>
  plan('  changes {', ...lines, '  }').plan.settings.changes.map(({ place, ...rule }) => rule);

describe('rules of a plan for its changes', () => {
  it('are none where nothing is said', () => {
    expect(plan('  client "Harbour Board"').plan.settings.changes).toEqual([]);
  });

  it('stand in the order of the text, with what they ask', () => {
    expect(
      rules(
        '    unedited',
        '    margin      0.5 dB',
        '    signed      "M. Ashdown",',
        '                "P. Orme"',
        '    no-worse',
        '    same-limits',
        '    retested',
      ),
    ).toEqual([
      { rule: 'unedited' },
      { rule: 'margin', least: 500_000 },
      { rule: 'signed', by: ['M. Ashdown', 'P. Orme'] },
      { rule: 'no-worse' },
      { rule: 'same-limits' },
      { rule: 'retested' },
    ]);
  });

  it.each([
    ['    margin      0.5', 'missing-unit', 2],
    ['    margin      wide', 'wrong-kind', 2],
    ['    signed', 'missing-argument', 2],
    ['    no-wors', 'unknown-word', 2],
    ['    limits', 'word-not-here', 2],
    ['    unedited    yes', 'too-many-arguments', 2],
  ])('that cannot be read is one finding at its place: %s', (line, name, at) => {
    const { plan: judged, findings } = plan('  changes {', line, '  }');
    expect(
      findings.map((finding) => [finding.name, judged.locate(finding.place)?.range.start.line]),
    ).toEqual([[name, at]]);
  });

  it('ask nothing by a line that cannot be read', () => {
    expect(rules('    margin      wide', '    signed', '    retested')).toEqual([
      { rule: 'retested' },
    ]);
  });

  it('stand once each', () => {
    const { findings } = plan('  changes {', '    no-worse', '    no-worse', '  }');
    expect(findings).toHaveLength(1);
  });

  it('at the margin by a slip are still rules of the plan', () => {
    const { plan: judged } = judge('plan "Berth 3" {\nchanges {\n  no-worse\n}\n}\n');
    expect(judged.settings.changes.map(({ rule }) => rule)).toEqual(['no-worse']);
  });
});
