/**
 * Revisions that plans are compared with: their texts, and a second project of
 * them that is made when the text is another than it was, after all else is
 * done, in slices. A key asks what is known already and judges nothing.
 */
import type { LinkResult } from '../evaluate/result.ts';
import type { Earlier, EarlierPlan } from '../features/earlier.ts';
import type { DecodedFile } from '../project/decode.ts';
import { isWithin, type LiveDocument, LiveProject, sameAddress } from '../project/index.ts';
import type { Instant } from '../project/instant.ts';
import type { Plan } from '../project/types.ts';

/** Plan files of a revision, under the addresses that they have in the working copy. */
export interface FilesThen {
  /** Names the state for ever: the commit. */
  readonly commit: string;
  readonly files: ReadonlyMap<string, DecodedFile>;
}

export interface TakenRevision extends FilesThen {
  readonly folder: string;
  readonly revision: string;
}

/** Revisions of one folder that are kept; the one beside the text is always among them. */
const mostKept = 3;
/** Files that one slice takes in. */
const filesAtOnce = 16;

export class EarlierStates implements Earlier {
  readonly #now: LiveProject;
  readonly #asOf: () => Instant;
  readonly #folders: () => readonly string[];
  /** The newest last. */
  #states: readonly State[] = [];
  /** By folder, what the text is looked at beside. */
  readonly #beside = new Map<string, State>();
  /** Folders of plans, asked for at every link: found once for each set of states. */
  #found = { of: this.#states, folders: new Map<string, string>() };

  constructor(now: LiveProject, asOf: () => Instant, folders: () => readonly string[]) {
    this.#now = now;
    this.#asOf = asOf;
    this.#folders = folders;
  }

  /** The folder of a plan, and that of the workspace around it; without one the plan's own. */
  placeOf(uri: string): { readonly own: string; readonly around: string } {
    const root = this.#now.planOf(uri)?.root ?? sameAddress(uri);
    const own = root.replace(/\/[^/]*$/u, '');
    return { own, around: nearest(root, this.#folders()) ?? own };
  }

  /** Of the folders that revisions were taken of, the nearest around a plan or file. */
  #folderOf(root: string): string {
    if (this.#found.of !== this.#states) this.#found = { of: this.#states, folders: new Map() };
    let folder = this.#found.folders.get(root);
    if (folder === undefined) {
      const all = this.#states.map(({ taken }) => taken.folder);
      folder = nearest(root, all) ?? '';
      this.#found.folders.set(root, folder);
    }
    return folder;
  }

  /** True where that revision of the folder is held as it is. */
  holds(folder: string, revision: string, commit: string): boolean {
    return this.#find(folder, revision)?.taken.commit === commit;
  }

  take(taken: TakenRevision, beside: boolean): void {
    const { folder, revision } = taken;
    let state = this.#find(folder, revision);
    if (state?.taken.commit !== taken.commit) {
      state = new State(taken, this.#asOf(), this.#folders());
    }
    const own = this.#states.filter(
      (each) => each.taken.folder === folder && each.taken.revision !== revision,
    );
    // What is beside the text under this name is another commit now.
    const follows = this.#beside.get(folder)?.taken.revision === revision;
    if (beside || follows) this.#beside.set(folder, state);
    const kept = new Set([state, ...own.slice(1 - mostKept)]);
    const stays = this.#beside.get(folder);
    if (stays) kept.add(stays);
    this.#states = [...this.#states.filter((each) => each.taken.folder !== folder), ...kept];
  }

  /** Nothing stands beside the text any more. */
  leave(): void {
    this.#beside.clear();
  }

  of(plan: Plan, revision: string): EarlierPlan | undefined {
    const state = this.#find(this.#folderOf(plan.root), revision);
    if (!state) return undefined;
    state.asOf = this.#asOf();
    const then = state.planLike(plan);
    return { revision, ...(then ? { plan: then } : {}), project: state.project };
  }

  text(uri: string, revision: string): string | undefined {
    const address = sameAddress(uri);
    const state = this.#find(this.#folderOf(address), revision);
    return state?.taken.files.get(address)?.text;
  }

  beside(plan: Plan): string | undefined {
    return this.#besideOf(plan)?.taken.revision;
  }

  known(plan: Plan, result: LinkResult): LinkResult | null | undefined {
    return this.#besideOf(plan)?.known.get(plan.root)?.get(result.link.name);
  }

  /**
   * Works out what open files want to know; true when nothing is left. `learnt`
   * hears of each object of which it is known now what it was.
   */
  work(enough: () => boolean, learnt: (plan: Plan, result: LinkResult) => void): boolean {
    for (const plan of this.#now.plans) {
      const state = this.#besideOf(plan);
      if (!state || !this.#differs(plan, state)) continue;
      while (!state.ready) {
        state.takeFiles();
        if (enough()) return false;
      }
      state.asOf = this.#asOf();
      for (const uri of plan.files) {
        if (!this.#now.isOpen(uri)) continue;
        for (const block of this.#now.document(uri)?.blocks() ?? []) {
          for (const result of plan.resultsIn(block.id)) {
            if (!state.learn(plan, result)) continue;
            learnt(plan, result);
            if (enough()) return false;
          }
        }
      }
    }
    return true;
  }

  /** Whether any file of the plan says something else than it did; a plan as it was costs no second project. */
  #differs(plan: Plan, state: State): boolean {
    return state.made || plan.files.some((uri) => state.differs(this.#now.document(uri)));
  }

  #besideOf({ root }: Plan): State | undefined {
    return this.#beside.size === 0 ? undefined : this.#beside.get(this.#folderOf(root));
  }

  #find(folder: string, revision: string): State | undefined {
    return this.#states.find(({ taken }) => taken.folder === folder && taken.revision === revision);
  }
}

function nearest(uri: string, folders: readonly string[]): string | undefined {
  const around = folders.filter((folder) => isWithin(uri, folder));
  return around.sort((a, b) => b.length - a.length)[0];
}

class State {
  readonly taken: TakenRevision;
  /** Results as they were, by plan and by the name that the object has now. */
  readonly known = new Map<string, Map<string, LinkResult | null>>();
  readonly #asked = new WeakMap<LinkResult, true>();
  readonly #equal = new WeakMap<LiveDocument, { edition: number; equal: boolean }>();
  readonly #project: LiveProject;
  readonly #waiting: (readonly [string, DecodedFile])[];
  readonly #plans = new Map<string, Plan | undefined>();
  #asOf: Instant;

  constructor(taken: TakenRevision, asOf: Instant, folders: readonly string[]) {
    this.taken = taken;
    this.#asOf = asOf;
    this.#project = new LiveProject({ asOf });
    this.#project.folders = folders;
    this.#waiting = [...taken.files];
  }

  get ready(): boolean {
    return this.#waiting.length === 0;
  }

  /** Whether somebody has asked for more than the texts. */
  get made(): boolean {
    return this.#waiting.length < this.taken.files.size;
  }

  set asOf(instant: Instant) {
    if (JSON.stringify(instant) === JSON.stringify(this.#asOf)) return;
    this.#asOf = instant;
    this.#project.asOf = instant;
  }

  get project(): LiveProject {
    while (!this.ready) this.takeFiles();
    return this.#project;
  }

  takeFiles(): void {
    this.#project.putAll(this.#waiting.splice(0, filesAtOnce));
  }

  /** The same plan then: by its file, else by its title. */
  planLike({ root, settings: { title } }: Plan): Plan | undefined {
    if (this.#plans.has(root)) return this.#plans.get(root);
    const { project } = this;
    const own = project.planOf(root);
    const titled = project.plans.find(
      ({ settings }) => title !== undefined && settings.title === title,
    );
    const found = own?.root === root ? own : (titled ?? own);
    this.#plans.set(root, found);
    return found;
  }

  differs(document: LiveDocument | undefined): boolean {
    if (!document) return true;
    const known = this.#equal.get(document);
    if (known?.edition === document.edition) return !known.equal;
    const equal = this.taken.files.get(document.uri)?.text === document.text();
    this.#equal.set(document, { edition: document.edition, equal });
    return !equal;
  }

  /** Asks for the object as it was, once for each result it has now; true where that is new knowledge. */
  learn(plan: Plan, result: LinkResult): boolean {
    if (this.#asked.has(result)) return false;
    this.#asked.set(result, true);
    const { name } = result.link;
    const ofPlan = this.known.get(plan.root) ?? new Map<string, LinkResult | null>();
    this.known.set(plan.root, ofPlan);
    const then = this.planLike(plan)?.result;
    const names = [name, ...result.link.was];
    const before = names.map((each) => then?.link(each)).find((each) => each !== undefined) ?? null;
    const same = ofPlan.has(name) && ofPlan.get(name) === before;
    ofPlan.set(name, before);
    return !same;
  }
}
