/** Keys of the table: each is also a button, a word or a row to click. */
import { type Verdict, verdicts } from '../../../../server/src/evaluate/result.ts';

export interface KeyActions {
  move(by: number): void;
  first(): void;
  last(): void;
  open(): void;
  shutOrParent(): void;
  toggle(): void;
  showText(): void;
  next(what: 'not-pass' | 'missing', back: boolean): void;
  working(): void;
  find(): void;
  tally(verdict: Verdict): void;
}

/** Rows that a page key passes. */
const page = 20;

/** True where the key was one of the table's own. */
export function pressed(event: KeyboardEvent, actions: KeyActions): boolean {
  if (event.ctrlKey || event.metaKey || event.altKey) return false;
  const verdict = /^[1-9]$/u.test(event.key) ? verdicts[Number(event.key) - 1] : undefined;
  if (verdict) {
    actions.tally(verdict);
    return true;
  }
  switch (event.key) {
    case 'ArrowDown':
      actions.move(1);
      return true;
    case 'ArrowUp':
      actions.move(-1);
      return true;
    case 'PageDown':
      actions.move(page);
      return true;
    case 'PageUp':
      actions.move(-page);
      return true;
    case 'Home':
      actions.first();
      return true;
    case 'End':
      actions.last();
      return true;
    case 'ArrowRight':
      actions.open();
      return true;
    case 'ArrowLeft':
      actions.shutOrParent();
      return true;
    case ' ':
      actions.toggle();
      return true;
    case 'Enter':
    case 'Escape':
      actions.showText();
      return true;
    case 'n':
    case 'N':
      actions.next('not-pass', event.key === 'N');
      return true;
    case 'm':
      actions.next('missing', false);
      return true;
    case 'w':
      actions.working();
      return true;
    case 'f':
      actions.find();
      return true;
    default:
      return false;
  }
}
