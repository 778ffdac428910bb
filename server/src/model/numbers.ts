/** `1..12, 15`: numbers in words, runs drawn together, in the order given. */
export function numbersInWords(numbers: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const number of numbers) {
    const last = runs.at(-1);
    if (last && number === last[1] + 1) last[1] = number;
    else runs.push([number, number]);
  }
  return runs
    .map(([first, last]) => (first === last ? `${first}` : `${first}..${last}`))
    .join(', ');
}
