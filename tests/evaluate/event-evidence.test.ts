/** Traces as evidence of a whole plan: what ages them, what takes them out, and what is required of them. */
import { describe, expect, it } from 'vitest';
import { doubt, judged } from '../published/judged.ts';
import { said, traced, tracedPlan } from './traced-plan.ts';

describe('in time', () => {
  const rows = '  1  2.0  splice  0.30  0.40\n  2  2.0  splice  0.05  0.07\n  2  5.0  end  -  -';

  it('work and repairs age what was seen of the fibres they touch', () => {
    const work =
      'work KQ-1 {\n  done        re-spliced\n  fibres      2\n  on          2026-05-25\n}\n';
    const result = traced(rows, { more: work });
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
    const result = traced(
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

  it('a repair that says no place lengthens the path as a whole, beside one that does', () => {
    const repair = (name: string, at: string, length: number) => `  repair ${name} {
    fibres      1
${at}    on          2026-05-01
    splice      WELD
    segment     ${length} m GLASS
    splice      WELD
  }
`;
    const link = repair('REP-1', '    at          3 km\n', 200) + repair('REP-2', '', 300);
    // 5 km, 200 m and 300 m; without the second the pair would lie 300 m, more than 3 %, before it.
    const parts = (at: string) =>
      traced(`  1  ${at}  connector  0.2  0.2`, { link }).events[0]?.part;
    expect(parts('5.5')).toBe('pair PAIR');
    expect(parts('5.2')).toBeUndefined();
  });

  it('a withdrawal takes out what its narrowing covers', () => {
    const out = (narrow: string) =>
      traced(rows, {
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
    const old = tracedPlan(rows).replace('"T1"', '"T1" due 2026-05-19');
    expect(doubt(judged(old).link('KQ-1'), 'calibration-expired')).toMatchObject({
      instrument: 'T1',
      readings: 4,
    });
  });

  it('the later of two traces stands, in whichever order they are written', () => {
    const later =
      '}\n\nevents KQ-1 {\n  setup       TRACE\n  tested      2026-05-10 08:00\n  values      loss in dB\n  columns fibre, at in km, kind, 1550 nm A>B\n  1  2.0  splice  0.35';
    const [event] = traced(`  1  2.0  splice  0.05  0.07\n${later}`).events;
    expect(event?.forward?.typed.digits).toBe('0.05');
    expect(event?.verdict).toBe('pass');
  });

  it('what is lost at the end of a trace is judged by how long that says the fibre is', () => {
    const end = (at: string, more = '') => {
      const { events } = traced(`  1  5.0  end  0.10  0.10\n  2  ${at}  end  0.10  0.10`, { more });
      return events.map(({ fibre, verdict, because }) => `${fibre} ${verdict}: ${because}`);
    };
    const whole = '5 km, as long as the 5 km declared';
    expect(end('5.0')).toEqual([`1 pass: ${whole}`, `2 pass: ${whole}`]);
    expect(end('3.5')).toEqual([
      `1 pass: ${whole}`,
      '2 not-judged: 3.5 km, 30.00 % under the 5 km declared',
    ]);
  });

  it('two values of one key at one time are a doubt', () => {
    const result = traced('  1  2.0  splice  0.05  0.07\n  1  2.0  splice  0.06  0.08');
    expect(said(result)).toEqual(['measured-twice', 'measured-twice']);
    expect(result.accepted).toBe(false);
  });
});

describe('what the plan requires', () => {
  it('a trace of each fibre, both ways where splices lie in the path', () => {
    const link = '  require     events\n';
    const result = traced('  1  2.0  splice  0.05  0.07\n  2  2.0  splice  0.05  -', { link });
    expect(doubt(result, 'trace-missing')).toMatchObject({
      missing: 1,
      list: 'fibre 2, 1550 nm B>A',
    });
    expect(said(traced('  1  2.0  splice  0.05  0.07'))).toEqual([]);
  });

  it('is missing again where work came after', () => {
    const done = `work KQ-1 {
  done        re-spliced
  fibres      2
  on          2026-05-25
}
`;
    const rows = [1, 2]
      .map((fibre) => `  ${fibre}  2.0  splice  0.05  0.07\n  ${fibre}  5.0  end  -  -`)
      .join('\n');
    const missing = (require: string, name: string, evidence: string) => {
      const link = `  require     ${require}\n`;
      const whole = traced(rows, { link, more: evidence });
      const aged = traced(rows, { link, more: evidence + done });
      return [whole, aged].map((result) =>
        result.doubts
          .filter((one) => one.name === name)
          .map(({ details }) => details.list ?? details.fibres),
      );
    };
    expect(missing('events', 'trace-missing', '')).toEqual([
      [],
      ['fibre 2, 1550 nm A>B; fibre 2, 1550 nm B>A'],
    ]);
    expect(missing('length', 'length-unmeasured', '')).toEqual([[], ['fibre 2']]);
    const faces = `inspection KQ-1 {
  tested      2026-05-20 08:00
  criterion   "contract, clause 9"
  columns fibre, A, B
  1  pass  pass
  2  pass  pass
}
`;
    expect(missing('inspection', 'inspection-missing', faces)).toEqual([
      [],
      ['fibre 2, end A; fibre 2, end B'],
    ]);
  });

  it('where nothing is spliced, only those ways that the plan measures', () => {
    const bare = tracedPlan('  1  0  connector  0.2  -\n  2  0  connector  0.2  -', {
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
      const result = traced(rows, link === undefined ? {} : { link });
      return [result.verdict, ...result.fibres.map(({ verdict }) => verdict)];
    };
    expect(verdicts('  require     events\n')).toEqual(['fail', 'fail', 'untested']);
    expect(verdicts()).toEqual(['untested', 'untested', 'untested']);
  });

  it('the worst joint of a fibre is its verdict, wherever along the fibre it lies', () => {
    // 0.5 dB for a pair and 0.2 dB for a splice, by a trace that is sure to 0.05 dB.
    const joints = (fibre: number, near: number, splice: number, far: number) =>
      [
        ['0', 'connector', near],
        ['2.0', 'splice', splice],
        ['5.0', 'connector', far],
      ]
        .map(([at, kind, loss]) => `  ${fibre}  ${at}  ${kind}  ${loss}  ${loss}`)
        .join('\n');
    const asked = { plan: '  uncertainty 0.05 dB otdr\n', link: '  require     events\n' };
    const worst = (...of: readonly [number, number, number]) => {
      const { events, fibres } = traced(joints(1, ...of), asked);
      return [events.map(({ verdict }) => verdict), fibres[0]?.verdict];
    };
    const [over, above, below] = ['fail', 'marginal-fail', 'marginal-pass'];
    expect(worst(0.52, 0.4, 0.48)).toEqual([[above, over, below], over]);
    expect(worst(0.6, 0.22, 0.1)).toEqual([[over, above, 'pass'], over]);
    expect(worst(0.48, 0.1, 0.52)).toEqual([[below, 'pass', above], above]);
    expect(worst(0.52, 0.18, 0.1)).toEqual([[above, below, 'pass'], above]);
  });

  it('a joint that is marginal leaves a fibre marginal whose readings pass', () => {
    const end = (loss: number) =>
      `  1  5.0  connector  ${loss}  ${loss}\n  2  5.0  connector  0.1  0.1`;
    // 0.3 · 5 + 0.2 + 2 · 0.5 = 2.7 dB for the whole; 0.5 dB for a pair, sure to 0.05 dB.
    const verdicts = (loss: number, accepting = '') => {
      const { fibres, verdict, accepted } = traced(end(loss), {
        plan: `  uncertainty 0.05 dB otdr\n${accepting}`,
        link: '  require     events\n',
        setup:
          '  cord        L1 launch PAIR GLASS length 1 km\n  cord        L2 tail PAIR GLASS length 1 km\n',
        more: `readings KQ-1 {
  setup       TRACE
  tested      2026-05-20 10:00
  values      loss in dB
  columns fibre, 1550 nm A>B, 1550 nm B>A
  1  2.1  2.1
  2  2.1  2.1
}
`,
      });
      return [...fibres.map((one) => one.verdict), verdict, accepted];
    };
    expect(verdicts(0.1)).toEqual(['pass', 'pass', 'pass', true]);
    expect(verdicts(0.48)).toEqual(['marginal-pass', 'pass', 'marginal-pass', true]);
    expect(verdicts(0.48, '  decision    flagged accepting none\n')).toEqual([
      'marginal-pass',
      'pass',
      'marginal-pass',
      false,
    ]);
    expect(verdicts(0.52)).toEqual(['marginal-fail', 'pass', 'marginal-fail', false]);
  });

  it('a length of each, by its own or by its trace; an answer in words lets it go', () => {
    const link = '  require     length\n';
    const rows = '  1  5.05  end  -  -';
    expect(doubt(traced(rows, { link }), 'length-unmeasured')).toMatchObject({ fibres: '2' });
    const { findings } = judged(
      tracedPlan(rows, { link: `${link}  silence     length-unmeasured because "agreed"\n` }),
    );
    expect(
      findings.filter(({ name, silenced }) => name === 'length-unmeasured' && !silenced),
    ).toEqual([]);
  });
});
