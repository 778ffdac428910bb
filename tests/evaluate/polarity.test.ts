/** Where light comes out: ports, turned links, places taken at the far end, what is not known, and what meets. */
import { describe, expect, it } from 'vitest';
import { judge, told } from '../support/judge.ts';

const plan = `plan "Polarity" {
  limits      TIA-568.3-E
  measure     850 nm
  directions  both
  reference   one-cord
  uncertainty 0.15 dB
}

component CASSETTE {
  joins       MPO-12 to LC
  map         straight
  loss        max 0.75 dB
}

link TRUNK {
  from        OPS/A:01..12
  to          ROW/A:01..12
  fibres      49..60
  component   CASSETTE
  segment     60 m OM4 map reversed
  component   CASSETTE
}

link PLAIN {
  fibres      1..4
  connector   LC
  segment     60 m OM4
  connector   LC
}
`;

function result(text: string, name: string) {
  const found = judge(`${plan}\n${text}`);
  const link = found.plan.result.link(name);
  if (!link) throw new Error(`there is no ${name}: ${told(found.findings).join('\n')}`);
  return {
    ...link,
    said: found.findings.filter(({ about }) => about === name).map(({ name }) => name),
  };
}

const channel = (path: string, more = '') =>
  `channel CH {\n${path
    .split(';')
    .map((line) => `  ${line.trim()}`)
    .join('\n')}\n${more}}\n`;

describe('ports', () => {
  it('a fibre comes out at the port of `to` that the composed map says, whatever its number', () => {
    const { fibres } = result('', 'TRUNK');
    expect(fibres.map(({ fibre, fromPort, toPort }) => [fibre, fromPort, toPort])[0]).toEqual([
      49,
      'OPS/A:01',
      'ROW/A:12',
    ]);
    expect(fibres.at(-1)?.toPort).toBe('ROW/A:01');
  });

  it('without a map in the path it is the port of its own place, and nothing is listed', () => {
    const { fibres, arrivals } = result(
      'link L {\n  from        A:01..02\n  to          B:01..02\n  connector   LC\n  segment     9 m OM4\n  connector   LC\n}\n',
      'L',
    );
    expect(fibres.map(({ toPort }) => toPort)).toEqual(['B:01', 'B:02']);
    expect(arrivals).toEqual([]);
  });

  it('is not known where a part does not say how it connects', () => {
    const { fibres, arrivals } = result(
      'component BARE {\n  joins       MPO-12 to LC\n  loss        max 0.7 dB\n}\n\nlink L {\n  from        A:01..12\n  to          B:01..12\n  component   BARE\n  segment     9 m OM4\n  component   BARE\n}\n',
      'L',
    );
    expect(fibres[0]?.toPort).toBeUndefined();
    expect(arrivals[0]).toEqual({ fibre: 1 });
  });

  it('that are not known part no pair', () => {
    const bare = `component BARE {
  joins       MPO-12 to LC
  loss        max 0.7 dB
}

link L {
  fibres      1..12
  component   BARE
  segment     9 m OM4
  component   BARE
  carries     10GBASE-SR fibres 1..2
}
`;
    expect(result(bare, 'L').said).not.toContain('pair-parted');
  });

  it('of lanes are those of the array that the known links end in', () => {
    const lanes = `application LANES {
  count       4
  wavelength  850 nm
  fibre       OM4 reach 100 m loss 1.9 dB
}

link ARRAY {
  fibres      1..12
  connector   MPO-12
  segment     60 m OM4 map reversed
  connector   MPO-12
}
`;
    const path = 'link        ARRAY; link        GONE; carries     LANES fibres 1..4';
    const { arrivals } = result(`${lanes}\n${channel(path)}`, 'CH');
    expect(arrivals.slice(0, 5).map(({ wanted }) => wanted)).toEqual([12, 11, 10, 9, undefined]);
  });
});

describe('two fibres of a duplex port that come out at two ports', () => {
  const parted = (path: string, count = 4) =>
    result(
      `link L {\n  fibres      1..${count}\n${path
        .split(';')
        .map((line) => `  ${line.trim()}\n`)
        .join('')}  carries     10GBASE-SR\n}\n`,
      'L',
    )
      .doubts.filter(({ name }) => name === 'pair-parted')
      .map(({ details, related }) => [details, related?.map(({ message }) => message)]);
  const wrong = (pairs: number, secondPlace = 3) => ({
    link: 'L',
    application: '10GBASE-SR',
    first: 1,
    second: 2,
    firstPlace: 1,
    secondPlace,
    pairs,
  });

  it('are named, with what changes places on the way, at most eight of them', () => {
    expect(parted('connector LC; segment 9 m OM4 map 1, 3, 2, 4; connector LC')).toEqual([
      [wrong(2), ['this segment: 1 -> 1, 2 -> 3, 3 -> 2, 4 -> 4']],
    ]);
    const twelve = 'connector LC; segment 9 m OM4 map 1, 3, 2, 4, 5, 6, 7, 8, 9, 10, 11, 12';
    expect(parted(`${twelve}; connector LC`, 12)).toEqual([
      [
        wrong(2),
        ['this segment: 1 -> 1, 2 -> 3, 3 -> 2, 4 -> 4, 5 -> 5, 6 -> 6, 7 -> 7, 8 -> 8 …'],
      ],
    ]);
    expect(parted(`component CASSETTE; ${twelve.slice(14)}; component CASSETTE`, 12)).toEqual([
      [
        wrong(2),
        [
          'CASSETTE: straight',
          'this segment: 1 -> 1, 2 -> 3, 3 -> 2, 4 -> 4, 5 -> 5, 6 -> 6, 7 -> 7, 8 -> 8 …',
          'CASSETTE: straight',
        ],
      ],
    ]);
  });

  it('are nothing where end B is an array, by its connector or its part', () => {
    const twelve = 'segment 9 m OM4 map 1, 3, 2, 4, 5, 6, 7, 8, 9, 10, 11, 12';
    expect(parted(`connector MPO-12; ${twelve}; connector MPO-12`, 12)).toEqual([]);
    expect(parted(`component CASSETTE; ${twelve}; component CASSETTE turned`, 12)).toEqual([]);
  });
});

describe('a channel', () => {
  it('crosses a turned link the other way', () => {
    const { arrivals, said } = result(
      channel(
        'cord 2 m OM4 crossed; link TRUNK turned fibres 49..50 to 60, 59; cord 2 m OM4 straight',
      ),
      'CH',
    );
    // 49 at B is the fibre that left A at 60.
    expect(arrivals.map(({ place, wanted }) => [place, wanted])).toEqual([
      [2, 2],
      [1, 1],
    ]);
    expect(said).toEqual([]);
  });

  it('whose light comes out beside the places it goes on from, says where', () => {
    const { doubts, arrivals, accepted } = result(
      channel('cord 2 m OM4 crossed; link TRUNK fibres 49..50; cord 2 m OM4 straight'),
      'CH',
    );
    expect(doubts.map(({ name }) => name)).toContain('comes-out-elsewhere');
    expect(doubts.find(({ name }) => name === 'comes-out-elsewhere')?.details).toMatchObject({
      entered: '49..50',
      out: '60, 59',
      taken: '49..50',
    });
    expect(arrivals.map(({ place }) => place)).toEqual([undefined, undefined]);
    expect(accepted).toBe(false);
  });

  it('goes astray in part where only some of the places are wrong', () => {
    const { doubts } = result(
      channel('cord 2 m OM4 crossed; link TRUNK fibres 49..50 to 60, 58; cord 2 m OM4 straight'),
      'CH',
    );
    expect(doubts.find(({ name }) => name === 'comes-out-elsewhere')?.details).toMatchObject({
      entered: '50',
      out: '59',
    });
  });

  it('with a cord that says nothing is not known, and is told once', () => {
    const { arrivals, said } = result(
      channel('cord 2 m OM4; link PLAIN fibres 1..2; cord 2 m OM4 straight'),
      'CH',
    );
    expect(arrivals.map(({ place }) => place)).toEqual([undefined, undefined]);
    expect(said).toEqual(['crossing-not-said']);
  });

  it('of one fibre, lit both ways, has no sides', () => {
    const { arrivals, said } = result(
      `application BIDI {\n  count       1\n  wavelength  850 nm\n  fibre       OM4 reach 300 m loss 9 dB\n}\n\n${channel('cord 2 m OM4; link PLAIN fibres 3; cord 2 m OM4 straight', '  carries     BIDI\n')}`,
      'CH',
    );
    expect(said).toEqual([]);
    expect(arrivals.every(({ wanted }) => wanted === 1)).toBe(true);
  });

  it('is no more accepted for an answer in words: light stays where it is', () => {
    const { said, accepted } = result(
      channel(
        'cord 2 m OM4 straight; link PLAIN fibres 1..2; cord 2 m OM4 straight',
        '  silence     pair-order-broken because "crossed in the patch"\n',
      ),
      'CH',
    );
    expect(said).toContain('pair-order-broken');
    expect(accepted).toBe(false);
  });

  it('is foretold from the fibres its light really takes', () => {
    const readings = (link: string, first: string, second: string) =>
      `readings ${link} {\n  setup       ONE\n  tested      2026-03-14 09:00 to 09:40\n  values      loss in dB\n  columns fibre, 850 nm A>B, 850 nm B>A\n  1  ${first}  ${first}\n  2  ${second}  ${second}\n  3  0.60  0.60\n  4  0.60  0.60\n}\n`;
    const text = `${plan.slice(plan.indexOf('link PLAIN')).replace('PLAIN', 'OTHER')}
setup ONE {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -60 dBm
  launch      encircled-flux
  cord        L1 launch LC OM4 reference-grade
  cord        R1 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:00 850 nm -20.05 dBm
}

${readings('PLAIN', '0.90', '0.50')}
${readings('OTHER', '0.80', '0.40')}
${channel('link PLAIN fibres 1..2; cord 2 m OM4 crossed; link OTHER fibres 1..2', '  carries     10GBASE-SR\n')}`;
    const [application] = result(text, 'CH').applications;
    // 0.90 + 0.40 or 0.50 + 0.80, and 2 m of cord at 3.0 dB/km: never 0.90 + 0.80.
    expect(application?.support).toBe('predicted');
    expect(application?.because).toContain('1.306 dB');
  });
});

describe('what meets', () => {
  const meeting = (path: string) => {
    const { doubts } = result(
      `link CORD-P {\n  fibres      1..12\n  plug        MPO-12 pinned\n  segment     3 m OM4\n  plug        MPO-12\n}\n
link SOCKET {\n  fibres      1..12\n  connector   MPO-12 pins A\n  segment     3 m OM4\n  connector   MPO-12 pins A\n}\n
connector OWN {\n  like        LC\n}\n
link OWN-LC {\n  fibres      1..4\n  connector   OWN\n  segment     3 m OM4\n  connector   LC-APC\n}\n
${channel(path)}`,
      'CH',
    );
    return doubts
      .filter(({ name }) => name === 'pins-do-not-mate' || name === 'connectors-do-not-fit')
      .map(({ name, details }) => `${name} ${details.why ?? details.both}`);
  };

  it.each([
    // Pins at A of the last pair: what is plugged into it has none.
    ['link SOCKET; link CORD-P turned', []],
    ['link SOCKET; link CORD-P', ['pins-do-not-mate 1']],
    // Pins at A of the first pair: what is plugged into it has them.
    ['link CORD-P turned; link SOCKET', []],
    ['link CORD-P; link SOCKET', ['pins-do-not-mate 0']],
    ['link SOCKET; link SOCKET', []],
    ['link SOCKET; link SOCKET turned', ['pins-do-not-mate 1']],
    ['link SOCKET turned; link SOCKET', ['pins-do-not-mate 0']],
    ['link CORD-P; connector MPO-12; link CORD-P', []],
    ['link CORD-P; connector MPO-12; link CORD-P turned', ['pins-do-not-mate 0']],
    ['link PLAIN; link OWN-LC', []],
    ['link OWN-LC; link PLAIN', ['connectors-do-not-fit one end face is angled, the other is not']],
    [
      'link PLAIN fibres 1..2; link SOCKET fibres 1..2',
      ['connectors-do-not-fit LC holds one fibre, MPO-12 12 fibres'],
    ],
    ['link PLAIN; cord 2 m OM4 straight; connector SC; cord 2 m OM4 straight; link PLAIN', []],
    // A cord that names its plugs is held against what it meets, one that does not is not.
    ['link PLAIN fibres 1..2; cord 2 m OM4 straight plugs LC; link PLAIN fibres 3..4', []],
    ['link PLAIN fibres 1..2; cord 2 m OM4 straight plugs LC, SC', []],
    [
      'link PLAIN fibres 1..2; cord 2 m OM4 straight plugs SC, LC; link PLAIN fibres 3..4',
      ['connectors-do-not-fit their housings differ'],
    ],
    [
      'link PLAIN fibres 1..2; cord 2 m OM4 straight plugs LC; link OWN-LC turned fibres 1..2',
      ['connectors-do-not-fit one end face is angled, the other is not'],
    ],
    [
      'cord 2 m OM4 straight plugs MPO-12; link PLAIN fibres 1..2',
      ['connectors-do-not-fit MPO-12 holds 12 fibres, LC one fibre'],
    ],
    ['link SOCKET; cord 2 m OM4 straight plugs MPO-12; link SOCKET', []],
    [
      'connector SC; link PLAIN; cord 2 m OM4 straight',
      ['connectors-do-not-fit their housings differ'],
    ],
  ])('%s', (path, expected) => {
    expect(meeting(path)).toEqual(expected);
  });
});

it('two spans of a ring do not mate: equipment stands between them', () => {
  const { findings } = judge(`${plan}
link SPAN-1 {
  fibres      1..2
  connector   LC
  segment     60 m OM4
  connector   SC-APC
}

link SPAN-2 {
  fibres      1..2
  connector   LC
  segment     60 m OM4
  connector   SC-APC
}

ring ROUND {
  node        "Quay"
  link        SPAN-1
  node        "Mast"
  link        SPAN-2
}
`);
  expect(findings.map(({ name }) => name)).not.toContain('connectors-do-not-fit');
});

describe('wavelengths on one line', () => {
  const two = (first: string, second: string) =>
    judge(`${plan}
${channel('link PLAIN fibres 1..2', first).replace('CH', 'CH-1')}
${channel('link PLAIN fibres 1..2', second).replace('CH', 'CH-2')}`)
      .findings.filter(({ name }) => name === 'wavelength-shared')
      .map(({ message }) => message);

  it('two wavelengths are told apart', () => {
    expect(two('  wavelength  1531 nm\n', '  wavelength  1551 nm\n')).toEqual([]);
  });

  it('one is a contradiction, said once', () => {
    expect(two('  wavelength  1551 nm\n', '  wavelength  1551 nm\n')).toEqual([
      'CH-2 and CH-1 both take fibre 1 of PLAIN at 1551 nm. Give one of them another wavelength, or other fibres.',
    ]);
  });

  it('and so is one that is not said', () => {
    expect(two('', '  wavelength  1551 nm\n')[0]).toContain(
      'CH-1 does not say at which wavelength',
    );
  });
});

describe('a channel on a shared line', () => {
  const untested = (wavelength: string, more = '') =>
    judge(
      `${plan}\n${channel('link PLAIN fibres 1..2', `  wavelength  ${wavelength} nm\n${more}`)}`,
    )
      .findings.filter(({ name }) => name === 'operating-wavelength-untested')
      .map(({ message }) => message);

  it('is answered by a link that is measured in its window', () => {
    expect(untested('860')).toEqual([]);
  });

  it('and by none that is not', () => {
    expect(untested('1531')).toEqual([
      'CH uses 1531 nm, and PLAIN is to be measured at 850 nm only. No reading will answer for it. Add the wavelength to measure.',
    ]);
  });

  it('nor by its own readings at another wavelength', () => {
    expect(untested('860', '  measure     1310 nm\n')).toEqual([
      'CH uses 860 nm, and CH is to be measured at 1310 nm only. No reading will answer for it. Add the wavelength to measure.',
    ]);
  });
});
