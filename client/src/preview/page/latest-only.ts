/** Work of which only the newest matters: while one runs, whatever is asked becomes one more run after it. */
export function latestOnly(work: () => Promise<void>): () => Promise<void> {
  let running: Promise<void> | undefined;
  let again = false;
  return () => {
    if (running) {
      again = true;
      return running;
    }
    const run = async () => {
      do {
        again = false;
        await work();
      } while (again);
    };
    running = run().finally(() => {
      running = undefined;
    });
    return running;
  };
}
