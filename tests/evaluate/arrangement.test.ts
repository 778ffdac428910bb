/**
 * What a reading holds by each method: which ends mate with a test cord, how many
 * pairs the reference took, which cords came and went (configurations of
 * IEC 61280-4-1 and -4-2 and of ISO/IEC 14763-3).
 */
import { describe, expect, it } from 'vitest';
import {
  type Arrangement,
  arrangementOf,
  endsMated,
  plannedArrangement,
} from '../../server/src/evaluate/arrangement.ts';
import { cordsAt } from '../../server/src/evaluate/cords.ts';
import { flatten } from '../../server/src/evaluate/path.ts';
import type {
  CordGrade,
  Direction,
  ReferenceMethod,
  Setup,
  TestCord,
} from '../../server/src/model/types.ts';
import { connector, link, mated, metres, place, setup, stretch } from '../support/build.ts';
import { judge } from '../support/judge.ts';

const [launch, receive] = setup().cords as [TestCord, TestCord];
const substitution: TestCord = { ...launch, name: 'S', role: 'substitution' };
const arranged = (
  method: ReferenceMethod,
  cords: readonly TestCord[] = [launch, receive, substitution],
  direction: Direction | undefined = 'A>B',
  more: Partial<Setup> = {},
): Arrangement => {
  const own = setup({ reference: method, cords, ...more });
  return arrangementOf(own, method, cordsAt(own, 500), direction);
};
const names = (cords: readonly TestCord[]) => cords.map(({ name }) => name);

describe('an arrangement', () => {
  it.each([
    ['one-cord', { A: true, B: true }, 0, ['R'], []],
    ['two-cord', { A: true, B: true }, 1, [], []],
    ['three-cord', { A: true, B: true }, 2, [], ['S']],
    ['equipment-cord', { A: false, B: false }, 0, [], []],
  ] as const)('by %s', (method, mates, referencePairs, added, away) => {
    const found = arranged(method);
    expect(found).toMatchObject({ method, mates, referencePairs });
    expect(names(found.added)).toEqual(added);
    expect(names(found.away)).toEqual(away);
    expect(plannedArrangement(method)).toMatchObject({
      method,
      mates,
      referencePairs,
      receiveCord: mates.B,
      connectors: {},
      added: [],
      away: [],
      grade: 'reference-grade',
    });
  });

  it('has the launch cord where the light comes from', () => {
    const ends = (direction?: Direction) => {
      const { A, B } = arranged('one-cord', [launch, receive], direction).connectors;
      return [A?.name, B?.name];
    };
    expect(ends('A>B')).toEqual(['L', 'R']);
    expect(ends('B>A')).toEqual(['R', 'L']);
  });

  it('with the far plug in the meter mates at the near end alone', () => {
    const direct = { direct: true };
    const cords = [launch, receive];
    expect(arranged('one-cord', cords, 'A>B', direct)).toMatchObject({
      mates: { A: true, B: false },
      receiveCord: false,
      added: [],
      connectors: { A: launch, B: undefined },
      grade: 'reference-grade',
    });
    expect(arranged('one-cord', cords, 'B>A', direct).mates).toEqual({ A: false, B: true });
    // Only one cord can be left out at the far end.
    expect(arranged('two-cord', cords, 'A>B', direct).mates).toEqual({ A: true, B: true });
  });

  it('by one cord needs a receive cord to be said, by more it is in the reference', () => {
    expect(arranged('one-cord', [launch]).receiveCord).toBe(false);
    expect(arranged('one-cord', [launch, receive]).receiveCord).toBe(true);
    expect(arranged('two-cord', [launch]).receiveCord).toBe(true);
    expect(arranged('equipment-cord', [launch, receive]).receiveCord).toBe(false);
  });

  it('has the worse grade of both plugs, and none where one is not said', () => {
    const grade = (near: CordGrade | undefined, far: CordGrade | undefined) =>
      arranged('one-cord', [
        { ...launch, grade: near },
        { ...receive, grade: far },
      ]).grade;
    expect(grade('reference-grade', 'reference-grade')).toBe('reference-grade');
    expect(grade('ordinary', 'reference-grade')).toBe('ordinary');
    expect(grade('reference-grade', 'ordinary')).toBe('ordinary');
    expect(grade(undefined, 'reference-grade')).toBeUndefined();
    expect(grade('reference-grade', undefined)).toBeUndefined();
    // Without a receive cord the launch cord speaks for both.
    expect(arranged('two-cord', [{ ...launch, grade: 'ordinary' }]).grade).toBe('ordinary');
    expect(arranged('two-cord', []).grade).toBeUndefined();
  });
});

describe('the key of an arrangement', () => {
  it('differs wherever limits may, and is the same for the same', () => {
    const longer = { ...receive, length: metres(3) };
    const keys = [
      arranged('one-cord'),
      arranged('two-cord'),
      arranged('one-cord', [launch, receive], 'A>B', { direct: true }),
      arranged('one-cord', [launch, receive], 'B>A', { direct: true }),
      arranged('one-cord', [launch, longer]),
      arranged('one-cord', [launch, { ...receive, connector: 'OTHER' }]),
      arranged('one-cord', [{ ...launch, fibre: 'OTHER' }, receive]),
      arranged('one-cord', [launch, { ...receive, grade: 'ordinary' }]),
      arranged('three-cord'),
      arranged('three-cord', [launch, receive, { ...substitution, length: metres(2) }]),
    ].map(({ key }) => key);
    expect(new Set(keys).size).toBe(keys.length);
    expect(arranged('one-cord').key).toBe(arranged('one-cord').key);
    // Another cord of the same make and length changes no limit.
    expect(arranged('one-cord', [launch, { ...receive, name: 'R9', place: place() }]).key).toBe(
      arranged('one-cord', [launch, receive]).key,
    );
  });
});

describe('ends that mate', () => {
  const both = flatten(link([mated(), stretch(10), mated()]));
  const near = flatten(link([mated(), stretch(10)]));
  const plug = { kind: 'plug' as const, name: 'PAIR', type: connector, place: place() };

  it('are sockets and plugs that meet a test cord, and never a bare end', () => {
    const two = plannedArrangement('one-cord');
    expect(endsMated(two, both)).toBe(2);
    expect(endsMated(two, near)).toBe(1);
    expect(endsMated(two, flatten(link([plug, stretch(10), plug])))).toBe(2);
    expect(endsMated(two, flatten(link([stretch(10)])))).toBe(0);
    expect(endsMated(plannedArrangement('equipment-cord'), both)).toBe(0);
    expect(endsMated(arranged('one-cord', [launch], 'A>B', { direct: true }), both)).toBe(1);
  });
});

describe('cords in force', () => {
  const at = (minute: number, ...cords: TestCord[]) =>
    cordsAt(setup({ cords }), minute).get('receive')?.name;
  const later = (name: string, minute: number): TestCord => ({
    ...receive,
    name,
    since: { from: minute, to: minute, text: '', place: place() },
  });

  it('are those of the last change that is not after the time, in any order of the text', () => {
    const cords = [receive, later('R2', 500), later('R3', 600)];
    for (const list of [cords, cords.toReversed()]) {
      expect([499, 500, 599, 600].map((minute) => at(minute, ...list))).toEqual([
        'R',
        'R2',
        'R2',
        'R3',
      ]);
    }
    expect(at(400, later('R2', 500))).toBeUndefined();
  });
});

it('where the plan names no method, a limit is built at those wavelengths that were read', () => {
  const { plan } = judge(`plan "P" {
  limits      TIA-568.3-E
  measure     850 nm, 1300 nm for multimode
  directions  A>B
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED
  meter       "M-5" floor -60 dBm
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
}

link KQ-1 {
  fibres      1..2
  connector   LC
  segment     180 m OM4
  connector   LC
}

readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05
  values      loss in dB
  columns fibre, 850 nm A>B
  1  0.97
}
`);
  const limits = plan.result.link('KQ-1')!.wavelengths.map(({ governing }) => governing?.value);
  // 180 m at 3.0 dB/km and two pairs of 0.75 dB; how 1300 nm is to be read nobody has said.
  expect(limits).toEqual([2_040_000_000_000_000n, undefined]);
});
