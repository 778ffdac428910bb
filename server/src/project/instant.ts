/**
 * The instant of judgement. Evaluation never asks a clock: who starts the tool
 * says when it is, as a person would read it from the wall at the site.
 */

/**
 * The last minute of today as the local clock shows it, in minutes since
 * 1970-01-01 00:00. What is judged depends on days (expiry, calibration,
 * concessions), so that the instant changes once a day and not with every key.
 */
export function endOfToday(now: Date): number {
  return Date.UTC(now.getFullYear(), now.getMonth(), now.getDate(), 23, 59) / 60_000;
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
