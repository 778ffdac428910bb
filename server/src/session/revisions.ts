/**
 * Revisions that an editor looks at its text beside: read when it asks for one,
 * held as texts, and worked out after all else, in slices that end with the
 * next message, so that no key waits for them.
 */
import type { Connection } from 'vscode-languageserver';
import type { Session } from '../features/feature.ts';
import { sinceThen } from '../features/since.ts';
import type { LiveProject } from '../project/index.ts';
import type { Instant } from '../project/instant.ts';
import { EarlierStates } from './earlier.ts';
import type { Edge } from './edge.ts';

/** Milliseconds without work after which they have their turn. */
const idle = 250;
/** Milliseconds of one slice. */
const slice = 8;

export interface RevisionsGround {
  readonly edge: Edge;
  readonly project: LiveProject;
  asOf(): Instant;
  folders(): readonly string[];
  view(): Session;
  /** What stands in the text is to be asked for again. */
  refresh(): void;
  /** Other work waits, or runs. */
  busy(): boolean;
}

export class Revisions {
  readonly earlier: EarlierStates;
  readonly #ground: RevisionsGround;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #stopped = false;
  /** A message came since the last slice. */
  #heard = false;
  /** Something that stands in the text is known to be another than it was. */
  #news = false;

  constructor(ground: RevisionsGround) {
    this.#ground = ground;
    this.earlier = new EarlierStates(
      ground.project,
      () => ground.asOf(),
      () => ground.folders(),
    );
  }

  /** Answers an editor that takes a revision, or leaves it; `loaded` settles when the files have been read. */
  answer(connection: Connection, loaded: () => Promise<void>): void {
    connection.onRequest(
      'linkwright/takeRevision',
      async ({ uri, revision, beside }: RevisionWanted): Promise<RevisionTaken> => {
        await loaded();
        try {
          return { commit: await this.#take(uri, revision, beside === true) };
        } catch (error) {
          return { because: error instanceof Error ? error.message : String(error) };
        }
      },
    );
    connection.onRequest('linkwright/leaveRevision', () => {
      this.earlier.leave();
      this.#ground.refresh();
      return null;
    });
  }

  /** A message has come, and goes first. */
  hear(): void {
    this.#heard = true;
  }

  /** Looks at them when nothing else has been done for a while. */
  whenIdle(wait = idle): void {
    clearTimeout(this.#timer);
    if (!this.#stopped) this.#timer = setTimeout(() => this.#turn(), wait);
  }

  stop(): void {
    this.#stopped = true;
    clearTimeout(this.#timer);
  }

  /** Reads a revision of the folder of a plan, where it is not held already; `beside`: the text is looked at beside it. */
  async #take(uri: string, revision: string, beside: boolean): Promise<string> {
    const { history } = this.#ground.edge;
    if (!history) {
      throw new Error(
        'An editor in a browser has no git to ask. Open the folder on a machine that has, or compare two folders on the command line.',
      );
    }
    const { own, around } = this.earlier.placeOf(uri);
    const folder = await history.folder(own, around);
    const commit = await history.commit(folder, revision);
    const held = this.earlier.holds(folder, revision, commit);
    const files = held ? new Map() : await history.files(folder, commit);
    this.earlier.take({ folder, revision, commit, files }, beside);
    this.whenIdle();
    return commit;
  }

  #turn(): void {
    const { edge, busy, view, refresh } = this.#ground;
    if (this.#stopped || busy()) return;
    this.#heard = false;
    const end = edge.now() + slice;
    const done = this.earlier.work(
      () => edge.now() >= end || this.#heard,
      (plan, result) => {
        this.#news ||= sinceThen(view(), plan, result) !== undefined;
      },
    );
    if (!done) {
      this.whenIdle(0);
    } else if (this.#news) {
      this.#news = false;
      refresh();
    }
  }
}

interface RevisionWanted {
  readonly uri: string;
  readonly revision: string;
  readonly beside?: boolean;
}

/** The commit that it means, or why it cannot be had. */
interface RevisionTaken {
  readonly commit?: string;
  readonly because?: string;
}
