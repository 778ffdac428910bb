/** Which changes belong to a place of the text, or to an object. */
import type { ChangesView, SidePlace } from '../../../../server/src/report/changes/view.ts';

export interface CursorAt {
  readonly uri: string;
  readonly line: number;
}

/** Numbers of the changes whose text, or one of whose effects, stands at that line. */
export function changesAt({ changes }: ChangesView, cursor: CursorAt): ReadonlySet<number> {
  const file = spelt(cursor.uri);
  const holds = (place: SidePlace) =>
    place.side === 'now' &&
    place.at !== undefined &&
    spelt(place.at.uri) === file &&
    place.at.range.start.line <= cursor.line &&
    cursor.line <= place.at.range.end.line;
  const own = changes.filter(({ places }) => places.some(holds));
  const found =
    own.length > 0
      ? own
      : changes.filter(({ effects }) => effects.some(({ place }) => place && holds(place)));
  return new Set(found.map(({ number }) => number));
}

export function changesOfObject({ changes }: ChangesView, object: string): readonly number[] {
  return changes
    .filter(({ effects }) => effects.some((effect) => effect.object === object))
    .map(({ number }) => number);
}

/** Editors write an address in more ways than one. */
function spelt(uri: string): string {
  try {
    return decodeURIComponent(uri);
  } catch {
    return uri;
  }
}
