/** A plan of two links, a table of readings for it, and what becomes of a table that is imported. */
import type { Finding } from '../../server/src/checks/finding.ts';
import { type Imported, importReadings, unwatched } from '../../server/src/import/index.ts';
import { judge } from '../support/judge.ts';

/** Two measured berths, the name of one as awkward as names can be. */
export const plan = `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     850 nm, 1300 nm for multimode
  reference   one-cord
  uncertainty 0.15 dB
  adopt       TIA-568.3-E by "M. Ashdown" on 2026-02-20
}

link KQ-OPS-B3 {
  from        OPS/R2/A:01..04
  to          B3/R1/A:01..04
  connector   LC
  segment     180 m OM4
  connector   LC
}

link "KQ OPS, \\"old\\" #4" {
  from        OPS/R2/B:01..02
  to          B4/R1/A:01..02
  connector   LC
  segment     60 m OM4
  connector   LC
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.07 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
  taken       2026-03-14 08:12 1300 nm -20.31 dBm
}
`;

/** How a table is read that has one reading in a row, under `heads`. */
export const single = {
  values: { what: 'loss', unit: 'dB', sign: 'positive' },
  columns: {
    link: 'Link',
    fibre: 'Fibre',
    setup: { always: 'MM-1' },
    tested: 'Tested',
    by: 'Tester',
    remark: 'Remark',
    wavelength: 'Wavelength',
    direction: 'Direction',
    value: 'Loss',
  },
};
export const heads = 'Link,Fibre,Wavelength,Direction,Loss,Tested,Tester,Remark';

/** What an import of the table answers, by a mapping as a text or as its value. */
export function run(
  table: string | Uint8Array,
  mapping: unknown = single,
  text = plan,
  work = unwatched,
) {
  const bytes = typeof table === 'string' ? new TextEncoder().encode(table) : table;
  return importReadings(
    {
      plan: judge(text).plan,
      name: 'berths.csv',
      bytes,
      mapping: typeof mapping === 'string' ? mapping : JSON.stringify(mapping, null, 2),
    },
    work,
  );
}

/** What was imported, of a table and a mapping that are right. */
export async function imported(...words: Parameters<typeof run>): Promise<Imported> {
  const answer = await run(...words);
  if ('problems' in answer) throw new Error(answer.problems.join('\n'));
  return answer;
}

/** What is wrong with the table or its mapping, or `none`. */
export async function problems(...words: Parameters<typeof run>): Promise<readonly string[]> {
  const answer = await run(...words);
  return 'problems' in answer ? answer.problems : ['none'];
}

/** Errors of the text, those of what was measured left out. */
export const unread = (findings: readonly Finding[]) =>
  findings.filter(({ severity, name }) => severity === 'error' && name !== 'over-limit');

/** Four readings of two fibres, one of them dark. */
export const rows = `${heads}
KQ-OPS-B3,1,850,A>B,0.97,2026-03-14 09:05,R. Vale,
KQ-OPS-B3,1,850,B>A,0.99,2026-03-14 09:05,R. Vale,
KQ-OPS-B3,2,850,A>B,1.08,2026-03-14 09:07,R. Vale,cleaned first
KQ-OPS-B3,2,850,B>A,dark,2026-03-14 09:07,R. Vale,cleaned first
`;
