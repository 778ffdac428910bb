/** Snippets: one for each declaration, with the lines that it usually has. */
import { formatText } from '../format.ts';
import {
  C,
  type Context,
  findWord,
  neededIn,
  signature,
  W,
  type Word,
  type WordEntry,
  wordsIn,
} from '../vocabulary/index.ts';
import { exampleLine } from './lines.ts';

/** The receive cord that the method of the set-up wants beside the launch cord. */
const receiveCord = `${W.cord}        TC-2 ${C.receive} LC OM4 ${C.referenceGrade}`;

/** What a first version of a block usually says: words, shown by their examples, or whole lines. */
const usual: Readonly<Partial<Record<Word, readonly string[]>>> = {
  plan: [W.limits, W.measure, W.directions, W.reference, W.uncertainty],
  fibre: [W.mode, W.attenuation, W.basis],
  connector: [W.loss, W.basis],
  splice: [W.loss, W.basis],
  splitter: [W.ports, W.loss, W.basis],
  component: [W.joins, W.map, W.loss],
  cable: [W.fibre, W.count, W.length],
  colours: [W.tubes, W.fibres],
  limits: [W.edition, W.fibre, W.connector, W.splice],
  application: [W.count, W.wavelength, W.fibre],
  link: [W.from, W.to, W.connector, W.segment, W.connector, W.carries],
  channel: [W.from, W.to, W.cord, W.link, W.cord, W.carries],
  ring: [W.node, W.link, W.node, W.link],
  pattern: [W.connector, W.segment, W.connector],
  links: [W.carries],
  channels: [W.carries],
  setup: [W.reference, W.source, W.meter, W.launch, W.cord, receiveCord, W.taken],
  work: [W.done, W.fibres, W.on],
  concession: [W.fibres, W.accepted, W.because, W.by],
  withdraw: [W.fibres, W.tested, W.because, W.by],
};

/** The table that such a block usually ends in; what is to be typed over stands in `<<…>>`. */
const tables: Readonly<Partial<Record<Context, readonly string[]>>> = {
  readings: [
    `${W.columns} ${W.fibre}, <<850 nm>> A>B, <<850 nm>> B>A`,
    '1                <<1.12>>        <<1.15>>',
  ],
  events: [
    `${W.columns} ${W.fibre}, ${W.at} in km, ${W.kind},           <<1550 nm>> A>B`,
    `1                <<0>>       <<${C.connector}>>         <<0.31>>`,
  ],
  inspection: [
    `${W.columns} ${W.fibre}, ${W.endA},              ${W.endB}`,
    `1              <<${C.pass}>>          <<${C.pass}>>`,
  ],
  links: [
    `${W.columns} ${W.link},           ${W.from},           ${W.to}`,
    '<<L01-S1>>          <<LEAF-01:49>>      <<SPINE-1:01>>',
  ],
  channels: [
    `${W.columns} ${W.channel},        ${W.from},           ${W.to}`,
    '<<CH-1>>            <<OPS/SW-1:01>>     <<B3/SW-1:49>>',
  ],
};

/** The lines of a block as it usually stands at the margin, with nothing left to type. */
export function blockExample(entry: WordEntry): readonly string[] | undefined {
  const { block } = entry;
  if (!block || entry.contexts[0] !== 'file') return undefined;
  const lines = usualLines(entry.word, block).map((line) => `  ${line}`);
  const rows = (tables[block] ?? []).map((row) => `  ${row.replace(/<<(.*?)>>/gu, '$1')}`);
  const text = [exampleLine(entry), ...lines, ...rows, '}', ''].join('\n');
  return formatText(text).text.trimEnd().split('\n');
}

function usualLines(word: Word, context: Context): string[] {
  const words = usual[word] ?? neededIn(context).map((needed) => needed.word);
  return words.map((one) => {
    const inner = findWord(one, context);
    return inner ? exampleLine(inner) : one;
  });
}

/** All snippets as an object, ready to be written as JSON. */
export function snippets(): object {
  const all: Record<string, object> = {};
  for (const entry of wordsIn('file')) {
    if (!entry.block) continue;
    const context = entry.block;
    const count = { next: 1 };
    const first = fill(exampleLine(entry), count);
    const lines = usualLines(entry.word, context).map((line) => `  ${fill(line, count)}`);
    const rows = (tables[context] ?? []).map((row) => `  ${number(row, count)}`);
    all[entry.word] = {
      prefix: entry.word,
      description: `${signature(entry)}: ${entry.doc.split(/(?<=\.) /u)[0]}`,
      body: [first, ...lines, ...rows, '  $0', '}'],
    };
  }
  return all;
}

/** Makes the arguments of a line a place to type in. */
function fill(line: string, count: { next: number }): string {
  const match = /^(\S+\s+)(.*?)(\s*\{)?$/u.exec(line);
  if (!match?.[2]) return line;
  const text = match[2].replace(/[\\$}]/gu, String.raw`\$&`);
  return `${match[1]}\${${count.next++}:${text}}${match[3] ?? ''}`;
}

/** Numbers the places of a row. */
function number(row: string, count: { next: number }): string {
  return row.replace(/<<(.*?)>>/gu, (_, text: string) => `\${${count.next++}:${text}}`);
}
