/**
 * Limits side by side, on whole plans: what the contract asks at one wavelength,
 * how pairs that a reference took come off an application, and for which fibres.
 * Arithmetic stands beside each; figures are ours. That a reference of n cords
 * holds n − 1 pairs: configurations of IEC 61280-4-1 and of ISO/IEC 14763-3.
 */
import { describe, expect, it } from 'vitest';
import { type ExactDb, exactDb, printExactDb } from '../../grammar/src/quantity/index.ts';
import { plannedArrangement } from '../../server/src/evaluate/arrangement.ts';
import { governing, limitsOf, type ReadingLimit } from '../../server/src/evaluate/limits.ts';
import { flatten } from '../../server/src/evaluate/path.ts';
import type { FibreType, TestCord } from '../../server/src/model/types.ts';
import { at, judged, multimodeParts } from '../published/judged.ts';
import {
  application,
  betweenPairs,
  db,
  fibre,
  link,
  metres,
  nm,
  place,
  carried as service,
  settings,
} from '../support/build.ts';

const bare = multimodeParts
  .replaceAll(/^ {2}policy .*\n/gm, '')
  .replace('limits PLAIN {', 'limits BARE {');

const plan = (terms: string, more = '', parts = multimodeParts) => `
plan "Side by side" {
  directions  A>B
  uncertainty 0.15 dB
}
${parts}
application SERVICE {
  count       1
  wavelength  850 nm A>B
  fibre       GLASS-50 reach 400 m loss 2.9 dB
}

link KQ-1 {
  fibres      1..4
  measure     850 nm, 1300 nm
  connector   PAIR
  segment     100 m GLASS-50
  connector   PAIR
${terms}}
${more}`;

/** Each limit at a wavelength: kind, name, value or why there is none. */
const shown = (text: string, wavelength = 850) =>
  at(judged(text).link('KQ-1'), wavelength).limits.map(({ kind, name, value, because }) => [
    kind,
    name,
    value === undefined ? because : printExactDb(value),
  ]);

/** Terms of the application's limit: what, how often, total. */
const terms = (text: string) =>
  at(judged(text).link('KQ-1'), 850)
    .limits.filter(({ kind }) => kind === 'application')
    .map((limit) =>
      limit.terms.map(({ what, count, total }) => `${what} ${count} ${printExactDb(total)}`),
    );

describe('a loss that the contract asks', () => {
  it('at one wavelength is asked at no other, and stands as it is written', () => {
    const text = plan(
      '  reference   one-cord\n  limits      PLAIN\n  require     loss 1.2 dB wavelength 850 nm\n',
    );
    expect(shown(text)).toEqual([
      ['contract', 'required loss 1.2 dB', '1.2'],
      ['components', 'PLAIN', '1.8'],
    ]);
    expect(shown(text, 1300)).toEqual([['components', 'PLAIN', '1.65']]);
    expect(at(judged(text).link('KQ-1'), 850).limits[0]).toMatchObject({
      floor: db(1.2),
      beside: false,
      recalled: false,
      terms: [
        {
          what: 'loss as the contract states it',
          role: 'part',
          count: 1,
          each: db(1.2),
          source: 'required loss 1.2 dB',
        },
      ],
    });
  });

  it('of a batch or of anything but loss is no limit of a reading', () => {
    const text = plan(
      '  reference   one-cord\n  limits      PLAIN\n  require     loss 1.2 dB mean\n  require     inspection\n',
    );
    expect(shown(text).map(([kind]) => kind)).toEqual(['components']);
  });

  it('that is sufficient stands beside', () => {
    const text = plan(
      '  reference   one-cord\n  limits      PLAIN\n  require     loss 1.2 dB sufficient\n',
    );
    const result = at(judged(text).link('KQ-1'), 850);
    expect(result.limits[0]).toMatchObject({ name: 'sufficient loss 1.2 dB', beside: true });
    expect(result.governing?.name).toBe('PLAIN');
  });
});

describe('a set of limits', () => {
  it('without a policy, in a plan without one, is no limit', () => {
    const text = plan('  reference   one-cord\n  limits      BARE\n', '', bare);
    const [only] = at(judged(text).link('KQ-1'), 850).limits;
    expect(only).toMatchObject({ name: 'BARE', terms: [], beside: false, recalled: false });
    expect(only?.value).toBeUndefined();
    expect(only?.because).toContain('BARE and the plan have no policy');
  });

  it('is rounded half up where the decision says so, and shows by how much', () => {
    const rounded = (step: string) =>
      plan('  reference   one-cord\n  limits      PLAIN\n')
        .replace('100 m', '101 m')
        .replace(
          '  uncertainty 0.15 dB\n',
          `  uncertainty 0.15 dB\n  decision    simple rounded ${step}\n`,
        );
    // 3.0·0.101 + 2·0.75 = 1.803.
    const [coarse] = at(judged(rounded('0.01 dB')).link('KQ-1'), 850).limits;
    expect(coarse).toMatchObject({ value: exactDb(db(1.8)), floor: db(1.8) });
    expect(coarse?.terms.at(-1)).toMatchObject({
      what: 'rounded to 0.01 dB',
      role: 'rounding',
      count: 1,
      each: 0,
      total: exactDb(db(-0.003)),
    });
    const [fine] = at(judged(rounded('0.001 dB')).link('KQ-1'), 850).limits;
    expect(fine).toMatchObject({ value: exactDb(db(1.803)) });
    expect(fine?.terms.map(({ role }) => role)).not.toContain('rounding');
  });
});

describe('the limit that governs', () => {
  const limit = (
    kind: ReadingLimit['kind'],
    value: number | undefined,
    more = {},
  ): ReadingLimit => ({
    kind,
    name: `${kind} ${value}`,
    value: value === undefined ? undefined : exactDb(db(value)),
    terms: [],
    beside: false,
    recalled: false,
    ...more,
  });
  const name = (...limits: ReadingLimit[]) => governing(limits)?.name;

  it('is the smallest', () => {
    const [high, low] = [limit('contract', 2), limit('components', 1)];
    expect(name(high, low)).toBe('components 1');
    expect(name(low, high)).toBe('components 1');
    const least = { ...low, value: (exactDb(db(1)) - 1n) as ExactDb, name: 'a step less' };
    expect(name(low, least)).toBe('a step less');
    expect(name()).toBeUndefined();
  });

  it('of equals is the contract before the application before components, and of a kind the first', () => {
    const [contract, application, components] = [
      limit('contract', 1),
      limit('application', 1),
      limit('components', 1),
    ];
    expect(name(components, application, contract)).toBe('contract 1');
    expect(name(contract, application, components)).toBe('contract 1');
    expect(name(components, application)).toBe('application 1');
    expect(name(application, components)).toBe('application 1');
    expect(name({ ...contract, name: 'first' }, { ...contract, name: 'second' })).toBe('first');
  });

  it('is none that stands beside, has no value or holds for other fibres', () => {
    const [low, high] = [limit('contract', 1), limit('components', 2)];
    expect(name({ ...low, beside: true }, high)).toBe('components 2');
    expect(name(limit('contract', undefined), high)).toBe('components 2');
    const some = { ...low, fibres: new Set([1]) };
    expect([1, 2].map((fibre) => governing([some, high], fibre)?.name)).toEqual([
      'contract 1',
      'components 2',
    ]);
  });
});

describe('an application’s limit', () => {
  const carried = (reference: string, set = 'PLAIN', more = '') =>
    plan(`  reference   ${reference}\n  limits      ${set}\n  carries     SERVICE${more}\n`);
  const head = 'SERVICE, GLASS-50, 400 m, 2.9 dB 1 2.9';

  it('loses the pairs that the reference took, at the figure of their policy', () => {
    expect(terms(carried('one-cord'))).toEqual([[head]]);
    expect(terms(carried('two-cord'))).toEqual([[head, 'pairs in the reference -1 -0.75']]);
    expect(terms(carried('three-cord'))).toEqual([[head, 'pairs in the reference -2 -1.5']]);
    expect(terms(carried('three-cord', 'END-PAIRS'))).toEqual([
      [head, 'pairs in the reference -2 -0.2'],
    ]);
    expect(terms(carried('three-cord', 'ENHANCED'))).toEqual([[head]]);
    expect(shown(carried('three-cord')).find(([kind]) => kind === 'application')?.[2]).toBe('1.4');
  });

  it('loses of two kinds of pairs one of each, and of one alone the one that loses more', () => {
    const parts = `connector OTHER {\n  loss        max 0.5 dB\n}\n`;
    const mixed = (reference: string, turned: boolean) => {
      const text = carried(reference).replace(
        'limits PLAIN {\n',
        `${parts}\nlimits PLAIN {\n  connector   OTHER 0.5 dB\n`,
      );
      const [near, far] = turned ? ['OTHER', 'PAIR'] : ['PAIR', 'OTHER'];
      return text.replace(
        /connector {3}PAIR\n( {2}segment .*\n {2})connector {3}PAIR/,
        `connector   ${near}\n$1connector   ${far}`,
      );
    };
    for (const turned of [false, true]) {
      expect(terms(mixed('two-cord', turned))).toEqual([[head, 'pairs in the reference -1 -0.75']]);
      expect(terms(mixed('three-cord', turned))).toEqual([
        [head, 'pairs in the reference -1 -0.75', 'pairs in the reference -1 -0.5'],
      ]);
    }
  });

  it('has no value where a pair of the reference has no figure', () => {
    const text = carried('two-cord', 'END-PAIRS').replace(/limits END-PAIRS \{[^}]*\}/, (set) =>
      set.replace('  connector   any 0.10 dB reference\n', ''),
    );
    expect(shown(text).find(([kind]) => kind === 'application')?.[2]).toBe(
      'no figure for the pairs that the reference took',
    );
  });

  it('loses the cords that are planned: 2.9 − 3.0·0.005 = 2.885', () => {
    expect(terms(carried('one-cord', 'PLAIN', ' cords 3 m, 2 m'))).toEqual([
      [head, 'fibre GLASS-50 -1 -0.015'],
    ]);
  });

  it('loses the fibre of cords that were taken away, where that is known or next to nothing', () => {
    const cord = (name: string, more: Partial<TestCord>): TestCord => ({
      name,
      role: 'substitution',
      connector: 'PAIR',
      fibre: 'GLASS',
      fibreType: fibre,
      length: metres(4),
      place: place(),
      ...more,
    });
    const known = cord('C-1', {});
    const strange = cord('C-2', { fibre: 'GLASS-X', fibreType: undefined });
    const plastic: FibreType = { ...fibre, mode: 'plastic', attenuation: [] };
    const unsaid = cord('C-3', { fibre: 'POF', fibreType: plastic });
    const whole = link(betweenPairs(100), {
      limits: [],
      carries: [service(application([{ reach: 900, loss: 2.9 }]))],
    });
    const limits = (...away: readonly TestCord[]) =>
      limitsOf({
        link: whole,
        path: flatten(whole),
        arrangement: { ...plannedArrangement('one-cord'), away },
        wavelength: nm(850),
        direction: 'A>B',
        settings: settings(),
        channels: [],
      });
    const value = (...away: readonly TestCord[]) => {
      const [limit] = limits(...away);
      return limit?.value === undefined ? limit?.because : printExactDb(limit.value);
    };
    // 2.9 − 3.0·0.004.
    expect(value(known)).toBe('2.888');
    expect(limits(known)[0]?.terms.at(-1)).toMatchObject({
      what: 'fibre of cords taken away',
      role: 'cord',
      count: -1,
      length: metres(4),
      each: 3_000_000,
      total: exactDb(db(-0.012)),
      source: 'fibre GLASS at 850 nm, greatest',
    });
    expect(value(cord('C-4', { length: undefined }))).toBe('2.9');
    expect(value({ ...unsaid, length: undefined })).toBe('2.9');
    expect(value(strange)).toBe('2.9');
    expect(value(strange, known)).toBe('2.888');
    const missing = 'no figure for POF of C-3, which was taken away';
    expect(value(unsaid)).toBe(missing);
    expect(value(strange, known, unsaid)).toBe(missing);
  });

  it('is one for fibres that a channel crosses and one for the rest', () => {
    const channel = `
channel CH-1 {
  cord        10 m GLASS-50 straight
  link        KQ-1 fibres 1, 2
  cord        20 m GLASS-50 straight
}
`;
    const values = (text: string) =>
      (at(judged(text).link('KQ-1'), 850).limits as readonly ReadingLimit[])
        .filter(({ kind }) => kind === 'application')
        .map(({ value, fibres }) => [printExactDb(value!), fibres && [...fibres].join()]);
    const both = carried('one-cord', 'PLAIN', ' cords 3 m, 2 m');
    // 2.9 − 3.0·0.030 = 2.81 on the channel's, 2.885 with planned cords.
    expect(values(both + channel)).toEqual([
      ['2.81', '1,2'],
      ['2.885', '3,4'],
    ]);
    const some = carried('one-cord', 'PLAIN', ' fibres 1, 2 cords 3 m, 2 m');
    expect(values(some + channel)).toEqual([['2.81', '1,2']]);
    const other = carried('one-cord', 'PLAIN', ' fibres 3, 4 cords 3 m, 2 m');
    expect(values(other + channel)).toEqual([['2.885', '3,4']]);
    expect(values(other)).toEqual([['2.885', '3,4']]);
    expect(values(both)).toEqual([['2.885', undefined]]);
    // Fibres that the channel takes of another link are none of this one; 3.0·0.100 more lie outside.
    const further = channel
      .replace('  cord        20 m', '  link        KQ-2 fibres 3, 4\n  cord        20 m')
      .concat('link KQ-2 {\n  fibres      1..4\n  segment     100 m GLASS-50\n}\n');
    expect(values(both + further)).toEqual([
      ['2.51', '1,2'],
      ['2.885', '3,4'],
    ]);
  });

  it('is none at another wavelength, nor where no row has a loss', () => {
    expect(shown(carried('one-cord'), 1300).map(([kind]) => kind)).toEqual(['components']);
    const open = carried('one-cord').replace('reach 400 m loss 2.9 dB', 'reach 400 m');
    expect(shown(open).map(([kind]) => kind)).toEqual(['components']);
  });
});
