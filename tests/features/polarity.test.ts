/** Where light comes out, beside the text and under the pointer. */
import { expect, test } from 'vitest';
import { hover } from '../../server/src/features/hover.ts';
import { inlayHints } from '../../server/src/features/inlay-hints.ts';
import { answer, ask } from '../support/ask.ts';

const text = `plan "P" {
  limits      TIA-568.3-E
  measure     850 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
}

component CASSETTE {
  joins       MPO-12 to LC
  map         straight
  loss        max 0.75 dB
}

link KQ-T {
  from        OPS/R1/A:01..12
  to          ROW/R2/B:01..12
  component   CASSETTE
  segment     60 m OM4 map reversed
  component   CASSETTE
}

channel KQ-C {
  cord        2 m OM4 crossed
  link        KQ-T fibres 1..2 to 11..12
  cord        2 m OM4 crossed
  carries     10GBASE-SR
}

setup ONE {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -60 dBm
  cord        L1 launch LC OM4 reference-grade
  cord        R1 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:00 850 nm -20.05 dBm
}

readings KQ-T {
  setup       ONE
  tested      2026-03-14 09:00
  values      loss in dB
  columns fibre, 850 nm A>B
  1       1.12
  7       1.08
}
`;

const everywhere = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };

const shown = (marked: string) => JSON.stringify(answer(hover, ask(marked)));

test('a row says the port where light comes out, if it is not the one of its number', () => {
  const hints = answer(inlayHints, ask(text), { range: everywhere });
  const rows = hints.map(({ label }) => String(label)).filter((label) => label.includes(' to B:'));
  expect(rows).toEqual([expect.stringContaining('to B:12'), expect.stringContaining('to B:06')]);
});

test('no row says a port that bears its number', () => {
  const straight = text.replace(' map reversed', '').replace(' to 11..12', '');
  const hints = answer(inlayHints, ask(straight), { range: everywhere });
  expect(hints.map(({ label }) => String(label)).join()).not.toContain('B:');
});

test('a link tells its map in words', () => {
  expect(shown(text.replace('link KQ-T {', 'link KQ-$0T {'))).toContain(
    'places from A to B: 1 -> 12, 2 -> 11, 3 -> 10',
  );
});

test('a channel tells whether that is the right pair and the right side', () => {
  expect(shown(text.replace('channel KQ-C', 'channel KQ-$0C'))).toContain(
    'places from A to B: 1 -> 2, 2 -> 1: as it must be',
  );
  expect(
    shown(
      text
        .replace('crossed\n  carries', 'straight\n  carries')
        .replace('channel KQ-C', 'channel KQ-$0C'),
    ),
  ).toContain('places from A to B: straight: not as it must be');
});
