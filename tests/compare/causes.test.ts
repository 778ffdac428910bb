/** Which change of the text an effect is told to come from, where several stand beside each other. */
import { describe, expect, it } from 'vitest';
import { changeInWords, compareTwo } from '../support/compare.ts';

const plan = `plan "Kestrel Quay" {
  limits      KQ-OWNER
  measure     850 nm, 1300 nm for multimode
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
}

limits KQ-OWNER {
  like        TIA-568.3-E
  edition     "clause 7.4, 2026" contract
  fibre       OM4 850 nm 3.0 dB/km
  fibre       OM4 1300 nm 1.5 dB/km
  connector   any 0.6 dB
  splice      any 0.3 dB
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
  taken       2026-03-14 08:10 1300 nm -20.31 dBm
}

cable C-101 {
  fibre       OM4
  count       24
  length      142 m
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

link KQ-3 "Operations room to berth 3" {
  fibres      1..2
  connector   LC
  segment     C-101 fibres 1..2
  splice      fusion
  segment     38 m OM4
  connector   LC
  carries     10GBASE-SR
}

readings {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns link,  fibre, 850 nm A>B, 1300 nm A>B
  KQ-1               1        0.81         0.61
  KQ-1               2        0.87         0.66
  KQ-2               1        0.92         0.71
  KQ-2               2        0.95         0.74
  KQ-3               1        1.12         0.84
  KQ-3               2        1.21         0.91
}
`;

type Step = readonly [from: string | RegExp, to: string];

function changed(...steps: readonly Step[]) {
  return steps.reduce((text, [from, to]) => {
    const after = text.replace(from, to);
    if (after === text) throw new Error(`nothing to change: ${from}`);
    return after;
  }, plan);
}

/** All effects, each with the kind of its causes and what they were and are. */
function causesOf(steps: readonly Step[]) {
  const { effects, changes } = compareTwo(plan, changed(...steps));
  return effects.map((effect) => {
    const key =
      effect.kind === 'reading'
        ? ` fibre ${effect.key.fibre} ${effect.key.wavelength / 1000}`
        : effect.kind === 'design'
          ? ` ${effect.wavelength / 1000}`
          : effect.kind === 'application'
            ? ` ${effect.application}`
            : '';
    return {
      what: `${effect.kind} ${effect.object}${key}`,
      causes: effect.causes.map((index) => {
        const { kind, was, now } = changes[index]!;
        return [kind, was ?? 'nothing', 'to', now ?? 'nothing'].join(' ');
      }),
    };
  });
}

const of = (all: ReturnType<typeof causesOf>, what: string) =>
  all.find((one) => one.what === what)?.causes ?? ['no such effect'];

describe('causes', () => {
  it('are told apart by the figure that a limit holds, though both stand in one block', () => {
    const all = causesOf([
      ['850 nm 3.0', '850 nm 2.9'],
      ['1300 nm 1.5', '1300 nm 1.4'],
    ]);
    expect(all).toHaveLength(18);
    for (const { what, causes } of all) {
      const moved = what.includes('850') ? '3.0 dB/km to 2.9 dB/km' : '1.5 dB/km to 1.4 dB/km';
      expect(causes, what).toEqual([`basis ${moved}`]);
    }
  });

  it('name what moves a limit most before what moves it less', () => {
    const all = causesOf([
      ['850 nm 3.0', '850 nm 2.9'],
      ['KQ-1           120', 'KQ-1           220'],
    ]);
    const [length, allowance] = ['medium 120 m to 220 m', 'basis 3.0 dB/km to 2.9 dB/km'];
    expect(of(all, 'reading KQ-1 fibre 1 850')).toEqual([length, allowance]);
    expect(of(all, 'design KQ-1 850')).toEqual([length, allowance]);
    expect(of(all, 'reading KQ-1 fibre 1 1300')).toEqual([length]);
    expect(of(all, 'reading KQ-2 fibre 1 850')).toEqual([allowance]);
    expect(of(all, 'object KQ-1')).toEqual([length]);
  });

  it('name the reading itself before the limit that moved with it', () => {
    const all = causesOf([
      ['any 0.6', 'any 0.5'],
      ['0.81', '0.71'],
    ]);
    const [pairs, reading] = ['basis 0.6 dB to 0.5 dB', 'evidence 0.81 dB to 0.71 dB'];
    expect(of(all, 'reading KQ-1 fibre 1 850')).toEqual([reading, pairs]);
    expect(of(all, 'reading KQ-1 fibre 2 850')).toEqual([pairs]);
    expect(of(all, 'design KQ-1 850')).toEqual([pairs]);
  });

  it('tell what is laid from what is joined', () => {
    const all = causesOf([
      ['length      142 m', 'length      242 m'],
      ['  splice      fusion\n', '  splice      fusion\n  splice      fusion\n'],
    ]);
    // 100 m at 3.0 dB/km and a splice of 0.3 dB weigh the same at 850 nm, half of it at 1300 nm.
    expect(of(all, 'reading KQ-3 fibre 1 1300')).toEqual([
      'joints nothing to fusion',
      'medium 142 m to 242 m',
    ]);
    expect(of(all, 'object KQ-3')).toContain('medium 142 m to 242 m');
    expect(all.some(({ what }) => what.includes('KQ-1'))).toBe(false);
  });

  it('tell a joint that is put in from the segments that it parts', () => {
    const all = causesOf([
      [
        '  segment     38 m OM4\n',
        '  segment     20 m OM4\n  connector   LC at "riser"\n  segment     18 m OM4\n',
      ],
    ]);
    const first = (what: string) => of(all, what)[0];
    expect(first('reading KQ-3 fibre 1 850')).toBe('joints nothing to LC at "riser"');
    expect(first('design KQ-3 1300')).toBe('joints nothing to LC at "riser"');
  });

  it('of readings that are stale are work, and of those that are conceded the concession', () => {
    const work = `\nwork KQ-2 {\n  done        re-spliced\n  on          2026-04-01\n}\n`;
    const { effects, changes, retest } = compareTwo(plan, plan + work);
    expect(changes.map(changeInWords)).toHaveLength(1);
    const stale = effects.filter((effect) => effect.kind === 'reading');
    expect(stale.map(({ after }) => after!.verdict)).toEqual(Array(4).fill('stale'));
    expect(retest.map(({ key }) => `${key.object} ${key.fibre}`)).toEqual([
      'KQ-2 1',
      'KQ-2 1',
      'KQ-2 2',
      'KQ-2 2',
    ]);
    expect(retest[0]!.because).toContain('re-spliced on 2026-04-01');

    const high = changed(['0.92', '2.92']);
    const concession = `\nconcession KQ-2 {\n  fibres      1\n  wavelength  850 nm\n  accepted    3 dB\n  because     "rework booked"\n  by          "M. Ashdown" on 2026-04-01\n}\n`;
    const conceded = compareTwo(high, high + concession);
    expect(conceded.changes.map(({ kind }) => kind)).toEqual(['concession']);
    expect(conceded.changes[0]!.movesVerdict).toBe(true);
  });

  it('of a verdict that work takes are not the figures that would have moved none', () => {
    const after = changed(['0.15 dB\n}', '0.16 dB\n}']);
    const work = `\nwork KQ-2 {\n  done        cleaned\n  on          2026-04-01\n}\n`;
    const { effects, changes } = compareTwo(plan, after + work);
    const kinds = effects.map(({ causes }) => causes.map((index) => changes[index]!.kind).join());
    expect(effects.map(({ object }) => object)).toEqual(Array(5).fill('KQ-2'));
    expect(kinds).toEqual(Array(5).fill('readings'));
    expect(changes.map(({ kind, movesVerdict }) => `${kind} ${movesVerdict}`)).toEqual([
      'readings true',
      'basis false',
    ]);
  });

  it('of what is wanted are wavelengths and directions to measure, of what was not made nothing else', () => {
    const all = causesOf([['directions  A>B', 'directions  both']]);
    expect(new Set(all.flatMap(({ causes }) => causes))).toEqual(new Set(['coverage A>B to both']));
    const { changes, retest } = compareTwo(plan, changed(['directions  A>B', 'directions  both']));
    // Nothing that was read counts less than it did.
    expect(retest).toEqual([]);
    expect(changes[0]!.movesVerdict).toBe(true);
  });

  it('of an object that is new or gone is the line that declares it', () => {
    const come = causesOf([
      ['  KQ-2           140\n', '  KQ-2           140\n  KQ-4           150\n'],
    ]);
    expect(new Set(come.flatMap(({ causes }) => causes))).toEqual(
      new Set(['connection nothing to nothing']),
    );
    expect(come.map(({ what }) => what)).toContain('object KQ-4');
    const goes = causesOf([['  KQ-2           140\n', '']]);
    expect(of(goes, 'object KQ-2')).toEqual(['connection nothing to nothing']);
  });

  it('of readings that an impossible one makes doubtful are that one, whatever else reaches them', () => {
    const all = causesOf([
      ['0.81', '-0.81'],
      ['KQ-2           140', 'KQ-2           150'],
    ]);
    const impossible = 'evidence 0.81 dB to -0.81 dB';
    expect(of(all, 'reading KQ-3 fibre 1 850')).toEqual([impossible]);
    expect(of(all, 'reading KQ-1 fibre 2 850')).toEqual([impossible]);
    expect(of(all, 'reading KQ-2 fibre 1 850')).toEqual([impossible, 'medium 140 m to 150 m']);
    expect(of(all, 'reading KQ-2 fibre 1 1300')).toEqual(['medium 140 m to 150 m']);
    expect(of(all, 'design KQ-2 850')).toEqual(['medium 140 m to 150 m']);
    expect(of(all, 'object KQ-3')).toEqual([impossible]);
  });

  it('are lines that cannot be read, where results move by them', () => {
    const { changes, effects, engineering } = compareTwo(
      plan,
      changed(['  carries     10GBASE-SR', '  carries     10GBASE-SR, 10GBASE-LR']),
    );
    expect(effects.length).toBeGreaterThan(0);
    expect(engineering).toBeGreaterThan(0);
    for (const { causes } of effects) expect(changes[causes[0]!]!.kind).not.toBe('text');
  });
});
