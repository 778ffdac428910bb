/**
 * What work and later evidence do to readings that stood: work on a link ages those of
 * a channel across it, and what is dated later than now does not count yet. A reading of
 * before the work is not one of after it: common practice, no source.
 */
import { describe, expect, it } from 'vitest';
import type {
  ConnectorType,
  LinkModel,
  PathElement,
  WorkEvent,
} from '../../server/src/model/types.ts';
import {
  betweenPairs,
  cell,
  cleaned,
  connector,
  db,
  evaluate,
  evidence,
  link,
  oneWay,
  place,
  settings,
  setup,
  stretch,
  when,
  withdrawn,
} from '../support/build.ts';
import { judged } from './short-link.ts';

describe('work elsewhere', () => {
  const crossed = (more: Partial<LinkModel> = {}) => ({
    ...link(betweenPairs(100), {}, 4),
    name: 'KQ-1',
    ...more,
  });
  const array: ConnectorType = { ...connector, positions: 12 };

  /** Verdicts of a channel over fibres 3 and 4 of a link that was worked on. */
  const verdicts = (
    work: Partial<WorkEvent>,
    of: LinkModel,
    kind: LinkModel['kind'] = 'channel',
  ) => {
    const crossing: PathElement = {
      kind: 'link',
      name: 'KQ-1',
      link: of,
      turned: false,
      fibres: [3, 4],
      place: place(),
    };
    const channel = { ...link([crossing], oneWay, 2), kind, name: 'CH-1' };
    const readings = [1, 2].map((each) => ({ ...cell(each, 1, 'A>B', 500), object: 'CH-1' }));
    return evaluate(channel, evidence({ readings }), setup(), settings(), {
      crossed: () => ({ result: {} as never, work: cleaned(when(600), work) }),
    }).fibres.map(({ verdict }) => verdict);
  };

  it('ages a channel in its own numbers', () => {
    expect(verdicts({ fibres: [3] }, crossed())).toEqual(['stale', 'pass']);
    expect(verdicts({ fibres: [4] }, crossed())).toEqual(['pass', 'stale']);
    expect(verdicts({ fibres: [1, 2] }, crossed())).toEqual(['pass', 'pass']);
    expect(verdicts({}, crossed())).toEqual(['stale', 'stale']);
    expect(verdicts({ fibres: [3] }, crossed(), 'ring')).toEqual(['stale', 'pass']);
    expect(verdicts({ fibres: [3] }, crossed(), 'link')).toEqual(['pass', 'pass']);
  });

  it('touches all that share an array joint', () => {
    const pair: PathElement = { kind: 'connector', name: 'MPO', type: array, place: place() };
    const trunk = crossed({ path: [pair, stretch(100), pair] });
    expect(verdicts({ fibres: [1] }, trunk)).toEqual(['stale', 'stale']);
    const two: PathElement = { ...pair, type: { ...array, positions: 2 } } as PathElement;
    expect(verdicts({ fibres: [3] }, crossed({ path: [two, stretch(100), two] }))).toEqual([
      'stale',
      'pass',
    ]);
  });
});

it('evidence of later than now does not count, and work of later still ages', () => {
  const later = when(2000);
  const concessions = [
    {
      object: 'KQ-1',
      accepted: db(3),
      because: 'spare',
      by: 'M. Ashdown',
      on: later,
      place: place(),
    },
  ];
  const over = [cell(1, 2.5, 'A>B', 500)];
  expect(judged(over, { also: { concessions }, more: { asOf: 1999 } }).verdict).toBe('fail');
  expect(judged(over, { also: { concessions }, more: { asOf: 2000 } }).verdict).toBe('conceded');
  const withdrawals = withdrawn({ on: later });
  expect(judged(over, { also: { withdrawals }, more: { asOf: 1999 } }).verdict).toBe('fail');
  expect(judged(over, { also: { withdrawals }, more: { asOf: 2000 } }).verdict).toBe('untested');
  const work = cleaned(later);
  expect(judged(over, { also: { work }, more: { asOf: 1999 } }).verdict).toBe('stale');
});
