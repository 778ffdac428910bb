/** The page of the library: what it holds by subject, each figure with its edition and what it stands on. */
import { bindBlock } from '../binding.ts';
import { splitBlocks } from '../blocks.ts';
import type { BoundEntry, Value } from '../bound.ts';
import { parseBlock } from '../parser.ts';
import { C, W } from '../vocabulary/index.ts';

const generated =
  '<!-- Made from the library by `npm run generate`: change the .lwl files of this folder instead. -->';

/** Subjects in the order in which a path meets them; a file that is not named here is refused. */
const subjects: readonly (readonly [string, string])[] = [
  ['fibres.lwl', 'Fibres'],
  ['connections.lwl', 'Mated pairs'],
  ['connection-grades.lwl', 'Grades of connection'],
  ['splices.lwl', 'Splices'],
  ['splitters.lwl', 'Splitters'],
  ['parts.lwl', 'Parts'],
  ['colours.lwl', 'Orders of colours'],
  ['launches.lwl', 'Launches'],
  ['faces.lwl', 'End faces'],
  ['limits.lwl', 'Limits'],
  ['applications-ethernet-to-10g.lwl', 'Applications up to 10 Gbit/s'],
  ['applications-ethernet-25g-100g.lwl', 'Applications from 25 to 100 Gbit/s'],
  ['applications-ethernet-200g-on.lwl', 'Applications from 200 Gbit/s on'],
  ['applications-storage.lwl', 'Applications of storage'],
  ['applications-access.lwl', 'Applications of access networks'],
  ['applications-machine.lwl', 'Applications of machines'],
  ['applications-unconfirmed.lwl', 'Applications that nothing read confirms'],
  ['transceivers-ethernet.lwl', 'Windows of power, Ethernet'],
  ['transceivers-access.lwl', 'Windows of power, access networks'],
];

/** The page, from texts by file name. Throws where a file has no subject, or a subject no file. */
export function libraryPage(files: ReadonlyMap<string, string>): string {
  const told = new Set(subjects.map(([name]) => name));
  for (const name of files.keys()) {
    if (!told.has(name)) throw new Error(`${name} has no subject on the page of the library.`);
  }
  const sections = subjects.map(([name, title]) => {
    const text = files.get(name);
    if (text === undefined) throw new Error(`${name} is not in the library.`);
    return section(name, title, text);
  });
  const contents = sections.map(({ title, count }) => `- [${title}](#${anchor(title)}): ${count}`);
  return [
    generated,
    '',
    '# The library',
    '',
    'What a plan may name without declaring it. `read`: an excerpt of the text named states the figure, mostly a secondary one. **From memory**: nobody looked it up; where such a figure governs a verdict it is shown, and a record is issued only after the project adopted it. Two editions that differ are two names. A plan overrides any entry by declaring its name again, with `like` for the rest.',
    '',
    'Not here, because no text read states it: losses of uneven splitters, of muxes and of attenuators; the numbers of the 2022 edition for end faces; least return losses of pairs in the cabling standards; ports of 50GBASE-ER, 400GBASE-FR4, 800GBASE-DR8 and of storage networks, of which what is sent or what is taken was read and not both; 50G-PON, of which the class of loss is remembered and no wavelength. Not here, because the notation has no word for it: one figure for a whole link whatever its parts, as GOST R 58749-2019 prints for 90 m (write it as `require loss`); levels of laser hazard, which the rules of the place decide.',
    '',
    ...contents,
    '',
    ...sections.flatMap(({ lines }) => lines),
  ].join('\n');
}

interface Section {
  readonly title: string;
  readonly count: number;
  readonly lines: readonly string[];
}

function section(name: string, title: string, text: string): Section {
  const rows = splitBlocks(text).flatMap((block) =>
    bindBlock(parseBlock(block), block).entries.map((entry) => row(entry, block)),
  );
  return {
    title,
    count: rows.length,
    lines: [
      `## ${title}`,
      '',
      `[${name}](${name})`,
      '',
      '| name | figures | edition | stands on |',
      '| --- | --- | --- | --- |',
      ...rows,
      '',
    ],
  };
}

/** One declaration: its lines in groups, each group beside the `basis` that stands for it. */
function row(declaration: BoundEntry, block: string): string {
  const entries = declaration.body?.entries ?? [];
  const groups: { readonly lines: string[]; readonly bases: string[] }[] = [];
  let closed = true;
  for (const entry of entries) {
    if (entry.word === W.edition || entry.word === W.note) continue;
    if (closed && entry.word !== W.basis) groups.push({ lines: [], bases: [] });
    const group = groups.at(-1);
    closed = entry.word === W.basis;
    if (closed) group?.bases.push(basis(entry));
    else group?.lines.push(said(entry, block));
  }
  const [edition] = entries.filter(({ word }) => word === W.edition);
  const stands = groups.map(({ lines, bases }) => [lines.join('; '), bases.join('; ')] as const);
  return `| \`${texts(declaration.slots.name)[0]}\` | ${cell(stands.map(([lines]) => lines))} | ${escaped(
    edition ? (texts(Object.values(edition.slots).flat())[0] ?? '') : '',
  )} | ${cell(stands.map(([, bases]) => bases))} |`;
}

/** Groups of one cell, numbered where there are several so that both columns can be read together. */
function cell(groups: readonly string[]): string {
  if (groups.length === 1) return escaped(groups[0] ?? '');
  return groups.map((group, index) => `${index + 1}. ${escaped(group)}`).join('<br>');
}

function said(entry: BoundEntry, block: string): string {
  return block.slice(entry.span.start, entry.span.end).replace(/\s+/gu, ' ').trim();
}

function basis(entry: BoundEntry): string {
  const [source = '', trust] = texts(Object.values(entry.slots).flat());
  if (trust === C.recalled) return `**from memory:** ${source.replace(/^from memory of /u, '')}`;
  return trust === C.read ? `read: ${source}` : source;
}

function texts(values: readonly Value[] | undefined): string[] {
  return (values ?? []).flatMap((value) => ('text' in value ? [value.text] : []));
}

const escaped = (text: string): string => text.replaceAll('|', '\\|').replaceAll('<', '&lt;');

const anchor = (title: string): string =>
  title
    .toLowerCase()
    .replace(/[^a-z0-9 -]/gu, '')
    .replaceAll(' ', '-');
