/** Typing readings at the link: what is asked for, where it is written, and what is said of it before. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Entered, enterReading } from '../../server/src/features/entry/enter.ts';
import { type LaidOut, layOutReadings } from '../../server/src/features/entry/lay-out.ts';
import {
  readingsByPanel,
  readingsStanding,
  readingsToEnter,
} from '../../server/src/features/entry/to-enter.ts';
import { answer, applyEdits, ask, textIn } from '../support/ask.ts';

const example = readFileSync('examples/first-link/first-link.lwl', 'utf8');
const now = '2026-03-14 09:21';

/** The example with the cursor at a text, perhaps with another text in place of one. */
function first(at: string, ...changes: readonly (readonly [string, string])[]) {
  const text = changes.reduce((all, [what, by]) => {
    if (!all.includes(what)) throw new Error(`the example has no ${what}`);
    return all.replace(what, by);
  }, example);
  return ask(text.replace(at, `$0${at}`));
}

const atLink = 'KQ-OPS-B3 "';
const blank = ['1.05        0.77', '-           0.77'] as const;

/** The text after what was entered is written, and what was said of it. */
function enter(asked: ReturnType<typeof ask>, text: string, index = 0) {
  const { object, readings } = answer(readingsToEnter, asked)!;
  const { fibre, wavelength, direction } = readings[index]!;
  const key = { fibre, wavelength, direction };
  const entered: Entered = answer(enterReading, asked, { object, key, text, now });
  if ('problem' in entered) return { ...entered, text: asked.text };
  return { ...entered, text: applyEdits(asked.text, [entered.edit]) };
}

function withoutReadings(): string {
  return example.slice(0, example.indexOf('readings KQ'));
}

describe('what is to be typed', () => {
  it('is asked for fibre by fibre, with ports and the limit of the method in use', () => {
    const asked = ask(withoutReadings().replace(atLink, `$0${atLink}`));
    const wanted = answer(readingsToEnter, asked)!;
    expect(wanted).toMatchObject({ object: 'KQ-OPS-B3', present: 0, expected: 16, again: false });
    expect(wanted.readings).toHaveLength(16);
    expect(wanted.readings[1]).toMatchObject({
      place: 'fibre 1',
      column: '850 nm B>A',
      ports: 'OPS/R2/A:01 to B3/R1/A:01',
      limit: expect.stringMatching(/^\d\.\d\d dB$/u),
    });
  });

  it('is what failed where nothing is missing', () => {
    const asked = first(atLink, ['1.08  ', '3.08  ']);
    const wanted = answer(readingsToEnter, asked)!;
    expect(wanted.again).toBe(true);
    expect(wanted.readings.map(({ place, column }) => `${place} ${column}`)).toEqual([
      'fibre 2 850 nm A>B',
    ]);
  });

  it('outside of a link is of the first that lacks some', () => {
    const asked = first('plan "Kestrel', blank);
    expect(answer(readingsToEnter, asked)?.readings).toHaveLength(1);
  });
});

describe('what is asked for', () => {
  it('is told apart from what stands by now', () => {
    const asked = first(atLink, blank);
    const key = (fibre: number, direction: string, object = 'KQ-OPS-B3') => ({
      object,
      fibre,
      wavelength: 850_000,
      direction,
    });
    const readings = [key(2, 'A>B'), key(2, 'B>A'), key(9, 'A>B'), key(2, 'A>B', 'KQ-NONE')];
    expect(answer(readingsStanding, asked, { readings })).toEqual([true, false, false, false]);
  });
});

describe('what is to be typed on a walk', () => {
  const link = (name: string, from: string) => `
link ${name} {
  from        ${from}
  to          ${name}/A:1..2
  connector   LC
  segment     90 m OM4
  connector   LC
}
`;
  const plan = `plan "Kestrel Quay" {
  measure     850 nm for multimode
  directions  A>B
}
${link('KQ-1', 'OPS/R2/B:01..02')}${link('KQ-2', 'PIER/R1/A:01..02')}${link('KQ-3', 'OPS/R2/A:11..12')}${link('KQ-4', 'OPS/R2/A:9..10')}`;
  const walk = (text: string) =>
    answer(readingsByPanel, ask(text))!.readings.map(
      ({ panel, object, place }) => `${panel}: ${object} ${place}`,
    );
  const [b, pier, a] = [
    ['OPS/R2, panel B: KQ-1 fibre 1', 'OPS/R2, panel B: KQ-1 fibre 2'],
    ['PIER/R1, panel A: KQ-2 fibre 1', 'PIER/R1, panel A: KQ-2 fibre 2'],
    [
      'OPS/R2, panel A: KQ-4 fibre 1',
      'OPS/R2, panel A: KQ-4 fibre 2',
      'OPS/R2, panel A: KQ-3 fibre 1',
      'OPS/R2, panel A: KQ-3 fibre 2',
    ],
  ] as const;

  it('begins at the panel of the link, and goes port by port, room by room, round to where it began', () => {
    expect(walk(plan.replace('KQ-4 {', '$0KQ-4 {'))).toEqual([...a, ...b, ...pier]);
    expect(walk(plan.replace('KQ-1 {', '$0KQ-1 {'))).toEqual([...b, ...pier, ...a]);
  });

  it('counts what the whole plan wants, and leaves out what was read', () => {
    const read = `${plan}
readings KQ-4 {
  tested      2026-03-14 09:05 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1                0.97
}
`;
    const asked = ask(read.replace('KQ-2 {', '$0KQ-2 {'));
    expect(answer(readingsByPanel, asked)).toMatchObject({ present: 1, expected: 8 });
    expect(walk(read.replace('KQ-2 {', '$0KQ-2 {'))).toEqual([...pier, ...a.slice(1), ...b]);
  });
});

describe('a reading', () => {
  it('goes into its cell, and the verdict is said with its margin', () => {
    const { text, ...entered } = enter(first(atLink, blank), '1.05');
    expect(text).toBe(example);
    expect(entered).toMatchObject({ verdict: 'pass', doubts: [] });
    expect('said' in entered && entered.said).toMatch(
      /^fibre 2: 1\.05 dB, pass, margin \+\d\.\d\d at 850 nm B>A$/u,
    );
  });

  it('may be typed with a decimal comma, and changes its own line only', () => {
    expect(enter(first(atLink, blank), '1,05').text).toBe(example);
  });

  it('over the limit is written as what it is', () => {
    const entered = enter(first(atLink, blank), '3.05');
    expect(entered).toMatchObject({ verdict: 'fail' });
    expect('said' in entered && entered.said).toMatch(/fail, \d\.\d\d over the limit/u);
  });

  it('may be dark', () => {
    const entered = enter(first(atLink, blank), 'dark');
    expect(entered.text).toMatch(/^ {2}2 .*dark/mu);
    expect(entered).toMatchObject({ verdict: expect.stringMatching(/fail|invalid/u) });
  });

  it.each([
    ['-1.05', /^Fibre 2 at 850 nm B>A: −1.05 dB: more light arrived/u],
    ['-21.4 dBm', /dBm/u],
    ['105', /./u],
  ])('of %s is questioned or refused with a reason, and never silent', (typed, pattern) => {
    const entered = enter(first(atLink, blank), typed);
    const said = 'problem' in entered ? [entered.problem] : entered.doubts;
    expect(said.join('\n')).toMatch(pattern);
  });

  it('that casts doubt on others is told before what it casts', () => {
    const { text } = enter(ask(withoutReadings().replace(atLink, `$0${atLink}`)), '0.97');
    const { doubts } = enter(ask(text.replace(atLink, `$0${atLink}`)), '-0.99') as {
      doubts?: string[];
    };
    expect(doubts).toHaveLength(2);
    expect(doubts?.[0]).toContain('more light arrived');
  });

  it('is questioned again where another of its kind stands already', () => {
    const asked = first(atLink, blank, ['0.97  ', '-0.97 ']);
    const { doubts } = enter(asked, '-1.05') as { doubts?: string[] };
    expect(doubts?.join(' ')).toContain('more light arrived');
  });

  it.each([
    ['1.05 dB', '1.05'],
    ['1.05dB', '1.05'],
    ['1.05 db', '1.05'],
    ['.95', '0.95'],
    ['−0,05', '-0.05'],
    ['DARK', 'dark'],
  ])('of %s stands in its cell as %s', (typed, cell) => {
    const { text, ...entered } = enter(first(atLink, blank), typed);
    expect(entered).toMatchObject({ written: cell });
    expect(text).toMatch(new RegExp(`^ {2}2 +1\\.08 +${cell} +0\\.77`, 'mu'));
  });

  it('says where it stands once it is written, in a row and in a block of its own', () => {
    for (const asked of [first(atLink, blank), first(atLink, ['1.08  ', '3.08  '])]) {
      const entered = enter(asked, '1.04 dB');
      expect('cell' in entered && textIn(entered.text, entered.cell)).toBe('1.04');
    }
  });

  it('that is a power where losses stand is worked out from its reference, and questioned', () => {
    for (const [typed, loss] of [
      ['-21.1 dBm', '1.05'],
      ['-21.105 DBM', '1.055'],
      ['7.76 µW', '1.05'],
    ] as const) {
      const entered = enter(first(atLink, blank), typed);
      expect(entered).toMatchObject({ written: loss });
      const [doubt, ...more] = 'doubts' in entered ? entered.doubts : [];
      expect(doubt).toMatch(/is a power\. With the reference of -20\.05 dBm it is a loss of/u);
      expect([doubt?.endsWith(`written as ${loss}.`), more]).toEqual([true, []]);
    }
    const unknown = enter(
      first(atLink, blank, [/^ {2}taken .*850 nm.*\n/mu.exec(example)![0], '']),
      '-21.1 dBm',
    );
    expect(unknown).toMatchObject({
      problem: expect.stringContaining('is a power; what is taken'),
    });
  });

  it('that is a loss where powers stand is worked out, and a power in another unit keeps it', () => {
    const powers = (typed: string) => {
      const text = example
        .replace('values      loss in dB', 'values      power in dBm')
        .replace(/^( {2}[1-4] +).*$/gmu, '$1 -21.02 -21.04 -20.97 -20.95')
        .replace('-21.04', '-');
      return enter(ask(text.replace(atLink, `$0${atLink}`)), typed);
    };
    expect(powers('1.01 dB')).toMatchObject({ written: '-21.06' });
    expect(powers('-21.06 dBm')).toMatchObject({ written: '-21.06', doubts: [] });
    const other = powers('7.85 uW');
    expect(other).toMatchObject({ written: '7.85 uW' });
    expect('doubts' in other && other.doubts[0]).toContain('written with its own unit');
  });

  it.each([
    ['9.7', true],
    ['3.70', true],
    ['2.90', false],
    ['0.60', false],
  ])('of %s, with its mates at about 1 dB, is questioned: %s', (typed, asked) => {
    const entered = enter(first(atLink, blank), typed);
    const doubts = 'doubts' in entered ? entered.doubts.join(' ') : '';
    expect(/the median of 3 other fibres is 0\.99 dB/u.test(doubts)).toBe(asked);
  });

  it('far from what its parts lose is questioned where it has no mates yet', () => {
    const none = ask(withoutReadings().replace(atLink, `$0${atLink}`));
    const doubtsOf = (typed: string) => {
      const entered = enter(none, typed);
      return 'doubts' in entered ? entered.doubts.join(' ') : '';
    };
    expect(doubtsOf('9.7')).toMatch(
      /^fibre 1, 850 nm A>B: 9\.70 dB, and these parts usually lose \d\.\d\d dB together/u,
    );
    expect(doubtsOf('2.5')).toBe('');
  });

  it('that passes and stands out from many mates is questioned', () => {
    const many = example
      .replaceAll('01..04', '01..09')
      .replace(/^ {2}4 .*\n/mu, (row) =>
        [row, ...[5, 6, 7, 8, 9].map((fibre) => `  ${fibre} 1.0${fibre} - - -\n`)].join(''),
      )
      .replace('  9 1.09', '  9 -   ');
    const { doubts } = enter(ask(many.replace(atLink, `$0${atLink}`)), '1.60', 12) as {
      doubts?: string[];
    };
    expect(doubts?.join(' ')).toContain('fibres of this link have a median of');
  });

  it.each(['1.0.5', 'abc', '1.05 m', '0.95 0.96', '0.95 # seen', ''])(
    'that is none (%s) leaves the text as it is',
    (typed) => {
      const entered = enter(first(atLink, blank), typed);
      expect(entered).toMatchObject({ problem: expect.stringMatching(/.{10}/u) });
    },
  );

  it('that fails is read again in a block of its own, and the failing one stays', () => {
    const asked = first(atLink, ['1.08  ', '3.08  ']);
    const { text } = enter(asked, '1.10');
    expect(text.startsWith(asked.text.trimEnd())).toBe(true);
    expect(text.slice(asked.text.trimEnd().length)).toBe(`

readings KQ-OPS-B3 {
  setup       MM-1
  tested      2026-03-14 09:21
  values      loss in dB
  columns fibre, 850 nm A>B
  2                1.10
}
`);
  });

  it('that was mistyped a moment ago is put right where it stands, and nowhere else', () => {
    const asked = first(atLink, ['1.05  ', '1.50  ']);
    const key = { fibre: 2, wavelength: 850_000, direction: 'B>A' };
    const mend = (instead: string) => {
      const more = { object: 'KQ-OPS-B3', key, text: '1,05', now, instead };
      const entered: Entered = answer(enterReading, asked, more);
      return 'problem' in entered ? entered.problem : applyEdits(asked.text, [entered.edit]);
    };
    expect(mend('1.50')).toBe(example);
    // Edited by hand meanwhile: what stands is not written over.
    expect(mend('1.60')).toContain('1.50  ');
  });

  it('that somebody else wrote meanwhile is questioned before another attempt begins', () => {
    const key = { fibre: 2, wavelength: 850_000, direction: 'B>A' };
    const more = { object: 'KQ-OPS-B3', key, text: '1.06', now };
    const entered: Entered = answer(enterReading, first(atLink), more);
    expect('doubts' in entered && entered.doubts[0]).toMatch(
      /^It has been read meanwhile, fibre 2: 1\.05 dB, pass, .*\. This begins another attempt\.$/u,
    );
    expect('edit' in entered && entered.edit.newText).toContain('1.06');
  });

  it('notes its time where the rows have one', () => {
    const rows = example
      .replace('columns fibre,', 'columns fibre, time,')
      .replace(/^ {2}([1-4]) /gmu, '  $1 09:05 ')
      .replace('2 09:05', '2 -')
      .replace('1.05 ', '- ');
    const asked = ask(rows.replace(atLink, `$0${atLink}`));
    expect(enter(asked, '1.05').text).toMatch(/^ {2}2\s+09:21\s+1\.08\s+1\.05/mu);
  });
});

describe('a block laid out', () => {
  const laidOut = (marked: string) => {
    const asked = ask(marked);
    const answered: LaidOut = answer(layOutReadings, asked, { now });
    return { asked, answered };
  };

  it('has a row for each fibre and a dash for each reading that is missing', () => {
    const { asked, answered } = laidOut(withoutReadings().replace(atLink, `$0${atLink}`));
    if ('because' in answered) throw new Error(answered.because);
    const text = applyEdits(asked.text, [answered]);
    expect(text).toContain(`readings KQ-OPS-B3 {
  setup       MM-1
  tested      2026-03-14 09:21
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A, 1300 nm A>B, 1300 nm B>A
  1                -           -           -            -`);
    const { line, character } = answered.cell;
    expect(text.split('\n')[line]!.slice(0, character + 1)).toMatch(/^ {2}1 +-$/u);
    expect(answered.readings).toBe(16);
  });

  it('names the tester, whatever the name is made of', () => {
    const asked = ask(withoutReadings().replace(atLink, `$0${atLink}`));
    const by = 'R. "Ray" \\ Vale';
    const answered: LaidOut = answer(layOutReadings, asked, { now, by });
    if ('because' in answered) throw new Error(answered.because);
    expect(answered.newText).toContain('tested      2026-03-14 09:21 by "R. \\"Ray\\" \\\\ Vale"');
    const again = ask(applyEdits(asked.text, [answered]));
    const findings = again.session.project.plans[0]!.findings(again.uri);
    expect(findings.filter(({ kind }) => kind === 'notation')).toEqual([]);
  });

  it('is not laid out where nothing is missing, and says so', () => {
    const { answered } = laidOut(example.replace(atLink, `$0${atLink}`));
    expect(answered).toEqual({ because: expect.stringContaining('no reading is missing') });
  });
});
