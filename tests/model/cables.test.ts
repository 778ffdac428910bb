/** Cables as links take them: reels, splices, slack, tubes, what `like` brings, and what a fibre is needed for. */
import { describe, expect, it } from 'vitest';
import { toMetres } from '../../grammar/src/quantity/index.ts';
import type { PathElement } from '../../server/src/model/types.ts';
import { findingsOf, judge, told } from '../support/judge.ts';

const plan = (more = '') => `plan "Outside plant" {
  limits      TIA-568.3-E
  measure     1310 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.2 dB
  zone        "UTC"
${more}}
`;

const long = `cable OSP-1 {
  fibre       G.652.D
  count       96 tubes 8
  slack       30 m at CL-1
  slack       12 m at R-03
  slack       5 m
  reel        R-01 4210 m marks 12..4222
  splice      fusion at CL-1
  reel        R-02 13.8 kft
  splice      fusion at CL-2
  reel        R-03 1800 m
}
`;

const link = (name: string, segment: string, more = '') => `link ${name} {
  connector   SC
  segment     ${segment}
${more}  connector   SC
}
`;

function pathOf(text: string, name = 'KQ-1') {
  const { plan: judged, findings } = judge(text);
  const result = judged.result.link(name);
  if (!result) throw new Error(told(findings).join('\n'));
  return result.link.path.slice(1, -1).map(inWords);
}

function inWords(element: PathElement): string {
  if (element.kind !== 'segment') return 'at' in element ? `${element.kind} ${element.at}` : '';
  const metres = element.length === undefined ? 'unknown' : `${toMetres(element.length)} m`;
  return [element.reel, metres].filter(Boolean).join(' ');
}

describe('a segment of a cable of reels', () => {
  it('is its reels, with the slack that lies at each, and the splices between', () => {
    expect(pathOf(plan() + long + link('KQ-1', 'OSP-1 fibres 1..2'))).toEqual([
      'R-01 4245 m',
      'splice CL-1',
      'R-02 4206.24 m',
      'splice CL-2',
      'R-03 1812 m',
    ]);
  });

  it('takes a part with the splices inside it, and only the slack that is there', () => {
    expect(pathOf(plan() + long + link('KQ-1', 'OSP-1 fibres 1..2 reels R-01..02'))).toEqual([
      'R-01 4240 m',
      'splice CL-1',
      'R-02 4206.24 m',
    ]);
  });

  it('takes it backwards where the reels are named so', () => {
    expect(pathOf(plan() + long + link('KQ-1', 'OSP-1 fibres 1..2 reels R-03, R-02'))).toEqual([
      'R-03 1812 m',
      'splice CL-2',
      'R-02 4206.24 m',
    ]);
  });

  it('is turned with its pattern', () => {
    const pattern = `pattern main {
  connector   SC
  segment     OSP-1 fibres 1..2 reels R-01..02
  connector   SC
}
link KQ-1 {
  as          main turned
}
`;
    expect(pathOf(plan() + long + pattern)).toEqual([
      'R-02 4206.24 m',
      'splice CL-1',
      'R-01 4240 m',
    ]);
  });

  it('may leave inside one reel', () => {
    const segment = 'OSP-1 fibres 1..2 reels R-01 length 900 m';
    expect(pathOf(plan() + long + link('KQ-1', segment))).toEqual(['R-01 900 m']);
  });

  it('takes all fibres of a tube', () => {
    const { plan: judged } = judge(plan() + long + link('KQ-1', 'OSP-1 tube 5'));
    const [, segment] = judged.result.link('KQ-1')!.link.path;
    expect(segment?.kind === 'segment' && segment.cableFibres).toEqual(
      Array.from({ length: 12 }, (_, index) => 49 + index),
    );
  });

  it('sums feet and metres exactly', () => {
    const result = judge(plan() + long + link('KQ-1', 'OSP-1 fibres 1..2')).plan.result;
    expect(result.link('KQ-1')?.length).toBe(10_263_240_000);
  });
});

describe('two links that take one fibre', () => {
  const both = (first: string, second: string) =>
    told(
      judge(plan() + long + link('KQ-1', first) + link('KQ-2', second)).findings.filter(
        ({ name }) => name === 'cable-fibre-used-twice',
      ),
    );

  it('contradict each other in the same reel', () => {
    expect(both('OSP-1 fibres 1..2', 'OSP-1 fibres 2..3 reels R-02')).toEqual([
      'cable-fibre-used-twice: Fibre 2 of OSP-1 is taken by KQ-1 already, and by KQ-2 here. One of the two must take another fibre.',
    ]);
  });

  it('are told once of all fibres that they share', () => {
    expect(both('OSP-1 fibres 9..12', 'OSP-1 fibres 9..11, 1')).toEqual([
      'cable-fibre-used-twice: Fibres 9..11 of OSP-1 are taken by KQ-1 already, and by KQ-2 here. One of the two must take other fibres.',
    ]);
  });

  it('share nothing in different reels', () => {
    expect(both('OSP-1 fibres 1..2 reels R-01', 'OSP-1 fibres 1..2 reels R-02..03')).toEqual([]);
  });
});

describe('like', () => {
  const twin = `cable OSP-2 {
  like        OSP-1
  count       48 tubes 4
  length      900 m
}
`;

  it('brings what a cable is, never its reels, splices and repairs', () => {
    const text = plan() + long + twin + link('KQ-1', 'OSP-2 fibres 1..2');
    expect(pathOf(text)).toEqual(['947 m']);
    expect(told(judge(text).findings).filter((line) => /reel/u.test(line))).toEqual([]);
  });

  it('a length of the other is not this one’s, where it has reels', () => {
    const reeled = `cable OSP-3 {
  like        OSP-2
  reel        R-01 500 m
}
`;
    const text = plan() + long + twin + reeled + link('KQ-1', 'OSP-3 fibres 1..2');
    expect(pathOf(text)).toEqual(['R-01 547 m']);
  });
});

describe('spares of a cable', () => {
  const found = (text: string) => told(judge(text).findings.filter(isSpares));
  const isSpares = ({ name }: { name: string }) => name === 'spares-below-wanted';
  const cable = long.replace('count       96 tubes 8', 'count       12');
  const wanted = plan('  spares      20 %\n');

  it('counts what links take, in whichever reel', () => {
    const text =
      wanted +
      cable +
      link('KQ-1', 'OSP-1 fibres 1..9 reels R-01') +
      link('KQ-2', 'OSP-1 fibres 9..10 reels R-02');
    expect(found(text)).toEqual([
      'spares-below-wanted: 2 of the 12 fibres of OSP-1 are free, and the plan wants 20 %, 3 of them. Take a larger cable, or leave fibres to another one.',
    ]);
  });

  it('does not count what a link keeps as a spare, unless it is dead', () => {
    const segment = 'OSP-1 fibres 1..10';
    expect(found(wanted + cable + link('KQ-1', segment, '  spare       10\n'))).toEqual([]);
    const dead = '  spare       10\n  dead        10 because "crushed"\n';
    expect(found(wanted + cable + link('KQ-1', segment, dead))).toHaveLength(1);
  });

  it('follows an edit of a link in another file', () => {
    const files = { 'plan.lwl': `${wanted}include "links.lwl"\n${cable}` };
    const { project, plan: judged } = judge({
      ...files,
      'links.lwl': link('KQ-1', 'OSP-1 fibres 1..9'),
    });
    expect(findingsOf(judged).filter(isSpares)).toEqual([]);
    project.open('file:///site/links.lwl', 1, link('KQ-1', 'OSP-1 fibres 1..11'));
    expect(findingsOf(judged).filter(isSpares)).toHaveLength(1);
    project.open('file:///site/links.lwl', 2, link('KQ-1', 'OSP-1 fibres 1..8'));
    expect(findingsOf(judged).filter(isSpares)).toEqual([]);
  });
});

describe('a cable that evidence names', () => {
  const setup = `setup SM-1 {
  reference   two-cord
  source      "S-4" laser
  meter       "M-5" floor -70 dBm
  cord        TC-7 launch SC G.652.D reference-grade
  cord        TC-8 receive SC G.652.D reference-grade
  taken       2026-03-14 08:20 1310 nm -3.10 dBm
}
`;
  const readings = (object: string) => `readings ${object} {
  setup       SM-1
  tested      2026-03-14 09:00 to 09:30
  values      loss in dB
  columns fibre, 1310 nm A>B
  1             3.90
  96            4.60
}
`;

  it('is judged as a section: its fibre and the splices between its reels', () => {
    const { plan: judged, findings } = judge(plan() + long + setup + readings('OSP-1'));
    const result = judged.result.link('OSP-1');
    expect(result?.link.kind).toBe('section');
    expect(result?.readings.map(({ fibre, verdict }) => `${fibre} ${verdict}`)).toEqual([
      '1 pass',
      '96 marginal-pass',
    ]);
    // 0.4 dB/km over 10263.24 m, two splices of 0.3 dB; no pair at its bare ends.
    const { limit } = result!.readings[0]!;
    expect(limit?.terms.map(({ role }) => role)).toEqual(['fibre', 'splice']);
    expect(String(limit?.value)).toBe('4705296000000000');
    expect(told(findings.filter(({ severity }) => severity === 'error'))).toEqual([]);
  });

  it('adds no row where none does, and nothing is untested for it', () => {
    const { plan: judged } = judge(plan() + long + link('KQ-1', 'OSP-1 fibres 1..2') + setup);
    expect(judged.result.order).toEqual(['KQ-1']);
    expect(judged.result.totals.links).toBe(1);
  });

  it('comes and goes with its evidence', () => {
    const { project, plan: judged } = judge({
      'plan.lwl': `${plan()}include "more.lwl"\n${long}${setup}`,
      'more.lwl': '\n',
    });
    const more = 'file:///site/more.lwl';
    expect(judged.result.order).toEqual([]);
    project.open(more, 1, readings('OSP-1'));
    expect(judged.result.order).toEqual(['OSP-1']);
    expect(judged.result.totals.present).toBe(0);
    project.open(more, 2, '\n');
    expect(judged.result.order).toEqual([]);
    expect(judged.result.link('OSP-1')).toBeUndefined();
  });

  it('keeps its evidence under a new name', () => {
    const renamed = long.replace('cable OSP-1 {', 'cable OSP-2026 {\n  was         OSP-1');
    const { plan: judged } = judge(plan() + renamed + setup + readings('OSP-1'));
    expect(judged.result.order).toEqual(['OSP-2026']);
    expect(judged.result.link('OSP-2026')?.readings).toHaveLength(2);
  });

  it('takes no fibres from itself', () => {
    const wanted = plan('  spares      20 %\n');
    const { findings } = judge(
      wanted + long + link('KQ-1', 'OSP-1 fibres 1..2') + setup + readings('OSP-1'),
    );
    const names = findings.map(({ name }) => name);
    expect(names).not.toContain('cable-fibre-used-twice');
    expect(names).not.toContain('spares-below-wanted');
  });
});

describe('a repair of a cable of reels', () => {
  const at = (distance: string) =>
    long.replace(
      /\}\n$/u,
      `  repair REP-1 {
    fibres      2
    ${distance}
    on          2026-03-02
    splice      fusion
    segment     20 m G.652.D
    splice      fusion
  }
}
`,
    );
  const text = (distance: string) =>
    plan() +
    at(distance) +
    link('KQ-1', 'OSP-1 fibres 1..2 reels R-01') +
    link('KQ-2', 'OSP-1 fibres 1..2 reels R-02..03') +
    link('KQ-3', 'OSP-1 fibres 3..4');
  const heldBy = (source: string) => {
    const { result } = judge(source).plan;
    return result.order.map((name) => [
      name,
      ...(result.link(name)?.link.repairs.map(({ fibres }) => fibres.join(', ')) ?? []),
    ]);
  };

  it('is held by the link that takes its fibre in its reel', () => {
    expect(heldBy(text('at          2 km'))).toEqual([['KQ-1', '2'], ['KQ-2'], ['KQ-3']]);
    expect(heldBy(text('at          9.9 km'))).toEqual([['KQ-1'], ['KQ-2', '2'], ['KQ-3']]);
  });

  it('lies by the distance along the fibre, which is longer than the sheath', () => {
    const excess = (share: string) =>
      heldBy(
        text('at          4.26 km').replace('  slack       30 m', `  ${share}\n  slack       30 m`),
      );
    expect(excess('excess      0 %')).toEqual([['KQ-1'], ['KQ-2', '2'], ['KQ-3']]);
    expect(excess('excess      1 %')).toEqual([['KQ-1', '2'], ['KQ-2'], ['KQ-3']]);
  });

  it('is held by every part where it does not say', () => {
    expect(heldBy(text('because     "not known where"'))).toEqual([
      ['KQ-1', '2'],
      ['KQ-2', '2'],
      ['KQ-3'],
    ]);
  });

  it('is held in the numbers of the link, and of a channel over it', () => {
    const channel = `channel OVER {
  cord        2 m G.652.D straight
  link        KQ-1 fibres 38
  cord        2 m G.652.D straight
}
`;
    const numbered = link('KQ-1', 'OSP-1 fibres 1..2 reels R-01', '').replace(
      '  connector',
      '  fibres      37..38\n  connector',
    );
    expect(heldBy(plan() + at('at          2 km') + numbered + channel)).toEqual([
      ['KQ-1', '38'],
      ['OVER', '1'],
    ]);
  });

  it('may stand in a link, in its own numbers', () => {
    const own = link(
      'KQ-1',
      '800 m G.652.D',
      `  repair REP-2 {
    fibres      3
    on          2026-03-02
    splice      fusion
  }
`,
    ).replace('  connector', '  fibres      3..4\n  connector');
    expect(heldBy(plan() + own)).toEqual([['KQ-1', '3']]);
  });
});
