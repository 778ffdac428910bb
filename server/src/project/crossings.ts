/** What links share: channels that cross them, and fibres of cables that more than one of them takes. */
import { checkCableFibres } from '../model/api.ts';
import type { ModelFinding } from '../model/finding.ts';
import type { LinkModel, Place } from '../model/types.ts';
import type { Judgement } from './judgement.ts';

interface User {
  readonly judgement: Judgement;
  readonly place: Place;
  readonly reels?: ReadonlySet<string>;
}

export class Crossings {
  readonly #order: (a: Judgement, b: Judgement) => number;
  readonly #channels = new Map<string, Set<Judgement>>();
  readonly #crossed = new Map<Judgement, ReadonlySet<string>>();
  /** By cable, then by number of the fibre. */
  readonly #users = new Map<string, Map<number, readonly User[]>>();
  readonly #taken = new Map<Judgement, Judgement['fibres']>();
  /** By cable, names of those whose fibres of it somebody else may take, too. */
  readonly #dirtyUsers = new Map<string, Set<string>>();
  readonly #named = new Map<string, Judgement>();
  /** By cable, then by number of the fibre: how many take it for more than a spare. */
  readonly #needed = new Map<string, Map<number, number>>();

  constructor(order: (a: Judgement, b: Judgement) => number) {
    this.#order = order;
  }

  /** Models of the channels that cross a link, in order of the text. */
  channels(link: string): readonly LinkModel[] {
    const crossing = [...(this.#channels.get(link) ?? [])].sort(this.#order);
    return crossing.flatMap(({ model }) => (model ? [model] : []));
  }

  /** How many fibres of a cable some link takes and does not keep as spares. */
  needed(cable: string): number {
    return this.#needed.get(cable)?.size ?? 0;
  }

  /** Cables of which a judgement takes fibres now. */
  cablesOf(judgement: Judgement): ReadonlySet<string> {
    return new Set(this.#taken.get(judgement)?.map(({ cable }) => cable));
  }

  /** A model is new or another; returns the links that it crosses or has crossed. */
  change(judgement: Judgement): Iterable<string> {
    this.#leave(judgement);
    for (const { cable, fibre, place, reels, spare } of judgement.fibres) {
      const users = this.#usersOf(cable);
      const taking = [...(users.get(fibre) ?? []), { judgement, place, reels }];
      users.set(fibre, taking);
      if (!spare) this.#need(cable, fibre, 1);
      this.#spoil(cable, taking);
    }
    this.#taken.set(judgement, judgement.fibres);
    this.#named.set(judgement.name, judgement);
    const before = this.#crossed.get(judgement) ?? new Set<string>();
    const now = new Set(
      judgement.model?.kind === 'channel'
        ? judgement.model.path.flatMap((element) => (element.kind === 'link' ? [element.name] : []))
        : [],
    );
    for (const link of before) if (!now.has(link)) this.#channels.get(link)?.delete(judgement);
    for (const link of now) {
      const channels = this.#channels.get(link);
      if (channels) channels.add(judgement);
      else this.#channels.set(link, new Set([judgement]));
    }
    if (now.size > 0) this.#crossed.set(judgement, now);
    else this.#crossed.delete(judgement);
    return new Set([...before, ...now]);
  }

  /** A link or channel is gone; returns the links that it has crossed. */
  remove(judgement: Judgement): Iterable<string> {
    this.#leave(judgement);
    const crossed = this.#crossed.get(judgement) ?? [];
    for (const link of crossed) this.#channels.get(link)?.delete(judgement);
    this.#crossed.delete(judgement);
    return crossed;
  }

  /** Findings of those whose fibres have other users since the last call, each under its own key. */
  *recheck(): Iterable<readonly [key: string, findings: readonly ModelFinding[]]> {
    for (const [cable, names] of this.#dirtyUsers) {
      for (const name of names) {
        const judgement = this.#named.get(name);
        const uses = judgement ? this.#alsoTaken(cable, judgement) : [];
        yield [`fibres of ${cable} in ${name}`, checkCableFibres(cable, name, uses)];
      }
    }
    this.#dirtyUsers.clear();
  }

  /** Fibres of a cable that somebody takes in the text before this link does, or this link itself. */
  #alsoTaken(cable: string, judgement: Judgement) {
    const users = this.#usersOf(cable);
    const numbers = new Set(
      (this.#taken.get(judgement) ?? []).flatMap((use) => (use.cable === cable ? use.fibre : [])),
    );
    return [...numbers].flatMap((fibre) => {
      const taking = [...(users.get(fibre) ?? [])].sort(
        (a, b) => this.#order(a.judgement, b.judgement) || a.place.span.start - b.place.span.start,
      );
      return taking.flatMap(({ judgement: by, place, reels }, index) =>
        by === judgement
          ? [
              {
                fibre,
                place,
                reels,
                before: taking
                  .slice(0, index)
                  .map((user) => ({ ...user, link: user.judgement.name })),
              },
            ]
          : [],
      );
    });
  }

  #leave(judgement: Judgement): void {
    for (const { cable, fibre, spare } of this.#taken.get(judgement) ?? []) {
      if (!spare) this.#need(cable, fibre, -1);
      const users = this.#usersOf(cable);
      const taking = users.get(fibre) ?? [];
      const left = taking.filter((user) => user.judgement !== judgement);
      if (left.length > 0) users.set(fibre, left);
      else users.delete(fibre);
      this.#spoil(cable, taking);
    }
    this.#taken.delete(judgement);
    if (this.#named.get(judgement.name) === judgement) this.#named.delete(judgement.name);
  }

  #need(cable: string, fibre: number, more: 1 | -1): void {
    const counts = this.#needed.get(cable) ?? new Map<number, number>();
    this.#needed.set(cable, counts);
    const count = (counts.get(fibre) ?? 0) + more;
    if (count > 0) counts.set(fibre, count);
    else counts.delete(fibre);
  }

  #usersOf(cable: string): Map<number, readonly User[]> {
    const known = this.#users.get(cable);
    if (known) return known;
    const made = new Map<number, readonly User[]>();
    this.#users.set(cable, made);
    return made;
  }

  #spoil(cable: string, users: readonly User[]): void {
    const there = this.#dirtyUsers.get(cable) ?? new Set();
    this.#dirtyUsers.set(cable, there);
    for (const { judgement } of users) there.add(judgement.name);
  }
}
