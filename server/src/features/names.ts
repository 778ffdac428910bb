/** The name under the cursor, and where else it stands: shared by definition, references, highlight and rename. */
import type { Place } from '../model/types.ts';
import type {
  BlockView,
  DocumentView,
  NamedThing,
  NameUse,
  Plan,
  Position,
} from '../project/types.ts';
import { type Session, subject } from './feature.ts';

export interface NameAt {
  readonly document: DocumentView;
  readonly plan: Plan;
  readonly block: BlockView;
  readonly use: NameUse & { readonly declares: boolean };
  readonly thing: NamedThing | undefined;
}

/** The name that touches a position; a cursor right behind a name still means it. */
export function nameAt(session: Session, uri: string, position: Position): NameAt | undefined {
  const found = subject(session, uri);
  if (!found?.plan) return undefined;
  const { document, plan } = found;
  const block = document.blockAt(position);
  if (!block) return undefined;
  const offset = document.offsetIn(block, position);
  const uses = plan
    .namesIn(block.id)
    .filter(({ place }) => place.span.start <= offset && offset <= place.span.end);
  const use = uses.find(({ kind, name }) => plan.find(kind, name)) ?? uses[0];
  return use && { document, plan, block, use, thing: plan.find(use.kind, use.name) };
}

/** All places of a name: its declaration in the plan, then its uses. */
export function placesOf({ plan, use, thing }: NameAt, declaration: boolean): readonly Place[] {
  const uses = plan.uses(use.kind, use.name).map(({ place }) => place);
  return declaration && thing ? [thing.namePlace, ...uses] : uses;
}
