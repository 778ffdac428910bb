/** Limits side by side in the results: each once, and each said as what it does. */
import { expect, test } from 'vitest';
import { limitsAt } from '../../server/src/report/rows/limits.ts';
import { judge } from '../support/judge.ts';

const plan = `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  compare     TIA-568.3-D
  measure     850 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
}

link KQ-1 {
  fibres      1..4
  connector   LC
  segment     90 m OM4
  connector   LC
  carries     1000BASE-SX beside
  require     loss 1.20 dB sufficient
}

channel KQ-A {
  cord        2 m OM4 straight
  link        KQ-1 fibres 1..2
  cord        3 m OM4 straight
}

channel KQ-B {
  cord        3 m OM4 straight
  link        KQ-1 fibres 3..4
  cord        2 m OM4 straight
}
`;

function limitsOf(name: string) {
  const [at] = judge(plan).plan.result.link(name)?.wavelengths ?? [];
  if (!at) throw new Error(`${name} has no wavelength`);
  return { at, views: limitsAt(at, 2) };
}

test('what two channels ask alike stands once', () => {
  const { at, views } = limitsOf('KQ-1');
  const asked = at.limits.filter(({ kind }) => kind === 'application');
  expect(asked).toHaveLength(2);
  expect(views.filter(({ kind }) => kind === 'application')).toHaveLength(1);
});

test('what is enough is not said to be only compared', () => {
  const { views } = limitsOf('KQ-1');
  expect(views.map(({ kind, governs, sufficient }) => ({ kind, governs, sufficient }))).toEqual([
    { kind: 'components', governs: true, sufficient: undefined },
    { kind: 'contract', governs: false, sufficient: true },
    { kind: 'application', governs: false, sufficient: undefined },
    { kind: 'components', governs: false, sufficient: undefined },
  ]);
});
