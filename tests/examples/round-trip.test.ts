/**
 * Nothing is lost on the way out and back: a plan of each shape that the
 * notation was laid out for keeps its text through the formatter, and its
 * results keep their every digit through JSON.
 */
import { globSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import Ajv from 'ajv';
import { describe, expect, it } from 'vitest';
import { formatText } from '../../grammar/src/format.ts';
import { placedFindings } from '../../server/src/cli/check.ts';
import { json } from '../../server/src/cli/formats/json.ts';
import { toolName } from '../../server/src/cli/version.ts';
import { fingerprintOf, toJson } from '../../server/src/report/json.ts';
import { type ResultJson, resultJsonSchema, resultSchema } from '../../server/src/report/schema.ts';
import { judge, planUri } from '../support/judge.ts';

const folder = join(import.meta.dirname, '../language/shapes');
const shape = (name: string) => readFileSync(join(folder, `${name}.lwl`), 'utf8');
const names = globSync('*.lwl', { cwd: folder })
  .map((path) => basename(path, '.lwl'))
  .sort();

const plan = `plan "Kestrel Quay: one shape" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  measure     1310 nm, 1550 nm for single-mode
  directions  both
  reference   one-cord
  uncertainty 0.15 dB
  zone        "UTC"
}
`;

/** What stands in other files of the plan that a shape was taken from. */
const elsewhere: Readonly<Record<string, string>> = {
  '01-backbone': '',
  '02-many-panels': plan,
  '03-cross-connect': `${plan}
transceiver SR-T1 {
  like        10GBASE-SR-PORT
}

pattern trunk {
  fibres      1..12
  connector   LC
  segment     <length> OM4
  connector   LC
}

links as trunk {
  columns link,   length in m
  KQ-MDF-OPS       60
  KQ-MDF-G1        85
}

setup CHANNEL-TEST {
  reference   three-cord
  source      "S-3" LED
  meter       "M-5" floor -60 dBm
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-8 substitution LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.07 dB
  taken       2026-03-16 08:10 850 nm -20.05 dBm
}

readings GATE-1-SCAN {
  setup       CHANNEL-TEST
  tested      2026-03-16 08:30 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1                1.61
  2                1.58
}
`,
  '04-arrays': plan,
  '05-leaf-and-spine': plan,
  '06-splitter-tree': `${plan}
splitter TAP-10-90 {
  ports       1:2
  loss        out 1 min 9.6 dB max 11.2 dB
  loss        out 2 min 0.4 dB max 0.8 dB
}
`,
  '07-outside-plant': `${plan}
pattern sc-pigtail {
  connector   SC-APC
  segment     2 m G.657.A1
  splice      fusion
}

setup OT-1 {
  otdr        "T-2"
  pulse       100 ns
  index       1550 nm 1.468
}
`,
  '08-wavelengths': `${plan}
component MUX-4 {
  loss        port 1551 wavelength 1551 nm min 0.5 dB max 1.4 dB
}

component DROP-1531 {
  loss        port onward wavelength 1551 nm min 0.2 dB max 0.7 dB
}

transceiver ER-1551 {
  like        10GBASE-ER-PORT
  wavelength  1551 nm
}

transceiver LX-T2 {
  like        1000BASE-LX-PORT
}

pattern line {
  fibres      1..2
  connector   LC
  segment     <length> G.652.D
  connector   LC
}

links as line {
  columns link,   length in km
  KQ-LINE-1         2.4
  KQ-LINE-2         1.9
  KQ-R-1            0.8
  KQ-R-2            1.1
  KQ-R-3            0.7
}
`,
  // The second day of the backbone: link, cords and the first day's readings are those of the first shape.
  '09-drift-and-work': shape('01-backbone'),
  '10-owner-figures': `
link CORD-001 {
  fibres      1
  measure     850 nm
  reference   three-cord
  plug        LC
  segment     3 m OM4
  plug        LC
}

setup CORD-TEST {
  reference   three-cord
  source      "S-3" LED
  meter       "M-5" floor -60 dBm
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-3 substitution LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-15 08:50 850 nm -20.31 dBm
}
`,
};

const textOf = (name: string) =>
  [elsewhere[name], shape(name)].filter(Boolean).join('\n').trimStart();

it('every shape has its plan', () => {
  expect(Object.keys(elsewhere).sort()).toEqual(names);
});

describe.each(names)('%s', (name) => {
  const text = textOf(name);

  it('keeps its text through the formatter', () => {
    expect(formatText(text).text).toBe(text);
  });

  it('comes back from a text whose blanks were all run together', () => {
    const loose = text.replaceAll(/ +/gu, ' ').replaceAll(/^ /gmu, '\t');
    expect(loose).not.toBe(text);
    expect(formatText(loose).text).toBe(text);
  });

  it('keeps its results through JSON', () => {
    const { project, plan: judged, findings } = judge(text);
    const links = judged.result.order.flatMap((link) => judged.result.link(link) ?? []);
    const written = json(project, [{ plan: judged, links }], placedFindings(project, [planUri]));
    const read = JSON.parse(written) as ResultJson;

    expect(read.links.length + read.channels.length).toBeGreaterThan(0);
    expect(findings.filter((finding) => finding.name === 'not-worked-out')).toEqual([]);
    expect(read.findings.filter((finding) => finding.name === 'unknown-reference')).toEqual([]);
    expect(read).toStrictEqual(
      toJson({
        tool: toolName,
        result: judged.result,
        files: [{ path: read.plan.files[0] ?? '', text }],
        // Of the plan's own folder, wherever it is looked at from.
        fingerprint: fingerprintOf([{ path: 'plan.lwl', text }]),
        findings: read.findings,
      }),
    );
    expect(resultSchema.parse(read)).toStrictEqual(read);
    const valid = new Ajv({ strict: false, validateSchema: false }).compile(resultJsonSchema());
    expect(valid(read), JSON.stringify(valid.errors)).toBe(true);
  });
});
