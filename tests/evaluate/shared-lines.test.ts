/**
 * Lines that channels share: each needs a wavelength of its own on a fibre, and a port
 * of a multiplexer that passes it (common practice of wavelength division, no source).
 */
import { describe, expect, it } from 'vitest';
import type { ComponentType, LinkModel, PathElement } from '../../server/src/model/types.ts';
import {
  betweenPairs,
  db,
  declared,
  evaluate,
  evidence,
  link,
  nm,
  place,
  settings,
} from '../support/build.ts';

describe('a line that channels share', () => {
  const trunk: LinkModel = { ...link(betweenPairs(5000), {}, 4), name: 'KQ-1' };
  const crossing = (fibres: readonly number[], of = trunk): PathElement => ({
    kind: 'link',
    name: of.name,
    link: of,
    turned: false,
    fibres,
    place: place(),
  });
  const channel = (
    name: string,
    wavelength: number | undefined,
    ...elements: readonly PathElement[]
  ): LinkModel => ({
    ...link(elements, {}, 2),
    kind: 'channel',
    name,
    ...(wavelength !== undefined && { wavelength: nm(wavelength) }),
  });
  const told = (of: LinkModel, ...channels: readonly LinkModel[]) =>
    evaluate({ ...of, terms: { ...of.terms, measure: [] } }, evidence(), undefined, settings(), {
      channels,
    }).doubts.filter(({ name }) => name === 'wavelength-shared');

  it('has another wavelength for each of them', () => {
    const [one, two] = [
      channel('CH-1', 1551, crossing([1, 2])),
      channel('CH-2', 1551, crossing([2, 3])),
    ];
    expect(told(trunk, one, two)).toEqual([
      {
        name: 'wavelength-shared',
        place: two.path[0]?.place,
        related: [{ place: one.namePlace, message: 'CH-1 takes them too' }],
        details: { channel: 'CH-2', other: 'CH-1', link: 'KQ-1', fibre: 2, wavelength: 1551 },
      },
    ]);
    expect(told(trunk, one, channel('CH-2', 1531, crossing([2, 3])))).toEqual([]);
    expect(told(trunk, one, channel('CH-2', 1551, crossing([3, 4])))).toEqual([]);
    const unsaid = told(trunk, one, channel('CH-2', undefined, crossing([1, 2])))[0]?.details;
    expect(unsaid).toEqual({
      channel: 'CH-2',
      other: 'CH-1',
      link: 'KQ-1',
      fibre: 1,
      unsaid: 'CH-2',
    });
    expect(
      told(trunk, channel('CH-1', undefined, crossing([1, 2])), two)[0]?.details,
    ).toMatchObject({ unsaid: 'CH-1' });
    expect(
      told(
        trunk,
        channel('CH-1', undefined, crossing([1, 2])),
        channel('CH-2', undefined, crossing([1, 2])),
      )[0]?.details,
    ).toMatchObject({ unsaid: 'CH-2' });
    expect(told(trunk, one, two, channel('CH-3', 1551, crossing([2, 3]))).length).toBe(3);
  });

  it('is told at the first link that they share', () => {
    const other: LinkModel = { ...trunk, name: 'KQ-2' };
    const both = (name: string) => channel(name, 1551, crossing([1, 2]), crossing([1, 2], other));
    expect(told(trunk, both('CH-1'), both('CH-2')).length).toBe(1);
    expect(told(other, both('CH-1'), both('CH-2'))).toEqual([]);
  });

  it('goes through the port of its wavelength', () => {
    const type = (...wavelengths: readonly (number | undefined)[]): ComponentType =>
      ({
        ...declared('MUX'),
        kind: 'component',
        shares: [],
        returnLoss: [],
        loss: wavelengths.map((wavelength) => ({
          max: db(1),
          ...(wavelength !== undefined && { wavelength: nm(wavelength) }),
        })),
      }) as ComponentType;
    const mux = (of: ComponentType | undefined, port?: string): PathElement => ({
      kind: 'component',
      name: 'MUX',
      ...(of && { type: of }),
      ...(port !== undefined && { port }),
      place: place(),
    });
    const asked = (
      element: PathElement,
      wavelength: number | undefined = 1551,
      kind: LinkModel['kind'] = 'channel',
    ) =>
      evaluate(
        { ...channel('CH-1', wavelength, element), kind, terms: { ...trunk.terms, measure: [] } },
        evidence(),
      ).doubts.filter(({ name }) => name === 'component-figure-missing');
    const wrong = mux(type(1531, 1531, 1511), '1531');
    expect(asked(wrong)).toEqual([
      {
        name: 'component-figure-missing',
        place: wrong.place,
        details: {
          channel: 'CH-1',
          component: 'MUX',
          port: '1531',
          wavelength: 1551,
          has: '1531 nm, 1511 nm',
        },
      },
    ]);
    expect(asked(mux(type(1531)))[0]?.details).not.toHaveProperty('port');
    expect(asked(mux(type(1531, 1551)))).toEqual([]);
    expect(asked(mux(type(1531, undefined)))).toEqual([]);
    expect(asked(mux(type()))).toEqual([]);
    expect(asked(mux(undefined))).toEqual([]);
    expect(
      evaluate({ ...channel('CH-1', undefined, wrong) }, evidence()).doubts.map(({ name }) => name),
    ).not.toContain('component-figure-missing');
    expect(asked(wrong, 1551, 'link')).toEqual([]);
  });
});
