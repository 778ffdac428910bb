/** What an event of a trace may lose and reflect, and which figure that is. */
import { describe, expect, it } from 'vitest';
import { doubt, exact, judged } from '../published/judged.ts';
import { said, traced, tracedPlan } from './traced-plan.ts';

describe('what an event may lose', () => {
  it('a pair its figure, by the average, or by one direction where there is one', () => {
    const [both, one] = traced('  1  0  connector  0.55  0.44\n  2  0  connector  0.55  -').events;
    expect(both).toMatchObject({ verdict: 'pass', sum: 990_000 });
    expect(exact(both?.margin)).toBe('0.005');
    expect(one).toMatchObject({ verdict: 'fail' });
    expect(exact(one?.margin)).toBe('-0.05');
  });

  it('by the uncertainty of reflectometers, where the plan states one, and never by that of loss tests', () => {
    const rows = '  1  2.0  splice  0.17  0.19';
    expect(traced(rows).events[0]?.verdict).toBe('pass');
    const plan = '  uncertainty 0.05 dB otdr\n';
    expect(traced(rows, { plan }).events[0]?.verdict).toBe('marginal-pass');
  });

  it('a bend nothing: it is a doubt that says where', () => {
    const result = traced('  1  3.3  bend  0.4  0.5');
    expect(result.events[0]).toMatchObject({ verdict: 'not-judged' });
    expect(doubt(result, 'bend-on-trace').where).toMatch(/between splice WELD at pit 4, 2 km/u);
  });

  it('a gain in both directions together is impossible', () => {
    const result = traced('  1  2.0  splice  -0.12  0.01');
    expect(result.events[0]?.verdict).toBe('invalid');
    expect(said(result)).toEqual(['event-impossible']);
    expect(said(traced('  1  2.0  splice  -0.11  0.01'))).toEqual(['splice-gain']);
  });

  it('reflectance is judged from each side, the worse counts', () => {
    const columns = '1550 nm A>B reflectance, 1550 nm B>A reflectance';
    const result = traced('  1  0  connector  -52.1  -44.9\n  2  0  connector  -52.1  -45', {
      columns,
    });
    expect(result.events.map(({ verdict }) => verdict)).toEqual(['fail', 'pass']);
    expect(exact(result.events[0]?.margin)).toBe('-0.1');
    expect(said(result)).toEqual(['return-loss-low']);
    const positive = traced('  1  0  connector  52.1  -', { columns });
    expect(positive.events[0]?.verdict).toBe('invalid');
    expect(said(positive)).toEqual(['reflectance-positive']);
  });

  it('its limit is one term: what was held against which figure, and whose', () => {
    const [pair, splice] = traced('  1  0  connector  0.4  0.4\n  1  2  splice  0.1  0.1').events;
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
        tracedPlan('  1  0  connector  -47  -48', {
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
    expect(traced('  1  2.0  splice  0.1', { columns: '1550 nm' }).events[0]?.verdict).toBe(
      'not-judged',
    );
    const meter = tracedPlan('  1  2.0  splice  0.1  0.1').replace(
      'otdr        "T1"',
      'meter       "M1"',
    );
    const result = judged(meter).link('KQ-1');
    expect(result.events[0]?.verdict).toBe('invalid');
    expect(said(result)).toEqual(['reflectometer-missing']);
  });
});
