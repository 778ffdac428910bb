/** Reads are reported, what was built is kept while they hold, and names had before still find. */
import { describe, expect, test } from 'vitest';
import { buildLink, evidenceOf, nearestSpelling, scopeOf } from '../../server/src/model/api.ts';
import { declareText, planOf, planOfBlocks } from './plan.ts';

const path = 'fibres      1..2\n  connector   LC\n  segment     C-1 fibres 1..2\n  connector   LC';
const cable = 'cable C-1 {\n  fibre       MY-FIBRE\n  count       24\n  length      5 m\n}\n';
const fibre = 'fibre MY-FIBRE {\n  like        OM4\n}\n';
const plan = 'plan "P" {\n  client      "A"\n  measure     850 nm\n}\n';
const link = `link KQ-1 {\n  ${path}\n}\n`;

function declared(...texts: readonly string[]) {
  return texts.map((text) => declareText(text).declared);
}

describe('reads', () => {
  test('are of the names and plan fields that a link is built from, and no others', () => {
    const { reads, link: linkOf } = planOf(plan, fibre, cable, link);
    linkOf('KQ-1');
    for (const read of [
      'object C-1',
      'fibre MY-FIBRE',
      'fibre OM4',
      'connector LC',
      'plan measure',
      'plan limits',
    ]) {
      expect(reads).toContain(read);
    }
    expect(reads).not.toContain('plan client');
    expect(
      [...reads].filter((read) => read.startsWith('evidence') || read.startsWith('names')),
    ).toEqual([]);
  });

  test('are reported again when the answer was kept', () => {
    const first = planOf(plan, fibre, cable, link);
    const built = buildLink(first.declaration('KQ-1'), first.scope);
    const again: string[] = [];
    const scope = scopeOf(first.names, (kind, name) => again.push(`${kind} ${name}`));
    expect(buildLink(first.declaration('KQ-1'), scope)).toBe(built);
    expect(new Set(again)).toEqual(first.reads);
  });
});

describe('a link is built again', () => {
  const blocks = declared(plan, fibre, cable, link);
  const before = planOfBlocks(blocks).link('KQ-1');
  /** The link after the block of that number got another text. */
  const edited = (index: number, text: string) => {
    const changed = declareText(text, { previous: blocks[index] }).declared;
    return planOfBlocks(blocks.with(index, changed)).link('KQ-1');
  };

  test('when the cable of it, or the fibre of that, is another', () => {
    expect(edited(2, cable.replace('5 m', '6 m'))).not.toBe(before);
    expect(edited(1, fibre.replace('OM4', 'OM3'))).not.toBe(before);
  });

  test('not when what it does not read is another', () => {
    const now = planOfBlocks(blocks).link('KQ-1');
    expect(edited(0, plan.replace('"A"', '"Another"'))).toBe(now);
    expect(edited(2, `# remark\n${cable}`)).toBe(now);
  });

  test('when a name that it did not find is declared', () => {
    const missing = planOfBlocks(declared(plan, cable, link)).link('KQ-1');
    expect(missing.path[1]).toMatchObject({ fibreName: 'MY-FIBRE', fibre: undefined });
    const withoutFibre = blocks.filter((_, index) => index !== 1);
    planOfBlocks(withoutFibre).link('KQ-1');
    const found = planOfBlocks(blocks).link('KQ-1');
    expect(found.path[1]).toMatchObject({ fibre: { name: 'MY-FIBRE' } });
  });
});

describe('names had before', () => {
  const text = `link KQ-NEW {
  was         KQ-OLD
  ${path}
}
setup S-NEW {
  was         S-OLD
  reference   one-cord
}
readings KQ-OLD {
  setup       S-OLD
  tested      2026-03-14
  values      loss in dB sign negative
  columns fibre,  850 nm A>B, time
  1               -1.1        -
  2               0           2026-03-15 00:10
}
`;

  test('keep their evidence, under the name of now', () => {
    const named = planOf(fibre, cable, text);
    expect(named.findings()).toEqual([]);
    const { readings } = evidenceOf('KQ-NEW', named.scope);
    expect(readings.map(({ object, setup, loss }) => [object, setup, loss])).toEqual([
      ['KQ-NEW', 'S-NEW', 1_100_000],
      ['KQ-NEW', 'S-NEW', 0],
    ]);
    // A day without a time is anywhere within it; a row after midnight carries its date.
    expect(readings[0]!.at.to - readings[0]!.at.from).toBe(24 * 60 - 1);
    expect(readings[1]!.at.text).toBe('2026-03-15 00:10');
  });

  test('but not where something else has that name now', () => {
    const named = planOf(fibre, cable, text, link.replace('KQ-1', 'KQ-OLD'));
    expect(evidenceOf('KQ-NEW', named.scope).readings).toEqual([]);
    expect(evidenceOf('KQ-OLD', named.scope).readings).toHaveLength(2);
  });
});

test('two directions with two set-ups, an absence with its reason', () => {
  const named = planOf(
    fibre,
    cable,
    link,
    `readings KQ-1 {
  setup       S-A A>B
  setup       S-B B>A
  tested      2026-03-14 23:50 to 2026-03-15 00:30 by "R. Vale"
  values      loss in dB
  columns fibre,  850 nm A>B, 850 nm B>A, by,             remark
  1               1.1         1.2         "T. Holm"
  2               -           1.3         -               "far end locked"
}
`,
  );
  const { readings, absences } = evidenceOf('KQ-1', named.scope);
  expect(readings.map(({ fibre: number, setup, by }) => [number, setup, by])).toEqual([
    [1, 'S-A', 'T. Holm'],
    [1, 'S-B', 'T. Holm'],
    [2, 'S-B', 'R. Vale'],
  ]);
  expect(readings[0]!.at.to - readings[0]!.at.from).toBe(40);
  expect(absences).toMatchObject([{ fibre: 2, direction: 'A>B', remark: 'far end locked' }]);
});

test('the nearest spelling is at most a third of the letters away', () => {
  expect(nearestSpelling('OM44', ['OM3', 'OM4', 'OS2'])).toBe('OM4');
  expect(nearestSpelling('TIA-568-E', ['TIA-568.3-E', 'ISO-11801-1'])).toBe('TIA-568.3-E');
  expect(nearestSpelling('lc', ['SC', 'LC'])).toBe('LC');
  expect(nearestSpelling('tial', ['tail', 'hall'])).toBe('tail');
  expect(nearestSpelling('KQ-GLSAS', ['KQ-GALSS', 'KQ-GLASS'])).toBe('KQ-GLASS');
  expect(nearestSpelling('ab', ['cd', 'xy'])).toBeUndefined();
  expect(nearestSpelling('KQ-300', ['SP-1', 'HALL-1'])).toBeUndefined();
});
