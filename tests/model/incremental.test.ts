/**
 * Whatever is typed, a plan declared edit by edit says the same, at the same
 * places, as one read afresh. Random edits of real blocks, the same in every run.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { splitBlocks } from '../../grammar/src/blocks.ts';
import type { BlockDeclarations } from '../../server/src/model/api.ts';
import { evidenceOf, planSettings } from '../../server/src/model/api.ts';
import '../laws/runs.ts';
import { declareText, planOfBlocks } from './plan.ts';

const text = `plan "Quay" {
  limits      TIA-568.3-E
  measure     850 nm, 1300 nm for multimode
  client      "Harbour"
}
cable C-1 {
  fibre       MINE
  count       24 tubes 2
  length      142 m
}
fibre MINE {
  like        OM4
  attenuation 850 nm max 2.7 dB/km
}
pattern leaf {
  fibres      1..2
  connector   LC
  segment     <length> MINE
  connector   LC
}
links "Leaves" as leaf {
  carries     10GBASE-SR
  columns link,   from,           length in m
  L-1             A:01..02        23
  L-2             A:03..04        24
  L-3             A:05..06        25
}
link KQ-1 "One" {
  was         KQ-0
  from        B:01..12
  connector   LC
  segment     C-1 fibres 1..12
  splice      fusion
  as          leaf length 5 m
}
channel X {
  cord        3 m OM4 crossed
  link        KQ-1 fibres 1..2
  link        L-1 turned
  carries     10GBASE-SR
}
setup S {
  reference   one-cord
  taken       2026-03-14 08:10 850 nm -20.05 dBm
}
readings {
  setup       S
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns link,   fibre,  850 nm A>B, 850 nm B>A, remark
  KQ-0              1       1.12        1.15
  L-1               1       0.31        -             "locked"
  KQ-1              2       0.84        dark
}
work L-1 {
  done        cleaned
  on          2026-03-15
}
events {
  setup       S
  tested      2026-03-16 09:05
  values      loss in dB
  columns link,  fibre,  at in m,  kind,  850 nm A>B, 850 nm B>A
  KQ-1              1       142      splice          0.05   0.07
  L-1               1       23       end             -      -
}
inspection KQ-1 {
  tested      2026-03-16
  criterion   "clause 9"
  columns fibre, A,     B
  1              pass   cleaned
}
`;

/** All that a plan of these blocks says, block ids replaced by the block's number. */
function told(blocks: readonly BlockDeclarations[]): string {
  const number = new Map(blocks.map(({ block }, index) => [block, index]));
  const plan = planOfBlocks(blocks);
  const objects = ['KQ-1', 'L-1', 'L-2', 'L-3', 'X'];
  const links = objects.flatMap((name) => {
    const [declaration] = plan.names.declared('object', name);
    const isLink = declaration?.kind === 'link' || declaration?.kind === 'channel';
    return isLink ? plan.link(name) : [];
  });
  const setups = plan.names.declared('setup', 'S').map(() => plan.setup('S'));
  const evidence = objects.map((name) => evidenceOf(name, plan.scope));
  const all = {
    links,
    setups,
    evidence,
    settings: planSettings(plan.scope),
    findings: plan.findings(),
  };
  return JSON.stringify(all, (key, value) =>
    key === 'block' ? (number.get(value) ?? 'library') : value,
  );
}

const edit = fc.record({
  block: fc.nat(),
  at: fc.nat(),
  remove: fc.nat({ max: 4 }),
  insert: fc.oneof(
    fc.constantFrom('', ' ', '\n', '1', '2', 'x', '-', ',', '{', '}', '"', '# ', '1..4', ' 5 m'),
    fc.constantFrom('  note        "x"\n', 'KQ-1', 'OM3', 'leaf', 'turned', 'dark', '0.5'),
  ),
});

test('edits one after another, against reading afresh', () => {
  fc.assert(
    fc.property(fc.array(edit, { minLength: 1, maxLength: 6 }), (edits) => {
      const texts = splitBlocks(text);
      let blocks = texts.map((each) => declareText(each).declared);
      told(blocks);
      for (const { block, at, remove, insert } of edits) {
        const index = block % texts.length;
        const before = texts[index]!;
        const start = at % (before.length + 1);
        texts[index] = before.slice(0, start) + insert + before.slice(start + remove);
        const changed = declareText(texts[index], { previous: blocks[index] }).declared;
        blocks = blocks.with(index, changed);
        expect(told(blocks)).toBe(told(texts.map((each) => declareText(each).declared)));
      }
    }),
  );
}, 300_000);
