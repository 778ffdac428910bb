/** What a link with few readings hands on, so that many such links are looked at together. */
import { expect, it } from 'vitest';
import type { FibreType, PathElement } from '../../server/src/model/types.ts';
import { cell, connector, db, fibre, nm, place, stretch } from '../support/build.ts';
import { judged } from './quiet-link.ts';

it('of few readings their mean is handed on', () => {
  const typical = { ...connector, loss: [{ typ: db(0.3), max: db(0.75) }] };
  const glass = {
    ...fibre,
    attenuation: [{ wavelength: nm(850), typ: 2_500_000, max: 3_000_000 }],
  } as unknown as FibreType;
  const pair: PathElement = { kind: 'connector', name: 'PAIR', type: typical, place: place() };
  const elements = [pair, { ...stretch(100), fibre: glass } as PathElement, pair];
  const readings = [cell(1, 1.1, 'A>B', 500), cell(2, 1.3, 'A>B', 501)];
  const [few, ...more] = judged({ readings }, { elements, terms: { measure: [nm(850)] } }).few;
  expect(more).toEqual([]);
  // As a rule 0.25 + 0.6 dB, and at most 0.3 + 0.025 dB more.
  expect(few).toMatchObject({
    object: 'KQ-1',
    setup: 'ONE',
    wavelength: nm(850),
    readings: 2,
    place: readings[0]?.place,
  });
  expect(few?.away).toBeCloseTo(0.35, 9);
  expect(few?.excess).toBeCloseTo(0.025, 9);
});
