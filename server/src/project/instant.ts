/**
 * The instant of judgement. Evaluation never asks a clock: who starts the tool
 * says when it is, as a person would read it from the wall at the site.
 */
import { offsetOf } from '../model/api.ts';

/** A minute that the site's clock shows, counted from 1970-01-01 00:00; or now, which each site's clock shows by its own zone. */
export type Instant = number | Now;

/** One minute on two clocks, both counted from 1970-01-01 00:00: UTC, and the machine's own. */
export interface Now {
  readonly utc: number;
  readonly here: number;
}

export function nowOf(date: Date): Now {
  const utc = Math.floor(date.getTime() / 60_000);
  return { utc, here: utc - date.getTimezoneOffset() };
}

const minutesOfDay = 1440;

/**
 * The minute by which a plan is judged. Now means the last minute of today:
 * what is judged depends on days (expiry, calibration, concessions), so that
 * the instant changes once a day and not with every key. Without a zone, or
 * with one that is no offset, the site's clock is taken to be the machine's.
 */
export function onSite(instant: Instant, zone: string | undefined): number {
  if (typeof instant === 'number') return instant;
  const offset = offsetOf(zone);
  const minute = offset === undefined ? instant.here : instant.utc + offset;
  return Math.floor(minute / minutesOfDay) * minutesOfDay + minutesOfDay - 1;
}

/** `2026-03-14`, `2026-03-14 09:05` or `2026-03-14T09:05`; undefined if it is none. A day alone means its end. */
export function parseInstant(text: string): number | undefined {
  const match = /^(\d{4})-(\d{2})-(\d{2})(?:[T ](\d{2}):(\d{2})(?::\d{2})?)?$/u.exec(text.trim());
  if (!match) return undefined;
  const [, year, month, day, hour = '23', minute = '59'] = match;
  const written = new Date(Date.UTC(Number(year), Number(month) - 1, Number(day)));
  if (written.getUTCMonth() !== Number(month) - 1 || Number(hour) > 23 || Number(minute) > 59) {
    return undefined;
  }
  return written.getTime() / 60_000 + Number(hour) * 60 + Number(minute);
}
