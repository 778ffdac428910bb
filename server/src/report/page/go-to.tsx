/** A place in the text as a link; plain words where there is no editor to show it. */
import type { ComponentChildren } from 'preact';
import type { TextPlace } from '../view.ts';

interface GoToProps {
  readonly place: TextPlace | undefined;
  readonly show: ((place: TextPlace) => void) | undefined;
  readonly children: ComponentChildren;
}

export function GoTo({ place, show, children }: GoToProps) {
  if (!place || !show) return <span>{children}</span>;
  return (
    <button type="button" class="goto" onClick={() => show(place)}>
      {children}
    </button>
  );
}
