/**
 * What the results page and the editor say to each other. Both sides check what
 * they receive: a page restored from an older version may still speak its words.
 */
import * as z from 'zod/mini';

const position = z.object({ line: z.number(), character: z.number() });
const range = z.object({ start: position, end: position });

/** From the page to the editor. */
const fromPage = z.discriminatedUnion('kind', [
  /** A question for the server; its answer comes back under the same number. */
  z.object({ kind: z.literal('ask'), id: z.number(), question: z.unknown() }),
  /** Show a place in the text. */
  z.object({ kind: z.literal('show'), uri: z.string(), range }),
  /** Show a place in a text as it was at the revision compared with. */
  z.object({ kind: z.literal('was'), uri: z.string(), range }),
  /** Put a fix into the text. */
  z.object({
    kind: z.literal('edit'),
    edits: z.array(z.object({ uri: z.string(), range, text: z.string() })),
  }),
  /** Put a text into the clipboard. */
  z.object({ kind: z.literal('copy'), text: z.string() }),
  /** Write a text into a file that is asked for; `name` is offered. */
  z.object({ kind: z.literal('save'), name: z.string(), text: z.string() }),
  /** Run one of the extension's own commands. */
  z.object({ kind: z.literal('command'), command: z.string().check(z.startsWith('linkwright.')) }),
]);

/** From the editor to the page. */
const toPage = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('answer'), id: z.number(), result: z.unknown() }),
  z.object({ kind: z.literal('failed'), id: z.number(), because: z.string() }),
  /** Results of these links and channels of the plan with this root changed. */
  z.object({ kind: z.literal('changed'), root: z.string(), objects: z.array(z.string()) }),
  /** Where the cursor stands in a plan's text; `whole`: it was put there, so that no number is half typed. */
  z.object({
    kind: z.literal('cursor'),
    uri: z.string(),
    position,
    whole: z.optional(z.boolean()),
  }),
  /** A file of a plan was saved: what has grown while typing may fit anew. */
  z.object({ kind: z.literal('saved'), uri: z.string() }),
  /** The language server has stopped, or answers again. */
  z.object({ kind: z.literal('server'), running: z.boolean() }),
  /** Show this link or channel. */
  z.object({ kind: z.literal('select'), object: z.string() }),
]);

export type FromPage = z.infer<typeof fromPage>;
export type ToPage = z.infer<typeof toPage>;

/** A message of the page, or undefined where it is none of ours. */
export function readFromPage(raw: unknown): FromPage | undefined {
  const read = fromPage.safeParse(raw);
  return read.success ? read.data : undefined;
}

/** A message of the editor, or undefined where it is none of ours. */
export function readToPage(raw: unknown): ToPage | undefined {
  const read = toPage.safeParse(raw);
  return read.success ? read.data : undefined;
}
