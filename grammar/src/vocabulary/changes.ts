/** What a change of the plan needs: the words of `changes` in a plan. A breach of each is told under the word itself. */
import { arg, args, form, LOSS, TEXT, type WordEntry, word } from './kinds.ts';
import { W } from './spelling.ts';

const rule = (
  name: (typeof W)[keyof typeof W],
  kinds: ReturnType<typeof form>,
  example: string,
  doc: string,
): WordEntry => word(name, 'changes', '?', kinds, example, doc);

export const changeWords: readonly WordEntry[] = [
  rule(
    W.margin,
    form(arg('loss', LOSS)),
    'margin 0.5 dB',
    'The least margin that a change may leave, in dB: of a reading that is new or judged otherwise now, and of a design that loses or allows something else now. What was below it before and has not come down is not held against the change; what a concession accepts is not either. Nothing is asked if not said.',
  ),
  rule(
    W.noWorse,
    form(),
    'no-worse',
    'No verdict gets worse by a change: none that passed is marginal, none that was judged is invalid or stale, and no application that was supported is not any more. A first reading may be of any verdict. Verdicts may get worse if not said.',
  ),
  rule(
    W.signed,
    form(args('by', TEXT)),
    'signed "M. Ashdown", "P. Orme"',
    'Whose name has to stand behind `by` in a new `silence`, `concession` or `withdraw`, or in one that says something else now. Anybody may answer if not said.',
  ),
  rule(
    W.sameLimits,
    form(),
    'same-limits',
    'What is accepted stays as it is: limits and the sets in force, editions, wanted margins, uncertainty, the decision rule and what is required. They may change if not said.',
  ),
  rule(
    W.unedited,
    form(),
    'unedited',
    'What was recorded is neither edited nor taken away, readings and references as well as work and withdrawals: a reading that is wrong goes by `withdraw`, which says why, and a better one is added. Without this rule a comparison tells of edited evidence all the same, first of all, and an answer in words is enough; with it none is.',
  ),
  rule(
    W.retested,
    form(),
    'retested',
    'What a change makes old or void is measured again within the same change: no reading is left to make again. It may be measured later if not said.',
  ),
];
