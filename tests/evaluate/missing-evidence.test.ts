/**
 * Evidence that is not there, whole: what a contract requires is listed while it is
 * missing, and a reading that could not be taken says why. Splices are averaged over
 * both directions (IEC 61280-4-2, from memory).
 */
import { describe, expect, it } from 'vitest';
import type { Evidence, Requirement } from '../../server/src/model/types.ts';
import { betweenPairs, mated, nm, place, stretch, welded } from '../support/build.ts';
import { judged } from './quiet-link.ts';

describe('what a contract requires', () => {
  const asked = (
    kind: 'events' | 'inspection' | 'length' | 'seen',
    more: Parameters<typeof judged>[1] = {},
    also: Partial<Evidence> = {},
  ) => {
    const required: Requirement = { kind, place: place() };
    const { terms, ...rest } = more;
    const { doubts, link: model } = judged(also, {
      ...rest,
      terms: { ...terms, require: [required] },
    });
    return doubts
      .filter(({ related }) =>
        related?.some(
          ({ place: at, message }) => at === required.place && message === 'what asks for it',
        ),
      )
      .map(({ name, place: at, details }) => {
        expect(at).toBe(model.namePlace);
        return { name, ...details };
      });
  };

  it('is listed by key while it is missing, six in words', () => {
    expect(asked('inspection')).toEqual([
      {
        name: 'inspection-missing',
        missing: 4,
        fibres: '1..2',
        list: 'fibre 1, end A; fibre 1, end B; fibre 2, end A; fibre 2, end B',
        more: 0,
      },
    ]);
    expect(asked('length', { fibres: 8 })).toEqual([
      {
        name: 'length-unmeasured',
        missing: 8,
        fibres: '1..8',
        list: 'fibre 1; fibre 2; fibre 3; fibre 4; fibre 5; fibre 6',
        more: 2,
      },
    ]);
    expect(asked('seen', { model: { dead: [{ fibre: 1, because: 'crushed' }] } })).toEqual([
      { name: 'port-unseen', missing: 1, fibres: '2', list: 'fibre 2', more: 0 },
    ]);
    expect(asked('events', { terms: { measure: [nm(850)] } })).toEqual([
      {
        name: 'trace-missing',
        missing: 2,
        fibres: '1..2',
        list: 'fibre 1, 850 nm A>B; fibre 2, 850 nm A>B',
        more: 0,
      },
    ]);
    // For their average splices are seen both ways.
    const spliced = {
      terms: { measure: [nm(850)] },
      elements: [...betweenPairs(10), welded(), stretch(10), mated()],
      fibres: 1,
    };
    expect(asked('events', spliced)).toMatchObject([
      { missing: 2, list: 'fibre 1, 850 nm A>B; fibre 1, 850 nm B>A' },
    ]);
  });
});

describe('an absence', () => {
  it('is of its own fibre, light and direction', () => {
    const absent = (more: object) => [
      {
        object: 'KQ-1',
        fibre: 1,
        wavelength: nm(850),
        remark: 'door locked',
        place: place(),
        ...more,
      },
    ];
    const because = (absences: readonly object[]) =>
      judged({ absences } as never, { terms: { measure: [nm(850)] }, fibres: 1 }).readings[0]
        ?.because;
    expect(because(absent({}))).toBe('not read: door locked');
    expect(because(absent({ direction: 'A>B' }))).toBe('not read: door locked');
    expect(because(absent({ direction: 'B>A' }))).toBe('');
    expect(because(absent({ fibre: 2 }))).toBe('');
    expect(because(absent({ wavelength: nm(1300) }))).toBe('');
  });
});
