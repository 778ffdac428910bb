/** What an end face may show: the regions of the face, and scratches and defects allowed in each. */
import {
  arg,
  choice,
  declares,
  form,
  N,
  opt,
  refers,
  SIZE,
  type SlotKind,
  TEXT,
  type WordEntry,
  word,
} from './kinds.ts';
import { C, K, W } from './spelling.ts';

const region = arg('region', choice(C.regionA, C.regionB, C.regionC, C.regionD), 'A|B|C|D');
const count: readonly SlotKind[] = [N, choice(C.none, C.any)];

export const faceWords: readonly WordEntry[] = [
  word(
    W.criterion,
    'inspection',
    '1',
    form(arg('text', [TEXT, refers('criterion')])),
    'criterion "visual requirements of the contract, clause 9"',
    'By what the end faces were judged: a declared criterion by its name, or another in words.',
  ),
  word(
    W.criterion,
    'file',
    '*',
    form(arg('name', declares('criterion'))),
    'criterion FACE-SM-PC {',
    'What the end face of one kind of connector may show. It is what people grade by, and shown where an inspection names it; the tool sees no face. Look at a face only when its fibre is known to be dark, through an instrument made for it.',
    { block: 'criterion' },
  ),
  word(
    W.region,
    'criterion',
    'k',
    form(region, arg('diameter', SIZE)),
    'region A 25 um',
    'How far out a zone of the face goes, as a diameter in um: A the core, B the cladding, C the adhesive, D the contact. Each begins where the one before it ends.',
    { key: ['region'], needed: true },
  ),
  word(
    W.scratch,
    'criterion',
    'k',
    form(region, arg('count', count), opt(K.max, SIZE)),
    'scratch B any max 3 um',
    'How many scratches a zone may show, up to that width in um: a number, `any` or `none`; without `max` of any width. None is wider than the widest that is said; a zone without a line is not graded for them.',
    { key: ['region', K.max] },
  ),
  word(
    W.defect,
    'criterion',
    'k',
    form(region, arg('count', count), opt(K.max, SIZE)),
    'defect B 5 max 5 um',
    'How many pits, chips and spots a zone may show, up to that size in um: a number, `any` or `none`; without `max` of any size. None is larger than the largest that is said; a zone without a line is not graded for them.',
    { key: ['region', K.max] },
  ),
];
