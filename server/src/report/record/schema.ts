/**
 * The JSON form of an acceptance record, version 1: what scripts of others rely on. Units stand
 * in names; unknown is null. What is for people to read is written as they read it.
 */
import * as z from 'zod/mini';
import { verdicts } from '../../evaluate/result.ts';
import { resultSchema } from '../schema.ts';

const number = z.nullable(z.number());
const text = z.nullable(z.string());

/** Each use with its own description: a description stands on one object of the schema. */
function described<Schema extends z.ZodMiniType>(schema: Schema, description: string): Schema {
  z.globalRegistry.add(schema, { description });
  return schema;
}

const instrument = () =>
  z.nullable(
    z.object({
      name: z.string(),
      light: z.nullable(z.enum(['LED', 'laser'])),
      wavelengths_nm: z.array(z.number()),
      floor_dbm: number,
      calibrated: text,
      due: text,
    }),
  );

const setup = z.object({
  name: z.string(),
  reflectometer: z.boolean(),
  reference: text,
  far_plug_in_meter: z.boolean(),
  source: instrument(),
  meter: instrument(),
  launch: text,
  cords: z.array(
    z.object({
      name: z.string(),
      role: z.enum(['launch', 'receive', 'substitution', 'tail']),
      connector: z.string(),
      fibre: z.string(),
      grade: text,
      length_m: number,
      verified_db: number,
      since: text,
    }),
  ),
  events: described(
    z.array(
      z.object({
        kind: z.enum(['taken', 'checked', 'disturbed', 'verified']),
        time: z.string(),
        wavelength_nm: number,
        power_dbm: number,
        cord: text,
        loss_db: number,
        because: text,
      }),
    ),
    'in order: references taken, drift checks against them, cords verified, what was disturbed',
  ),
});

/** A person’s decision about evidence. */
const decision = z.object({
  object: z.string(),
  of: described(z.string(), 'fibres and wavelengths, in words'),
  what: z.string(),
  because: z.string(),
  by: z.string(),
});

export const recordSchema = z.object({
  version: z.literal(1),
  document: z.literal('acceptance record'),
  state: z.enum(['draft', 'issued']),
  date: described(
    z.string(),
    'by which it is judged, on the clock of the site: 2026-03-14, with a time of day if not at the end of that day',
  ),
  seal: described(z.string(), 'with which record --verify holds a plan against this record'),
  missing: described(
    z.array(z.object({ of: z.string(), what: z.string() })),
    'what it lacks to be issued; empty where it is',
  ),
  job: z.object({
    client: text,
    site: text,
    revision: text,
    revision_date: text,
    zone: text,
    files: described(
      z.array(z.object({ path: z.string(), fingerprint: z.string() })),
      'paths from the folder of the plan; SHA-256 over name and text',
    ),
  }),
  judged_by: z.array(z.object({ what: z.string(), value: z.string() })),
  adopted: z.array(z.object({ name: z.string(), by: text, on: text })),
  exceptions: z.array(
    z.object({
      object: z.string(),
      place: z.string(),
      what: z.string(),
      loss: z.string(),
      limit: z.string(),
      margin: z.string(),
      verdict: z.enum(verdicts),
      because: z.string(),
    }),
  ),
  concessions: z.array(decision),
  withdrawn: z.array(decision),
  read_again: z.array(
    z.object({
      object: z.string(),
      place: z.string(),
      what: z.string(),
      attempts: z.array(z.string()),
    }),
  ),
  not_tested: z.array(z.object({ object: z.string(), what: z.string(), why: z.string() })),
  doubts_answered: z.array(
    z.object({
      about: z.string(),
      name: z.string(),
      message: z.string(),
      answer: z.string(),
    }),
  ),
  work: z.array(z.object({ object: z.string(), what: z.string(), on: z.string(), by: z.string() })),
  setups: z.array(setup),
  results: resultSchema,
});

export type RecordForm = z.infer<typeof recordSchema>;

/** JSON Schema of the form, draft 2020-12. */
export function recordJsonSchema(): object {
  return { title: 'Linkwright acceptance record, version 1', ...z.toJSONSchema(recordSchema) };
}
