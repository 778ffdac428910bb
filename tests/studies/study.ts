/**
 * The error study: `node tests/studies/study.ts`, and part of `npm run prove`.
 * Writes server/error-study.md and its picture. Plans at the size from which a
 * mistake is told, clean plans and plans a point of the curves may be given.
 */
import { writeFileSync } from 'node:fs';
import './lwl.ts';

const [plans = 200, clean = 1000, points = 30] = process.argv.slice(2).map(Number);
const { mistakes } = await import('./mistakes.ts');
const { falseAlarms, toldOf } = await import('./measure.ts');
const { pageOf } = await import('./page.ts');
const { pictureOf } = await import('./picture.ts');

const began = Date.now();
const say = (text: string) =>
  process.stdout.write(`${((Date.now() - began) / 1000).toFixed(0).padStart(4)} s  ${text}\n`);

const { raised, byPlan } = falseAlarms(1, clean);
say(`${clean} clean plans: ${[...raised].map(([name, count]) => `${name} ${count}`).join(', ')}`);
const measured = mistakes.map((mistake) => {
  const curve = mistake.size
    ? mistake.sizes.map((size) => ({
        size,
        told: toldOf(mistake, size, 100_000, points),
        of: points,
      }))
    : [];
  const told = toldOf(mistake, mistake.from, 200_000, plans);
  const wrongly = byPlan.filter((names) => mistake.findings.some((name) => names.has(name))).length;
  say(`${mistake.name}: ${told} of ${plans}, ${wrongly} false`);
  return { mistake, curve, told, of: plans, wrongly };
});

const at = (name: string) => new URL(`../../server/${name}`, import.meta.url);
writeFileSync(at('error-study.md'), pageOf(measured, { clean, raised }));
writeFileSync(at('error-study.svg'), pictureOf(measured));
say('wrote server/error-study.md and server/error-study.svg');
