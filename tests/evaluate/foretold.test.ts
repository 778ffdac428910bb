/**
 * A channel foretold from readings of its links: they may refuse it as well as
 * bear it, by too much loss or too little. Rows whose terms hold together are
 * those of IEEE 802.3 tables; least losses are asked of 10GBASE-ER there (5 dB,
 * by an equipment manual). Readings and figures are ours.
 */
import { describe, expect, it } from 'vitest';
import { doubt, doubts, judged } from '../published/judged.ts';

const channel = (readings: string, more = '', reach = '40 km', taken = '', also = '') =>
  judged(`plan "Foretold" {
  limits      SET
  measure     1550 nm
  reference   one-cord
  uncertainty 0.20 dB
}

fibre GLASS {
  mode        single-mode core 9 um
  attenuation 1550 nm min 0.18 dB/km max 0.40 dB/km
}

connector PAIR {
  loss        max 0.75 dB
}

component PAD {
  loss        min 4.5 dB max 5.5 dB
}

limits SET {
  edition     "ours"
  policy      counting
  fibre       GLASS 1550 nm 0.40 dB/km
  connector   any 0.75 dB
  basis       "ours" read
}

application FAR {
  count       2
  wavelength  1550 nm
  fibre       GLASS reach ${reach} loss 11 dB min 5 dB
}

setup ONE {
  reference   one-cord
  source      "S1" laser
  meter       "M1" floor -60 dBm
  cord        L1 launch PAIR GLASS ordinary
  cord        R1 receive PAIR GLASS ordinary verified 0.1 dB
  taken       2026-03-14 08:00 1550 nm -5.10 dBm
}

link KQ-1 {
  fibres      1..2
  connector   PAIR
  segment     20 km GLASS
  connector   PAIR
}

channel CH-1 {
  cord        10 m GLASS crossed
  link        KQ-1
${more}  cord        10 m GLASS straight
  carries     FAR${taken}
}

readings KQ-1 {
  setup       ONE
  tested      2026-03-14 08:30 by "R. Vale"
  values      loss in dB
  columns fibre, 1550 nm A>B, 1550 nm B>A
${readings}}
${also}`).link('CH-1');

describe('a channel whose links were read', () => {
  it('is borne by losses between the least and the most that are allowed', () => {
    const result = channel('  1  5.2  5.3\n  2  5.2  5.1\n');
    // 5.3 + 0.02 · 0.40
    expect(result.applications[0]).toMatchObject({
      support: 'predicted',
      because: expect.stringContaining('5.308 dB at most'),
    });
  });

  it('is refused where they lose too little: 4.1 + 0.02 · 0.18 = 4.1036 of 5', () => {
    const result = channel('  1  4.1  5.3\n  2  5.2  5.1\n');
    expect(result.applications[0]).toMatchObject({
      support: 'not supported',
      because: '4.104 dB at the least, from the readings of its links',
    });
    expect(doubt(result, 'application-loss-too-low')).toMatchObject({
      wanted: 5,
      least: 4.1036,
      under: 0.8964,
      from: 'reading',
    });
    expect(doubts(result)).not.toContain('application-loss-exceeded');
    // Of several that are too little the least is told, whichever was read first.
    for (const rows of ['  1  4.3  5.3\n  2  4.1  5.1\n', '  1  4.1  5.3\n  2  4.3  5.1\n']) {
      expect(channel(rows).applications[0]?.because).toContain('4.104 dB at the least');
    }
  });

  it('of two links that share a port may lose less than both readings by the pair of it', () => {
    const two = (first: string, second: string, between = '') =>
      channel(
        `  1  ${first}  ${first}\n  2  ${first}  ${first}\n`,
        `${between}  link        KQ-2\n`,
        '100 km',
        '',
        `link KQ-2 {
  fibres      1..2
  connector   PAIR
  segment     10 km GLASS
  connector   PAIR
}

readings KQ-2 {
  setup       ONE
  tested      2026-03-14 08:50 by "R. Vale"
  values      loss in dB
  columns fibre, 1550 nm A>B, 1550 nm B>A
  1  ${second}  ${second}
  2  ${second}  ${second}
}
`,
      ).applications[0];
    // 3.6 + 2.1 dB, of which a pair of 0.75 dB may have been read twice, and 20 m of cord.
    expect(two('3.6', '2.1')?.because).toBe(
      '4.954 dB at the least, from the readings of its links',
    );
    // It can lose no more than either of them.
    expect(two('4.6', '0.3')?.because).toContain('4.604 dB at the least');
    // A cord between them has a pair at either end.
    expect(two('3.6', '2.1', '  cord        10 m GLASS straight\n')?.support).toBe('predicted');
  });

  it('is put right by an attenuator, at its least: 4.1 + 4.5 + 0.0036', () => {
    const pad = '  component   PAD\n';
    expect(channel('  1  4.1  4.2\n  2  4.2  4.1\n', pad).applications[0]?.support).toBe(
      'predicted',
    );
    // At its least it would be 4.9036 with 0.4 dB of link.
    expect(channel('  1  0.4  0.5\n  2  0.5  0.4\n', pad).applications[0]).toMatchObject({
      support: 'not supported',
      because: '4.904 dB at the least, from the readings of its links',
    });
  });

  it('is refused where one loses too much, though by design it would not', () => {
    const result = channel('  1  11.2  5.3\n  2  5.2  5.1\n');
    expect(result.applications[0]).toMatchObject({
      support: 'not supported',
      because: expect.stringContaining('11.208 dB at most, from the readings of its links'),
    });
    expect(doubt(result, 'application-loss-exceeded')).toMatchObject({ loss: 11.208, limit: 11 });
  });

  it('is refused for its length alone where no row reaches that far, whatever was read', () => {
    for (const readings of ['  1  5.2  5.3\n  2  5.2  5.1\n', '  1  11.2  5.3\n  2  5.2  5.1\n']) {
      const result = channel(readings, '', '20 km');
      expect(result.applications[0]?.support).toBe('not supported');
      expect(doubts(result)).toContain('reach-exceeded');
      expect(doubts(result)).not.toContain('application-loss-exceeded');
    }
  });

  it('is held against every row that reaches, whatever its others say', () => {
    const row = '\n  fibre       GLASS reach ';
    const answer = (readings: string, rows: string) => channel(readings, '', rows).applications[0];
    const both = (loss: number) => `  1  ${loss}  ${loss}\n  2  ${loss}  ${loss}\n`;
    // By design it loses 8.0 dB of fibre, 1.5 dB of pairs and 0.008 dB of cords.
    const openRow = `10 km loss 20 dB\n  fibre       GLASS loss 12 dB${row}1 km`;
    expect(answer(both(11.5), openRow)).toMatchObject({
      support: 'predicted',
      row: 'GLASS, 12 dB',
    });
    expect(answer(both(12.5), openRow)).toMatchObject({
      support: 'not supported',
      because: expect.stringContaining('from the readings of its links'),
    });
    // 20 km and 20 m are just reached.
    const justReached = `20.02 km loss 11 dB${row}1 km`;
    expect(answer(both(10), justReached)?.support).toBe('predicted');
    expect(answer(both(11.2), justReached)?.because).toContain('from the readings of its links');
    // Each reading keeps a row, though no row keeps both: then the design answers.
    const apart = `40 km loss 20 dB min 5 dB${row}40 km loss 11 dB${row}1 km`;
    expect(answer('  1  12  12\n  2  4.1  4.1\n', apart)).toMatchObject({
      support: 'by design',
      row: 'GLASS, 40 km, 11 dB',
    });
  });

  it('has its connections within its readings, whatever a row allows for them', () => {
    const rows = '40 km connections 0.5 dB';
    expect(channel('  1  5.2  5.3\n  2  5.2  5.1\n', '', rows).applications[0]?.support).toBe(
      'predicted',
    );
  });

  it('is foretold where every fibre was read, and not by one alone', () => {
    expect(channel('  1  5.2  5.3\n').applications[0]?.support).toBe('not supported');
    expect(channel('  1  5.2  -\n  2  -  5.1\n').applications[0]?.support).toBe('predicted');
  });

  it('is not foretold for fibres that it does not have', () => {
    const result = channel('  1  5.2  5.3\n  2  5.2  5.1\n', '', '40 km', ' fibres 7..8');
    expect(result.applications[0]?.support).not.toBe('predicted');
  });

  it('is refused by one reading, whatever else is missing', () => {
    expect(channel('  1  11.2  -\n').applications[0]?.support).toBe('not supported');
    expect(channel('  1  4.1  -\n').applications[0]?.support).toBe('not supported');
  });
});
