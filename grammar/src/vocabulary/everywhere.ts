/** Words that every block knows, and those of the file itself that declare nothing. */
import {
  arg,
  type Context,
  choice,
  DATE,
  flag,
  form,
  maybe,
  need,
  opt,
  refers,
  TEXT,
  type WordEntry,
  word,
} from './kinds.ts';
import { C, K, W } from './spelling.ts';

const everyBlock: readonly Context[] = [
  'plan',
  'doubts',
  'changes',
  'fibre',
  'connector',
  'splice',
  'splitter',
  'component',
  'cable',
  'colours',
  'mandrel',
  'flux',
  'criterion',
  'limits',
  'application',
  'transceiver',
  'setup',
  'link',
  'channel',
  'ring',
  'links',
  'channels',
  'pattern',
  'readings',
  'events',
  'inspection',
  'work',
  'withdraw',
  'concession',
  'split',
  'out',
  'repair',
];

/** Blocks that stand at the top level and are declarations. */
const declared = everyBlock.filter(
  (c) => c !== 'split' && c !== 'out' && c !== 'repair' && c !== 'doubts' && c !== 'changes',
);

/** Blocks that can take the entries of another of their kind, with a name for the example. */
const examples = {
  fibre: 'OM4',
  connector: 'LC',
  splice: 'fusion',
  splitter: 'PLC-1x8',
  component: 'CASSETTE-A',
  cable: 'C-101',
  colours: 'QUAY-ORDER',
  mandrel: 'MANDREL-50',
  flux: 'FLUX-50',
  criterion: 'FACE-SM-PC',
  limits: 'TIA-568.3-E',
  application: '10GBASE-SR',
  transceiver: 'SR-T1',
  setup: 'MM-1',
  link: 'KQ-OPS-B3',
  channel: 'GATE-1-SCAN',
  ring: 'KQ-RING',
  pattern: 'leaf-spine',
} as const;
const copied = Object.keys(examples) as (keyof typeof examples)[];

export const everywhere: readonly WordEntry[] = [
  word(
    W.include,
    'file',
    '*',
    form(arg('path', TEXT)),
    'include "links/berth-3.lwl"',
    'Takes another file into the plan. The path is relative to this file, written with `/`, stays inside the workspace and never comes back to where it started. What a `plan` file includes, directly or through others, is one scope of names.',
  ),
  word(
    W.note,
    everyBlock,
    '*',
    form(arg('text', TEXT)),
    'note "the closure is under ramp 3, behind the second hatch"',
    'A remark for people. It is shown beside what it stands in and judges nothing.',
  ),
  word(
    W.basis,
    declared,
    '*',
    form(arg('source', TEXT), maybe('trust', choice(C.read, C.recalled))),
    'basis "contract clause 7.2" read',
    'Where a figure stands: the document and its place. `read` says that somebody looked it up there, `recalled` that it was written from memory and wants checking. It stands for the entries above it, up to the `basis` before.',
  ),
  word(
    W.edition,
    declared,
    '?',
    form(arg('title', TEXT), flag(K.contract)),
    'edition "clause 7.4, 2026" contract',
    'Which edition of a document the block follows. With `contract`, in `limits`, the figures bind as the contract’s own and not as the allowances of components; on a tie the contract governs.',
  ),
  word(
    W.silence,
    declared,
    'k',
    form(
      arg('finding', refers('finding')),
      need(opt(K.because, TEXT)),
      opt(K.by, TEXT),
      opt(K.on, DATE),
    ),
    'silence no-uncertainty because "agreed with the owner" by "M. Ashdown" on 2026-03-20',
    'Answers a doubt in words: the finding of that name is no longer shown for this block, and the reason is kept with the record. A contradiction cannot be silenced.',
    { key: ['finding'] },
  ),
  ...copied.map((kind) =>
    word(
      W.like,
      kind,
      '?',
      form(arg('name', refers(kind))),
      `like ${examples[kind]}`,
      'Takes the entries of another declaration of the same kind. An entry written here with the same word and key replaces the one taken over; others add. Naming the block’s own name means the declaration it shadows, usually the library’s. Evidence, ends, paths and rows never come along.',
    ),
  ),
];
