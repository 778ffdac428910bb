/** Fibres of cables under the pointer: where one lies, its colour, its ports; and back from a colour. */
import { describe, expect, it } from 'vitest';
import { completion } from '../../server/src/features/completion.ts';
import { hover } from '../../server/src/features/hover.ts';
import { inlayHints } from '../../server/src/features/inlay-hints.ts';
import { answer, ask } from '../support/ask.ts';

const plan = `plan "Outside plant" {
  limits      TIA-568.3-E
  measure     1310 nm
  directions  A>B
  reference   one-cord
}

cable OSP-1 {
  fibre       G.652.D
  count       96 tubes 8
  colours     TIA-598
  slack       30 m at CL-1
  reel        R-01 13.8 kft
  splice      fusion at CL-1
  reel        R-02 4185 m
}

link KQ-1 {
  from        CORE/O2:01..04
  to          NORTH:01..04
  connector   SC
  segment     OSP-1 fibres 49..52 reels R-01
  connector   SC
}

setup SM-1 {
  reference   one-cord
  source      "S-4" laser
  meter       "M-5" floor -70 dBm
  cord        TC-7 launch SC G.652.D reference-grade
  cord        TC-8 receive SC G.652.D reference-grade verified 0.10 dB
  taken       2026-03-14 08:20 1310 nm -3.10 dBm
}

readings KQ-1 {
  setup       SM-1
  tested      2026-03-14 09:05
  values      loss in dB
  columns fibre, 1310 nm A>B
  1             1.91
  3             1.95
}
`;

const said = (text: string): string => {
  const found = answer(hover, ask(text));
  return found && 'value' in (found.contents as object)
    ? (found.contents as { value: string }).value
    : '';
};
const at = (before: string) => plan.replace(before, `${before}$0`);

describe('hover', () => {
  it('over fibres of a segment: tube, colour, ports', () => {
    const text = said(at('segment     OSP-1 fibres 49'));
    expect(text).toContain(
      '| fibre 2 | OSP-1 fibre 50 | tube 5 (slate), fibre 2 in it (orange) | CORE/O2:02 to NORTH:02 |',
    );
    expect(text).toContain('TIA-598-C');
  });

  it('over the fibre of a reading', () => {
    const text = said(plan.replace('  3             1.95', '  3$0             1.95'));
    expect(text).toContain('**KQ-1 fibre 3**');
    expect(text).toContain('OSP-1 fibre 51: tube 5 (slate), fibre 3 in it (green)');
    expect(text).toContain('CORE/O2:03 to NORTH:03');
  });

  it('over the fibre of a trace, and of a table that names the link in its rows', () => {
    const trace = `${plan}
setup OT-1 {
  otdr        "T-2"
}

events {
  setup       OT-1
  tested      2026-03-15 08:40 by "T. Holm"
  values      loss in dB
  columns link,   fibre, at in km, kind, 1310 nm A>B
  KQ-1              4$0   4.212      splice   0.14
}
`;
    expect(said(trace)).toContain('OSP-1 fibre 52: tube 5 (slate), fibre 4 in it (brown)');
  });

  it('over a reel of a segment', () => {
    expect(said(at('reels R-0'))).toBe(
      '**R-01** of OSP-1: 13.8 kft + slack 30 m, then a splice at CL-1',
    );
  });

  it('says no colour where the cable names no order', () => {
    const text = said(at('segment     OSP-1 fibres 49').replace('  colours     TIA-598\n', ''));
    expect(text).toContain('names no order of colours');
    expect(text).toContain('tube 5, fibre 1 in it |');
  });

  it('says tracers where the order does, and nothing beyond it', () => {
    const one = at('segment     OSP-1 fibres 49');
    expect(said(one.replace('tubes 8', 'tubes 4'))).toContain('fibre 1 in it (blue)');
    expect(said(one.replace('count       96 tubes 8', 'count       96 tubes 3'))).toContain(
      'tube 2 (orange), fibre 20 in it (black, yellow tracer)',
    );
    expect(said(one.replace('count       96 tubes 8', 'count       96'))).toContain(
      '| fibre 49 | ',
    );
  });

  it('over a cable: its reels as they were written, their sum, what is free', () => {
    const text = said(at('segment     OSP-'));
    expect(text).toContain('96 fibres in 8 tubes, 8421.24 m');
    expect(text).toContain('R-01 13.8 kft + R-02 4185 m + slack 30 m; 1 splice between reels');
    expect(text).toContain('92 of 96 fibres are free');
  });

  it('over a colour: where it stands', () => {
    const text = said(`${plan}
colours QUAY {
  tubes       blue, orange
  fibres      green$0, blue
}
`);
    expect(text).toContain('**green**: fibre 1 in QUAY; fibre 3 and tube 3 in TIA-598');
  });
});

it('completion offers the colours that orders have', () => {
  const list = answer(
    completion,
    ask(`${plan}
colours QUAY {
  fibres      $0
}
`),
  );
  expect(list?.items.map(({ label }) => label)).toContain('violet');
});

it('completion offers the reels of the cable on the line', () => {
  const list = answer(completion, ask(plan.replace('reels R-01', 'reels $0')));
  expect(list?.items.map(({ label, detail }) => `${label} ${detail}`)).toEqual(
    expect.arrayContaining(['R-01 13.8 kft', 'R-02 4185 m']),
  );
});

it('a hint at a cable of reels says its length', () => {
  const hints = answer(inlayHints, ask(plan), {
    range: { start: { line: 0, character: 0 }, end: { line: 60, character: 0 } },
  });
  const labels = hints.map(({ label }) => String(label));
  expect(labels.join('\n')).toContain('8421.24 m in 2 reels');
});
