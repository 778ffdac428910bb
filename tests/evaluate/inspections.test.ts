/** End faces and seen ports on whole plans. */
import { describe, expect, it } from 'vitest';
import { doubt, doubts, judged, verdict } from '../published/judged.ts';

const plan = (body: string, require = '') => `
plan "Faces" {
  limits      TIA-568.3-E
  measure     850 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
${require}}

link KQ-1 {
  from        A:01..04
  to          B:01..04
  connector   LC
  segment     100 m OM4
  connector   LC
  dead        4 because "cut"
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
${body}`;

const inspection = (rows: string, tested = '2026-03-14 08:00') => `
inspection KQ-1 {
  tested      ${tested} by "R. Vale"
  criterion   "contract, clause 9"
  columns fibre, A,  B
${rows}
}
`;

const readings = (rows: string, columns = 'fibre, seen, 850 nm A>B') => `
readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05
  values      loss in dB
  columns ${columns}
${rows}
}
`;

const of = (body: string, require?: string) => judged(plan(body, require)).link('KQ-1');
const required = '  require     inspection\n';
const faces = (body: string) =>
  of(body).inspections.map(({ fibre, side, verdict: word }) => `${fibre}${side} ${word}`);

describe('an end face', () => {
  it('is as it was last seen', () => {
    const first = inspection('  1  fail  pass');
    expect(faces(first)).toEqual(['1A fail', '1B pass']);
    expect(faces(first + inspection('  1  pass  -', '2026-03-14 08:20'))).toEqual([
      '1A pass',
      '1B pass',
    ]);
  });

  it('that was cleaned has not passed yet', () => {
    expect(faces(inspection('  1  cleaned  pass'))).toEqual(['1A not-judged', '1B pass']);
    expect(doubts(of(inspection('  1  cleaned  pass')), 1)).toContain('end-face-not-seen-again');
  });

  // Tables by kind of connector: IEC 61300-3-35:2015, as a connector maker's manual of 2018 prints them.
  const other = (criterion: string, text = plan('')) =>
    judged(
      text +
        inspection('  1  pass  pass\n  2  pass  pass').replace('"contract, clause 9"', criterion),
    )
      .link('KQ-1')
      .doubts.filter(({ name }) => name === 'criterion-of-other-face')
      .map(({ details: { graded, faces, side } }) => `${side} ${graded} for ${faces}`);

  it('graded by the table of another mode is said once for all faces of the block', () => {
    expect(other('FACE-MM-PC')).toEqual([]);
    expect(other('"contract, clause 9"')).toEqual([]);
    expect(other('FACE-SM-PC')).toEqual(['A single-mode for multimode']);
  });

  it('graded as straight where it is angled is said at the end that is', () => {
    const single = plan('')
      .replaceAll('OM4', 'OS2')
      .replace('850 nm\n', '1310 nm\n')
      .replace('connector   LC\n  dead', 'connector   LC-APC\n  dead');
    expect(other('FACE-SM-PC', single)).toEqual(['B PC for APC']);
    expect(other('FACE-SM-APC', single)).toEqual(['A APC for UPC']);
    const owner = 'criterion KQ-FACE {\n  like        FACE-SM-APC\n}\n';
    expect(other('KQ-FACE', single + owner)).toEqual(['A APC for UPC']);
  });

  it('graded by a declared criterion says its edition', () => {
    const [face] = of(
      inspection('  1  pass  pass').replace('"contract, clause 9"', 'FACE-MM-PC'),
    ).inspections;
    expect(face?.because).toBe('FACE-MM-PC (IEC 61300-3-35:2015)');
  });

  it('is stale after work on its fibre, and gone where it was withdrawn', () => {
    const work =
      'work KQ-1 {\n  done        re-terminated\n  fibres      1\n  on          2026-03-15\n}\n';
    expect(faces(inspection('  1  pass  pass\n  2  pass  pass') + work)).toEqual([
      '1A stale',
      '1B stale',
      '2A pass',
      '2B pass',
    ]);
    const out =
      'withdraw KQ-1 {\n  fibres      1\n  because     "wrong panel"\n  by          "R. Vale"\n}\n';
    expect(faces(inspection('  1  pass  pass') + out)).toEqual([]);
  });

  it('that fails is a note, and a doubt that blocks where inspection is required', () => {
    const body = inspection('  1  pass  fail\n  2  pass  pass\n  3  pass  pass');
    const rows = readings('  1  -  1.1\n  2  -  1.1\n  3  -  1.1');
    expect(doubts(of(body + rows), 1)).toEqual(['end-face-poor']);
    expect(of(body + rows).accepted).toBe(true);
    expect(doubts(of(body + rows, required), 1)).toEqual(['end-face-fails']);
    expect(of(body + rows, required).accepted).toBe(false);
    const again = inspection('  1  -  pass', '2026-03-14 08:30');
    expect(of(body + rows + again, required).accepted).toBe(true);
  });

  it('of a fibre that the link does not have is said once, with those it has', () => {
    const result = of(inspection('  1  pass  pass\n  9  fail  fail'));
    expect(doubts(result).filter((name) => name !== 'readings-missing')).toEqual([
      'fibre-not-in-plan',
    ]);
    expect(doubt(result, 'fibre-not-in-plan')).toEqual({ fibre: 9, object: 'KQ-1', has: '1..4' });
  });

  it('that is required and was not seen is listed; a dead fibre is not', () => {
    const result = of(inspection('  1  pass  pass\n  2  pass  cleaned'), required);
    expect(doubt(result, 'inspection-missing')).toMatchObject({
      missing: 3,
      list: 'fibre 2, end B; fibre 3, end A; fibre 3, end B',
    });
  });
});

describe('the port where light was seen', () => {
  it('that the plan says: nothing is said', () => {
    const result = of(readings('  1  B:01  1.1\n  2  B:02  1.1'));
    expect(verdict(result, 1, 850)).toBe('pass');
    expect(doubts(result, 1)).toEqual([]);
  });

  it('of another fibre: the reading is of another pair; two that exchanged are named both ways', () => {
    const result = of(readings('  1  B:02  1.1\n  2  B:01  1.1\n  3  B:03  1.1'));
    expect([1, 2, 3].map((fibre) => verdict(result, fibre, 850))).toEqual([
      'invalid',
      'invalid',
      'pass',
    ]);
    expect(doubt(result, 'wrong-pair', 1)).toMatchObject({ belongs: 2, swapped: 2 });
    expect(doubt(result, 'wrong-pair', 2)).toMatchObject({ belongs: 1, swapped: 1 });
  });

  it('alone at the wrong port is not called a swap', () => {
    const result = of(readings('  1  B:02  1.1\n  2  -  1.1'));
    expect(doubt(result, 'wrong-pair', 1)).not.toHaveProperty('swapped');
    expect(verdict(result, 2, 850)).toBe('pass');
  });

  it('holds for readings of other rows too, until work or a later look', () => {
    const seen = readings('  1  B:02  -');
    const later = readings('  1  1.1', 'fibre, 850 nm A>B').replace('09:05', '10:00');
    expect(verdict(of(seen + later), 1, 850)).toBe('invalid');
    const work =
      'work KQ-1 {\n  done        re-patched\n  fibres      1\n  on          2026-03-14 09:30\n}\n';
    expect(verdict(of(seen + later + work), 1, 850)).toBe('pass');
    const looked = readings('  1  B:01  -').replace('09:05', '09:20');
    expect(verdict(of(seen + later + looked), 1, 850)).toBe('pass');
  });

  it('follows the map of the path', () => {
    const crossed = plan(readings('  1  B:04  1.1\n  2  B:02  1.1')).replace(
      'segment     100 m OM4',
      'segment     100 m OM4 map reversed',
    );
    const result = judged(crossed).link('KQ-1');
    expect(verdict(result, 1, 850)).toBe('pass');
    expect(doubt(result, 'wrong-pair', 2)).toMatchObject({ seen: 'B:02', wanted: 'B:03' });
  });

  it('that is required and was not seen is listed', () => {
    const result = of(readings('  1  B:01  1.1\n  2  -  1.1'), '  require     seen\n');
    expect(doubt(result, 'port-unseen')).toMatchObject({ fibres: '2..3' });
    expect(result.accepted).toBe(false);
  });

  it('without any reading is said all the same', () => {
    expect(doubt(of(readings('  1  B:03  -')), 'wrong-pair', 1)).toMatchObject({ seen: 'B:03' });
  });
});

it('two readings of one key at one time have no order', () => {
  const result = of(readings('  1  B:01  1.1\n  1  B:01  1.3'));
  expect(doubt(result, 'measured-twice')).toMatchObject({ fibre: 1, what: '850 nm A>B' });
});

it('of a tree, those at its ends are asked for, since the fibre before its splitter is each one’s', () => {
  const tree = `
pattern OUTLET {
  connector   LC
}

link TREE {
  from        A:01
  connector   LC
  segment     1 km OS2
  split       S-1 PLC-1x2 {
    out         1 to B:01 as OUTLET
    out         2 to B:02 as OUTLET
  }
}
`;
  const result = judged(plan(tree, required)).link('TREE');
  expect(doubt(result, 'inspection-missing')).toMatchObject({
    missing: 2,
    list: 'fibre 1, end B; fibre 2, end B',
  });
});
