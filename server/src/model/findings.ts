/**
 * Every finding about names and structure: what kind it is and the sentence it
 * speaks. Numbers and names come in as details; the condition stands where the
 * model is built.
 */
import type { Severity } from '../../../grammar/src/tree.ts';
import type { ModelFinding } from './finding.ts';
import type { Place } from './types.ts';

type Details = Readonly<Record<string, string | number>>;

interface Sentence {
  readonly kind: ModelFinding['kind'];
  readonly severity: Severity;
  readonly says: (details: Details) => string;
}

const mistake = (says: Sentence['says']): Sentence => ({
  kind: 'notation',
  severity: 'error',
  says,
});
const contradiction = (says: Sentence['says']): Sentence => ({
  kind: 'contradiction',
  severity: 'error',
  says,
});
const doubt = (says: Sentence['says'], severity: Severity = 'warning'): Sentence => ({
  kind: 'doubt',
  severity,
  says,
});
const note = (says: Sentence['says']): Sentence => ({ kind: 'note', severity: 'note', says });

/** `1 fibre`, `12 fibres`. */
function counted(number: number, noun: string): string {
  return `${number} ${noun}${number === 1 ? '' : 's'}`;
}

const table = {
  'unknown-reference': mistake(
    (d) =>
      `There is no ${d.what} ${d.name} in this plan or the library.` +
      (d.nearest ? ` Did you mean ${d.nearest}?` : ' Declare it, or correct the name.'),
  ),
  'wrong-kind': mistake(
    (d) => `${d.name} is a ${d.is}, and a ${d.what} is wanted here. Name a ${d.what}.`,
  ),
  'duplicate-definition': contradiction(
    (d) =>
      `${d.name} is declared twice in this plan; this one, a ${d.what}, is not used. Rename one of the two, or merge them.`,
  ),
  'look-alike-names': doubt(
    (d) =>
      `${d.name} and ${d.other} differ only in ${d.differ}, so what is meant for one may be written to the other. Rename one of the two.`,
  ),
  'ports-taken-twice': doubt(
    (d) =>
      `${d.link} lies between ports of ${d.other}: ${d.from} and ${d.to}${Number(d.more) > 0 ? `, and ${d.more} more` : ''}. Two links do not end at one port at both ends: correct the ports of one of them.`,
  ),
  'library-shadowed': note(
    (d) =>
      `This ${d.what} ${d.name} stands before the library's everywhere in this plan. Check that its figures are meant.`,
  ),
  'former-name-in-use': doubt(
    (d) =>
      (d.of === 'own'
        ? `${d.former} is the name that this has now.`
        : d.of === 'living'
          ? `${d.former} is declared in this plan and keeps its own evidence: ${d.name} gets none of it.`
          : `${d.holder} had the name ${d.former} before as well, and keeps its evidence: ${d.name} gets none of it.`) +
      ' Take the name out, or write the one it had.',
  ),
  'figures-out-of-order': contradiction(
    (d) => `${d.lower} is more than ${d.upper}. Exchange the two, or correct one of them.`,
  ),
  'share-unusable': doubt(
    (d) => `From the share of ${d.share} % no spread of losses follows: ${d.because}.`,
  ),
  'colour-twice': doubt(
    (d) =>
      `${d.colour} stands at ${d.first} and at ${d.second} of the ${d.what} of ${d.of}, so nobody tells the two apart. Correct one of them.`,
  ),
  'tubes-uneven': doubt(
    (d) =>
      `${d.count} fibres do not divide into ${counted(Number(d.tubes), 'tube')}: with ${d.each} in each, ${Number(d.last) > 0 ? `the last holds ${d.last}` : 'the last is empty'}. Correct the count, or the number of tubes.`,
  ),
  'splitter-reversed': contradiction(
    (d) =>
      `${d.ratio} means ${counted(Number(d.inputs), 'input')} and ${counted(Number(d.outputs), 'output')}, and a splitter has ${d.turned ? `more outputs than inputs. Write ${d.turned}` : 'two outputs or more. Correct the ratio'}.`,
  ),
  'fibre-zero': contradiction(
    () => 'Fibres are counted from 1, and here the numbers begin at 0. Correct the numbers.',
  ),
  'unused-definition': note(
    (d) =>
      `Nothing in this plan names the ${d.what} ${d.name}. Name it where it is meant, or take it out.`,
  ),
  'like-cycle': mistake(
    (d) => `${d.name} takes after itself: ${d.chain}. Let one of them stand for itself.`,
  ),
  'pattern-cycle': mistake(
    (d) => `The pattern ${d.name} contains itself: ${d.chain}. Take one of the two uses out.`,
  ),
  'hole-unfilled': mistake(
    (d) =>
      `The pattern ${d.pattern} has a hole <${d.hole}> that is not filled here. ` +
      (d.column
        ? `Give the row a value in the column ${d.hole}.`
        : `Write ${d.hole} and its value behind the pattern's name.`),
  ),
  'hole-unknown': mistake(
    (d) =>
      `The pattern ${d.pattern} has no hole <${d.hole}>.` +
      (d.nearest
        ? ` Did you mean ${d.nearest}?`
        : ' Take the value out, or put the hole into the pattern.'),
  ),
  'hole-name-taken': mistake(
    (d) =>
      `A hole cannot be called ${d.hole}: behind a pattern's name that word has a meaning of its own. Give the hole another name.`,
  ),
  'hole-misfit': mistake(
    (d) =>
      `The hole <${d.hole}> wants ${d.wanted} here, and ${d.given} is not that. Give it ${d.wanted}.`,
  ),
  'count-mismatch': contradiction((d) => {
    const fibres = `${d.link} has ${counted(Number(d.fibres), 'fibre')}`;
    if (d.ends)
      return `${d.list} has ${counted(Number(d.given), 'member')}, and ${d.link} has ${counted(Number(d.ends), 'end')}. Give each end a number, in order.`;
    return d.ports
      ? `${d.list} names ${counted(Number(d.given), 'port')}, and ${fibres}. Name as many ports, or a number that divides ${d.fibres}.`
      : `${d.list} has ${counted(Number(d.given), 'member')}, and ${fibres}. Give both the same number.`;
  }),
  'fibre-listed-twice': contradiction(
    (d) => `Fibre ${d.fibre} stands twice in ${d.list}. Each fibre stands there once.`,
  ),
  'fibre-out-of-range': contradiction((d) =>
    d.count !== undefined
      ? `${d.of} has ${counted(Number(d.count), 'fibre')}, and fibre ${d.fibre} is taken. Correct the numbers, or the count.`
      : `${d.of} has no fibre ${d.fibre}; its fibres are ${d.fibres}. Correct the number.`,
  ),
  'tube-out-of-range': contradiction((d) =>
    Number(d.tubes) > 0
      ? `${d.cable} has ${counted(Number(d.tubes), 'tube')}, and tube ${d.tube} is taken. Correct the number.`
      : `${d.cable} does not say in how many tubes its fibres lie. Write tubes behind its count.`,
  ),
  'cable-fibre-used-twice': contradiction((d) =>
    d.many
      ? `Fibres ${d.fibre} of ${d.cable} are taken by ${d.first} already, and by ${d.link} here. One of the two must take other fibres.`
      : `Fibre ${d.fibre} of ${d.cable} is taken by ${d.first} already, and by ${d.link} here. One of the two must take another fibre.`,
  ),
  'name-off-shape': note(
    (d) =>
      `The ${d.what} ${d.name}${Number(d.more) > 0 ? ` and ${d.more} more` : ''} ${Number(d.more) > 0 ? 'do' : 'does'} not follow the plan's shape ${d.shape}. Correct the name, or the shape.`,
  ),
  'shape-unreadable': mistake(
    (d) =>
      `${d.part} says nothing in the shape of a name. Write {area} for letters or digits, {00} for that many digits.`,
  ),
  'zone-unreadable': note(
    (d) =>
      `${d.zone} is not read as a clock against UTC, so the day of judgement is the machine's own. Write the hours it is ahead, as in "+01:00", or "UTC".`,
  ),
  'reel-joint-missing': doubt(
    (d) =>
      `${d.first} and ${d.second}, reels of ${d.cable}, lie next to each other without a splice, so no loss is counted between them. Write the splice between the two.`,
    'error',
  ),
  'joint-between-no-reels': contradiction(
    (d) =>
      `This splice of ${d.cable} lies between no two reels that are not joined yet. A cable has one splice fewer than it has reels: write it between the two, or take it out.`,
  ),
  'reel-named-twice': contradiction(
    (d) => `${d.reel} is the name of a reel before it already. Give this one its own.`,
  ),
  'reel-unknown': mistake(
    (d) =>
      (d.reels
        ? `${d.cable} has no reel ${d.reel}; its reels are ${d.reels}.`
        : `${d.cable} is one piece without reels.`) +
      (d.nearest ? ` Did you mean ${d.nearest}?` : ' Correct the name, or the cable.'),
  ),
  'reels-apart': contradiction(
    (d) =>
      `${d.first} and ${d.second} do not lie next to each other in ${d.cable}` +
      (d.between ? `: ${d.between} lies between them.` : '.') +
      ' Take reels that follow each other, or write two segments.',
  ),
  'length-beside-reels': contradiction(
    (d) =>
      `${d.what} is ${counted(Number(d.reels), 'reel')} here, and its length is their sum. Take this length out.`,
  ),
  'marks-against-length': contradiction(
    (d) =>
      `The sheath marks of ${d.reel}, ${d.from} and ${d.to}, are ${d.marked} apart, and its length is ${d.length}.` +
      (Number(d.feet) > 0
        ? ' The figure looks like feet: correct the unit.'
        : Number(d.feet) < 0
          ? ' The figure looks like metres: correct the unit.'
          : ' Correct one of the two.'),
  ),
  'marks-not-two': mistake(
    (d) =>
      `${d.reel} has ${counted(Number(d.marks), 'sheath mark')}: write the two at its ends, as in marks 12..4222.`,
  ),
  'repair-beyond-end': contradiction(
    (d) => `${d.repair} lies at ${d.at}, and ${d.of} ends at ${d.length} m. Correct the distance.`,
  ),
  'repair-place-missing': doubt(
    (d) =>
      `${d.repair} does not say where it lies, so every link that takes a reel of ${d.cable} counts it. Write at and the distance from end A.`,
  ),
  'repair-puts-nothing-in': doubt(
    (d) =>
      `${d.repair} puts nothing in: the limit stays as it was, and no rise over the readings before it is allowed. Write the splices and the fibre that were put in.`,
  ),
  'fibres-missing': doubt(
    (d) =>
      `${d.link} does not say how many fibres it has, so no reading is expected of it. Name its ports in from, or its fibres.`,
  ),
  'path-missing': doubt((d) =>
    d.empty
      ? `${d.link} has no path, so no limit can be built. Say what light crosses from A to B.`
      : `The path of ${d.link} has joints and no fibre between them, so nothing of it can be judged. Write the segment.`,
  ),
  'cable-length-missing': doubt(
    (d) =>
      `${d.cable} has neither a length nor reels, so no limit over it can be built. Write its length.`,
  ),
  'length-not-positive': contradiction(
    (d) =>
      `A length of ${d.length} is none. Write the length, or unknown if it is to count as none.`,
  ),
  'open-end': doubt(
    (d) =>
      `The path of ${d.link} ${d.end === 'A' ? 'begins' : 'ends'} in a ${d.what}: its end ${d.end} is open. Put a connector, a plug or a component there.`,
  ),
  'joint-missing': doubt(
    (d) =>
      `The ${d.before} and the ${d.after} meet without a joint, so no loss is counted between them. Write the splice or the connector that joins them.`,
    'error',
  ),
  'plug-inside-path': contradiction(
    (d) =>
      `A plug stands inside the path of ${d.link}. A plug is an end that is not mated; where two meet, write connector.`,
  ),
  'path-too-long': mistake((d) =>
    d.deepest
      ? `This path stands more than ${d.deepest} deep, by patterns and outputs within each other; what is deeper is left out. Write it less nested: a chain of splitters goes on with onward.`
      : `This path has more than ${d.lines} lines, by patterns that use patterns; the rest is left out. Take fewer uses, or write several links.`,
  ),
  'split-turned': mistake(
    () =>
      'A pattern that holds a split cannot be turned: light is divided on its way from A to B. Place it without turned.',
  ),
  'output-unknown': contradiction(
    (d) =>
      `${d.split} is a ${d.splitter} with ${counted(Number(d.outputs), 'output')}, and output ${d.out} is said here. Correct the number, or the splitter.`,
  ),
  'output-twice': contradiction(
    (d) => `Output ${d.out} of ${d.split} is said twice. Say once what becomes of it.`,
  ),
  'output-missing': doubt(
    (d) =>
      `It is not said what becomes of ${d.many ? 'outputs' : 'output'} ${d.outs} of ${d.split}. Give ${d.many ? 'them' : 'it'} a path, or write spare.`,
    'error',
  ),
  'onward-twice': contradiction(
    (d) =>
      `Two outputs of ${d.split} are onward, and the path below goes on from one. Give the other a path of its own.`,
  ),
  'onward-missing': contradiction(
    (d) =>
      `The path goes on below ${d.split}, and none of its outputs is onward. Say which output leads here, or put this behind an output.`,
  ),
  'end-count-mismatch': contradiction(
    (d) =>
      `${counted(Number(d.given), 'port')} ${Number(d.given) === 1 ? 'is' : 'are'} named here for ${counted(Number(d.ends), 'end')}. Name one port for each end, in order.`,
  ),
  'end-name-unused': contradiction((d) =>
    d.other
      ? `${d.port} names no end: the one that onward leads to is called ${d.other} already. Take one of the two out.`
      : `${d.port} names no end: the path here ends in ${d.split}, whose outputs have ends of their own. Name the ports at those outputs, or let one of them be onward.`,
  ),
  'end-named-twice': contradiction(
    (d) =>
      `Two ends of ${d.link} are called ${d.end}, and a reading could be of either. Give each end its own port.`,
  ),
  'tree-too-large': mistake(
    (d) =>
      `${d.link} divides its light more often than can be judged: at most ${d.most} ends of one link are. Write several links, and correct numbers that are not meant.`,
  ),
  'tree-crossed': contradiction(
    (d) =>
      `${d.link} branches, and light crosses it to one of its ends. Say to which: fibres and the number of the end (${d.ends}).`,
  ),
  'node-missing': doubt(
    (d) =>
      `${d.ring} has ${Number(d.nodes) === 0 ? 'no node' : 'one node'}, and light in a ring goes from node to node. Name at least two, in order.`,
    'error',
  ),
  'node-named-twice': contradiction(
    (d) => `Two nodes of ${d.ring} are called ${d.node}. Each node stands once in a ring.`,
  ),
  'span-missing': doubt(
    (d) =>
      `Nothing lies between ${d.from} and ${d.to}, so the ring is not closed. Name the link between them, or take one of the nodes out.`,
    'error',
  ),
  'long-way-missing': note(
    (d) =>
      `Light that loses its span has no long way round ${d.ring} past ${d.nodes}: nothing lets it through there. If it is meant to be protected, write through and the cord behind the node.`,
  ),
  'ring-too-long': mistake(
    (d) =>
      `${d.ring} has more nodes than can be judged: its long ways would hold more than ${d.most} parts. Write several rings.`,
  ),
  'direction-missing': doubt(
    (d) =>
      `The column ${d.column} does not say in which direction light went. Write A>B or B>A behind the wavelength.`,
  ),
  'map-no-permutation': contradiction(
    (d) =>
      `The map of ${d.of} ${d.fault}. Write where each place comes out, every place once, or straight, reversed or pairs-swapped.`,
  ),
  'map-missing': doubt(
    (d) =>
      `${d.component} joins an array of ${d.array} places and does not say where they come out, so nothing is known of its polarity. Give it a map.`,
  ),
  'array-not-filled': doubt(
    (d) =>
      `${d.name} holds ${counted(Number(d.places), 'fibre')}, and the link has ${d.fibres}. Name all places of the array; those that stay dark are spare.`,
  ),
  'port-unknown': mistake((d) =>
    d.ports
      ? `${d.component} has no port ${d.port}; its ports are ${d.ports}. Name one of them, or give the component the loss of that port.`
      : `${d.component} has no port ${d.port}: none of its losses is of a port. Give it the loss of that port.`,
  ),
  'port-missing': doubt(
    (d) =>
      `${d.component} has a loss for each of its ports ${d.ports}, and none is said here, so no limit can be built. Write port and the one that light takes.`,
  ),
  'tested-backwards': contradiction(
    (d) => `The ${d.what} end at ${d.to}, before they begin at ${d.from}. Correct one of the two.`,
  ),
  'unknown-end': mistake(
    (d) =>
      `${d.object} has no end ${d.name}.` +
      (d.nearest ? ` Did you mean ${d.nearest}?` : ` Its ends are named by their ports.`),
  ),
  'ends-without-tree': contradiction(
    (d) =>
      `${d.object} does not branch, so its fibres have numbers and its ends no names. Write a column fibre.`,
  ),
  'event-incomplete': mistake(
    (d) =>
      `${Number(d.rows) === 1 ? 'This event has' : `${d.rows} events have`} no ${d.what}, so nothing can be said of ${Number(d.rows) === 1 ? 'it' : 'them'}. Write ${d.what === 'kind' ? 'what was seen under kind' : 'how far along the fibre it lies under at'}.`,
  ),
  'event-before-start': contradiction(
    (d) =>
      `${d.what} of fibre ${d.fibre} lies at ${d.at}, and distances count from end A. Take off what lies before it, the launch cord for one, or correct the sign.`,
  ),
  'event-beyond-end': contradiction(
    (d) =>
      `An event of fibre ${d.fibre} lies at ${d.at}, and its trace ends at ${d.end}. Correct one of the two.`,
  ),
} satisfies Record<string, Sentence>;

export type FindingName = keyof typeof table;

export const findingNames = Object.keys(table) as readonly FindingName[];

export interface Beside {
  readonly related?: ModelFinding['related'];
  readonly fix?: ModelFinding['fix'];
  readonly about?: string;
}

/** A finding of the table at its place. */
export function finding(
  name: FindingName,
  place: Place,
  details: Details,
  beside: Beside = {},
): ModelFinding {
  const { kind, severity, says } = table[name];
  return { name, kind, severity, place, message: says(details), related: [], details, ...beside };
}
