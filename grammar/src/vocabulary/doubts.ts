/** From where on readings are pointed at: the words of `doubts` in a plan, each with what holds where it is not said. */
import { arg, COUNT, form, LEN, LOSS, maybe, opt, SHARE, type WordEntry, word } from './kinds.ts';
import { K, W } from './spelling.ts';

const bound = (
  name: (typeof W)[keyof typeof W],
  kinds: ReturnType<typeof form>,
  example: string,
  doc: string,
): WordEntry => word(name, 'doubts', '?', kinds, example, doc);

export const doubtWords: readonly WordEntry[] = [
  bound(
    W.outlier,
    form(arg('loss', LOSS), opt(K.mates, COUNT)),
    'outlier 0.20 dB mates 8',
    'How far above the median of its mates a pass is pointed at, at least: 0.20 dB if not said. More is asked where the mates scatter: 4.7 of their standard deviations, and more of few. Fewer than `mates` readings, 8 if not said, show none. Common practice, no source; the deviations are from the error study.',
  ),
  bound(
    W.asymmetry,
    form(arg('loss', LOSS)),
    'asymmetry 0.30 dB',
    'How far two directions of one fibre may differ before it is said: 0.30 dB if not said, and `within` of `directions` where their average is judged. Common practice, no source: 0.2 to 0.3 dB is usual.',
  ),
  bound(
    W.copied,
    form(arg('fibres', COUNT)),
    'copied 5',
    'From how many fibres on it is said that both directions are equal to the last digit: more than 5 if not said. Common practice, no source.',
  ),
  bound(
    W.bend,
    form(arg('loss', LOSS), opt(K.slope, SHARE)),
    'bend 0.20 dB slope 20 %',
    'How much more than the slope of its fibre a single-mode reading may lose at the longer wavelength before a bend is suspected: 0.20 dB if not said, and a share of the `slope`, 20 % if not said, unless its mates show what the slope of this cable is. Common practice on a published typical slope; the share is ours, see the error study.',
  ),
  bound(
    W.inversion,
    form(arg('loss', LOSS)),
    'inversion 0.10 dB',
    'How much more a multimode reading may lose at 1300 nm than at 850 nm before it is said: 0.10 dB if not said, and always more than two readings may differ by chance, √2 · 2 · `repeatable`. Common practice, no source.',
  ),
  bound(
    W.joint,
    form(arg('loss', LOSS)),
    'joint 0.30 dB',
    'How far a reading may lie above what its parts typically lose, alike at two wavelengths, before a joint is suspected: 0.30 dB if not said. Common practice, no source.',
  ),
  bound(
    W.tooHigh,
    form(arg('loss', LOSS), opt(K.length, SHARE)),
    'too-high 0.30 dB length 10 %',
    'How far the median of a batch may lie above what its parts typically lose before it is said: 0.30 dB if not said, and a share of what its fibre typically loses over its `length`, 10 % if not said. Common practice, no source; the share is ours, see the error study.',
  ),
  bound(
    W.tooLow,
    form(arg('pair', SHARE), opt(K.length, SHARE)),
    'too-low 35 % length 80 %',
    'The least that a batch can lose: this share of what its pairs typically lose, 35 % if not said, and of what its fibre typically loses over its `length`, 80 % if not said. Splices may lose nothing. Ours, see the error study: well-made pairs lose a third of what pairs mated at random do.',
  ),
  bound(
    W.course,
    form(arg('loss', LOSS), opt(K.mates, COUNT)),
    'course 0.21 dB mates 10',
    'How much losses must rise, fall or jump in the order of measuring, at least, before it is said. If not said, 1.5 times what two readings may differ by chance, √2 · 2 · `repeatable`: 0.21 dB at 0.05 dB. Fewer than `mates` fibres, 10 if not said, have no course. Common practice, no source; what else is asked of their order is from the error study.',
  ),
  bound(
    W.exchanged,
    form(arg('share', SHARE), opt(K.mates, COUNT)),
    'exchanged 60 % mates 4',
    'How far beyond the slope of the fibre a difference the wrong way round may lie, as a share of the slope, and still mean that two headings are exchanged: 60 % if not said. More is a bend. Fewer than `mates` fibres, 4 if not said, say nothing of headings, of wavelengths or directions. Ours, see the error study.',
  ),
  bound(
    W.repeated,
    form(arg('rows', COUNT)),
    'repeated 3',
    'How many rows in a row must repeat others, digit for digit, at least: 3 if not said, and more where values are so coarse that chance makes as many. Common practice, no source; how unlikely they must be is from the error study.',
  ),
  bound(
    W.numbered,
    form(arg('fibres', COUNT)),
    'numbered 12',
    'How many fibres a table must have, at least, for its numbering to be doubted: 12 if not said, and never fewer than 6. Ours, see the error study.',
  ),
  bound(
    W.length,
    form(arg('share', SHARE), maybe('least', LEN)),
    'length 3 % 15 m',
    'How far a measured length may differ from the declared one, by the larger of a share and a length: 3 % and 15 m if not said. Beyond it the shorter of the two counts in limits. Common practice, no source: fibre lies in a cable as a helix, 0.5 to 3 % longer than the sheath.',
  ),
];
