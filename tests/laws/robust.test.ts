/**
 * Whatever an example is turned into, line by line, block by block or figure by
 * figure, it is judged in bounded time, and nothing in it that is wrong is a
 * fault of the tool. What such changes brought to light stands below by name.
 */
import { describe, expect, it } from 'vitest';
import { splitBlocks } from '../../grammar/src/blocks.ts';
import { decodeFile, LiveProject } from '../../server/src/project/index.ts';
import { drawingOf } from '../../server/src/report/drawing.ts';
import { plainDisplay } from '../../server/src/report/figures.ts';
import { examples } from '../examples/corpus.ts';
import { randomFrom } from '../support/clean-plans.ts';
import { judge } from '../support/judge.ts';
import { atLeast } from './runs.ts';

type Random = () => number;
type Files = Readonly<Record<string, string>>;

/** Words that may come to stand anywhere. */
const strangers =
  '0 -1 99999999 0.0000001 1..10000000 24..1 - dark 0nm 0m -850nm unknown straight reversed onward turned spare 1:1 OM4 G.652.D LC MPO-12 PLC-1x8 10GBASE-SR GPON-B+ 2026-03-14'.split(
    ' ',
  );

/** The largest example tells no more than the others, and takes as long as all of them. */
const smaller = examples.filter(({ name }) => !name.includes('terminal'));
const folderOf = (name: string) => name.split('/')[1];
const plans: readonly Files[] = [...new Set(smaller.map(({ name }) => folderOf(name)))].map(
  (folder) =>
    Object.fromEntries(
      smaller
        .filter(({ name }) => folderOf(name) === folder)
        .map(({ name, text }) => [name.split('/').at(-1), text]),
    ),
);

describe('an example that was changed at random', () => {
  it('is judged to its end, without a fault of the tool', { timeout: 600_000 }, () => {
    const random = randomFrom(20260314);
    const until = process.cpuUsage().user + 15_000_000;
    // A hundred always; of more, as many as find the time.
    for (let run = 0; run < 100 || (run < atLeast(100) && process.cpuUsage().user < until); run++) {
      const files = changed(plans[Math.floor(random() * plans.length)]!, random);
      const before = process.cpuUsage().user;
      expect([run, files, faultsIn(files)]).toEqual([run, files, []]);
      // Half a second is usual: what is beyond this grows with a number that stands in the text.
      expect([run, files, process.cpuUsage().user - before < 30_000_000]).toEqual([
        run,
        files,
        true,
      ]);
    }
  });
});

describe('what such changes brought to light', () => {
  it.each([['0 nm'], ['-850 nm']])('a wavelength of %s is no wavelength', (wavelength) => {
    const { findings } = judge(
      `plan "P" {\n  limits      TIA-568.3-E\n  measure     ${wavelength}\n  reference   one-cord\n  uncertainty 0.15 dB\n}\n\nlink L {\n  fibres      1..2\n  connector   LC\n  segment     1 km G.652.D\n  connector   LC\n}\n`,
    );
    expect(findings.map(({ name }) => name)).toEqual(['zero-or-below']);
  });

  it('an application of no fibre is told so, and judged to its end', () => {
    const { findings } = judge(
      'application A {\n  count       0\n  wavelength  850 nm\n  fibre       OM4 reach 400 m loss 2.9 dB\n}\n\nlink L {\n  fibres      1..2\n  connector   LC\n  segment     60 m OM4\n  connector   LC\n  carries     A\n}\n',
    );
    expect(findings.map(({ name }) => name)).toContain('zero-or-below');
  });

  it('a cable of a thousand million fibres is refused, not written out', () => {
    const { findings } = judge(
      'cable C {\n  fibre       OM4\n  count       999999999 tubes 2\n  length      60 m\n}\n\nreadings C {\n  tested      2026-03-14\n  values      loss in dB\n  columns fibre, 850 nm A>B\n  1                0.2\n}\n',
    );
    expect(findings.map(({ name }) => name)).toContain('too-large');
  });

  it('fibres that cannot be read are not drawn as none', () => {
    const { plan } = judge(
      'cable C {\n  fibre       OM4\n  count       12\n  length      60 m\n}\n\nlink L {\n  fibres      1..2\n  connector   LC\n  segment     C fibres GPON-B+\n  connector   LC\n}\n',
    );
    const drawing = drawingOf({ plan, display: plainDisplay }, 'L', 850);
    expect(JSON.stringify(drawing)).not.toContain('undefined');
    expect(JSON.stringify(drawing)).toContain('"OM4, 60 m"');
  });
});

function faultsIn(files: Files): readonly string[] {
  const project = new LiveProject({ asOf: 0 });
  project.folders = ['file:///site'];
  project.putAll(
    Object.entries(files).map(
      ([name, text]) =>
        [`file:///site/${name}`, decodeFile(new TextEncoder().encode(text))] as const,
    ),
  );
  const found = project.plans.flatMap((plan) => [...plan.allFindings().values()].flat());
  return found.filter(({ name }) => name === 'not-worked-out').map(({ message }) => message);
}

function changed(files: Files, random: Random): Files {
  const names = Object.keys(files);
  const name = names[Math.floor(random() * names.length)]!;
  const change = changes[Math.floor(random() * changes.length)]!;
  return { ...files, [name]: change(files[name]!, random) };
}

const changes: readonly ((text: string, random: Random) => string)[] = [
  (text, random) => moved(text.split('\n'), random).join('\n'),
  (text, random) => moved(splitBlocks(text), random).join(''),
  (text, random) => {
    const pieces = [...text.matchAll(/[^\s,{}"]+/gu)];
    const piece = any(pieces, random);
    const other = random() < 0.5 ? any(strangers, random) : any(pieces, random)?.[0];
    return piece ? replaced(text, piece.index, piece[0], other ?? '') : text;
  },
  (text, random) => {
    const figure = any([...text.matchAll(/(?<![\w.-])\d+(?:\.\d+)?/gu)], random);
    const other = any(['0', '-5', '1', '33', '999999999', '0.0000001'], random)!;
    return figure ? replaced(text, figure.index, figure[0], other) : text;
  },
];

/** One to three parts taken out, doubled, or put where they do not belong. */
function moved(parts: readonly string[], random: Random): string[] {
  const now = [...parts];
  for (let times = 1 + Math.floor(random() * 3); times > 0; times--) {
    const at = Math.floor(random() * now.length);
    if (random() < 0.5) now.splice(at, 1);
    else now.splice(Math.floor(random() * now.length), 0, now[at] ?? '');
  }
  return now;
}

function any<Item>(items: readonly Item[], random: Random): Item | undefined {
  return items[Math.floor(random() * items.length)];
}

function replaced(text: string, at: number, old: string, now: string): string {
  return text.slice(0, at) + now + text.slice(at + old.length);
}
