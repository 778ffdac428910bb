/** Pieces of a path that could not be read, each said at its own place. */
import type { Declared, PathElement } from './types.ts';

/** Whether what stands there is not known; `unknown` as a length is, on purpose. */
export function isUnread(element: PathElement): boolean {
  switch (element.kind) {
    case 'link':
      return element.link === undefined || element.link.unread === true;
    case 'segment':
    case 'cord':
      return element.length === undefined || isMissing(element.fibre);
    case 'splice':
      return element.name !== '' && isMissing(element.type);
    default:
      return isMissing(element.type);
  }
}

function isMissing(declared: Declared | undefined): boolean {
  return declared === undefined || declared.unread === true;
}
