/** What is read of a record in JSON: its evidence, and what it was judged to be. More may stand in it. */
import * as z from 'zod/mini';
import { verdicts } from '../evaluate/result.ts';

const number = z.nullable(z.number());
const text = z.nullable(z.string());

const reading = z.object({
  object: z.string(),
  fibre: z.number(),
  wavelength_nm: z.number(),
  direction: text,
  quantity: z.string(),
  attempt: number,
  setup: text,
  time: text,
  reference_dbm: number,
  power_dbm: number,
  loss_db: number,
  reflectance_db: number,
  limit_db: number,
  verdict: z.enum(verdicts),
  reason: text,
  because: text,
});

const event = z.object({
  fibre: z.number(),
  end: text,
  at_m: z.number(),
  wavelength_nm: z.number(),
  quantity: z.string(),
  forward_db: number,
  back_db: number,
});

const inspection = z.object({
  fibre: z.number(),
  end: text,
  side: z.string(),
  seen: text,
  time: text,
});

const length = z.object({ fibre: z.number(), end: text, shown_m: z.number(), time: z.string() });

const object = z.object({
  name: z.string(),
  readings: z.array(reading),
  events: z.array(event),
  inspections: z.array(inspection),
  lengths: z.array(length),
});

const record = z.object({
  version: z.literal(1),
  document: z.literal('acceptance record'),
  state: z.enum(['draft', 'issued']),
  date: z.string(),
  setups: z.array(
    z.object({
      name: z.string(),
      events: z.array(
        z.object({ kind: z.string(), time: z.string(), wavelength_nm: number, power_dbm: number }),
      ),
    }),
  ),
  results: z.object({
    plan: z.object({ title: text, fingerprint: z.string() }),
    links: z.array(object),
    channels: z.array(object),
    rings: z.array(object),
    sections: z.array(object),
  }),
});

export type RecordJson = z.infer<typeof record>;
export type RecordedObject = z.infer<typeof object>;

/** Undefined where the text is no record of this form. */
export function readRecordJson(whole: string): RecordJson | undefined {
  try {
    const read = record.safeParse(JSON.parse(whole));
    return read.success ? read.data : undefined;
  } catch {
    return undefined;
  }
}
