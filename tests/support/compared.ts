/** A plan as text beside other texts of it, as a session holds a revision. */
import { defaultSettings } from '../../server/src/features/feature.ts';
import { parseInstant } from '../../server/src/project/instant.ts';
import { EarlierStates } from '../../server/src/session/earlier.ts';
import { judge } from './judge.ts';

const asOf = '2026-06-01 12:00';

/** A session whose plans are compared with other texts of theirs, called `main`. */
export function compared(
  before: Readonly<Record<string, string>>,
  after: Readonly<Record<string, string>>,
) {
  const { project, plan } = judge(after, asOf);
  const folder = 'file:///site';
  const earlier = new EarlierStates(
    project,
    () => parseInstant(asOf)!,
    () => [folder],
  );
  const files = new Map(
    Object.entries(before).map(([name, text]) => [`${folder}/${name}`, { text }] as const),
  );
  earlier.take({ folder, revision: 'main', commit: 'a', files }, true);
  const session = { project, settings: defaultSettings, snippets: true, earlier };
  return { project, plan, earlier, session };
}
