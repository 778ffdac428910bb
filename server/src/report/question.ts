/** What the results view may ask, as it comes over the wire. */
import * as z from 'zod/mini';
import { verdicts } from '../evaluate/result.ts';

const folds = ['pass', 'untested'] as const;
export const orders = ['margin', 'plan', 'name', 'length', 'tested', 'limit'] as const;
const groupings = ['link', 'cable', 'verdict'] as const;

/** How the table is looked at. It belongs to the view, not to the plan. */
const tableView = z.object({
  order: z.enum(orders),
  /** The same order from its other end. */
  turned: z.boolean(),
  /** Links by themselves, or together by their cable or verdict. */
  group: z.enum(groupings),
  /** Groups that are shut, by name. */
  shut: z.array(z.string()),
  /** Verdicts whose toggles are off. */
  hidden: z.array(z.enum(verdicts)),
  /** Part of the name of a link, of a fibre or of a port. */
  find: z.string(),
  open: z.array(z.string()),
  /** Fibres opened into their readings, as `fibreKey` names them. */
  openFibres: z.array(z.string()),
  unfolded: z.array(z.enum(folds)),
  /** The scale may only grow while someone types, dB. */
  reach: z.number(),
});

const table = { view: tableView, from: z.number(), to: z.number() };

const question = z.discriminatedUnion('ask', [
  /** Everything the page shows, with the rows `from` to `to` of the table. */
  z.object({ ask: z.literal('results'), ...table }),
  /** More rows of the same table. */
  z.object({ ask: z.literal('rows'), ...table }),
  z.object({ ask: z.literal('drawing'), object: z.string(), wavelength: z.optional(z.number()) }),
  z.object({ ask: z.literal('findings'), from: z.number(), to: z.number() }),
  /** What belongs to the cursor in the text, and where its row is in the table. */
  z.object({
    ask: z.literal('cursor'),
    uri: z.string(),
    position: z.object({ line: z.number(), character: z.number() }),
    view: tableView,
  }),
  /** The next row of the table that is not pass, or the next reading to make. */
  z.object({
    ask: z.literal('step'),
    view: tableView,
    from: z.string(),
    to: z.enum(['not-pass', 'missing']),
    back: z.boolean(),
  }),
  /** How far the readings have come; with `cable` of the links in it alone. */
  z.object({ ask: z.literal('coverage'), view: tableView, cable: z.optional(z.string()) }),
  /** How the readings of a link or channel lie; without one, those of all that filter and search leave. */
  z.object({ ask: z.literal('charts'), view: tableView, object: z.optional(z.string()) }),
  /** What filter and search leave, as text: tab-separated as in the plan, or every reading as comma-separated values. */
  z.object({ ask: z.literal('text'), view: tableView, form: z.enum(['tabs', 'csv']) }),
  /** Where a reading stands in the text, or is to be typed; wavelength in picometres, direction '' where none is said. */
  z.object({
    ask: z.literal('place'),
    object: z.string(),
    fibre: z.number(),
    wavelength: z.number(),
    direction: z.string(),
  }),
  /** Where a row, by its key, stands in the table. */
  z.object({ ask: z.literal('find-row'), view: tableView, key: z.string() }),
]);

export type TableView = z.infer<typeof tableView>;
export type Question = z.infer<typeof question>;
export type FoldKind = (typeof folds)[number];

export const plainView: TableView = {
  order: 'margin',
  turned: false,
  group: 'link',
  shut: [],
  hidden: [],
  find: '',
  open: [],
  openFibres: [],
  unfolded: [],
  reach: 0,
};

/** The question, or undefined where it is none. */
export function readQuestion(raw: unknown): Question | undefined {
  const read = question.safeParse(raw);
  return read.success ? read.data : undefined;
}
