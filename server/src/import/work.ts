/** Long work that says how far it is and can be stopped. */
export interface Work {
  /** Aborted where somebody stops the work. */
  readonly signal: AbortSignal;
  /** A part of the whole, in any unit. */
  report(done: number, all: number): void;
}

/** Somebody asked the work to stop; nothing of it stands anywhere. */
export class Cancelled extends Error {}

/** Work that nobody watches or stops. */
export const unwatched: Work = { signal: new AbortController().signal, report: () => undefined };

/** Lets messages through. Throws {@link Cancelled} where one of them said to stop. */
export async function pause({ signal }: Work): Promise<void> {
  await new Promise((done) => {
    setTimeout(done, 0);
  });
  if (signal.aborted) throw new Cancelled('stopped');
}

/** A stretch of the whole, in hundredths. */
export function part({ signal, report }: Work, from: number, to: number): Work {
  return { signal, report: (done, all) => report(from + ((to - from) * done) / all, 100) };
}
