/** What an editor in a browser has written down of itself, some seconds after it changed. */
import type { Page } from 'playwright-core';

/** Whether a state that outlives the window matches; true where nothing is kept in the browser. */
export function isWritten(page: Page, pattern: string): Promise<boolean> {
  return page.evaluate(async (pattern) => {
    const answer = <T>(request: IDBRequest<T>) =>
      new Promise<T>((done, failed) => {
        request.onsuccess = () => done(request.result);
        request.onerror = () => failed(request.error);
      });
    const names = (await indexedDB.databases()).map(({ name }) => name ?? '');
    const states = names.filter((name) => name.startsWith('vscode-web-state-db'));
    const texts: string[] = [];
    for (const name of states) {
      const base = await answer(indexedDB.open(name));
      for (const store of base.objectStoreNames) {
        texts.push(...(await answer(base.transaction(store).objectStore(store).getAll())));
      }
      base.close();
    }
    const wanted = new RegExp(pattern);
    return states.length === 0 || texts.some((text) => wanted.test(text));
  }, pattern);
}
