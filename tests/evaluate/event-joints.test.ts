/** Which joint of its path an event of a trace is, what fits none, and what the set-up could not have seen. */
import { describe, expect, it } from 'vitest';
import { doubt, judged } from '../published/judged.ts';
import { nm } from '../support/build.ts';
import { said, traced, tracedPlan } from './traced-plan.ts';

describe('an event is the nearest joint of its kind', () => {
  it('within 3 % of its distance, and 15 m where that is more', () => {
    const [near, far] = traced(
      '  1  2.06  splice  0.05  0.07\n  2  2.07  splice  0.05  0.07',
    ).events;
    expect(near?.part).toBe('splice WELD at pit 4');
    expect(far?.part).toBeUndefined();
    expect(far?.verdict).toBe('not-judged');
    const [start] = traced('  1  0.015  connector  0.2  0.2').events;
    expect(start?.part).toBe('pair PAIR');
    expect(traced('  1  0.016  connector  0.2  0.2').events[0]?.part).toBeUndefined();
  });

  it('and each joint is one event: a second row near it is explained by nothing', () => {
    const result = traced('  1  2.00  splice  0.05  0.07\n  1  2.02  splice  0.06  0.08');
    expect(result.events.map(({ part }) => part)).toEqual(['splice WELD at pit 4', undefined]);
    expect(doubt(result, 'event-unexplained')).toMatchObject({ fibre: 1, at: 2020 });
    expect(doubt(result, 'event-unexplained').where).toBe(
      'between splice WELD at pit 4, 2 km and pair PAIR, 5 km',
    );
  });

  it('and of two rows the nearer one is it, whichever was typed first', () => {
    const rows = ['  1  2.02  splice  0.06  0.08', '  1  2.005  splice  0.05  0.07'];
    for (const typed of [rows, rows.toReversed()]) {
      const { events } = traced(typed.join('\n'));
      expect(events.map(({ sum, part }) => [sum, part])).toEqual([
        [120_000, 'splice WELD at pit 4'],
        [140_000, undefined],
      ]);
    }
  });

  it('a pair seen one way is judged by that way alone, and says which', () => {
    const [one] = traced('  1  0  connector  0.2  -').events;
    expect([one?.verdict, one?.because]).toEqual(['pass', '0.20 dB A>B']);
    const [both] = traced('  1  0  connector  0.2  0.4').events;
    expect(both?.because).toBe('average 0.30 dB of 0.20 dB A>B and 0.40 dB B>A');
    const [back] = traced('  1  5  connector  -  0.9').events;
    expect([back?.verdict, back?.because]).toEqual(['fail', '0.90 dB B>A']);
  });

  it('of two wavelengths the shorter comes first, whichever column is first', () => {
    for (const columns of ['1550 nm B>A, 1310 nm B>A', '1310 nm B>A, 1550 nm B>A']) {
      const { events } = traced('  1  2.0  splice  0.05  0.07', { columns });
      expect(events.map(({ wavelength }) => wavelength)).toEqual([nm(1310), nm(1550)]);
    }
  });

  it('is told of the wavelength that is most over, of two alike the first', () => {
    const columns = '1310 nm A>B, 1310 nm B>A, 1550 nm A>B, 1550 nm B>A';
    const over = (losses: string) => {
      const found = traced(`  1  2.0  splice  ${losses}`, { columns }).doubts.filter(
        ({ name }) => name === 'joint-over-limit',
      );
      return found.map(({ details }) => [details.wavelength, details.over]);
    };
    expect(over('0.5  0.5  0.5  0.5')).toEqual([[1310, 0.3]]);
    expect(over('0.5  0.5  0.6  0.6')).toEqual([[1550, 0.4]]);
    expect(over('0.6  0.6  0.5  0.5')).toEqual([[1310, 0.4]]);
  });

  it('a kind that does not lie there is none of the path', () => {
    expect(said(traced('  1  2.0  connector  0.3  0.3'))).toEqual(['event-unexplained']);
    expect(said(traced('  1  2.0  splitter  7.1  7.2'))).toEqual(['event-unexplained']);
  });

  it('a reflection may be any joint but a splitter', () => {
    const at = (kilometres: number) =>
      traced(`  1  ${kilometres}  reflection  -50  -50`, {
        columns: '1550 nm A>B reflectance, 1550 nm B>A reflectance',
      }).events[0]?.part;
    expect([at(0), at(2), at(3.5)]).toEqual(['pair PAIR', 'splice WELD at pit 4', undefined]);
  });

  it('two traces of the two directions, in two blocks, are one event', () => {
    const back = `events KQ-1 {
  setup       TRACE
  tested      2026-05-21 10:00
  values      loss in dB
  columns fibre, at in km, kind, 1550 nm B>A
  1  2.004  splice  0.11
}
`;
    const [event] = traced('  1  2.001  splice  0.05  -', { more: back }).events;
    expect(event).toMatchObject({ sum: 160_000, verdict: 'pass' });
  });

  it('the last trace of a key stands', () => {
    const later = `events KQ-1 {
  setup       TRACE
  tested      2026-05-22 10:00
  values      loss in dB
  columns fibre, at in km, kind, 1550 nm A>B, 1550 nm B>A
  1  2.001  splice  0.04  0.06
}
`;
    const result = traced('  1  2.001  splice  0.30  0.40', { more: later });
    expect(result.events).toMatchObject([{ sum: 100_000, verdict: 'pass' }]);
    expect(said(result)).toEqual([]);
    // Wherever it stands in the text: this one was taken the day before.
    const earlier = later.replace('05-22', '05-19');
    const after = traced('  1  2.001  splice  0.30  0.40', { more: earlier });
    expect(after.events).toMatchObject([{ sum: 700_000, verdict: 'fail' }]);
  });

  it('comes by fibre, and along the path, in whatever order they were typed', () => {
    const rows = ['  2  5.0  connector  0.2  0.2', '  1  5.0  connector  0.2  0.2'];
    const { events } = traced([...rows, '  1  2.0  splice  0.05  0.07'].join('\n'));
    expect(events.map(({ fibre, part }) => [fibre, part])).toEqual([
      [1, 'splice WELD at pit 4'],
      [1, 'pair PAIR'],
      [2, 'pair PAIR'],
    ]);
  });
});

describe('the ends of a tree', () => {
  const tree = (rows: string) => `
plan "Tree" {
  limits      SET
  measure     1550 nm
  directions  A>B
  uncertainty 0.20 dB
}

limits SET {
  policy      counting
  fibre       GLASS 1550 nm 0.3 dB/km
  connector   any 0.5 dB
  connector   any 0.2 dB reference
  splice      any 0.2 dB
}

fibre GLASS {
  mode        single-mode core 9 um
}

connector PAIR {
  loss        typ 0.2 dB
}

splice WELD {
  loss        typ 0.05 dB
}

splitter SPLIT {
  ports       1:2
  loss        out 1 max 3.9 dB
  loss        out 2 max 4.1 dB
}

pattern drop {
  splice      WELD
  segment     <length> GLASS
  connector   PAIR
}

setup TRACE {
  otdr        "T1"
  cord        L1 launch PAIR GLASS length 1 km
  cord        L2 tail PAIR GLASS length 1 km
}

link HALL-1 {
  from        A:01
  connector   PAIR
  segment     1 km GLASS
  splice      WELD
  split S-1 SPLIT {
    out 1 to HALL/01 as drop length 100 m
    out 2 to HALL/02 as drop length 400 m
  }
}

events HALL-1 {
  setup       TRACE
  tested      2026-05-20 08:40
  values      loss in dB
  columns end, at in km, kind, 1550 nm A>B, 1550 nm B>A
${rows}
}
`;

  it('have each their own path: their own output, and the joints behind it', () => {
    const result = judged(
      tree(`  HALL/01  1.0   splitter   -     3.95
  HALL/02  1.0   splitter   -     3.95
  HALL/01  1.1   connector  0.3   0.3
  HALL/02  1.4   connector  0.3   0.3
  HALL/02  1.4   end        -     -
  HALL/01  1.15  end        -     -`),
    ).link('HALL-1');
    expect(result.events.map(({ end, part, verdict }) => `${end} ${part} ${verdict}`)).toEqual([
      'HALL/01 splitter SPLIT fail',
      'HALL/01 pair PAIR pass',
      'HALL/02 splitter SPLIT pass',
      'HALL/02 pair PAIR pass',
    ]);
    expect(result.lengths.map(({ end, verdict }) => `${end} ${verdict}`)).toEqual([
      'HALL/01 not-judged',
      'HALL/02 pass',
    ]);
    expect(doubt(result, 'length-differs')).toMatchObject({ length: 1150, declared: 1100 });
  });
});

describe('what the set-up could not have seen', () => {
  const launch = '  cord        L1 launch PAIR GLASS length 1 km\n';
  const tail = '  cord        L2 tail PAIR GLASS length 1 km\n';

  it('an end pair without the cord on its side, for the direction that was measured', () => {
    const near = '  1  0  connector  0.2  -';
    expect(said(traced(near))).toEqual(['end-pair-unseen']);
    expect(said(traced(near, { setup: launch }))).toEqual([]);
    // From B the pair at A is the far one, and a tail lets it be seen.
    expect(said(traced('  1  0  connector  -  0.2', { setup: launch }))).toEqual([
      'end-pair-unseen',
    ]);
    expect(said(traced('  1  0  connector  -  0.2', { setup: launch + tail }))).toEqual([]);
  });

  it('an event beyond the range', () => {
    const rows = '  1  2.0  splice  0.05  0.07';
    expect(said(traced(rows, { setup: '  range       2 km\n' }))).toEqual([]);
    expect(said(traced(rows, { setup: '  range       1999 m\n' }))).toEqual(['event-beyond-range']);
  });

  it('two events nearer than the pulse: 1 µs is 102.1 m of glass of index 1.468', () => {
    const two = (apart: string, pulse: string) => {
      const indexed = tracedPlan(
        `  1  2.0  splice  0.05  0.07\n  1  ${apart}  splice  0.05  0.07`,
        {
          setup: `  pulse       ${pulse}\n  index       1550 nm 1.468\n`,
        },
      ).replace('mode        single-mode core 9 um', '$&\n  index       1550 nm 1.468');
      return said(judged(indexed).link('KQ-1'));
    };
    expect(two('2.1', '1 us')).toContain('pulse-too-long');
    expect(two('2.103', '1 us')).not.toContain('pulse-too-long');
    expect(two('2.1', '100 ns')).not.toContain('pulse-too-long');
  });
});
