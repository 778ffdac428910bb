/** Runs the work once more for any number of calls that came while it ran. */
export function newestOnly(work: () => Promise<void>): () => Promise<void> {
  let running = false;
  let again = false;
  return async function call() {
    if (running) {
      again = true;
      return;
    }
    running = true;
    try {
      do {
        again = false;
        await work();
      } while (again);
    } finally {
      running = false;
    }
  };
}
