/** The nearest of some spellings to what was typed. */

/** Undefined where nothing is near enough to be meant: a third of its letters, at most three, may differ. */
export function nearest(typed: string, candidates: Iterable<string>): string | undefined {
  const small = typed.toLowerCase();
  let best: string | undefined;
  let least = Math.min(3, Math.max(1, Math.floor(typed.length / 3))) + 1;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - typed.length) >= least) continue;
    const changes = distance(small, candidate.toLowerCase(), least);
    if (changes < least && changes < candidate.length) {
      best = candidate;
      least = changes;
    }
  }
  return best;
}

/** Letters put in, left out, changed, or swapped with a neighbour; stops counting at `limit`. */
function distance(a: string, b: string, limit: number): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let cost = Math.min(
        (row[j - 1] ?? 0) + 1,
        (last[j] ?? 0) + 1,
        (last[j - 1] ?? 0) + (same ? 0 : 1),
      );
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        cost = Math.min(cost, (before[j - 2] ?? 0) + 1);
      }
      row.push(cost);
    }
    if (Math.min(...row) >= limit) return limit;
    before = last;
    last = row;
  }
  return last[b.length] ?? limit;
}
