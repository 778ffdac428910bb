/**
 * The JSON form of a comparison, version 1: what scripts of others rely on.
 * Units stand in names; decibels are exact to 1e-6; unknown is null, never 0.
 */
import * as z from 'zod/mini';
import { changeKinds } from '../../../compare/types.ts';
import { verdicts } from '../../../evaluate/result.ts';
import { verdictCounts } from '../../../report/schema.ts';

const number = z.nullable(z.number());
const text = z.nullable(z.string());
const verdict = z.enum(verdicts);
const direction = z.nullable(z.enum(['A>B', 'B>A']));

/** Each use with its own description: a description stands on one object of the schema. */
function described<Schema extends z.ZodMiniType>(schema: Schema, description: string): Schema {
  z.globalRegistry.add(schema, { description });
  return schema;
}

const position = z.object({ line: z.number(), character: z.number() });

const place = () =>
  z.nullable(
    z.object({
      file: described(z.string(), 'from the folder in which the command was run'),
      range: z.object({ start: position, end: position }),
    }),
  );

const key = z.object({
  object: z.string(),
  fibre: z.number(),
  quantity: z.enum(['loss', 'power', 'reflectance']),
  wavelength_nm: z.number(),
  direction,
});

const change = z.object({
  kind: z.enum(changeKinds),
  form: z.enum(['new', 'gone', 'changed', 'moved']),
  subject: z.string(),
  was: described(text, 'as people write it, with its unit; null where it was not there'),
  now: described(text, 'as people write it, with its unit; null where it is gone'),
  note: text,
  before: described(place(), 'in the old state; null where it was not there'),
  after: described(place(), 'in the new state; null where it is gone'),
  elsewhere: described(
    z.array(z.object({ before: place(), after: place() })),
    'where the same is said of other things that were changed alike; else empty',
  ),
  reach: described(z.array(z.string()), 'names of the objects that it can touch'),
  readings: described(z.array(key), 'which, where it is of single readings; else empty'),
  count: described(z.number(), 'how many equal lines are told as this one'),
  guard: described(
    z.nullable(z.object({ finding: z.string(), message: z.string(), answered: text })),
    'evidence altered or removed; answered is null until somebody answers in words',
  ),
  moves_verdict: z.boolean(),
  effects: described(
    z.array(z.number()),
    'places, from 0, in effects, of which it is the first cause',
  ),
});

const standing = z.nullable(
  z.object({
    verdict,
    loss_db: number,
    limit_db: number,
    governing: text,
    margin_db: number,
    attempt: number,
    expected: z.boolean(),
    place: place(),
  }),
);

const design = z.nullable(
  z.object({
    expected_db: number,
    worst_db: number,
    limit_db: number,
    governing: text,
    design_margin_db: number,
  }),
);

const support = z.nullable(
  z.object({
    support: z.enum(['by design', 'predicted', 'by measurement', 'not supported']),
    row: text,
    power_margin_db: number,
    overload_margin_db: number,
  }),
);

const whole = z.nullable(
  z.object({
    verdict,
    expected_readings: z.number(),
    present_readings: z.number(),
    accepted: z.boolean(),
    waits_for: z.array(z.string()),
    length_m: number,
  }),
);

const moved = {
  object: z.string(),
  formerly: described(z.nullable(z.string()), 'another name that it had'),
  causes: described(
    z.array(z.number()),
    'places, from 0, in changes, the most important first; empty where the instant alone is the cause',
  ),
};

const effect = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('reading'),
    ...moved,
    key,
    end: described(z.nullable(z.string()), 'of a tree'),
    before: standing,
    after: standing,
  }),
  z.object({
    kind: z.literal('design'),
    ...moved,
    wavelength_nm: z.number(),
    direction,
    reference: text,
    way: text,
    before: design,
    after: design,
  }),
  z.object({
    kind: z.literal('application'),
    ...moved,
    application: z.string(),
    way: text,
    before: support,
    after: support,
  }),
  z.object({ kind: z.literal('object'), ...moved, before: whole, after: whole }),
]);

const side = z.object({
  label: z.string(),
  commit: described(z.nullable(z.string()), 'where it is a revision'),
  title: text,
  summary: z.object({
    objects: z.number(),
    expected_readings: z.number(),
    present_readings: z.number(),
    verdicts: verdictCounts,
    accepted: z.boolean(),
    worst: z.nullable(z.object({ margin_db: z.number(), object: z.string(), key })),
  }),
});

const comparisonSchema = z.object({
  version: z.literal(1),
  document: z.literal('comparison'),
  tool: z.string(),
  plan: described(z.string(), 'its own file, from the folder in which the command was run'),
  before: side,
  after: side,
  engineering_changes: z.number(),
  changes: described(z.array(change), 'most important first'),
  effects: z.array(effect),
  matrix: described(
    z.array(
      z.object({
        before: z.enum([...verdicts, 'none']),
        after: z.enum([...verdicts, 'none']),
        count: z.number(),
      }),
    ),
    'readings by verdict before and after; none: it is on one side only',
  ),
  retest: z.array(z.object({ key, because: z.string() })),
  breaches: described(
    z.array(z.object({ rule: z.string(), message: z.string(), stands: place(), at: place() })),
    'rules of the plan for its changes that are broken: where the rule stands, and what breaks it',
  ),
});

export type ComparisonJson = z.infer<typeof comparisonSchema>;

const sinceRecord = z.object({
  version: z.literal(1),
  document: z.literal('comparison with a record'),
  tool: z.string(),
  record: z.object({ file: z.string(), state: z.enum(['draft', 'issued']), date: z.string() }),
  plan: z.string(),
  same_files: described(z.boolean(), 'every file of the plan is as it was'),
  differences: z.array(
    z.object({
      difference: described(
        z.enum(['altered', 'removed', 'added', 'withdrawn', 'judged']),
        'added: dated before the record and not in it; judged: the same reading, another verdict or limit',
      ),
      object: z.string(),
      subject: z.string(),
      was: text,
      now: text,
      at: described(place(), 'in the plan as it is; of what is gone the plan’s own file'),
    }),
  ),
});

export type SinceRecordJson = z.infer<typeof sinceRecord>;

/** Both as JSON Schema, for those who check with other tools: `document` says which it is. */
export function comparisonJsonSchema(): object {
  return {
    title: 'Linkwright comparison, version 1',
    ...z.toJSONSchema(z.discriminatedUnion('document', [comparisonSchema, sinceRecord])),
  };
}
