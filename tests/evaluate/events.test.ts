/** Traces on whole plans: which joint an event is, what fits none, what is required, what ages and what is taken out. */
import { describe, expect, it } from 'vitest';
import type { LinkResult } from '../../server/src/evaluate/index.ts';
import { hover } from '../../server/src/features/hover.ts';
import { inlayHints } from '../../server/src/features/inlay-hints.ts';
import { toJson } from '../../server/src/report/json.ts';
import { resultSchema } from '../../server/src/report/schema.ts';
import { doubt, doubts, exact, judged } from '../published/judged.ts';
import { answer, ask } from '../support/ask.ts';

interface Parts {
  readonly plan?: string;
  readonly link?: string;
  readonly setup?: string;
  readonly more?: string;
  readonly columns?: string;
}

const text = (
  rows: string,
  { plan = '', link = '', setup = '', more = '', columns }: Parts = {},
) => `
plan "Traces" {
  limits      SET
  measure     1550 nm
  directions  both
  uncertainty 0.20 dB
${plan}}

limits SET {
  policy      counting
  fibre       GLASS 1550 nm 0.3 dB/km
  connector   any 0.5 dB
  connector   any 0.2 dB reference
  splice      any 0.2 dB
  return-loss PAIR min 45 dB
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

setup TRACE {
  otdr        "T1"
${setup}}

link KQ-1 {
  from        A:01..02
  to          B:01..02
  connector   PAIR
  segment     2 km GLASS
  splice      WELD at "pit 4"
  segment     3 km GLASS
  connector   PAIR
${link}}

events KQ-1 {
  setup       TRACE
  tested      2026-05-20 08:40 by "T. Holm"
  values      loss in dB
  values      reflectance in dB
  columns fibre, at in km, kind, ${columns ?? '1550 nm A>B, 1550 nm B>A'}
${rows}
}
${more}`;

const of = (rows: string, parts?: Parts) =>
  judged(text(rows, parts), '2026-06-01 12:00').link('KQ-1');

/** What is said of traces alone: that the link has no readings yet is another matter. */
const said = (result: LinkResult) => doubts(result).filter((name) => name !== 'readings-missing');

describe('an event is the nearest joint of its kind', () => {
  it('within 3 % of its distance, and 15 m where that is more', () => {
    const [near, far] = of('  1  2.06  splice  0.05  0.07\n  2  2.07  splice  0.05  0.07').events;
    expect(near?.part).toBe('splice WELD at pit 4');
    expect(far?.part).toBeUndefined();
    expect(far?.verdict).toBe('not-judged');
    const [start] = of('  1  0.015  connector  0.2  0.2').events;
    expect(start?.part).toBe('pair PAIR');
    expect(of('  1  0.016  connector  0.2  0.2').events[0]?.part).toBeUndefined();
  });

  it('and each joint is one event: a second row near it is explained by nothing', () => {
    const result = of('  1  2.00  splice  0.05  0.07\n  1  2.02  splice  0.06  0.08');
    expect(result.events.map(({ part }) => part)).toEqual(['splice WELD at pit 4', undefined]);
    expect(doubt(result, 'event-unexplained')).toMatchObject({ fibre: 1, at: 2020 });
    expect(doubt(result, 'event-unexplained').where).toBe(
      'between splice WELD at pit 4, 2 km and pair PAIR, 5 km',
    );
  });

  it('a kind that does not lie there is none of the path', () => {
    expect(said(of('  1  2.0  connector  0.3  0.3'))).toEqual(['event-unexplained']);
    expect(said(of('  1  2.0  splitter  7.1  7.2'))).toEqual(['event-unexplained']);
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
    const [event] = of('  1  2.001  splice  0.05  -', { more: back }).events;
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
    const result = of('  1  2.001  splice  0.30  0.40', { more: later });
    expect(result.events).toMatchObject([{ sum: 100_000, verdict: 'pass' }]);
    expect(said(result)).toEqual([]);
  });
});

describe('what an event may lose', () => {
  it('a pair its figure, by the average, or by one direction where there is one', () => {
    const [both, one] = of('  1  0  connector  0.55  0.44\n  2  0  connector  0.55  -').events;
    expect(both).toMatchObject({ verdict: 'pass', sum: 990_000 });
    expect(exact(both?.margin)).toBe('0.005');
    expect(one).toMatchObject({ verdict: 'fail' });
    expect(exact(one?.margin)).toBe('-0.05');
  });

  it('by the uncertainty of reflectometers, where the plan states one, and never by that of loss tests', () => {
    const rows = '  1  2.0  splice  0.17  0.19';
    expect(of(rows).events[0]?.verdict).toBe('pass');
    const plan = '  uncertainty 0.05 dB otdr\n';
    expect(of(rows, { plan }).events[0]?.verdict).toBe('marginal-pass');
  });

  it('a bend nothing: it is a doubt that says where', () => {
    const result = of('  1  3.3  bend  0.4  0.5');
    expect(result.events[0]).toMatchObject({ verdict: 'not-judged' });
    expect(doubt(result, 'bend-on-trace').where).toMatch(/between splice WELD at pit 4, 2 km/u);
  });

  it('a gain in both directions together is impossible', () => {
    const result = of('  1  2.0  splice  -0.12  0.01');
    expect(result.events[0]?.verdict).toBe('invalid');
    expect(said(result)).toEqual(['event-impossible']);
    expect(said(of('  1  2.0  splice  -0.11  0.01'))).toEqual(['splice-gain']);
  });

  it('reflectance is judged from each side, the worse counts', () => {
    const columns = '1550 nm A>B reflectance, 1550 nm B>A reflectance';
    const result = of('  1  0  connector  -52.1  -44.9\n  2  0  connector  -52.1  -45', {
      columns,
    });
    expect(result.events.map(({ verdict }) => verdict)).toEqual(['fail', 'pass']);
    expect(exact(result.events[0]?.margin)).toBe('-0.1');
    expect(said(result)).toEqual(['return-loss-low']);
    const positive = of('  1  0  connector  52.1  -', { columns });
    expect(positive.events[0]?.verdict).toBe('invalid');
    expect(said(positive)).toEqual(['reflectance-positive']);
  });

  it('its limit is one term: what was held against which figure, and whose', () => {
    const [pair, splice] = of('  1  0  connector  0.4  0.4\n  1  2  splice  0.1  0.1').events;
    const terms = (event: typeof pair) =>
      event?.limit?.terms?.map(({ what, role, count, each, source }) => [
        what,
        role,
        count,
        each,
        source,
      ]);
    expect(terms(pair)).toEqual([['pair PAIR', 'pair', 1, 500_000, 'SET, any pair']]);
    expect(terms(splice)).toEqual([
      ['splice WELD at pit 4', 'splice', 1, 200_000, 'SET, splice any'],
    ]);
  });

  it('return loss is asked by the set and by the part, each at its own wavelength', () => {
    const asked = (own: string) => {
      const [event] = judged(
        text('  1  0  connector  -47  -48', {
          columns: '1550 nm A>B reflectance, 1550 nm B>A reflectance',
        }).replace('  loss        typ 0.2 dB\n', `$&${own}`),
      ).link('KQ-1').events;
      const source = event?.limit?.terms?.[0]?.source;
      return [event?.verdict, event?.because, exact(event?.limit?.value), source];
    };
    const bySet = ['pass', 'return loss 47.00 dB', '45', 'SET'];
    expect(asked('')).toEqual(bySet);
    expect(asked('  return-loss wavelength 1310 nm min 60 dB\n')).toEqual(bySet);
    const byPart = ['fail', 'return loss 47.00 dB', '50', 'PAIR, least return loss'];
    expect(asked('  return-loss min 50 dB\n')).toEqual(byPart);
    expect(asked('  return-loss wavelength 1550 nm min 50 dB\n')).toEqual(byPart);
  });

  it('no direction, no reflectometer: nothing is judged', () => {
    expect(of('  1  2.0  splice  0.1', { columns: '1550 nm' }).events[0]?.verdict).toBe(
      'not-judged',
    );
    const meter = text('  1  2.0  splice  0.1  0.1').replace(
      'otdr        "T1"',
      'meter       "M1"',
    );
    const result = judged(meter).link('KQ-1');
    expect(result.events[0]?.verdict).toBe('invalid');
    expect(said(result)).toEqual(['reflectometer-missing']);
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
    expect(said(of(near))).toEqual(['end-pair-unseen']);
    expect(said(of(near, { setup: launch }))).toEqual([]);
    // From B the pair at A is the far one, and a tail lets it be seen.
    expect(said(of('  1  0  connector  -  0.2', { setup: launch }))).toEqual(['end-pair-unseen']);
    expect(said(of('  1  0  connector  -  0.2', { setup: launch + tail }))).toEqual([]);
  });

  it('an event beyond the range', () => {
    const rows = '  1  2.0  splice  0.05  0.07';
    expect(said(of(rows, { setup: '  range       2 km\n' }))).toEqual([]);
    expect(said(of(rows, { setup: '  range       1999 m\n' }))).toEqual(['event-beyond-range']);
  });

  it('two events nearer than the pulse: 1 µs is 102.1 m of glass of index 1.468', () => {
    const two = (apart: string, pulse: string) => {
      const indexed = text(`  1  2.0  splice  0.05  0.07\n  1  ${apart}  splice  0.05  0.07`, {
        setup: `  pulse       ${pulse}\n  index       1550 nm 1.468\n`,
      }).replace('mode        single-mode core 9 um', '$&\n  index       1550 nm 1.468');
      return said(judged(indexed).link('KQ-1'));
    };
    expect(two('2.1', '1 us')).toContain('pulse-too-long');
    expect(two('2.103', '1 us')).not.toContain('pulse-too-long');
    expect(two('2.1', '100 ns')).not.toContain('pulse-too-long');
  });
});

describe('in time', () => {
  const rows = '  1  2.0  splice  0.30  0.40\n  2  2.0  splice  0.05  0.07\n  2  5.0  end  -  -';

  it('work and repairs age what was seen of the fibres they touch', () => {
    const work =
      'work KQ-1 {\n  done        re-spliced\n  fibres      2\n  on          2026-05-25\n}\n';
    const result = of(rows, { more: work });
    expect(result.events.map(({ fibre, verdict }) => [fibre, verdict])).toEqual([
      [1, 'fail'],
      [2, 'stale'],
    ]);
    expect(result.lengths[0]?.verdict).toBe('stale');
    expect(doubt(result, 'evidence-aged')).toMatchObject({ events: 1, lengths: 1 });
  });

  it('a repair puts its splices where it says it lies, from its day on', () => {
    const link = `  repair REP-1 {
    fibres      1
    at          3 km
    on          2026-05-01
    splice      WELD
    segment     200 m GLASS
    splice      WELD
  }
`;
    const result = of(
      `  1  3.0  splice  0.05  0.07
  1  3.2  splice  0.06  0.08
  1  5.2  connector  0.2  0.2
  2  3.0  splice  0.05  0.07`,
      { link },
    );
    expect(result.events.map(({ fibre, part }) => `${fibre} ${part}`)).toEqual([
      '1 splice WELD',
      '1 splice WELD',
      '1 pair PAIR',
      '2 undefined',
    ]);
  });

  it('a withdrawal takes out what its narrowing covers', () => {
    const out = (narrow: string) =>
      of(rows, {
        more: `withdraw KQ-1 {\n  ${narrow}\n  because     "wrong cord"\n  by          "T. Holm"\n}\n`,
      });
    expect(out('fibres      1').events.map(({ fibre }) => fibre)).toEqual([2]);
    expect(out('direction   B>A').events.map(({ verdict }) => verdict)).toEqual([
      'not-judged',
      'not-judged',
    ]);
    expect(out('tested      2026-05-19').events).toHaveLength(2);
    expect(out('tested      2026-05-20').events).toEqual([]);
    expect(out('fibres      2').lengths).toEqual([]);
  });

  it('an instrument past its due date is said once', () => {
    const old = text(rows).replace('"T1"', '"T1" due 2026-05-19');
    expect(doubt(judged(old).link('KQ-1'), 'calibration-expired')).toMatchObject({
      instrument: 'T1',
      readings: 4,
    });
  });

  it('two values of one key at one time are a doubt', () => {
    const result = of('  1  2.0  splice  0.05  0.07\n  1  2.0  splice  0.06  0.08');
    expect(said(result)).toEqual(['measured-twice', 'measured-twice']);
    expect(result.accepted).toBe(false);
  });
});

describe('what the plan requires', () => {
  it('a trace of each fibre, both ways where splices lie in the path', () => {
    const link = '  require     events\n';
    const result = of('  1  2.0  splice  0.05  0.07\n  2  2.0  splice  0.05  -', { link });
    expect(doubt(result, 'trace-missing')).toMatchObject({
      missing: 1,
      list: 'fibre 2, 1550 nm B>A',
    });
    expect(said(of('  1  2.0  splice  0.05  0.07'))).toEqual([]);
  });

  it('where nothing is spliced, only those ways that the plan measures', () => {
    const bare = text('  1  0  connector  0.2  -\n  2  0  connector  0.2  -', {
      link: '  require     events\n',
    })
      .replace('directions  both', 'directions  A>B')
      .replace('  splice      WELD at "pit 4"\n', '');
    expect(said(judged(bare).link('KQ-1'))).not.toContain('trace-missing');
    const spliced = bare.replace('  segment     3 km', '  splice      WELD\n$&');
    expect(doubt(judged(spliced).link('KQ-1'), 'trace-missing')).toMatchObject({
      missing: 2,
      list: 'fibre 1, 1550 nm B>A; fibre 2, 1550 nm B>A',
    });
  });

  it('a joint over its limit then fails its fibre and the link, and is a doubt otherwise', () => {
    const rows = '  1  2.0  splice  0.25  0.27\n  2  2.0  splice  0.05  0.07';
    const verdicts = (link?: string) => {
      const result = of(rows, link === undefined ? {} : { link });
      return [result.verdict, ...result.fibres.map(({ verdict }) => verdict)];
    };
    expect(verdicts('  require     events\n')).toEqual(['fail', 'fail', 'untested']);
    expect(verdicts()).toEqual(['untested', 'untested', 'untested']);
  });

  it('a length of each, by its own or by its trace; an answer in words lets it go', () => {
    const link = '  require     length\n';
    const rows = '  1  5.05  end  -  -';
    expect(doubt(of(rows, { link }), 'length-unmeasured')).toMatchObject({ fibres: '2' });
    const { findings } = judged(
      text(rows, { link: `${link}  silence     length-unmeasured because "agreed"\n` }),
    );
    expect(
      findings.filter(({ name, silenced }) => name === 'length-unmeasured' && !silenced),
    ).toEqual([]);
  });
});

describe('a loss read off a trace', () => {
  const loss = (value: string, setup: string, plan = '') =>
    of('', {
      setup,
      plan,
      more: `readings KQ-1 {
  setup       TRACE
  tested      2026-05-20 10:00
  values      loss in dB
  columns fibre, 1550 nm A>B
  1  ${value}
}
`,
    }).readings.find(({ attempt }) => attempt === 1);
  const cords = '  cord        L1 launch PAIR GLASS length 1 km\n';
  const tail = `${cords}  cord        L2 tail PAIR GLASS length 1 km\n`;

  it('holds both end pairs where a tail lets the far one be seen', () => {
    // 0.3 · 5 + 0.2 + 2 · 0.5
    const one = loss('2.1', tail);
    expect(exact(one?.limit?.value)).toBe('2.7');
    expect(one?.verdict).toBe('pass');
  });

  it('and the near pair alone where nothing does', () => {
    expect(exact(loss('2.1', cords)?.limit?.value)).toBe('2.2');
  });

  it('has the uncertainty that the plan states for reflectometers', () => {
    expect(loss('2.1', tail, '  uncertainty 0.70 dB otdr\n')?.verdict).toBe('marginal-pass');
    expect(loss('-0.1', tail)?.verdict).toBe('invalid');
  });
});

describe('a fibre that measures much shorter than declared', () => {
  const read = (end: string) =>
    of(`  1  ${end}  end  -  -`, {
      setup: '  cord        L1 launch PAIR GLASS\n  cord        L2 tail PAIR GLASS\n',
      more: `readings KQ-1 {
  setup       TRACE
  tested      2026-05-20 10:00
  values      loss in dB
  columns fibre, 1550 nm A>B
  1  2.5
}
`,
    }).readings.find(({ attempt }) => attempt === 1);

  it('is judged on what was measured: 0.3 dB/km over 4 km instead of 5 km', () => {
    expect(exact(read('4.0')?.limit?.value)).toBe('2.4');
    expect(read('4.0')?.verdict).toBe('marginal-fail');
  });

  it('and on what is declared where the difference is a helix, or the fibre is longer', () => {
    expect(exact(read('4.9')?.limit?.value)).toBe('2.7');
    expect(exact(read('6.0')?.limit?.value)).toBe('2.7');
  });
});

describe('shown', () => {
  const rows = '  1  2.0  splice  -0.06  0.22\n  2  2.0  splice  0.09  -\n  2  5.05  end  -  -';

  it('at the end of the row, in words', () => {
    const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
    const labels = answer(inlayHints, ask(text(rows)), { range }).map(({ label }) =>
      String(label).trim(),
    );
    expect(labels).toContain('pass, average 0.08');
    expect(labels).toContain('not judged: seen A>B alone');
    expect(labels).toContain('pass, 5.05 km, 1.00 % over the 5 km declared');
  });

  it('under the pointer, with its limit and where that stands', () => {
    const marked = text(rows).replace('-0.06', '-0.$006');
    const shown = answer(hover, ask(marked))?.contents;
    expect(shown).toMatchObject({
      value: `**splice WELD at pit 4, 1550 nm: pass**

average 0.08 dB of −0.06 dB A>B and 0.22 dB B>A

Limit 0.20 dB (SET, splice any), margin +0.12 dB`,
    });
  });

  it('in the JSON form, twice the average as a sum', () => {
    const { plan } = judged(text(rows));
    const form = toJson({ tool: 'test', result: plan.result, files: [], findings: [] });
    const plain = resultSchema.parse(JSON.parse(JSON.stringify(form)));
    expect(plain.links[0]?.events[0]).toMatchObject({
      fibre: 1,
      at_m: 2000,
      forward_db: -0.06,
      back_db: 0.22,
      sum_db: 0.16,
      limit_db: 0.2,
      margin_db: 0.12,
      verdict: 'pass',
    });
    expect(plain.links[0]?.lengths).toMatchObject([{ fibre: 2, length_m: 5050, declared_m: 5000 }]);
  });
});
