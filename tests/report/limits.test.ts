/** Limits side by side in the results: each once, and each said as what it does. */
import { expect, test } from 'vitest';
import { resultsOf } from '../../server/src/report/answer.ts';
import { plainDisplay } from '../../server/src/report/figures.ts';
import { plainView } from '../../server/src/report/question.ts';
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

test('light that was received stands under its window, in dBm', () => {
  const { plan: judged } = judge(`plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     850 nm
  directions  A>B
  uncertainty 0.15 dB
}

channel KQ-C {
  from        A/1:1
  to          B/1:1
  measure     850 nm
  require     power min -9 dBm max -3 dBm
  cord        2 m OM4 straight
}

setup LIGHT {
  meter       "M-5" floor -60 dBm
}

readings KQ-C {
  setup       LIGHT
  tested      2026-03-14 09:05 by "R. Vale"
  values      power in dBm
  columns fibre, 850 nm A>B
  1  -4.1
}
`);
  const subject = { plan: judged, display: plainDisplay };
  const { rows } = resultsOf(subject, { ...plainView, open: ['KQ-C'] }, 0, 100).slice;
  const link = rows.find((row) => row.kind === 'link');
  expect(link).toMatchObject({ governing: { kind: 'contract', figure: '−3.00 dBm' } });
  const columns = rows.find((row) => row.kind === 'columns');
  expect(columns).toMatchObject({ groups: [{ limit: '−9.00 to −3.00 dBm' }] });
});
