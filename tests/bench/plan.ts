/** One invented plan of any size, written three times: as a plan, as JSON, and as YAML. */

interface ReadingRow {
  readonly fibre: number;
  readonly cells: readonly string[];
}

interface LinkData {
  readonly name: string;
  readonly from: string;
  readonly to: string;
  readonly cable: string;
  readonly fibres: string;
  readonly tail: number;
  readonly readings: readonly ReadingRow[];
}

const headings = ['850 nm A>B', '850 nm B>A', '1300 nm A>B', '1300 nm B>A'];

/** Links of two fibres, each with its readings; numbers differ from link to link, and no two runs differ. */
export function links(count: number, from = 0): readonly LinkData[] {
  return Array.from({ length: count }, (_, offset) => {
    const index = from + offset;
    const room = Math.floor(index / 12);
    const first = (index % 12) * 2 + 1;
    // Both directions within a few hundredths, as of joints that are well made: what is measured
    // is a plan in which little is found, as there is little in the equal data of the peers.
    const loss = (base: number, step: number) =>
      (base + (index % 25) / 100 + ((index * step) % 5) / 100).toFixed(2);
    return {
      name: `KQ-${String(index).padStart(5, '0')}`,
      from: `OPS/R${room}/A:${pair(first)}`,
      to: `B${room}/R1/A:${pair(first)}`,
      cable: `C-${room}`,
      fibres: `${first}..${first + 1}`,
      tail: 20 + (index % 60),
      readings: [1, 2].map((fibre) => ({
        fibre,
        cells: [loss(0.9, 7), loss(0.91, 11), loss(0.6, 3), loss(0.61, 5)],
      })),
    };
  });
}

function pair(first: number): string {
  const digits = (value: number) => String(value).padStart(2, '0');
  return `${digits(first)}..${digits(first + 1)}`;
}

export const head = `plan "Kestrel Quay, measured" {
  client      "Harbour board"
  limits      TIA-568.3-E
  measure     850 nm, 1300 nm for multimode
  reference   one-cord
  uncertainty 0.15 dB
}

fibre OM4 {
  like        OM4
  attenuation 850 nm typ 2.3 dB/km max 2.7 dB/km
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
  taken       2026-03-14 08:10 1300 nm -20.31 dBm
}
`;

export function planText(data: readonly LinkData[]): string {
  const cables = [...new Set(data.map(({ cable }) => cable))];
  return [
    ...cables.map(
      (name) => `cable ${name} {\n  fibre       OM4\n  count       24\n  length      142 m\n}\n`,
    ),
    ...data.flatMap((link) => [
      `link ${link.name} {
  from        ${link.from}
  to          ${link.to}
  connector   LC
  segment     ${link.cable} fibres ${link.fibres}
  splice      fusion
  segment     ${link.tail} m OM4
  connector   LC
  carries     10GBASE-SR
}
`,
      `readings ${link.name} {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:20 by "R. Vale"
  values      loss in dB
  columns fibre, ${headings.join(', ')}
${link.readings.map(({ fibre, cells }) => `  ${fibre}                ${cells.join('        ')}`).join('\n')}
}
`,
    ]),
  ].join('\n');
}

/** The same facts as data, for languages that have no words of their own. */
export function planData(data: readonly LinkData[]): object {
  return {
    cables: [...new Set(data.map(({ cable }) => cable))].map((name) => ({
      name,
      fibre: 'OM4',
      count: 24,
      length_m: 142,
    })),
    links: data.map((link) => ({
      name: link.name,
      from: link.from,
      to: link.to,
      path: [
        { connector: 'LC' },
        { cable: link.cable, fibres: link.fibres },
        { splice: 'fusion' },
        { length_m: link.tail, fibre: 'OM4' },
        { connector: 'LC' },
      ],
      carries: '10GBASE-SR',
      readings: {
        setup: 'MM-1',
        tested: '2026-03-14 09:05',
        by: 'R. Vale',
        columns: headings,
        rows: link.readings.map(({ fibre, cells }) => [fibre, ...cells.map(Number)]),
      },
    })),
  };
}

/** A schema that asks of the data what the language asks of its words. */
export const schema = {
  $schema: 'http://json-schema.org/draft-07/schema#',
  type: 'object',
  required: ['cables', 'links'],
  properties: {
    cables: {
      type: 'array',
      items: {
        type: 'object',
        required: ['name', 'fibre', 'count', 'length_m'],
        properties: {
          name: { type: 'string' },
          fibre: { enum: ['OM1', 'OM2', 'OM3', 'OM4', 'OM5'] },
          count: { type: 'integer', minimum: 1 },
          length_m: { type: 'number', minimum: 0 },
        },
        additionalProperties: false,
      },
    },
    links: {
      type: 'array',
      items: {
        type: 'object',
        required: ['name', 'from', 'to', 'path', 'readings'],
        properties: {
          name: { type: 'string', pattern: '^[A-Z0-9-]+$' },
          from: { type: 'string' },
          to: { type: 'string' },
          carries: { type: 'string' },
          path: {
            type: 'array',
            items: {
              type: 'object',
              properties: {
                connector: { enum: ['LC', 'SC', 'MPO-12'] },
                splice: { enum: ['fusion', 'mechanical'] },
                cable: { type: 'string' },
                fibres: { type: 'string' },
                fibre: { type: 'string' },
                length_m: { type: 'number', minimum: 0 },
              },
              additionalProperties: false,
            },
          },
          readings: {
            type: 'object',
            required: ['setup', 'tested', 'columns', 'rows'],
            properties: {
              setup: { type: 'string' },
              tested: { type: 'string' },
              by: { type: 'string' },
              columns: { type: 'array', items: { type: 'string' } },
              rows: { type: 'array', items: { type: 'array', items: { type: 'number' } } },
            },
            additionalProperties: false,
          },
        },
        additionalProperties: false,
      },
    },
  },
  additionalProperties: false,
};

/** Block style for mappings, flow style for lists of plain values: as people write it. */
export function toYaml(value: unknown, indent = ''): string {
  if (Array.isArray(value)) {
    if (value.every((item) => typeof item !== 'object')) {
      return ` [${value.map((item) => JSON.stringify(item)).join(', ')}]\n`;
    }
    return `\n${value
      .map((item) => `${indent}- ${toYaml(item, `${indent}  `).trimStart()}`)
      .join('')}`;
  }
  if (typeof value === 'object' && value !== null) {
    return `\n${Object.entries(value)
      .map(([key, item]) => `${indent}${key}:${toYaml(item, `${indent}  `)}`)
      .join('')}`;
  }
  return ` ${JSON.stringify(value)}\n`;
}
