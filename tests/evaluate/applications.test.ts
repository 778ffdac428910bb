/** What a link carries, along the path that each of its fibres takes, and where it is said. */
import { expect, test } from 'vitest';
import { judge, told } from '../support/judge.ts';

const plan = `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  reference   one-cord
  uncertainty 0.15 dB
}
`;

/** 399.9 m of a reach of 400 m: half a metre put into two fibres takes those over it, and no others. */
const repaired = `${plan}
link KQ-1 {
  fibres      1..4
  connector   LC
  segment     399.9 m OM4
  connector   LC
  carries     10GBASE-SR fibres CARRIED
  repair REP-1 {
    fibres      3..4
    on          2026-02-01
    splice      fusion
    segment     500 mm OM4
    splice      fusion
  }
}
`.replace('500 mm', '0.5 m');

test('a piece that a repair put into some fibres counts in their reach, and they are named', () => {
  const { findings, plan: judged } = judge(repaired.replace('fibres CARRIED', 'fibres 1..4'));
  const reach = findings.find(({ name }) => name === 'reach-exceeded');
  expect(reach?.message).toContain('(fibres 3..4) is 400.4 m');
  expect(judged.result.link('KQ-1')?.applications[0]).toMatchObject({
    support: 'not supported',
    way: 'fibres 3..4',
  });
});

test('fibres without the piece are not longer for it', () => {
  const { findings } = judge(repaired.replace('fibres CARRIED', 'fibres 1..2'));
  expect(told(findings).join('\n')).not.toContain('reach-exceeded');
});

test('the splices of a repair count in the loss, too: 3.0 × 0.3005 + 1.5 + 0.6 = 3.0015 dB of 2.9', () => {
  const text = repaired.replace('399.9 m', '300 m');
  const [application] = judge(text.replace('fibres CARRIED', 'fibres 1..4')).plan.result.link(
    'KQ-1',
  )!.applications;
  expect(application).toMatchObject({ support: 'not supported' });
  expect(application?.because).toContain('3.002 dB at the greatest figures');
  const [other] = judge(text.replace('fibres CARRIED', 'fibres 1..2')).plan.result.link(
    'KQ-1',
  )!.applications;
  expect(other).toMatchObject({ support: 'by design' });
});

test('little margin is told of the channel alone, where it carries the same', () => {
  const link = `${plan}
link KQ-1 {
  fibres      1..2
  connector   LC
  segment     380 m OM4
  connector   LC
  carries     10GBASE-SR cords 3 m, 2 m
}
`;
  const channel = `
channel CH-1 {
  cord        3 m OM4 crossed
  link        KQ-1
  cord        2 m OM4 straight
  carries     10GBASE-SR
}
`;
  const thin = (text: string) =>
    judge(text).findings.flatMap(({ name, about }) =>
      name === 'budget-thin-margin' ? [about] : [],
    );
  expect(thin(link)).toEqual(['KQ-1']);
  expect(thin(link + channel)).toEqual(['CH-1']);
});

test('what is carried by likeness is told at the line that says so, with the copied one beside it', () => {
  const text = `${plan}
link KQ-1 {
  fibres      1..2
  connector   LC
  segment     80 m OM4
  connector   LC
  carries     10GBASE-SR
}

link KQ-2 {
  like        KQ-1
  connector   LC
  segment     480 m OM4
  connector   LC
}
`;
  const { findings, plan: judged } = judge(text);
  const reach = findings.filter(({ name }) => name === 'reach-exceeded');
  expect(reach.map(({ about }) => about)).toEqual(['KQ-2']);
  const line = (place: (typeof reach)[0]['place']) =>
    text.split('\n')[judged.locate(place)!.range.start.line];
  expect(line(reach[0]!.place)).toBe('  like        KQ-1');
  expect(reach[0]!.related.map(({ place }) => line(place))).toEqual(['  carries     10GBASE-SR']);
});

test('a figure that no one states is named, and nothing else is said of the application', () => {
  const text = `${plan.replace('850 nm for multimode', '1310 nm')}
fibre QUAY-GLASS {
  meets       OS2
  mode        single-mode core 9 um
  attenuation 1310 nm max 0.38 dB/km
}

application QUAY-CAMERAS {
  count       1
  wavelength  1490 nm
  fibre       OS2 reach 10 km loss 8 dB
}

link KQ-1 {
  fibres      1
  connector   LC
  segment     2 km QUAY-GLASS
  connector   LC
  carries     QUAY-CAMERAS
}
`;
  const said = judge(text).findings.filter(({ name }) => name.startsWith('application-'));
  expect(told(said)).toEqual([
    expect.stringContaining(
      'application-figure-missing: Whether KQ-1 carries QUAY-CAMERAS is not known: no figure is stated for fibre QUAY-GLASS at 1490 nm.',
    ),
  ]);
});

test('a mean of two directions over a step of cores behind a splitter is no mean', () => {
  const tree = (
    glass: string,
  ) => `${plan.replace('one-cord', 'one-cord\n  directions  both average')}
fibre QUAY-WIDE {
  like        OM4
  mode        multimode core 62.5 um
}

splitter SPLIT-2 {
  ports       1:2
  loss        max 4 dB
}

limits QUAY {
  policy      counting
  fibre       OM4, QUAY-WIDE 850 nm 3 dB/km
  connector   any 0.75 dB
  splice      any 0.3 dB
  part        any 4 dB
}

link KQ-T {
  limits      only QUAY
  from        A:1
  connector   LC
  segment     10 m OM4
  splice      fusion
  split S-1 SPLIT-2 {
    out 1 to HALL/01 {
      splice      fusion
      segment     10 m ${glass}
      connector   LC
    }
    out 2 spare
  }
}

setup ONE {
  reference   one-cord
  source      "S-1" LED
  meter       "M-1" floor -60 dBm
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC ${glass} reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20 dBm
}

setup TWO {
  like        ONE
  cord        TC-3 launch LC ${glass} reference-grade
  cord        TC-4 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20 dBm
}

readings KQ-T {
  setup       ONE A>B
  setup       TWO B>A
  tested      2026-03-14 09:05 by "R. Vale"
  values      loss in dB
  columns end, 850 nm A>B, 850 nm B>A
  HALL/01         6.40        5.00
}
`;
  const verdicts = (text: string) =>
    judge(text)
      .plan.result.link('KQ-T')!
      .readings.map(({ verdict, because }) => `${verdict} ${because}`);
  // 3.0 × 0.02 + 2 × 0.75 + 2 × 0.3 + 4 = 6.16 dB; the mean is 5.70 dB.
  expect(verdicts(tree('OM4'))).toEqual([
    'pass judged by the average of 6.40 dB and 5.00 dB: 5.70 dB',
    'pass judged by the average of 6.40 dB and 5.00 dB: 5.70 dB',
  ]);
  expect(verdicts(tree('QUAY-WIDE'))).toEqual(['fail ', 'pass ']);
});

test('a bend is looked for along the fibre that has it: 5 km put into fibre 2 explain what it loses less', () => {
  const text = `plan "Kestrel Quay" {
  limits      OS2-ONLY
  measure     1310 nm, 1550 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.20 dB
}

limits OS2-ONLY {
  policy      counting
  fibre       OS2 1310 nm 0.4 dB/km
  fibre       OS2 1550 nm 0.4 dB/km
  connector   any 0.75 dB
  splice      any 0.3 dB
}

link KQ-1 {
  fibres      1..2
  connector   LC
  segment     0.8 km OS2
  connector   LC
  repair REP-1 {
    fibres      2
    on          2026-02-01
    splice      fusion
    segment     5 km OS2
    splice      fusion
  }
}

setup SM-1 {
  reference   one-cord
  source      "S-3" laser
  meter       "M-5" floor -60 dBm
  cord        TC-1 launch LC OS2 reference-grade
  cord        TC-2 receive LC OS2 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 1310 nm -3 dBm
  taken       2026-03-14 08:10 1550 nm -3 dBm
}

readings KQ-1 {
  setup       SM-1
  tested      2026-03-14 09:05 by "R. Vale"
  values      loss in dB
  columns fibre, 1310 nm A>B, 1550 nm A>B
  1                0.70         0.60
  2                2.60         2.20
}
`;
  // 2.20 − 2.60 + 0.15 × 5.8 = 0.47 dB; along 0.8 km it would be −0.28 dB.
  const bends = judge(text).findings.filter(({ name }) => name === 'bend-signature-sm');
  expect(bends.map(({ details }) => [details.fibre, details.excess])).toEqual([[2, 0.47]]);
});

test('of ends that may lose too little the one is named that may lose least, and how far ends lie apart', () => {
  // A tap and two splitters of four, one without a least figure: 10·log 4 dB is its least.
  const text = `plan "Kestrel Quay" {
  measure     1310 nm, 1490 nm for single-mode
  reference   one-cord
  uncertainty 0.20 dB
}

fibre GLASS {
  mode        single-mode
  attenuation 1310 nm min 0.30 dB/km max 0.36 dB/km
  attenuation 1490 nm min 0.20 dB/km max 0.26 dB/km
}

splitter TAP {
  ports       1:2
  loss        out 1 min 9.5 dB max 11 dB
  loss        out 2 min 0.4 dB max 0.8 dB
}

splitter FOUR {
  ports       1:4
  loss        max 7.4 dB
}

application CLASS {
  count       1
  wavelength  1310 nm B>A
  wavelength  1490 nm A>B
  fibre       GLASS reach 20 km loss 28 dB min 13 dB differential 10 dB
}

pattern drop {
  splice      fusion
  segment     <length> GLASS
  connector   LC
}

link HALL-1 {
  from        CORE/1:01
  connector   LC
  segment     5 km GLASS
  splice      fusion
  split T-1 TAP {
    out 1 {
      splice      fusion
      split SP-1 FOUR {
        out         1..4 to NEAR/01..04 as drop length 50 m
      }
    }
    out         2 onward
  }
  splice      fusion
  segment     3 km GLASS
  splice      fusion
  split SP-2 FOUR {
    out         1..3 to FAR/01..03 as drop length 80 m
    out         4 to FAR/04 as drop length 2 km
  }
  carries     CLASS
}
`;
  const found = judge(text).plan.result.link('HALL-1')?.applications[0];
  // 0.20 × 8.08 + 0.4 + 6.0206 dB at 1490 nm; FAR/04 has 1.92 km more, and so 0.384 dB.
  expect(found?.because).toBe('FAR/01: it may lose too little, 8.037 dB at the least');
  // 0.26 × 5.05 + 2 × 0.75 + 3 × 0.3 + 11 + 7.4 = 22.113 dB on the way to NEAR/01.
  const differential = found?.differential;
  expect([differential?.highest, differential?.lowest]).toEqual(['NEAR/01', 'FAR/01']);
  expect(Number(differential?.value) / 1e15).toBeCloseTo(
    22.113 - 1.616 - 0.4 - 10 * Math.log10(4),
    5,
  );
});
