/** A finding as data, and the form in which every check stands. */
import type { Severity } from '../../../grammar/src/tree.ts';
import type { Place } from '../model/types.ts';

/**
 * A contradiction (two statements of one fact, an impossible value, a void
 * set-up) makes a reading invalid; a doubt leaves the verdict and blocks the
 * issue of a record until answered in words; a note does neither. A mistake of
 * notation is an `entry` that cannot be read.
 */
export type FindingKind = 'contradiction' | 'doubt' | 'note' | 'notation';

export interface PlacedEdit {
  readonly place: Place;
  readonly text: string;
}

export interface PlacedFix {
  readonly title: string;
  readonly edits: readonly PlacedEdit[];
}

/** Whether something found keeps what it concerns from being accepted: all but notes, until answered in words. */
export function blocksAcceptance({ kind, severity, silenced }: Finding): boolean {
  // What means nothing, a name that nobody declares for one, is no decision of the engineer.
  if (kind === 'notation') return severity === 'error';
  return (kind === 'doubt' || kind === 'contradiction') && silenced === undefined;
}

export interface Finding {
  /** Kebab-case words of the trade: `core-size-mismatch`. */
  readonly name: string;
  readonly kind: FindingKind;
  readonly severity: Severity;
  readonly place: Place;
  /** One or two sentences with numbers and units; ends with what to look at. */
  readonly message: string;
  readonly related: readonly { readonly place: Place; readonly message: string }[];
  readonly fix?: PlacedFix;
  readonly details: Readonly<Record<string, string | number>>;
  /** Name of the link, channel, set-up or declaration it concerns. */
  readonly about?: string;
  /** The text that silences it, where someone answered it in words. */
  readonly silenced?: string;
}
