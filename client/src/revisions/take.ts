/** Hands a revision to the server, which reads the plans of it; what goes wrong is thrown as a sentence for people. */
import type { Server } from '../server.ts';

interface Taken {
  readonly commit?: string;
  readonly because?: string;
}

/** `beside`: links in the text then say what changed since. */
export async function takeRevision(
  server: Server,
  uri: string,
  revision: string,
  beside: boolean,
): Promise<void> {
  const taken = await server.ask<Taken>('linkwright/takeRevision', { uri, revision, beside });
  if (taken.because !== undefined) throw new Error(taken.because);
}
