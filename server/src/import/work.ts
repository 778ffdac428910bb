/** Long work that says how far it is and can be stopped. */
export interface Work {
  readonly cancelled: boolean;
  /** A part of the whole, in any unit. */
  report(done: number, all: number): void;
}

/** Somebody asked the work to stop; nothing of it stands anywhere. */
export class Cancelled extends Error {}

/** Lets messages through. Throws {@link Cancelled} where one of them said to stop. */
export async function pause(work: Work): Promise<void> {
  await new Promise((done) => {
    setTimeout(done, 0);
  });
  if (work.cancelled) throw new Cancelled('stopped');
}
