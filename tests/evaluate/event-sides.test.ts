/**
 * An event of a trace from its two sides: which of them speaks for it, what one of them
 * alone spoils, and by what it is judged. Averages of two directions are those of
 * IEC 61280-4-2; limits of 0.75 dB a pair and 0.3 dB a splice are ours.
 */
import { describe, expect, it } from 'vitest';
import type { EventCell, PlanSettings, Setup } from '../../server/src/model/types.ts';
import {
  cleaned,
  db,
  evaluate,
  evidence,
  link,
  mated,
  place,
  settings,
  setup,
  stretch,
  welded,
  when,
} from '../support/build.ts';
import { both, event, using } from './traced-link.ts';

const path = [mated(), stretch(2000), welded(), stretch(3000), mated()];

/** What becomes of events of its two fibres, by one or several set-ups. */
function judged(
  events: readonly EventCell[],
  {
    by,
    setups = [using],
    also = {},
    mode = 'multimode' as const,
  }: {
    by?: Partial<PlanSettings>;
    setups?: readonly Setup[];
    also?: object;
    mode?: 'multimode' | 'single-mode';
  } = {},
) {
  return evaluate(
    { ...link(path, { measure: [] }, 2), mode },
    evidence({ events, ...also }),
    undefined,
    settings(by),
    { setup: (name) => setups.find((one) => one.name === name) },
  );
}
const verdicts = (...asked: Parameters<typeof judged>) =>
  judged(...asked).events.map(({ verdict }) => verdict);

describe('an event seen from both sides', () => {
  it('stands where light from A shows it, whichever was written first', () => {
    const [a, b] = both('splice', 2, 0.1, 0.2) as [EventCell, EventCell];
    for (const cells of [
      [a, b],
      [b, a],
    ]) {
      const [found, ...others] = judged(cells).events;
      expect(others).toEqual([]);
      expect(found).toMatchObject({ place: a.place, forward: a, back: b, sum: db(0.3) });
    }
    expect(judged([b]).events[0]?.place).toBe(b.place);
  });

  it('is the last that was seen from each', () => {
    const later = (value: number, direction: 'A>B' | 'B>A') =>
      event('splice', 2, value, direction, { at: when(600) });
    const first = both('splice', 2, 0.5, 0.6);
    expect(judged([...first, later(0.1, 'A>B')]).events[0]?.sum).toBe(db(0.7));
    expect(judged([...first, later(0.1, 'B>A')]).events[0]?.sum).toBe(db(0.6));
    expect(judged([later(0.1, 'B>A'), later(0.2, 'A>B'), ...first]).events[0]?.sum).toBe(db(0.3));
  });

  it('has no sum of what is sent back: the worse of the two counts', () => {
    const returned = { quantity: 'reflectance' as const };
    const seen = (a: number, b: number) =>
      judged(both('connector', 0, a, b, returned), { mode: 'single-mode' }).events[0];
    expect(seen(-50, -40)).toMatchObject({ quantity: 'reflectance' });
    expect(seen(-50, -40)?.sum).toBeUndefined();
    // Nothing is sent back at 0 dB; above it, it is a return loss.
    expect([seen(0, -40)?.verdict, seen(0.1, -40)?.verdict, seen(-40, 0.1)?.verdict]).toEqual([
      'not-judged',
      'invalid',
      'invalid',
    ]);
  });

  it('is void where the set-up of one side is no reflectometer, or is none', () => {
    const meter = setup({ name: 'METER' });
    const other = { ...using, name: 'TWO' };
    const [a, b] = both('splice', 2, 0.1, 0.2) as [EventCell, EventCell];
    const by = (name: string, back: string) =>
      judged(
        [
          { ...a, setup: name },
          { ...b, setup: back },
        ],
        { setups: [using, meter, other] },
      ).events[0];
    expect(by('ONE', 'TWO')?.verdict).toBe('pass');
    for (const [one, two] of [
      ['ONE', 'METER'],
      ['METER', 'ONE'],
    ] as const) {
      expect(by(one, two)).toMatchObject({
        verdict: 'invalid',
        because: 'set-up METER names no reflectometer',
      });
    }
    expect(by('ONE', 'NONE')?.because).toBe('there is no set-up NONE');
  });

  it('is stale where work came after one side', () => {
    const [a, b] = both('splice', 2, 0.1, 0.2) as [EventCell, EventCell];
    const after = { also: { work: cleaned(when(700), { fibres: [1] }) } };
    const at = (one: number, two: number) =>
      verdicts(
        [
          { ...a, at: when(one) },
          { ...b, at: when(two) },
        ],
        after,
      );
    expect([at(800, 800), at(600, 800), at(800, 600), at(600, 600)]).toEqual([
      ['pass'],
      ['stale'],
      ['stale'],
      ['stale'],
    ]);
  });

  it('is two statements where one side was seen twice at one time', () => {
    const twice = (direction: 'A>B' | 'B>A', from: number, to: number) =>
      judged([
        ...both('splice', 2, 0.1, 0.1, { at: when(500, 520) }),
        event('splice', 2, 0.2, direction, { at: when(from, to) }),
      ]).doubts.filter(({ name }) => name === 'measured-twice').length;
    for (const direction of ['A>B', 'B>A'] as const) {
      expect([
        twice(direction, 500, 520),
        twice(direction, 500, 530),
        twice(direction, 490, 520),
      ]).toEqual([1, 0, 0]);
    }
  });
});

describe('an event', () => {
  it('whose direction nobody said is not judged, and the last of several is shown', () => {
    const none = (value: number, minute: number) =>
      event('connector', 0, value, 'A>B', { at: when(minute), direction: undefined });
    const cells = [none(0.2, 500), none(0.3, 600)];
    const [found] = judged(cells).events;
    expect(found).toMatchObject({
      verdict: 'not-judged',
      because: 'which way the light went is not said',
      place: cells[1]?.place,
    });
    const after = { also: { work: cleaned(when(700), { fibres: [1] }) } };
    expect(verdicts(cells, after)).toEqual(['stale']);
    expect(verdicts([{ ...none(0.2, 500), setup: 'NONE' }])).toEqual(['invalid']);
  });

  it('gains no light: by an average of more than 0.05 dB it is not true', () => {
    expect(verdicts(both('splice', 2, -0.05, -0.05))).toEqual(['pass']);
    expect(verdicts(both('splice', 2, -0.3, 0.2))).toEqual(['pass']);
    expect(verdicts(both('splice', 2, -0.05, -0.050001))).toEqual(['invalid']);
    expect(verdicts([event('connector', 0, -0.05)])).toEqual(['pass']);
    expect(verdicts([event('connector', 0, -0.050001)])).toEqual(['invalid']);
  });

  it('is as sure as the plan says of reflectometers and this fibre, and decided by its rule', () => {
    const said = (more: object) => ({
      uncertainty: [
        { loss: db(0.5), place: place() },
        { loss: db(0.1), method: 'otdr' as const, place: place(), ...more },
      ],
    });
    // A splice of 0.3 dB at most: 0.25 dB is within 0.1 dB of it.
    const cells = both('splice', 2, 0.25, 0.25);
    expect(verdicts(cells, { by: said({}) })).toEqual(['marginal-pass']);
    expect(verdicts(cells, { by: { uncertainty: [{ loss: db(0.5), place: place() }] } })).toEqual([
      'pass',
    ]);
    expect(verdicts(cells, { by: said({ method: 'one-cord' }) })).toEqual(['pass']);
    const narrowed = (to: string) => verdicts(cells, { by: said({ for: to }) });
    expect([narrowed('multimode'), narrowed('single-mode'), narrowed('GLASS')]).toEqual([
      ['marginal-pass'],
      ['pass'],
      ['marginal-pass'],
    ]);
    const guarded = {
      ...said({}),
      decision: { rule: 'guarded-acceptance' as const, accepting: 'none' as const },
    };
    expect(verdicts(cells, { by: guarded })).toEqual(['fail']);
    expect(
      verdicts(both('splice', 2, 0.35, 0.35), {
        by: {
          ...said({}),
          decision: { rule: 'guarded-rejection' as const, accepting: 'none' as const },
        },
      }),
    ).toEqual(['pass']);
  });
});
