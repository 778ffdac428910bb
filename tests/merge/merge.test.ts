/** What two people did to one plan, put together: what is taken, what stands twice, and where a person has to choose. */
import { describe, expect, it } from 'vitest';
import { merge } from '../../server/src/merge/index.ts';
import { judge } from '../support/judge.ts';
import { planned, readings, row } from './planned.ts';

/** The plan with a table laid out for readings that nobody has made yet. */
const base = `${planned}
readings KQ-OPS-B3 {
  setup       MM-1
  tested      2026-03-14
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A
  1          -            -
  2          -            -
  3          -            -
  4          -            -
}
`;

/** The text with rows of the laid-out table filled. */
function filled(rows: readonly string[], text = base): string {
  return rows.reduce(
    (now, line) => now.replace(new RegExp(`^ {2}${line.trim()[0]} .*-$`, 'mu'), line),
    text,
  );
}

const signed = (text: string, day: string, by: string) =>
  text.replace('tested      2026-03-14', `tested      ${day} by "${by}"`);

const appended = (...made: Parameters<typeof readings>) => base + readings(...made);

/** Attempts of the plan that is merged, as they are judged. */
function attempts(text: string) {
  return judge(text)
    .plan.result.link('KQ-OPS-B3')!
    .readings.filter(({ reading }) => reading !== undefined)
    .map(({ fibre, direction, attempt, reading, verdict, current }) =>
      [
        `${fibre} ${direction}`,
        `attempt ${attempt}`,
        typeof reading?.typed === 'object' ? reading.typed.digits : reading?.typed,
        reading?.by ?? '',
        verdict,
        ...(current ? ['stands'] : []),
      ].join(', '),
    )
    .sort();
}

describe('readings of two testers', () => {
  it('in cells of one table stand in that table', () => {
    const result = merge(base, filled([row(1, '0.52', '0.55')]), filled([row(3, '0.61', '-')]));
    expect(result).toEqual({
      text: filled([row(1, '0.52', '0.55'), row(3, '0.61', '-')]),
      conflicts: 0,
      beside: 0,
    });
  });

  it('in cells of one row stand in that row', () => {
    const result = merge(base, filled([row(1, '0.52', '-')]), filled([row(1, '-', '0.55')]));
    expect(result.text).toBe(filled([row(1, '0.52', '0.55')]));
  });

  it('of one key that say the same stand once', () => {
    const result = merge(
      base,
      filled([row(1, '0.52', '-')]),
      filled([row(1, '0.52', '0.55'), row(2, '0.50', '-')]),
    );
    expect(result.text).toBe(filled([row(1, '0.52', '0.55'), row(2, '0.50', '-')]));
  });

  it('of one key that say something else both stay, the second in a block of its own', () => {
    const { text, conflicts, beside } = merge(
      base,
      filled([row(1, '0.52', '0.55')]),
      filled([row(1, '0.58', '0.55'), row(2, '0.50', '-')]),
    );
    expect({ conflicts, beside }).toEqual({ conflicts: 0, beside: 1 });
    expect(text).toBe(`${filled([row(1, '0.52', '0.55'), row(2, '0.50', '-')])}
readings KQ-OPS-B3 {
  setup       MM-1
  tested      2026-03-14
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A
${row(1, '0.58', '-')}
}
`);
  });

  it('who signed the same table stay each under their own name and day', () => {
    const { text, conflicts, beside } = merge(
      base,
      signed(
        filled([row(1, '0.52', '0.55'), row(2, '0.50', '0.51')]),
        '2026-03-14 09:00',
        'R. Vale',
      ),
      signed(filled([row(2, '0.63', '0.64'), row(3, '0.61', '-')]), '2026-03-15 09:00', 'T. Holm'),
    );
    expect({ conflicts, beside }).toEqual({ conflicts: 0, beside: 1 });
    expect(attempts(text)).toEqual([
      '1 A>B, attempt 1, 0.52, R. Vale, pass, stands',
      '1 B>A, attempt 1, 0.55, R. Vale, pass, stands',
      '2 A>B, attempt 1, 0.50, R. Vale, pass',
      '2 A>B, attempt 2, 0.63, T. Holm, pass, stands',
      '2 B>A, attempt 1, 0.51, R. Vale, pass',
      '2 B>A, attempt 2, 0.64, T. Holm, pass, stands',
      '3 A>B, attempt 1, 0.61, T. Holm, pass, stands',
    ]);
  });

  it('in one table stay there where one of them wrote a note above', () => {
    const noted = (text: string) =>
      text.replace(
        '  values      loss in dB',
        '  note        "wind force 8"\n  values      loss in dB',
      );
    const result = merge(
      base,
      filled([row(1, '0.52', '0.55')]),
      noted(filled([row(3, '0.61', '-')])),
    );
    expect(result).toEqual({
      text: noted(filled([row(1, '0.52', '0.55'), row(3, '0.61', '-')])),
      conflicts: 0,
      beside: 0,
    });
  });

  it('stand under the column that one of them added', () => {
    const remarked = base
      .replace('850 nm B>A\n', '850 nm B>A, remark\n')
      .replace(row(2, '-', '-'), row(2, '0.50', '0.51', '"stiff"'));
    const { text, conflicts, beside } = merge(base, filled([row(1, '0.52', '0.55')]), remarked);
    expect({ conflicts, beside }).toEqual({ conflicts: 0, beside: 0 });
    expect(text).toBe(remarked.replace(/^ {2}1 .*$/mu, '  1          0.52         0.55  -'));
    expect(merge(base, remarked, filled([row(1, '0.52', '0.55')])).conflicts).toBe(0);
  });

  it('do not stand twice where both gave the table other columns', () => {
    const timed = (text: string) =>
      text
        .replace('850 nm B>A\n', '850 nm B>A, time\n')
        .replace(/^ {2}([34]) .*$/gmu, '  $1          0.71         0.72         09:30');
    const byWhom = (text: string) =>
      text
        .replace('850 nm B>A\n', '850 nm B>A, by\n')
        .replace(/^ {2}([34]) .*$/gmu, '  $1          0.81         0.82         "T. Holm"');
    const old = signed(filled([row(1, '0.52', '0.55')]), '2026-03-14 09:00 to 10:00', 'R. Vale');
    const { text, conflicts } = merge(old, timed(old), byWhom(old));
    expect(conflicts).toBe(0);
    expect(text.match(/0\.52/gu)).toHaveLength(1);
    expect(text.match(/0\.7[12]/gu)).toHaveLength(4);
    expect(text.match(/0\.8[12]/gu)).toHaveLength(4);
  });

  it('in blocks that both appended all stay, ours first', () => {
    const { text, conflicts } = merge(
      base,
      appended('2026-03-14', 'R. Vale', row(1, '0.52', '0.55')),
      appended('2026-03-15', 'T. Holm', row(1, '0.58', '0.59'), row(2, '0.50', '0.51')),
    );
    expect(conflicts).toBe(0);
    expect(attempts(text)).toEqual([
      '1 A>B, attempt 1, 0.52, R. Vale, pass',
      '1 A>B, attempt 2, 0.58, T. Holm, pass, stands',
      '1 B>A, attempt 1, 0.55, R. Vale, pass',
      '1 B>A, attempt 2, 0.59, T. Holm, pass, stands',
      '2 A>B, attempt 1, 0.50, T. Holm, pass, stands',
      '2 B>A, attempt 1, 0.51, T. Holm, pass, stands',
    ]);
  });

  it('in one block that both appended stand once', () => {
    const same = appended('2026-03-14', 'R. Vale', row(1, '0.52', '0.55'));
    expect(merge(base, same, same).text).toBe(same);
  });

  it('in rows that both appended to one block all stay', () => {
    const one = filled([row(4, '-', '-')]).replace(/\}\n$/u, `${row(1, '0.52', '0.55')}\n}\n`);
    const two = filled([row(4, '-', '-')]).replace(/\}\n$/u, `${row(2, '0.50', '0.51')}\n}\n`);
    const { text, conflicts } = merge(base, one, two);
    expect(conflicts).toBe(0);
    expect(text).toContain(`${row(1, '0.52', '0.55')}\n${row(2, '0.50', '0.51')}\n}`);
  });

  it('of one row keep the name and time that each wrote behind its cells', () => {
    const timed = base
      .replace('2026-03-14\n', '2026-03-14 09:00\n')
      .replace('columns fibre, 850 nm A>B, 850 nm B>A', 'columns fibre, 850 nm A>B, 850 nm B>A, by')
      .replaceAll(/^( {2}\d.*-)$/gmu, '$1            -');
    const [ours, theirs] = [
      timed.replace(/^ {2}1 .*$/mu, '  1          0.52         -            "R. Vale"'),
      timed.replace(/^ {2}1 .*$/mu, '  1          -            0.55         "T. Holm"'),
    ];
    expect(attempts(merge(timed, ours, theirs).text)).toEqual([
      '1 A>B, attempt 1, 0.52, R. Vale, pass, stands',
      '1 B>A, attempt 1, 0.55, T. Holm, pass, stands',
    ]);
  });
});

describe('a plan that two people changed', () => {
  const change = (...pairs: (readonly [string, string])[]) =>
    pairs.reduce((text, [from, to]) => text.replace(from, to), base);

  it('takes lines that stand side by side from both', () => {
    const ours = change(['measure     850 nm', 'measure     850 nm, 1300 nm']);
    const theirs = change(['directions  both', 'directions  A>B']);
    expect(merge(base, ours, theirs)).toEqual({
      text: change(
        ['measure     850 nm', 'measure     850 nm, 1300 nm'],
        ['directions  both', 'directions  A>B'],
      ),
      conflicts: 0,
      beside: 0,
    });
  });

  it('asks for a choice at the one line that both changed', () => {
    const { text, conflicts } = merge(
      base,
      change(['100 m', '110 m'], ['0.10 dB', '0.12 dB']),
      change(['100 m', '120 m'], ['R1/A:01', 'R9/A:01']),
    );
    expect(conflicts).toBe(1);
    expect(text).toBe(
      change(
        ['0.10 dB', '0.12 dB'],
        ['R1/A:01', 'R9/A:01'],
        [
          '  segment     100 m OM4',
          '<<<<<<< ours\n  segment     110 m OM4\n=======\n  segment     120 m OM4\n>>>>>>> theirs',
        ],
      ),
    );
  });

  it('asks where one took out what the other changed', () => {
    const { text, conflicts } = merge(
      base,
      base.replace(/\nreadings[\s\S]*$/u, ''),
      filled([row(1, '0.52', '0.55')]),
    );
    expect(conflicts).toBe(1);
    expect(text).toContain('<<<<<<< ours\n=======\nreadings KQ-OPS-B3 {');
  });

  it('asks in which order two new pieces of one path come', () => {
    const ours = change(['  connector   LC\n}', '  splice      fusion\n  connector   LC\n}']);
    const theirs = change(['  connector   LC\n}', '  segment     5 m OM4\n  connector   LC\n}']);
    expect(merge(base, ours, theirs).conflicts).toBe(1);
  });

  it('takes a line that one reformatted as the other says it', () => {
    const ours = change(['  segment     100 m OM4', ' segment 100 m    OM4']);
    const theirs = change(['100 m', '120 m']);
    expect(merge(base, ours, theirs).text).toBe(theirs);
  });

  it('follows a declaration to where one side moved it', () => {
    const blocks = base.split('\n\n');
    const ours = `${[blocks[0], blocks[2], blocks[1], blocks[3]].join('\n\n')}`;
    const theirs = change(['100 m', '120 m']);
    const moved = ours.replace('100 m', '120 m');
    expect(merge(base, ours, theirs)).toEqual({ text: moved, conflicts: 0, beside: 0 });
    expect(merge(base, theirs, ours)).toEqual({ text: moved, conflicts: 0, beside: 0 });
  });

  it('follows a link to its new name', () => {
    const ours = change(['link KQ-OPS-B3 {', 'link KQ-OPS-B7 {\n  was         KQ-OPS-B3']);
    const theirs = change(['100 m', '120 m']);
    expect(merge(base, ours, theirs).text).toBe(ours.replace('100 m', '120 m'));
  });

  it('asks where both declare one name in two ways', () => {
    const link = (length: number) =>
      `${base}\nlink KQ-OPS-B5 {\n  connector   LC\n  segment     ${length} m OM4\n  connector   LC\n}\n`;
    const { text, conflicts } = merge(base, link(50), link(60));
    expect(conflicts).toBe(1);
    expect(text.match(/link KQ-OPS-B5/gu)).toHaveLength(1);
  });

  it('holds what both declared anew, and the comments above', () => {
    const ours = `${base}\n# by us\ncable C-1 {\n  length      5 m\n}\n`;
    const theirs = `${base}\n# by them\ncable C-2 {\n  length      6 m\n}\n`;
    expect(merge(base, ours, theirs).text).toBe(
      `${ours}\n# by them\ncable C-2 {\n  length      6 m\n}\n`,
    );
  });

  it('holds rows of both in a table of links, and asks where both changed one cell', () => {
    const table =
      'links as leaf {\n  columns link, length in m\n  KQ-1            50\n  KQ-2            60\n}\n';
    const ours = table.replace('}', '  KQ-3            70\n}').replace('50', '51');
    const theirs = table.replace('}', '  KQ-4            80\n}').replace('60', '61');
    expect(merge(table, ours, theirs).text).toBe(
      'links as leaf {\n  columns link, length in m\n  KQ-1            51\n  KQ-2            61\n  KQ-3            70\n  KQ-4            80\n}\n',
    );
    expect(merge(table, ours, theirs.replace('50', '52')).conflicts).toBe(1);
  });

  it('sets a row under the column that the other side added to the table', () => {
    const table =
      'links as leaf {\n  columns link, length in m\n  KQ-1            50\n  KQ-2            60\n}\n';
    const ours =
      'links as leaf {\n  columns link,   length in m, limits\n  KQ-1            50           KQ-OWNER\n  KQ-2            60           -\n}\n';
    const theirs = table.replace('60', '61').replace('}', '  KQ-3            70\n}');
    expect(merge(table, ours, theirs).text).toBe(
      'links as leaf {\n  columns link,   length in m, limits\n  KQ-1            50           KQ-OWNER\n  KQ-2            61  -\n  KQ-3            70  -\n}\n',
    );
  });

  it.each(['\r\n', '\r'])('keeps its line ends %j and its mark', (end) => {
    const as = (text: string) => `\uFEFF${text.replaceAll('\n', end)}`;
    const [ours, theirs] = [change(['0.10 dB', '0.12 dB']), change(['100 m', '120 m'])];
    expect(merge(as(base), as(ours), as(theirs)).text).toBe(as(merge(base, ours, theirs).text));
  });

  it('takes the line ends that one side gave it', () => {
    const ours = base.replaceAll('\n', '\r\n');
    const theirs = change(['100 m', '120 m']);
    expect(merge(base, ours, theirs).text).toBe(theirs.replaceAll('\n', '\r\n'));
  });

  it('that both began from nothing holds what both have once', () => {
    const { text, conflicts } = merge('', base, `${base}\ncable C-2 {\n  length      6 m\n}\n`);
    expect(conflicts).toBe(0);
    expect(text).toBe(`${base}\ncable C-2 {\n  length      6 m\n}\n`);
  });
});
