/** The same thing under another name, in another file, written as a row, in several parts: nothing else. */
import { describe, expect, it } from 'vitest';
import { edits, said, told } from './edited.ts';
import { berth, hall } from './edits-plans.ts';

describe('another name', () => {
  it('that says which it was', () => {
    const after = said(berth, [
      'link KQ-1 "Operations room to berth 3" {',
      'link KQ-9 "Operations room to berth 3" {\n  was         KQ-1',
    ]);
    expect(told(edits(berth, after))).toEqual([
      'identity changed: name of link KQ-9: KQ-1 -> KQ-9',
    ]);
  });

  it('that says which it was, with something else said of it', () => {
    const after = said(
      berth,
      [
        'link KQ-1 "Operations room to berth 3" {',
        'link KQ-9 "Operations room to berth 3" {\n  was         KQ-1',
      ],
      ['38 m OM4', '40 m OM4'],
    );
    expect(told(edits(berth, after))).toEqual([
      'identity changed: name of link KQ-9: KQ-1 -> KQ-9',
      'medium changed: length of segment 2 of KQ-9: 38 m -> 40 m',
    ]);
  });

  it('whose evidence is still written under the former one', () => {
    const after = said(
      berth,
      [
        'link KQ-1 "Operations room to berth 3" {',
        'link KQ-9 "Operations room to berth 3" {\n  was         KQ-1',
      ],
      ['1                1.12 ', '1                1.02 '],
    );
    expect(told(edits(berth, after))).toEqual([
      'identity changed: name of link KQ-9: KQ-1 -> KQ-9',
      'evidence changed: KQ-9 fibre 1, 850 nm A>B: 1.12 dB -> 1.02 dB',
    ]);
  });

  it.each([
    ['link', 'KQ-1', 'KQ-9', 'link KQ-9'],
    ['cable', 'C-101', 'C-109', 'cable C-109'],
    ['set-up', 'MM-1', 'MM-9', 'set-up MM-9'],
    ['pattern', 'leaf-spine', 'spine-leaf', 'pattern spine-leaf'],
    ['limits', 'KQ-OWNER', 'KQ-CLIENT', 'limits KQ-CLIENT'],
    ['row', 'L01-S3', 'L01-X3', 'link L01-X3'],
  ])('of a %s, wherever it is named: evidence is neither gone nor new', (_, was, now, called) => {
    expect(told(edits(berth, said(berth, [was, now])))).toEqual([
      `identity changed: name of ${called}: ${was} -> ${now}`,
    ]);
  });

  it('is none where the old one still means something: the library has it', () => {
    const before = `${berth}\nfibre OM4 {\n  like        OM4\n  attenuation 850 nm max 2.7 dB/km\n}\n`;
    const after = said(before, ['fibre OM4 {', 'fibre QUAY-OM4 {']);
    expect(told(edits(before, after))).toEqual([
      'shared gone: fibre OM4',
      'shared new: fibre QUAY-OM4',
    ]);
  });
});

describe('where it is written', () => {
  const [plan, ...others] = berth.trimEnd().split('\n\n');

  it('in another file', () => {
    const after = {
      'plan.lwl': `${plan}\n\ninclude "links.lwl"\n\n${others.slice(0, 1).join('\n\n')}\n`,
      'links.lwl': `${others.slice(1).join('\n\n')}\n`,
    };
    const kinds = edits(berth, after).map(({ kind, form }) => `${kind} ${form}`);
    expect(kinds.filter((each) => !each.startsWith('text'))).toEqual(
      expect.arrayContaining(['identity new', 'identity moved']),
    );
    expect(kinds.every((each) => each.startsWith('identity') || each.startsWith('text'))).toBe(
      true,
    );
  });

  it('as a block of its own that says what its row said', () => {
    const after = `${said(berth, ['  L01-S2          LEAF-01:50      SPINE-2:01       24\n', ''])}
link L01-S2 {
  from        LEAF-01:50
  to          SPINE-2:01
  fibres      1..2
  connector   LC
  segment     24 m OM4
  connector   LC
  carries     10GBASE-SR
}
`;
    expect(told(edits(berth, after))).toEqual([
      'identity changed: where L01-S2 is written: row of links "Leaf to spine" -> a block of its own',
    ]);
    expect(told(edits(after, said(after, ['24 m OM4', '26 m OM4'])))).toEqual([
      'medium changed: length of segment of L01-S2: 24 m -> 26 m',
    ]);
    expect(told(edits(said(after, ['24 m OM4', '26 m OM4']), berth))).toEqual([
      'identity changed: where L01-S2 is written: a block of its own -> row of links "Leaf to spine"',
      'medium changed: length of segment of L01-S2: 26 m -> 24 m',
    ]);
  });
});

describe('one in several', () => {
  const whole = hall.slice(hall.indexOf('link KQ-OSP-N'), hall.indexOf('channel CAM'));
  const part = (name: string, ports: string, fibres: string) =>
    said(whole, ['KQ-OSP-N', name], ['01..04', ports], ['49..52', fibres]);
  const parted = said(hall, [
    whole,
    `${part('KQ-NA', '01..02', '49..50')}${part('KQ-NB', '03..04', '51..52')}`,
  ]);

  it('is found by its ports', () => {
    const [first] = edits(hall, parted);
    expect(first).toMatchObject({
      kind: 'identity',
      subject: 'KQ-OSP-N in 2 parts',
      was: 'KQ-OSP-N',
      now: 'KQ-NA, KQ-NB',
    });
    expect(first?.reach).toEqual(expect.arrayContaining(['KQ-OSP-N', 'KQ-NA', 'KQ-NB']));
  });

  it('and several in one', () => {
    const [first] = edits(parted, hall);
    expect(first).toMatchObject({ kind: 'identity', was: 'KQ-NA, KQ-NB', now: 'KQ-OSP-N' });
  });

  it('tells what else is another in a part', () => {
    const after = said(parted, [
      'splice      fusion at CL-1\n  segment     310 m',
      'splice      fusion at CL-2\n  segment     310 m',
    ]);
    const all = told(edits(hall, after));
    expect(all[0]).toBe('identity changed: KQ-OSP-N in 2 parts: KQ-OSP-N -> KQ-NA, KQ-NB');
    expect(all).toContain(
      'words changed: place of splice of 2 links, KQ-NA and KQ-NB: CL-1 -> CL-2 (2)',
    );
  });
});
