/**
 * End faces, whole: how each was last seen, what is told of one that fails, and by
 * which criterion it is graded. An end face is inspected, cleaned and inspected again
 * (practice after IEC 61300-3-35).
 */
import { describe, expect, it } from 'vitest';
import type {
  ConnectorType,
  Evidence,
  InspectionCell,
  PathElement,
  Requirement,
  Terms,
} from '../../server/src/model/types.ts';
import { cleaned, connector, place, stretch, when, withdrawn, worded } from '../support/build.ts';
import { judged } from './quiet-link.ts';

describe('an end face', () => {
  const face = (
    number: number,
    side: 'A' | 'B',
    seen: InspectionCell['seen'],
    more: Partial<InspectionCell> = {},
  ): InspectionCell => ({
    object: 'KQ-1',
    fibre: number,
    side,
    seen,
    at: when(500),
    place: place(),
    row: place(),
    ...more,
  });

  it('is as it was last seen, in order of fibre and end', () => {
    const cells = [
      face(2, 'A', 'pass'),
      face(1, 'B', 'fail', { criterion: 'clause 9' }),
      face(1, 'A', 'cleaned'),
    ];
    const { inspections, doubts } = judged({ inspections: cells });
    expect(inspections).toEqual([
      {
        fibre: 1,
        end: undefined,
        side: 'A',
        seen: 'cleaned',
        cell: cells[2],
        verdict: 'not-judged',
        because: 'cleaned, and not inspected since: it has not passed yet',
      },
      {
        fibre: 1,
        end: undefined,
        side: 'B',
        seen: 'fail',
        cell: cells[1],
        verdict: 'fail',
        because: 'clause 9',
      },
      {
        fibre: 2,
        end: undefined,
        side: 'A',
        seen: 'pass',
        cell: cells[0],
        verdict: 'pass',
        because: '',
      },
    ]);
    expect(doubts).toEqual([
      {
        name: 'end-face-not-seen-again',
        place: cells[2]?.place,
        details: { fibre: 1, side: 'A', inspected: 'minute 500' },
      },
      {
        name: 'end-face-poor',
        place: cells[1]?.place,
        details: { fibre: 1, side: 'B', inspected: 'minute 500', criterion: 'clause 9' },
      },
    ]);
  });

  it('that fails is more where inspection is required, and aged by work', () => {
    const inspection: Requirement = { kind: 'inspection', place: place() };
    const cells = [face(1, 'A', 'fail')];
    const names = (more: Partial<Evidence>, terms: Partial<Terms> = { require: [inspection] }) =>
      judged({ inspections: cells, ...more }, { terms, fibres: 1 }).doubts.map(({ name }) => name);
    expect(names({})).toEqual(['end-face-fails', 'inspection-missing']);
    expect(names({}, {})).toEqual(['end-face-poor']);
    expect(names({ work: cleaned(worded(600, 'ten')) }, {})).toEqual(['evidence-aged']);
    expect(
      judged({ inspections: cells, work: cleaned(worded(600, 'ten')) }).inspections[0]?.because,
    ).toBe('cleaned on ten, after it was inspected');
    expect(
      judged({ inspections: [face(1, 'A', 'cleaned')], work: cleaned(worded(600, 'ten')) }).doubts,
    ).toMatchObject([
      {
        name: 'evidence-aged',
        place: expect.anything(),
        details: { events: 0, faces: 1, lengths: 0 },
      },
    ]);
  });

  it('seen twice at one time, of a fibre that is none, taken back', () => {
    const two = [face(1, 'A', 'pass'), face(1, 'A', 'fail')];
    expect(
      judged({ inspections: two }).doubts.filter(({ name }) => name === 'measured-twice'),
    ).toEqual([
      {
        name: 'measured-twice',
        place: two[1]?.place,
        related: [{ place: two[0]?.place, message: 'the first one' }],
        details: { fibre: 1, what: 'end face A', tested: 'minute 500' },
      },
    ]);
    const strange = [face(7, 'A', 'pass'), face(7, 'B', 'pass')];
    expect(judged({ inspections: strange }).doubts).toEqual([
      {
        name: 'fibre-not-in-plan',
        place: strange[0]?.place,
        details: { fibre: 7, object: 'KQ-1', has: '1..2' },
      },
    ]);
    expect(judged({ inspections: strange }, { fibres: 0 }).doubts).toEqual([]);
    const withdrawals = withdrawn();
    expect(judged({ inspections: two, withdrawals }).inspections).toEqual([]);
  });

  it('is graded by a criterion of its own kind', () => {
    const grade = (more: object) => ({ name: 'FACE', place: place(), ...more });
    const asked = (
      more: object,
      type: ConnectorType = connector,
      also: Partial<InspectionCell> = {},
    ) => {
      const pair: PathElement = { kind: 'connector', name: 'PAIR', type, place: place() };
      const line = grade(more);
      const cells = [
        face(1, 'A', 'pass', { grade: line, ...also }),
        face(1, 'B', 'pass', { grade: line, ...also }),
      ];
      const { doubts } = judged({ inspections: cells }, { elements: [pair, stretch(10), pair] });
      expect(doubts.every(({ place: at }) => at === line.place)).toBe(true);
      return doubts.map(({ name, details }) => ({ name, ...details }));
    };
    const name = 'criterion-of-other-face';
    const base = { name, criterion: 'FACE', link: 'KQ-1', side: 'A' };
    expect(asked({ mode: 'single-mode' })).toEqual([
      { ...base, graded: 'single-mode', faces: 'multimode' },
    ]);
    expect(asked({ mode: 'multimode' })).toEqual([]);
    expect(asked({ polish: 'APC' }, { ...connector, polish: 'UPC' })).toEqual([
      { ...base, graded: 'APC', faces: 'UPC' },
    ]);
    expect(asked({ polish: 'PC' }, { ...connector, polish: 'UPC' })).toEqual([]);
    expect(asked({ polish: 'UPC' }, { ...connector, polish: 'APC' }).length).toBe(1);
    expect(asked({ polish: 'APC' })).toEqual([]);
    expect(asked({}, { ...connector, polish: 'APC' })).toEqual([]);
    expect(asked({ polish: 'APC' }, { ...connector, polish: 'UPC' }, { end: 'HALL/01' })).toEqual(
      [],
    );
  });
});
