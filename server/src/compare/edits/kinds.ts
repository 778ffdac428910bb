/**
 * What a difference is about, by the block that it stands in and its word: one
 * table over the whole vocabulary. Where one word says several things, its
 * slots are named apart.
 */
import {
  type Context,
  elementWords,
  K,
  W,
  type Word,
} from '../../../../grammar/src/vocabulary/index.ts';
import type { ChangeKind } from '../types.ts';

interface Kinds {
  /** Of the block as a whole, new or gone. */
  readonly block: ChangeKind;
  /** Of all words that are not named. */
  readonly others?: ChangeKind;
  readonly words?: Readonly<Partial<Record<Word, ChangeKind>>>;
}

/** Words that every block knows. A trust is what answers the doubt of a figure from memory. */
const everywhere: Readonly<Partial<Record<Word, ChangeKind>>> = {
  [W.note]: 'words',
  [W.basis]: 'words',
  [W.silence]: 'concession',
  [W.was]: 'identity',
  [W.include]: 'identity',
};

/** What is wanted of light, in a plan and in whatever light crosses. */
const wanted: Readonly<Partial<Record<Word, ChangeKind>>> = {
  [W.limits]: 'basis',
  [W.compare]: 'basis',
  [W.require]: 'basis',
  [W.reserve]: 'basis',
  [W.margin]: 'basis',
  [W.reference]: 'method',
  [W.carries]: 'application',
  [W.measure]: 'coverage',
  [W.directions]: 'coverage',
  [W.spare]: 'coverage',
  [W.dead]: 'coverage',
};

/** What is joined to what, and of what it is made. */
const path: Readonly<Partial<Record<Word, ChangeKind>>> = {
  [W.connector]: 'joints',
  [W.plug]: 'joints',
  [W.splice]: 'joints',
  [W.component]: 'joints',
  [W.as]: 'joints',
  [W.split]: 'medium',
  [W.out]: 'connection',
  [W.segment]: 'medium',
  [W.cord]: 'medium',
  [W.link]: 'connection',
  [W.node]: 'connection',
  [W.wavelength]: 'medium',
  [W.from]: 'connection',
  [W.to]: 'connection',
  [W.fibres]: 'connection',
  [W.repair]: 'readings',
};

const built: Kinds = {
  block: 'connection',
  words: { ...wanted, ...path, [W.edition]: 'words', [W.like]: 'connection' },
};
const shared: Kinds = { block: 'shared', others: 'shared' };

const table: Readonly<Partial<Record<Context, Kinds>>> & Readonly<Record<string, Kinds>> = {
  file: { block: 'text', others: 'shared' },
  plan: {
    block: 'basis',
    words: {
      ...wanted,
      [W.client]: 'words',
      [W.site]: 'words',
      [W.revision]: 'words',
      [W.identify]: 'words',
      [W.percentile]: 'words',
      [W.edition]: 'words',
      [W.uncertainty]: 'basis',
      [W.decision]: 'basis',
      [W.policy]: 'basis',
      [W.drift]: 'basis',
      [W.zone]: 'basis',
      [W.doubts]: 'basis',
      [W.changes]: 'basis',
      [W.adopt]: 'concession',
      [W.spares]: 'coverage',
    },
  },
  doubts: { block: 'basis', others: 'basis' },
  changes: { block: 'basis', others: 'basis' },
  limits: { block: 'basis', others: 'basis' },
  criterion: { block: 'basis', others: 'basis' },
  application: { block: 'application', others: 'application' },
  transceiver: { block: 'application', others: 'application' },
  fibre: shared,
  connector: shared,
  splice: shared,
  splitter: shared,
  component: shared,
  colours: shared,
  mandrel: { block: 'method', others: 'method' },
  flux: { block: 'method', others: 'method' },
  pattern: {
    block: 'shared',
    others: 'shared',
    words: { ...wanted, [W.edition]: 'words', [W.wavelength]: 'shared' },
  },
  cable: {
    block: 'medium',
    others: 'medium',
    words: {
      [W.splice]: 'joints',
      [W.repair]: 'readings',
      [W.from]: 'words',
      [W.to]: 'words',
      [W.colours]: 'words',
      [W.jacket]: 'words',
      [W.route]: 'words',
      [W.edition]: 'words',
    },
  },
  setup: {
    block: 'method',
    others: 'method',
    words: {
      [W.checked]: 'readings',
      [W.verified]: 'readings',
      [W.source]: 'instrument',
      [W.meter]: 'instrument',
      [W.otdr]: 'instrument',
      [W.temperature]: 'instrument',
      [W.pulse]: 'instrument',
      [W.averaging]: 'instrument',
      [W.range]: 'instrument',
      [W.edition]: 'words',
    },
  },
  link: built,
  links: built,
  channel: built,
  channels: built,
  ring: built,
  split: { block: 'medium', words: path },
  out: { block: 'connection', words: path },
  repair: {
    block: 'readings',
    others: 'readings',
    words: { [W.connector]: 'joints', [W.splice]: 'joints', [W.segment]: 'medium' },
  },
  readings: { block: 'readings', others: 'evidence', words: { [W.edition]: 'words' } },
  events: { block: 'readings', others: 'evidence', words: { [W.edition]: 'words' } },
  inspection: { block: 'readings', others: 'evidence', words: { [W.edition]: 'words' } },
  work: { block: 'readings', others: 'readings' },
  withdraw: { block: 'readings', others: 'readings' },
  concession: { block: 'concession', others: 'concession' },
};

/** Single arguments that say something else than their line. */
const slots: Readonly<Partial<Record<Word, Readonly<Record<string, ChangeKind>>>>> = {
  [W.segment]: {
    cable: 'connection',
    [K.fibres]: 'connection',
    [K.tube]: 'connection',
    [K.map]: 'connection',
  },
  [W.cord]: { crossing: 'connection', [K.map]: 'connection', [K.plugs]: 'joints' },
  [W.component]: {
    [K.map]: 'connection',
    [K.port]: 'connection',
    [K.turned]: 'connection',
    [K.at]: 'words',
  },
  [W.as]: { [K.turned]: 'connection' },
  [W.connector]: { [K.pins]: 'connection', [K.key]: 'connection', [K.at]: 'words' },
  [W.plug]: { [K.pinned]: 'connection' },
  [W.splice]: { [K.at]: 'words' },
  [W.carries]: { [K.cords]: 'medium', [K.beside]: 'basis' },
  [W.basis]: { trust: 'concession' },
  [W.source]: { light: 'method', [K.wavelength]: 'method' },
  [W.meter]: { [K.floor]: 'method' },
  [W.otdr]: { [K.floor]: 'method' },
  [W.slack]: { [K.at]: 'words' },
};

/** Contexts in which a path stands as it is built: slots of it say what they say there. */
const asBuilt: ReadonlySet<string> = new Set(['link', 'channel', 'ring', 'out', 'split', 'cable']);

/** What a whole block of a context is about. */
export function kindOfBlock(context: Context): ChangeKind {
  return table[context]?.block ?? 'text';
}

/** What a word, or one slot of it, is about; undefined where the table does not say. */
export function kindOf(context: Context, word: string, slot?: string): ChangeKind | undefined {
  const named = word as Word;
  const kinds = table[context];
  const whole = everywhere[named] ?? kinds?.words?.[named] ?? kinds?.others;
  const narrow = slot === undefined ? undefined : slots[named]?.[slot];
  if (narrow === undefined || whole === undefined) return whole;
  return elementWords.has(word) && !asBuilt.has(context) ? whole : narrow;
}

/** Words in whose blocks the order of some words is what is said. */
const ordered: Readonly<Record<string, ReadonlySet<string>>> = {
  link: elementWords,
  channel: elementWords,
  ring: elementWords,
  pattern: elementWords,
  out: elementWords,
  repair: elementWords,
  cable: new Set([W.reel, W.splice, W.route]),
};

/** Whether lines of a word mean something by their order where they stand. */
export function isOrdered(context: Context, word: string): boolean {
  return ordered[context]?.has(word) ?? false;
}

/** Which fibres work was done to, when, and what: by these readings grow old. */
const datedWords: ReadonlySet<string> = new Set([W.done, W.fibres, W.on, W.at]);

const isPath = (context: Context): boolean => context === W.link || context === W.channel;

/** What was recorded when it happened: another value of it, or none any more, is evidence edited. */
const recordedWords: ReadonlySet<string> = new Set([W.taken, W.checked, W.verified, W.disturbed]);

export function isRecorded(context: Context, word: string, slot?: string): boolean {
  if (context === W.work || context === W.repair) return datedWords.has(word);
  if (word === W.repair && slot === undefined) return context === W.cable || isPath(context);
  if (context !== W.setup) return false;
  return recordedWords.has(word) || (word === W.cord && slot === K.verified);
}

/** Kinds of a path: what changes one of them needs work in the field. */
export function isBuilt(kind: ChangeKind): boolean {
  return kind === 'connection' || kind === 'medium' || kind === 'joints';
}
