/**
 * The longest path for a budget, as makers' manuals and textbooks work it out,
 * asked of a plan: the budget is what an application may lose, penalties and
 * joints are parts of the path. Each source stands beside its numbers.
 */
import { describe, expect, it } from 'vitest';
import { type Room, roomOf } from '../../server/src/evaluate/index.ts';
import { judge } from '../support/judge.ts';

interface Published {
  readonly source: string;
  readonly budget: number;
  readonly parts: readonly number[];
  readonly rate: number;
  readonly kilometres: number;
}

const published: readonly Published[] = [
  {
    source:
      'RADring installation and operation manual p. 7-7, 50 µm: (−22 + 32 − 0.8 − 0.4 − 2) ÷ 3',
    budget: 10,
    parts: [0.8, 0.4, 2],
    rate: 3,
    kilometres: 2.266667,
  },
  {
    source: 'RADring installation and operation manual p. 7-7, 62.5 µm: (14 − 3.2) ÷ 3.5',
    budget: 14,
    parts: [0.8, 0.4, 2],
    rate: 3.5,
    kilometres: 3.085714,
  },
  {
    source: 'Models 5843/5844 manual p. 26: (19.5 − 3) ÷ 3, with ageing',
    budget: 19.5,
    parts: [3],
    rate: 3,
    kilometres: 5.5,
  },
  {
    source:
      'Senior, Optical Fiber Communications, example 12.8 p. 732, 35 Mb/s: (52 − 2 − 7) ÷ 0.5',
    budget: 52,
    parts: [2, 7],
    rate: 0.5,
    kilometres: 86,
  },
  {
    source: 'Senior, Optical Fiber Communications, example 12.8 p. 732, with a penalty of 1.5 dB',
    budget: 41,
    parts: [2, 1.5, 7],
    rate: 0.5,
    kilometres: 61,
  },
  {
    source: 'NANOG mailing list, message 75637: two filters of 4.5 dB on 23 dB at 0.25 dB/km',
    budget: 23,
    parts: [4.5, 4.5],
    rate: 0.25,
    kilometres: 56,
  },
];

function roomFor({ budget, parts, rate }: Published): Room {
  const text = `plan "A published length" {
  limits      NONE
  measure     1310 nm
  reference   one-cord
}

limits NONE {
  policy      counting
}

fibre GLASS {
  mode        single-mode
  attenuation 1310 nm max ${rate} dB/km
}

connector END {
  loss        max 0 dB
}

${parts.map((loss, index) => `component P${index} {\n  loss        max ${loss} dB\n}\n`).join('\n')}
application BUDGET {
  count       1
  wavelength  1310 nm
  fibre       GLASS loss ${budget} dB
}

link LONGEST {
  fibres      1
  connector   END
  segment     1 km GLASS
${parts.map((_, index) => `  component   P${index}\n`).join('')}  connector   END
  carries     BUDGET
}
`;
  const [room] = roomOf(judge(text).plan.tried('LONGEST')!);
  if (!room) throw new Error('no length is known');
  return room;
}

describe('the longest path is the budget less all else, over the rate', () => {
  for (const one of published) {
    it(one.source, () => {
      const { longest, byReach, never } = roomFor(one);
      expect({ byReach, never }).toEqual({});
      expect(longest! / 1e9).toBeCloseTo(one.kilometres, 6);
    });
  }

  it('reach is a term of its own: 10GBASE-SR on OM4, 400 m, IEEE 802.3 clause 52 as the library cites it', () => {
    const text = `plan "Reach" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  reference   one-cord
}

link LONGEST {
  fibres      1..2
  connector   LC
  segment     100 m OM4
  connector   LC
  carries     10GBASE-SR cords 3 m, 2 m
}
`;
    const [room] = roomOf(judge(text).plan.tried('LONGEST')!);
    expect(room).toMatchObject({ longest: 395_000_000, others: 5_000_000 });
    // (2.9 − 2 × 0.75 − 3.0 × 0.005) ÷ 3.0 = 0.461666 km, of which no micrometre is given away.
    expect(room?.byLoss?.longest).toBe(461_666_666);
  });
});
