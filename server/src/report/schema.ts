/**
 * The JSON form of a judged plan, version 1: what scripts of others rely on.
 * Units stand in names; decibels are exact to 1e-6; unknown is null, never 0.
 */
import * as z from 'zod/mini';
import { verdicts } from '../evaluate/result.ts';

const number = z.nullable(z.number());
const text = z.nullable(z.string());
const direction = z.nullable(z.enum(['A>B', 'B>A']));
const verdict = z.enum(verdicts);
const limitKind = z.enum(['components', 'application', 'contract']);

/** Each use with its own description: a description stands on one object of the schema. */
function described<Schema extends z.ZodMiniType>(schema: Schema, description: string): Schema {
  z.globalRegistry.add(schema, { description });
  return schema;
}

const trust = () =>
  described(
    z.nullable(z.enum(['read', 'recalled'])),
    'recalled: it rests on a figure from memory; read: all its figures were read in a text; null: its declaration does not say',
  );

const term = z.object({
  what: z.string(),
  count: z.number(),
  each_db: z.number(),
  total_db: z.number(),
  source: z.string(),
  trust: trust(),
});

const wavelength = z.object({
  wavelength_nm: z.number(),
  direction,
  reference: text,
  receive_cord: z.boolean(),
  expected_db: number,
  mean_and_3_sigma_db: described(number, 'null where a part states no mean or sigma'),
  percentile: described(
    z.nullable(
      z.object({
        share_percent: z.number(),
        loss_db: number,
        fixed_db: described(number, 'of parts that state no spread, at their greatest'),
        parts: z.array(
          z.object({
            what: z.string(),
            count: z.number(),
            assumed: described(z.string(), 'the distribution of one, in words'),
          }),
        ),
      }),
    ),
    'the loss that so many of a hundred links keep whose parts are drawn at random; null where no part states how it is spread',
  ),
  worst_db: number,
  limits: z.array(
    z.object({
      kind: limitKind,
      name: z.string(),
      limit_db: number,
      terms: z.array(term),
      trust: trust(),
      beside: described(z.boolean(), 'only compared, never governing'),
      because: described(z.nullable(z.string()), 'why it has no figure; null where it has one'),
    }),
  ),
  governing: z.nullable(limitKind),
  limit_db: number,
  design_margin_db: number,
});

const application = z.object({
  name: z.string(),
  support: z.enum(['by design', 'predicted', 'by measurement', 'not supported']),
  row: text,
  because: z.string(),
  length_limit_m: number,
  loss_limit_db: number,
  power_margin_db: number,
  overload_margin_db: number,
  trust: trust(),
});

const reading = z.object({
  object: z.string(),
  fibre: z.number(),
  wavelength_nm: z.number(),
  direction,
  attempt: number,
  setup: text,
  time: text,
  reference_dbm: number,
  power_dbm: number,
  loss_db: number,
  limit_db: number,
  margin_db: number,
  uncertainty_db: z.number(),
  verdict,
  current: z.boolean(),
  limit_kind: described(z.nullable(limitKind), 'of the limit that it is judged by'),
  limit_name: described(
    z.nullable(z.string()),
    'the set of limits, the application with its row, or the line of the contract',
  ),
  limit_trust: trust(),
  reason: described(
    z.nullable(z.string()),
    'one word for why it is invalid, stale, not judged, conceded or untested: the name of a finding, or work, withdrawn, no-limit, dark and the like',
  ),
  because: described(z.nullable(z.string()), 'the same as a sentence for people'),
  quantity: described(
    z.enum(['loss', 'power', 'reflectance']),
    'what was read; a reflectance is judged by return loss: limit_db is the least, margin_db what is above it',
  ),
  reflectance_db: described(z.nullable(z.number()), 'negative, as it was read'),
  residual_db: described(
    z.nullable(z.number()),
    'loss less what the parts typically lose, of a loss that stands',
  ),
  mates_deviation: described(
    z.nullable(z.number()),
    'distance from the median of its mates, of the same path, set-up, wavelength and direction, in median absolute deviations; null of fewer than eight',
  ),
});

/** One event of a trace; `sum_db` is both directions together, so that its half is the average. */
const event = z.object({
  fibre: z.number(),
  end: text,
  kind: z.string(),
  at_m: z.number(),
  wavelength_nm: z.number(),
  quantity: z.enum(['loss', 'reflectance']),
  forward_db: number,
  back_db: number,
  sum_db: number,
  part: text,
  limit_db: number,
  margin_db: number,
  verdict,
  because: z.string(),
});

/** The last inspection of one end face. */
const inspection = z.object({
  fibre: z.number(),
  end: text,
  side: z.enum(['A', 'B']),
  seen: z.nullable(z.enum(['pass', 'fail', 'cleaned'])),
  time: text,
  criterion: text,
  verdict,
  because: z.string(),
});

/** The last length measured of one fibre, in the glass. */
const length = z.object({
  fibre: z.number(),
  end: text,
  length_m: z.number(),
  shown_m: z.number(),
  declared_m: number,
  time: z.string(),
  verdict,
  because: z.string(),
});

/** Where the light of a place comes out, by all maps of the path; none where no map stands in it. */
const arrival = z.object({
  fibre: z.number(),
  place: number,
  port: text,
  wanted_place: number,
});

/** What the path does to the signal at one wavelength, by design: delay and dispersions at most, bandwidth at least. */
const signal = z.object({
  application: described(
    z.nullable(z.string()),
    'what it carries, cords included; null: the object as it is',
  ),
  way: described(z.nullable(z.string()), 'end of a tree, span or long way of a ring'),
  wavelength_nm: z.number(),
  direction,
  length_m: described(number, 'along the fibre, with the excess of its cable'),
  delay_ns: number,
  skew_ns: described(number, 'between fibres that the application uses together'),
  bandwidth: z.array(z.object({ launch: z.string(), mhz: z.number(), trust: trust() })),
  dispersion_ps_nm: number,
  pmd_ps: number,
  trust: z.object({ delay: trust(), dispersion: trust(), pmd: trust() }),
  unknown: described(z.array(z.string()), 'what is not known, and why'),
});

/** One way of light through a tree or a ring. */
const way = z.object({
  name: described(z.string(), 'the port of an end, or the two nodes of a span'),
  kind: z.enum(['branch', 'span', 'long-way']),
  fibre: described(number, 'of an end: the number under which readings name it'),
  cut: described(text, 'of a long way: the span that is lost'),
  length_m: number,
  wavelengths: z.array(wavelength),
  applications: z.array(application),
});

const link = z.object({
  name: z.string(),
  title: text,
  from: z.array(z.string()),
  to: z.array(z.string()),
  length_m: number,
  fibres: z.array(z.number()),
  wavelengths: z.array(wavelength),
  applications: z.array(application),
  verdict,
  readings: z.array(reading),
  events: z.array(event),
  inspections: z.array(inspection),
  lengths: z.array(length),
  arrivals: z.array(arrival),
  ways: described(z.array(way), 'ends of a tree, spans and long ways of a ring; else empty'),
  worst_way: described(text, 'the one that wavelengths and applications speak of'),
  signal: z.array(signal),
});

const position = z.object({ line: z.number(), character: z.number() });

const finding = z.object({
  name: z.string(),
  severity: z.enum(['error', 'warning', 'note']),
  file: z.string(),
  range: z.object({ start: position, end: position }),
  message: z.string(),
  page: z.string(),
});

/** Readings that stand, and those to make, by verdict. */
export const verdictCounts = z.object({
  pass: z.number(),
  marginal_pass: z.number(),
  marginal_fail: z.number(),
  fail: z.number(),
  invalid: z.number(),
  stale: z.number(),
  untested: z.number(),
  not_judged: z.number(),
  conceded: z.number(),
});

export const resultSchema = z.object({
  version: z.literal(1),
  tool: z.string(),
  plan: z.object({ title: text, files: z.array(z.string()), fingerprint: z.string() }),
  totals: z.object({
    links: z.number(),
    expected_readings: z.number(),
    present_readings: z.number(),
    verdicts: verdictCounts,
    accepted: z.boolean(),
    worst_margin_db: number,
  }),
  links: z.array(link),
  channels: z.array(link),
  rings: z.array(link),
  sections: z.array(link),
  findings: z.array(finding),
});

export type ResultJson = z.infer<typeof resultSchema>;
export type VerdictCountsJson = z.infer<typeof verdictCounts>;
export type LinkJson = z.infer<typeof link>;
export type ReadingJson = z.infer<typeof reading>;
export type EventJson = z.infer<typeof event>;
export type InspectionJson = z.infer<typeof inspection>;
export type LengthJson = z.infer<typeof length>;
export type SignalJson = z.infer<typeof signal>;
export type FindingJson = z.infer<typeof finding>;

/** The same as JSON Schema, for those who check with other tools. */
export function resultJsonSchema(): object {
  return { title: 'Linkwright result, version 1', ...z.toJSONSchema(resultSchema) };
}
