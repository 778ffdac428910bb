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
  return (
    <>
      {places.map((place, index) => (
        <span key={place.label}>
          {index > 0 ? ' · ' : ''}
          <PlaceLink place={place} show={show}>
            {place.label}
          </PlaceLink>
        </span>
      ))}
    </>
  );
}
