import { existsSync, readFileSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';

/** Where the extension host listens; a window that is loaded anew gets another host and another door. */
export async function addressOfDoor(file: string): Promise<string> {
  while (!existsSync(file)) await pause(100);
  return `http://127.0.0.1:${readFileSync(file, 'utf8')}/`;
}
