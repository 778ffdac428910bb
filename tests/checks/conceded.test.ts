import { expect, test } from 'vitest';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from '../../server/src/checks/examples.ts';
import { findCheck } from '../../server/src/checks/index.ts';
import { judge } from '../support/judge.ts';

const names = (text: string) => judge(text).findings.map(({ name }) => name);

test('a plan whose only excess is conceded has no error left', () => {
  const conceded = findCheck('excess-conceded')?.bad ?? '';
  const { findings, plan } = judge(conceded);
  expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  expect(plan.result.link('KQ-1')?.verdict).toBe('conceded');
});

test('a concession that does not cover an excess is told with it: ended, or too small', () => {
  const said = (accepted: string, until: string) => {
    const { findings } = judge(
      (findCheck('excess-conceded')?.bad ?? '')
        .replace(/accepted .*/u, `accepted    ${accepted}`)
        .replace(/(\n {2}because .*)/u, `$1\n  until       ${until}`),
      '2026-06-01 12:00',
    );
    return findings.find(({ name }) => name === 'over-limit')?.message;
  };
  // 2.31 dB were read, of 2.04 dB.
  expect(said('2.40 dB', '2026-06-01')).toBeUndefined();
  expect(said('2.40 dB', '2026-05-31')).toMatch(
    /The concession of up to 2\.40 dB by .+ ended on 2026-05-31\.$/u,
  );
  expect(said('2.30 dB', '2026-06-01')).toMatch(
    /The concession of up to 2\.30 dB by .+ does not reach so far\.$/u,
  );
  expect(said('2.30 dB', '2026-05-31')).toMatch(/look at the joints\.$/u);
});

test('what a guarded decision refuses inside its limit is not conceded as over it', () => {
  const conceded = (findCheck('excess-conceded')?.bad ?? '')
    .replace('  uncertainty', '  decision    guarded-acceptance\n  uncertainty')
    .replace('2.31', '2.00');
  const said = judge(conceded).findings.find(({ name }) => name === 'excess-conceded')?.message;
  expect(said).toContain('lost 2.00 dB, 0.04 dB inside the limit of 2.04 dB');
  expect(said).toContain('inside the limit by less than the uncertainty of 0.15 dB');
});

test('a length that cannot be read is one finding, not a missing limit besides', () => {
  const text = example(multimodePlan, multimodeLink.replace('180 m', '180'));
  expect(names(text)).toContain('missing-unit');
  expect(names(text)).not.toContain('limit-missing');
});

test('too few fibres are not supported by any design', () => {
  const one = multimodeLink.replace('1..2', '1').replace('}', '  carries     10GBASE-SR\n}');
  const { plan } = judge(
    example(multimodePlan, one, multimodeSetup, multimodeReadings('1  1.12  0.84')),
  );
  expect(plan.result.link('KQ-1')?.applications[0]).toMatchObject({
    support: 'not supported',
    because: 'it needs 2 fibres and has 1',
  });
});

test('over an unknown length no application is supported, and no length is shown', () => {
  const text = example(
    multimodePlan,
    multimodeLink.replace('180 m', 'unknown').replace('}', '  carries     10GBASE-SR\n}'),
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  );
  const { plan, findings } = judge(text);
  const result = plan.result.link('KQ-1');
  expect(result?.length).toBeUndefined();
  expect(result?.applications[0]?.support).toBe('not supported');
  expect(findings.map(({ name }) => name)).toContain('unknown-length');
});

test('a loss that is only not known is not said to be too great', () => {
  const text = example(
    multimodePlan,
    multimodeLink.replace('180 m', '0,18 km').replace('}', '  carries     10GBASE-SR\n}'),
  );
  expect(names(text)).not.toContain('application-loss-exceeded');
});
