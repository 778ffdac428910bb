/** What is wider than a narrow screen: it moves sideways by itself, by keys too, and the page around it stays. */
import type { ComponentChildren } from 'preact';

interface SidewaysProps {
  /** What is in it, for who hears the page. */
  readonly says: string;
  readonly children: ComponentChildren;
}

export function Sideways({ says, children }: SidewaysProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys
    // biome-ignore lint/a11y/useSemanticElements: a fieldset is a part of a form
    <div class="sideways" role="group" aria-label={says} tabIndex={0}>
      {children}
    </div>
  );
}
