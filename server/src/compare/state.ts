/** A plan of an open project as one side of a comparison: it lives, and answers by how things stand now. */
import type { BlockId, Evidence, Place, Setup } from '../model/types.ts';
import { libraryScheme } from '../project/include.ts';
import type { DocumentView, NamedThing, Plan, Project } from '../project/types.ts';
import type { PlanState, StateFile, StatePlace } from './types.ts';

/** What a plan says now; `label` is what a person calls this side. */
export function stateOf(plan: Plan, project: Pick<Project, 'document'>, label: string): PlanState {
  return {
    label,
    get files(): readonly StateFile[] {
      return plan.files.flatMap((uri) => {
        const document = project.document(uri);
        return document ? fileOf(document, pathFrom(plan.root, uri)) : [];
      });
    },
    get settings() {
      return plan.settings;
    },
    get minute() {
      return plan.minute;
    },
    get result() {
      return plan.result;
    },
    get findings() {
      return [...plan.allFindings().values()].flat();
    },
    evidence: (object: string): Evidence => plan.evidence(object),
    setup: (name: string): Setup | undefined => plan.setup(name),
    find: (kind: NamedThing['kind'], name: string) => plan.find(kind, name),
    reach: (block: BlockId, only?: string) => plan.reach(block, only),
    locate(place: Place): StatePlace | undefined {
      const located = plan.locate(place);
      if (!located || located.uri.startsWith(`${libraryScheme}:`)) return undefined;
      return { path: pathFrom(plan.root, located.uri), range: located.range };
    },
  };
}

/** Its text is put together when somebody asks for it. */
function fileOf(document: DocumentView, path: string): StateFile {
  return {
    path,
    get text() {
      return document.text();
    },
    get blocks() {
      return document.blocks();
    },
  };
}

/** A file as people name it: from the folder of the plan's own file, with `/`. */
export function pathFrom(root: string, uri: string): string {
  const from = root.split('/').slice(0, -1);
  const to = uri.split('/');
  let same = 0;
  while (same < from.length && same < to.length - 1 && from[same] === to[same]) same += 1;
  const up = from.slice(same).map(() => '..');
  return [...up, ...to.slice(same)].map(decoded).join('/');
}

/** A part of an address that somebody wrote with a lone `%` is shown as it is. */
function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
