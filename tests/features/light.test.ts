import { expect, test } from 'vitest';
import { hover } from '../../server/src/features/hover.ts';
import { answer, ask } from '../support/ask.ts';

const plan = (carries: string) => `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     1310 nm
  reference   one-cord
}

link KQ-1 {
  fibres      1..2
  connector   LC
  segment     6 km G.652.D
  connector   LC
  carries     ${carries}
}
`;

const said = (text: string) => JSON.stringify(answer(hover, ask(text))?.contents);

test('hover over a transceiver that is used shows both ends of its window and its terms', () => {
  const text = said(plan('10GBASE-LR with 10GBASE-LR$0-PORT'));
  expect(text).toContain('10GBASE-LR-PORT to 10GBASE-LR-PORT, 1310 nm A>B**, by design');
  expect(text).toContain(
    'weakest: -8.20 dBm − 2 × mated pairs 1.50 − fibre G.652.D 2.40; -14.40 dBm is needed: margin +2.30 dB',
  );
  expect(text).toContain(
    'strongest: 0.50 dBm − 0.00 at least = 0.50 dBm; 0.50 dBm is taken well: 0.00 dB below it',
  );
});

test('hover over what is carried says it too, beside its support', () => {
  const text = said(plan('10GBASE-L$0R with 10GBASE-LR-PORT'));
  expect(text).toContain('by design');
  expect(text).toContain('margin +2.30 dB');
});

test('hover over what no transceiver is named for says nothing of power', () => {
  expect(said(plan('10GBASE-L$0R'))).not.toContain('weakest');
});

test('hover over a link says mean and spread where all its parts state them, and that they judge nothing', () => {
  const link = (more: string) => `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     1310 nm
  reference   one-cord
}

fibre GLASS {
  like        G.652.D
  attenuation 1310 nm typ 0.34 dB/km max 0.4 dB/km${more}
}

link KQ$0-1 {
  fibres      1
  connector   SM-STATISTICAL
  segment     1 km GLASS
  connector   SM-STATISTICAL
}
`;
  // 2 · 0.35 + 0.34 + 3 · √(2 · 0.06)
  expect(said(link(' sigma 0 dB/km'))).toContain('mean + 3 sigma 2.08 dB, which judges nothing');
  expect(said(link(''))).not.toContain('mean + 3 sigma');
  // Both pairs together are a gamma distribution of mean 0.7 and variance 0.12: 97.7 % below 1.54 dB.
  expect(said(link(' sigma 0 dB/km'))).toContain(
    '97.7 % of such links lose at most 1.88 dB, which judges nothing: 0.34 dB that does not vary, and drawn at random and joined by convolution in steps of 0.005 dB, 2 end pairs (each a gamma distribution of mean 0.35 dB and sigma 0.244949 dB)',
  );
  // Fibre that states no spread counts with its greatest loss.
  expect(said(link(''))).toContain('at most 1.94 dB, which judges nothing: 0.40 dB that');
});
