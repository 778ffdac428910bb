/** One at a time across processes: a lock file holds the process id of its owner. */
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

/** Waits for the lock, works, and lets go; a lock whose owner is gone is taken over. */
export async function underLock<T>(lock: string, work: () => T): Promise<T> {
  mkdirSync(dirname(lock), { recursive: true });
  while (!take(lock)) await pause(200);
  try {
    return work();
  } finally {
    rmSync(lock, { force: true });
  }
}

function take(lock: string): boolean {
  try {
    writeFileSync(lock, String(process.pid), { flag: 'wx' });
    return true;
  } catch {
    const owner = Number(readIfThere(lock));
    if (owner && !lives(owner)) rmSync(lock, { force: true });
    return false;
  }
}

function readIfThere(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return '';
  }
}

function lives(id: number): boolean {
  try {
    process.kill(id, 0);
    return true;
  } catch {
    return false;
  }
}
