import { expect, test } from 'vitest';
import { hover } from '../../server/src/features/hover.ts';
import { answer, ask } from '../support/ask.ts';

const said = (text: string) => {
  const contents = answer(hover, ask(text))?.contents;
  return contents && typeof contents === 'object' && 'value' in contents ? contents.value : '';
};

const plan = (name: string, carries: string, path: string) => `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     850 nm
  reference   one-cord
}

cable TRUNK {
  fibre       OM3
  count       2
  length      200 m
  excess      2 %
}

link ${name} {
  fibres      1..2
  connector   LC
${path}  connector   LC
  carries     ${carries} cords 5 m
}
`;

const mixed = '  segment     TRUNK\n  splice      fusion\n  segment     40 m OM4\n';

test('hover over a link says its delay along the fibre and the bandwidth that is left', () => {
  const text = said(plan('KQ$0-1', '10GBASE-SR', mixed));
  // 244 m of index 1.482; 0.204 ÷ 2000 + 0.040 ÷ 4700 and the same by 1500 and 3500.
  expect(text).toContain('**signal, 850 nm**: delay 1.206 us over 244 m');
  expect(text).toContain('modal bandwidth at least 9.049 GHz effective, 6.783 GHz overfilled');
  expect(text.match(/which gives the least/g)).toHaveLength(1);
});

test('hover over what is carried counts its cords, and its fibres are alike', () => {
  const text = said(plan('KQ-1', '10GBASE$0-SR', mixed));
  expect(text).toContain(', 10GBASE-SR: delay 1.231 us over 249 m · skew between its fibres 0 ps');
});

test('a fibre without an index is said, and none is taken for it', () => {
  const text = said(plan('KQ$0-1', '10GBASE-SR', '  segment     100 m MM-62.5-160\n'));
  expect(text).not.toContain('delay');
  expect(text).toContain('states no group index at 850 nm');
});

test('hover over a channel that is not measured says it of what it carries, over ways the longest first', () => {
  const channel = `
channel CH$0-1 {
  cord        3 m OM3 straight
  link        KQ-1
  cord        3 m OM3 straight
  carries     10GBASE-SR
}
`;
  const text = said(`${plan('KQ-1', '10GBASE-SR', mixed)}${channel}`);
  expect(text).toContain('**signal, 850 nm**, 10GBASE-SR: delay 1.236 us over 250 m');
});

test('hover over a tree says it of its longest ways', () => {
  const text = said(`plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     1310 nm
  reference   one-cord
}

link TR$0EE {
  from        A:1
  connector   LC
  segment     1000 m G.652.D
  splice      fusion
  split SP PLC-1x8 {
    out 1..8 to E-01..08 {
      segment     200 m G.652.D
      connector   LC
    }
  }
}
`);
  expect(text).toContain('**signal, 1310 nm**, E-01: delay 5.872 us over 1200 m');
  expect(text).toContain('polarisation mode dispersion 0.2191 ps');
  expect(text).toContain('and 4 more of what a path does to the signal');
});

test('a figure of a fibre that is from memory marks what is summed of it, and no other', () => {
  const text = said(`fibre OLD-TRUNK {
  mode        single-mode core 9 um
  attenuation 1550 nm max 0.3 dB/km
  index       1550 nm 1.468
  basis       "the cable's own papers" read
  dispersion  1550 nm max 18 ps/nm/km
  pmd         max 0.5 ps/sqrt-km
  basis       "as it was told" recalled
}

link KQ$0-1 {
  fibres      1..2
  connector   LC
  segment     4 km OLD-TRUNK
  connector   LC
  measure     1550 nm
}
`);
  expect(text).toContain('over 4000 m · dispersion at most 72 ps/nm, recalled');
  expect(text).toContain('polarisation mode dispersion 1 ps, recalled');
});
