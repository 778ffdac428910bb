/** A place of one of the two states as a link; plain words where there is no editor to show it. */
import type { ComponentChildren } from 'preact';
import type { SidePlace } from '../changes/view.ts';

export type ShowSide = (place: SidePlace) => void;

interface PlaceLinkProps {
  readonly place: SidePlace | undefined;
  readonly show: ShowSide | undefined;
  readonly children: ComponentChildren;
}

export function PlaceLink({ place, show, children }: PlaceLinkProps) {
  if (!place?.at || !show) return <span>{children}</span>;
  return (
    <button type="button" class="goto" title={place.label} onClick={() => show(place)}>
      {children}
    </button>
  );
}

export function Places({
  places,
  show,
}: {
  readonly places: readonly SidePlace[];
  readonly show: ShowSide | undefined;
}) {
  const [first, ...others] = places;
  if (!first) return null;
  // On paper nobody can go there: the same line is not named twice.
  const named = show
    ? others
    : others.filter(({ file, line }) => file !== first.file || line !== first.line);
  return (
    <>
      <PlaceLink place={first} show={show}>
        {first.label}
      </PlaceLink>
      {named.map((place) => (
        <span key={place.label}>
          {' · '}
          <PlaceLink place={place} show={show}>
            {show && place.side === 'was' && place.file === first.file ? 'as it was' : place.label}
          </PlaceLink>
        </span>
      ))}
    </>
  );
}
