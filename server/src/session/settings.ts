/** What the user may set, read once from whatever the editor sends; what makes no sense falls back to its default. */
import * as z from 'zod/mini';
import { defaultSettings, type FeatureSettings } from '../features/feature.ts';
import type { SeverityChoice } from './publish.ts';

export interface SessionSettings {
  readonly features: FeatureSettings;
  readonly severities: Readonly<Record<string, SeverityChoice>>;
}

export const settingsSection = 'linkwright';

const hints = defaultSettings.hints;

const schema = z.object({
  hints: z.catch(
    z.object({
      enabled: z.catch(z.boolean(), hints.enabled),
      most: z.catch(z.number().check(z.nonnegative()), hints.most),
    }),
    { ...hints },
  ),
  precision: z.catch(z.int().check(z.minimum(0), z.maximum(6)), defaultSettings.precision),
  lengthUnit: z.catch(z.enum(['m', 'ft']), defaultSettings.lengthUnit),
  severities: z.catch(
    z.record(z.string(), z.catch(z.enum(['error', 'warning', 'note', 'off']), 'warning')),
    {},
  ),
});

export function readSettings(sent: unknown): SessionSettings {
  const parsed = schema.safeParse(typeof sent === 'object' && sent !== null ? sent : {});
  const { severities, ...features } = parsed.success
    ? parsed.data
    : { ...defaultSettings, severities: {} };
  return { features, severities };
}

const optionsSchema = z.object({
  asOf: z.optional(z.string()),
  settings: z.optional(z.unknown()),
});

/** Initialization options: an instant of judgement for clients that want the same answer on any day. */
export function readOptions(sent: unknown): {
  readonly asOf?: string;
  readonly settings?: unknown;
} {
  const parsed = optionsSchema.safeParse(sent ?? {});
  return parsed.success ? parsed.data : {};
}
