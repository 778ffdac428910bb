/** What keeps a plan from being accepted: every doubt until it is answered in words, and no note. */
import { describe, expect, test } from 'vitest';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from '../../server/src/checks/examples.ts';
import { checks } from '../../server/src/checks/index.ts';
import { judge } from '../support/judge.ts';

const readings = multimodeReadings('1  1.12  0.84', '2  1.08  0.80');

function asked(...parts: readonly string[]) {
  const { plan, findings } = judge(example(...parts));
  return {
    accepted: plan.result.totals.accepted,
    link: plan.result.link('KQ-1')?.accepted,
    verdict: plan.result.link('KQ-1')?.verdict,
    names: findings.map(({ name }) => name),
  };
}

/** The text with one more line in the block that begins with a word. */
function within(text: string, line: string): string {
  return text.replace(/\n\}/u, `\n  ${line}\n}`);
}

const answer = (name: string) => `silence     ${name} because "known and meant"`;

test('nothing stands in the way of a plan that says all and passes', () => {
  expect(asked(multimodePlan, multimodeLink, multimodeSetup, readings)).toMatchObject({
    accepted: true,
    link: true,
    names: [],
  });
});

describe('a doubt of a check blocks until it is answered', () => {
  const cases: readonly (readonly [string, string, string])[] = [
    [
      'core-size-mismatch',
      multimodePlan,
      multimodeLink.replace(
        '  segment     180 m OM4',
        '  segment     90 m OM4\n  connector   LC\n  segment     30 m OM1\n  connector   LC\n  segment     60 m OM4',
      ),
    ],
    [
      'limit-missing',
      `${multimodePlan.replace(/limits {6}\S+/u, (line) => `${line}, KQ-BARE`)}
limits KQ-BARE {
  policy      counting
  connector   any 0.75 dB
}
`,
      multimodeLink,
    ],
    [
      'budget-over-limit',
      multimodePlan,
      multimodeLink
        .replace(
          '  segment     180 m OM4',
          '  segment     90 m OM4\n  connector   LC\n  segment     90 m OM4\n  connector   LC\n  segment     60 m OM4',
        )
        .replace('}', '  carries     10GBASE-SR\n}'),
    ],
  ];
  test.each(cases)('%s', (name, plan, link) => {
    expect(checks.find((check) => check.name === name)?.kind).toBe('doubt');
    const open = asked(plan, link, multimodeSetup, readings);
    expect(open).toMatchObject({ accepted: false, link: false, verdict: 'pass' });
    expect(open.names).toContain(name);
    for (const [own, whole] of [
      [within(link, answer(name)), plan],
      [link, within(plan, answer(name))],
    ] as const) {
      const answered = asked(whole, own, multimodeSetup, readings);
      expect(answered).toMatchObject({ accepted: true, link: true });
      expect(answered.names).not.toContain(name);
    }
  });

  test('of a set-up too, by the plan or by the set-up itself', () => {
    const setup = multimodeSetup.replace(/ {2}launch .*\n/u, '');
    const name = 'launch-condition-missing';
    expect(asked(multimodePlan, multimodeLink, setup, readings)).toMatchObject({
      accepted: false,
      names: [name],
    });
    const answered = within(setup, answer(name));
    expect(asked(multimodePlan, multimodeLink, answered, readings)).toMatchObject({
      accepted: true,
      names: [],
    });
    expect(
      asked(within(multimodePlan, answer(name)), multimodeLink, setup, readings),
    ).toMatchObject({ accepted: true, names: [] });
  });

  test('of a declaration that no limit was built from', () => {
    const spare = `link KQ-2 {
  fibres      1..2
  connector   LC
  segment     20 m OM4
  dead        1..2 because "not pulled in yet"
}
`;
    const one = asked(multimodePlan, multimodeLink, multimodeSetup, readings, spare);
    expect(one).toMatchObject({ accepted: false, link: true });
    expect(one.names).toContain('open-end');
  });
});

describe('a note blocks nothing', () => {
  test.each(['marginal-pass', 'margin-below-wanted'])('%s', (name) => {
    expect(checks.find((check) => check.name === name)?.kind).toBe('note');
    const plan = within(multimodePlan, 'margin      1 dB');
    const near = multimodeReadings('1  2.00  0.84', '2  1.08  0.80');
    const noted = asked(plan, multimodeLink, multimodeSetup, near);
    expect(noted.accepted).toBe(true);
    expect(noted.names).toContain(name);
  });
});

describe('an answer that answers nothing is said where it stands', () => {
  const places = ['plan', 'link', 'setup'] as const;
  const written = (where: (typeof places)[number], name: string) => {
    const parts = { plan: multimodePlan, link: multimodeLink, setup: multimodeSetup };
    const text = { ...parts, [where]: within(parts[where], answer(name)) };
    const { findings, plan } = judge(example(text.plan, text.link, text.setup, readings));
    return findings.map(({ name: found, place }) => {
      const at = plan.locate(place);
      return [found, at?.range.start.line];
    });
  };
  const line = (where: (typeof places)[number]) => {
    const parts = [multimodePlan, multimodeLink, multimodeSetup];
    const index = places.indexOf(where);
    const marked = within(parts[index]!, answer('here'));
    return example(...parts.slice(0, index), marked)
      .split('\n')
      .findIndex((one) => one.includes('here'));
  };

  test.each(places)('a name that nothing has, in the %s', (where) => {
    expect(written(where, 'core-size')).toEqual([['silence-unknown', line(where)]]);
  });

  test.each(places)('a contradiction, in the %s', (where) => {
    expect(written(where, 'loss-negative')).toEqual([['silence-refused', line(where)]]);
  });

  test.each(places)('but a doubt that is not there today may be answered, in the %s', (where) => {
    expect(written(where, 'open-end')).toEqual([]);
  });

  test('in a table once, not for each of its rows', () => {
    const table = `pattern tail {
  connector   LC
  segment     <length> OM4
  connector   LC
}

links as tail {
  fibres      1..2
  silence     core-size because "old cable"
  columns link, length in m
  KQ-5  40
  KQ-6  50
}
`;
    const found = asked(multimodePlan, table).names;
    expect(found.filter((name) => name === 'silence-unknown')).toHaveLength(1);
  });
});
