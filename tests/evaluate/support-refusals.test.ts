/**
 * What is said where a path does not carry a service, each reason whole. Two pairs and
 * 100 m lose 1.8 dB at most: 3.0 dB/km at 850 nm and 0.75 dB a pair (TIA-568.3-E). That
 * the terms of a row hold together is the form of the tables of IEEE 802.3.
 */
import { describe, expect, it } from 'vitest';
import { ratePerKm } from '../../grammar/src/quantity/index.ts';
import type { FibreType, LinkModel } from '../../server/src/model/types.ts';
import { betweenPairs, db, fibre, mated, nm, stretch } from '../support/build.ts';
import { judge } from '../support/judge.ts';
import { answered, judged, row, type Segment, told } from './carried-service.ts';

describe('not supported', () => {
  it('by its length', () => {
    expect(told([row(90, 2.6)])).toEqual([
      {
        name: 'reach-exceeded',
        application: 'SERVICE',
        because: '100 m is longer than its reach',
        row: 'GLASS, 90 m, 2.6 dB',
        length: 100,
        reach: 90,
        over: 10,
      },
    ]);
    const long = { elements: betweenPairs(2500) };
    expect(answered([row(2000, 19)], long)).toBe('not supported: 2.5 km is longer than its reach');
  });

  it('by its loss', () => {
    expect(told([row(300, 1.7)])).toEqual([
      {
        name: 'application-loss-exceeded',
        application: 'SERVICE',
        because: '1.80 dB at the greatest figures is more than its loss',
        row: 'GLASS, 300 m, 1.7 dB',
        length: 100,
        reach: 300,
        from: 'design',
        loss: 1.8,
        limit: 1.7,
        over: 0.1,
        wavelength: 850,
        terms: 'mated pairs 1.50 dB, fibre GLASS 0.30 dB',
        // 0.2 dB ÷ 3.0 dB/km is left for it.
        longest: 66.666666,
      },
    ]);
  });

  it('by its loss at the first of two wavelengths that lose alike', () => {
    const flat: FibreType = {
      ...fibre,
      attenuation: [850, 1300].map((each) => ({ wavelength: nm(each), max: ratePerKm(3_000_000) })),
    };
    const elements = [mated(), { ...(stretch(100) as Segment), fibre: flat }, mated()];
    for (const sent of [
      [850, 1300],
      [1300, 850],
    ]) {
      const type = { wavelengths: sent.map((each) => ({ wavelength: nm(each) })) };
      expect(told([row(300, 1.7)], { elements, type })).toMatchObject([
        { name: 'application-loss-exceeded', wavelength: sent[0] },
      ]);
    }
  });

  it('by its loss, and tells the most of its fibre that some row would bear', () => {
    const most = (...rows: Parameters<typeof told>[0]) =>
      told(rows).find(({ name }) => name === 'application-loss-exceeded')?.longest;
    // 3.0 dB/km beside 1.5 dB of pairs: 60 m by loss; a shorter row bears more, as far as it reaches.
    expect(most(row(300, 1.68))).toBe(60);
    expect(most(row(300, 1.68), row(80, 3))).toBe(80);
    expect(most(row(300, 1.68), row(80, 3, { connections: db(1.4) }))).toBe(60);
    expect(most(row(300, 1.5))).toBeUndefined();
    expect(most(row(300, 1.68), row(80, 3, { connections: db(1.5), min: db(1) }))).toBe(80);
    // A row that ends nowhere says nothing of how long it may be.
    expect(most(row(300, 1.68), { min: db(1) })).toBeUndefined();
  });

  it('by what its connections may take', () => {
    expect(told([row(300, 2.6, { connections: db(1.4) })])).toEqual([
      {
        name: 'application-loss-exceeded',
        application: 'SERVICE',
        because: 'its connections may lose too much',
        row: 'GLASS, 300 m, 2.6 dB',
        length: 100,
        reach: 300,
        from: 'design',
        loss: 1.8,
        limit: 2.6,
        over: -0.8,
        wavelength: 850,
      },
    ]);
  });

  it('by too little loss', () => {
    expect(told([row(300, 2.6, { min: db(1) })])).toEqual([
      {
        name: 'application-loss-too-low',
        application: 'SERVICE',
        because: 'it may lose too little, 0.00 dB at the least',
        row: 'GLASS, 300 m, 2.6 dB',
        length: 100,
        reach: 300,
        least: 0,
        wanted: 1,
        under: 1,
        from: 'design',
        uncounted: 'GLASS',
      },
    ]);
    const glass = (least: number): FibreType => ({
      ...fibre,
      attenuation: [
        { wavelength: nm(850), min: ratePerKm(least), max: ratePerKm(3_000_000) },
        { wavelength: nm(1300), min: ratePerKm(1_000_000), max: ratePerKm(1_500_000) },
      ],
    });
    const elements = [mated(), { ...stretch(1000), fibre: glass(2_000_000) } as Segment, mated()];
    const lights = { wavelengths: [{ wavelength: nm(850) }, { wavelength: nm(1300) }] };
    // 1.0 dB/km at 1300 nm over 1 km is the least of both.
    expect(told([row(2000, 9, { min: db(1.5) })], { elements, type: lights })).toMatchObject([
      { because: 'it may lose too little, 1.00 dB at the least', least: 1, under: 0.5 },
    ]);
    expect(
      told([row(2000, 9, { min: db(1.5) })], { elements, type: lights })[0],
    ).not.toHaveProperty('uncounted');
    expect(told([row(2000, 9, { min: db(1) })], { elements, type: lights })).toEqual([]);
  });

  it('by several terms at once, each said once', () => {
    expect(answered([row(90, 1.7, { connections: db(1), min: db(1) })])).toBe(
      'not supported: 100 m is longer than its reach; 1.80 dB at the greatest figures is more than its loss; its connections may lose too much; it may lose too little, 0.00 dB at the least',
    );
    expect(
      told([row(90, 1.7, { connections: db(1) })]).map(({ name, because }) => [name, because]),
    ).toEqual([
      [
        'reach-exceeded',
        '100 m is longer than its reach; 1.80 dB at the greatest figures is more than its loss; its connections may lose too much',
      ],
      [
        'application-loss-exceeded',
        '1.80 dB at the greatest figures is more than its loss; its connections may lose too much',
      ],
    ]);
  });

  it('by the fibre that is there', () => {
    expect(told([{ ...row(300, 2.6), fibre: 'OTHER' }])).toEqual([
      {
        name: 'application-fibre-unsuited',
        application: 'SERVICE',
        because: 'SERVICE has no row that GLASS meets',
        length: 100,
      },
    ]);
    expect(answered([row(300, 2.6)], { elements: [mated(), mated()] })).toBe(
      'not supported: SERVICE has no row that this path meets',
    );
    const other = {
      ...stretch(5),
      fibreName: 'OTHER',
      fibre: { ...fibre, name: 'OTHER' },
    } as Segment;
    expect(answered([row(300, 2.6)], { elements: [...betweenPairs(100), other, mated()] })).toBe(
      'not supported: SERVICE has no row that GLASS, OTHER meets',
    );
  });

  it('by too few fibres, dead ones not counted', () => {
    const few = {
      model: { fibres: [1, 2], dead: [{ fibre: 2, because: 'crushed' }] } as Partial<LinkModel>,
    };
    expect(answered([row(300, 2.6)], few)).toBe('not supported: it needs 2 fibres and has 1');
    expect(judged([row(300, 2.6)], few).answer?.row).toBe('GLASS, 300 m, 2.6 dB');
    expect(judged([row(300, 2.6)], { ...few, type: { count: 1 } }).answer?.support).toBe(
      'by design',
    );
  });

  it('by a length that nobody knows, unless no reach is asked', () => {
    const unknown = { ...stretch(0), deliberate: true } as Segment;
    const elements = [...betweenPairs(100), unknown, mated()];
    expect(answered([row(300, 2.6)], { elements })).toBe(
      'not supported: the length of the path is not known, and so neither is whether it reaches',
    );
    expect(judged([{ loss: db(9) }], { elements }).answer?.support).toBe('by design');
    const missing = { ...stretch(0), length: undefined } as Segment;
    expect(answered([row(300, 2.6)], { elements: [...betweenPairs(100), missing, mated()] })).toBe(
      'not supported: its length is not known; its loss at 850 nm is not known',
    );
  });

  it('by a figure that nobody states, and that is all that is said', () => {
    const bare: FibreType = { ...fibre, name: 'BARE', meets: ['GLASS'], attenuation: [] };
    const elements = [
      mated(),
      { ...stretch(100), fibre: bare, fibreName: 'BARE' } as Segment,
      mated(),
    ];
    expect(told([row(300, 2.6)], { elements, terms: { limits: [] } })).toEqual([
      {
        name: 'application-figure-missing',
        application: 'SERVICE',
        because: 'its loss at 850 nm is not known',
        row: 'GLASS, 300 m, 2.6 dB',
        length: 100,
        reach: 300,
        missing: 'fibre BARE at 850 nm',
        wavelength: 850,
      },
    ]);
  });

  it('not by a name that means nothing: that is told at its place, and not as a figure', () => {
    const findings = (path: string) =>
      judge(`plan "Names" {
  measure     1300 nm
  limits      TIA-568.3-E
}

fibre GLASS {
  like        OM4
}

splitter HALVES {
  ports       1:2
  loss        max 4 dB
}

application SERVICE {
  count       1
  wavelength  850 nm
  fibre       GLASS reach 1 km loss 12 dB
}

link KQ-1 {
  fibres      1..2
  connector   LC
${path}  carries     SERVICE
}
`).findings.flatMap(({ name, details }) =>
        /^application|^unknown/u.test(name) ? [[name, details.name ?? details.missing]] : [],
      );
    const fibre = (name: string) => `  segment     100 m ${name}\n  connector   LC\n`;
    expect(findings(fibre('GLASS'))).toEqual([]);
    expect(findings(fibre('GLAS'))).toEqual([['unknown-reference', 'GLAS']]);
    const pair = fibre('GLASS').replace('LC', 'L');
    expect(findings(pair)).toEqual([['unknown-reference', 'L']]);
    const tree = (name: string) => `  split SP ${name} {
    out 1 to B:1 {
      segment     100 m GLASS
      connector   LC
    }
  }
`;
    expect(findings(tree('HALVE'))).toEqual([['unknown-reference', 'HALVE']]);
    expect(findings(tree('HALVES'))).toEqual([]);
  });
});
