/** Plans of many files: what belongs together, and what is said where something is missing. */
import { describe, expect, it } from 'vitest';
import { decodeFile, LiveProject, loadFiles, loadWanted } from '../../server/src/project/index.ts';
import { judge } from '../support/judge.ts';
import { planBlock } from './plans.ts';

const folder = 'file:///work';
const at = (name: string) => `${folder}/${name}`;
const link = (name: string) => `link ${name} {
  fibres      1..2
  connector   LC
  segment     180 m OM4
  connector   LC
}
`;

function projectOf(files: Readonly<Record<string, string | Uint8Array>>): LiveProject {
  const project = new LiveProject({ asOf: 0 });
  project.folders = [folder];
  const encoder = new TextEncoder();
  project.putAll(
    Object.entries(files).map(
      ([name, content]) =>
        [
          at(name),
          decodeFile(typeof content === 'string' ? encoder.encode(content) : content),
        ] as const,
    ),
  );
  return project;
}

function told(project: LiveProject, name: string): string[] {
  // What is still to test is no matter of files.
  const findings = project.findings(at(name)).filter((each) => each.name !== 'readings-missing');
  return findings.map((finding) => {
    const range = project.locate(finding.place)?.range;
    return `${range?.start.line}:${range?.start.character} ${finding.name}`;
  });
}

describe('a plan', () => {
  it('is its plan file and all it includes, in order of the includes', () => {
    const project = projectOf({
      'z.lwl': `include "sub/b.lwl"\ninclude "a.lwl"\n\n${planBlock}`,
      'a.lwl': link('A'),
      'sub/b.lwl': `include "../c.lwl"\n\n${link('B')}`,
      'c.lwl': link('C'),
    });
    expect(project.plans.map(({ root }) => root)).toEqual([at('z.lwl')]);
    const [plan] = project.plans;
    expect(plan!.files).toEqual(['z.lwl', 'sub/b.lwl', 'c.lwl', 'a.lwl'].map(at));
    expect(plan!.result.order).toEqual(['B', 'C', 'A']);
    expect(plan!.includes(at('z.lwl')).map(({ target }) => target)).toEqual([
      at('sub/b.lwl'),
      at('a.lwl'),
    ]);
  });

  it('is also a file under no plan, with what it includes', () => {
    const project = projectOf({ 'a.lwl': `include "b.lwl"\n\n${link('A')}`, 'b.lwl': link('B') });
    expect(project.plans.map(({ files }) => files)).toEqual([[at('a.lwl'), at('b.lwl')]]);
  });

  it('shares a file with another plan, and each judges it for itself', () => {
    const project = projectOf({
      'one.lwl': `include "shared.lwl"\n\n${planBlock}`,
      'two.lwl': `include "shared.lwl"\n\n${planBlock.replace('measure     850 nm, 1300 nm', 'measure     850 nm')}`,
      'shared.lwl': link('A').replace('OM4', 'OM44'),
    });
    expect(project.plans.map(({ root }) => root)).toEqual([at('one.lwl'), at('two.lwl')]);
    const [one, two] = project.plans;
    expect(one!.result.totals.expected).toBe(2 * two!.result.totals.expected);
    expect(told(project, 'shared.lwl')).toEqual(['3:20 unknown-reference']);
  });

  it('has its settings once', () => {
    const project = projectOf({
      'plan.lwl': `include "more.lwl"\n\n${planBlock}`,
      'more.lwl': `# another plan, no longer one of its own\n`,
    });
    project.put(at('more.lwl'), { text: `# below\n${planBlock}` });
    expect(told(project, 'more.lwl')).toContain('1:0 plan-twice');
  });

  it('takes a file in when it comes, and lets it go when it goes', () => {
    const project = projectOf({ 'plan.lwl': `include "a.lwl"\n\n${planBlock}` });
    expect(told(project, 'plan.lwl')).toContain('0:8 include-missing');
    expect(project.wanted).toEqual([at('a.lwl')]);
    project.put(at('a.lwl'), { text: link('A') });
    expect(told(project, 'plan.lwl')).toEqual([]);
    expect(project.plans[0]!.result.order).toEqual(['A']);
    project.put(at('a.lwl'), undefined);
    expect(told(project, 'plan.lwl')).toContain('0:8 include-missing');
    expect(project.plans[0]!.result.order).toEqual([]);
  });
});

describe('a file that is missing', () => {
  const files = {
    'plan.lwl': `include "fibres.lwl"\n\n${planBlock}\n${link('A').replace('OM4', 'KQ-OM4')}`,
  };

  it('is told once, and not again by every name that it may declare', () => {
    const project = projectOf(files);
    expect(told(project, 'plan.lwl')).toEqual(['0:8 include-missing']);
    project.put(at('fibres.lwl'), { text: link('B') });
    expect(told(project, 'plan.lwl')).toContainEqual(expect.stringMatching(/unknown-reference$/u));
    project.put(at('fibres.lwl'), { text: 'fibre KQ-OM4 {\n  core        50 µm\n}\n' });
    expect(told(project, 'plan.lwl')).not.toContainEqual(
      expect.stringMatching(/unknown-reference|include-missing/u),
    );
    project.put(at('fibres.lwl'), undefined);
    expect(told(project, 'plan.lwl')).toEqual(['0:8 include-missing']);
  });
});

describe('a chain of includes', () => {
  const length = 3000;
  const text = (index: number) =>
    index === length - 1 ? link('LAST') : `include "${index + 1}.lwl"\n`;

  it('may be thousands of files long', async () => {
    const project = new LiveProject({ asOf: 0 });
    project.folders = [folder];
    await loadFiles(project, { list: async () => [], read }, [at('0.lwl')]);
    await loadWanted(project, { list: async () => [], read });
    expect(project.plans.map(({ files }) => files.length)).toEqual([length]);
    expect(project.plans[0]!.result.order).toEqual(['LAST']);
  });

  async function read(uri: string) {
    return { text: text(Number(/(\d+)\.lwl$/u.exec(uri)![1])) };
  }
});

describe('an include', () => {
  it.each([
    ['../outside.lwl', 'include-outside-workspace'],
    ['../../../../etc/passwd', 'include-outside-workspace'],
    ['/work/a.lwl', 'include-not-relative'],
    ['https://example.org/a.lwl', 'include-not-relative'],
    ['missing.lwl', 'include-missing'],
    ['', 'include-empty'],
    ['plan.lwl', 'include-circle'],
  ])('of "%s" is one finding at its path', (path, name) => {
    const project = projectOf({ 'plan.lwl': `include "${path}"\n\n${planBlock}` });
    expect(told(project, 'plan.lwl')).toEqual([`0:8 ${name}`]);
    expect(project.plans).toHaveLength(1);
  });

  it('in a circle of files is said once, where the circle closes', () => {
    const project = projectOf({
      'plan.lwl': `include "a.lwl"\n\n${planBlock}`,
      'a.lwl': `include "b.lwl"\n`,
      'b.lwl': `include "a.lwl"\n`,
    });
    expect(told(project, 'plan.lwl')).toEqual([]);
    expect(told(project, 'a.lwl')).toEqual([]);
    expect(told(project, 'b.lwl')).toEqual(['0:8 include-circle']);
  });

  it('may reach another folder of the workspace from a folder inside it, not out of it', () => {
    const project = projectOf({
      'deep/plan.lwl': `include "../a.lwl"\n\n${planBlock}`,
      'a.lwl': '',
    });
    expect(told(project, 'deep/plan.lwl')).toEqual([]);
    project.folders = [`${folder}/deep`];
    expect(told(project, 'deep/plan.lwl')).toEqual(['0:8 include-outside-workspace']);
  });

  it('of an untitled text cannot be found before it is saved', () => {
    const project = new LiveProject({ asOf: 0 });
    project.open('untitled:Untitled-1', 1, 'include "a.lwl"\n');
    expect(project.findings('untitled:Untitled-1').map(({ name }) => name)).toEqual([
      'include-unsaved',
    ]);
  });
});

describe('a text of another time', () => {
  it('is read for itself and is part of no plan', () => {
    const project = projectOf({
      'plan.lwl': `include "a.lwl"\n\n${planBlock}`,
      'a.lwl': link('A'),
    });
    project.open('git:/work/a.lwl?HEAD', 1, `include "plan.lwl"\n\n${link('A')}`);
    expect(project.planOf('git:/work/a.lwl?HEAD')!.files).toHaveLength(1);
    expect(told(project, 'a.lwl')).toEqual([]);
    expect(project.plans[0]!.result.order).toEqual(['A']);
  });
});

describe('bad input', () => {
  const good = { 'plan.lwl': `include "bad.lwl"\n\n${planBlock}\n${link('A')}` };
  const goesOn = (project: LiveProject) => {
    expect(project.plans[0]!.result.order).toContain('A');
    expect(told(project, 'plan.lwl')).toEqual([]);
  };

  it('an empty file is noted as such', () => {
    const project = projectOf({ ...good, 'bad.lwl': '' });
    expect(told(project, 'bad.lwl')).toEqual(['0:0 file-empty']);
    goesOn(project);
  });

  it('a binary file is one finding', () => {
    const bytes = Uint8Array.from({ length: 4096 }, (_, index) => (index * 37) % 251);
    const project = projectOf({ ...good, 'bad.lwl': bytes });
    expect(told(project, 'bad.lwl')).toEqual(['0:0 file-not-text']);
    goesOn(project);
  });

  it('a UTF-16 file is one finding', () => {
    const text = `\ufeff${link('B')}`;
    const bytes = new Uint8Array(Uint16Array.from(text, (each) => each.charCodeAt(0)).buffer);
    const project = projectOf({ ...good, 'bad.lwl': bytes });
    expect(told(project, 'bad.lwl')).toEqual(['0:0 file-utf-16']);
    goesOn(project);
  });

  it('bytes that are not UTF-8 are one finding, where the first of them stands', () => {
    const bytes = new TextEncoder().encode(`# a harbour office\n${link('B')}`);
    bytes[9] = 0xe9;
    const project = projectOf({ ...good, 'bad.lwl': bytes });
    expect(told(project, 'bad.lwl')).toEqual(['0:9 file-not-utf-8']);
    expect(project.plans[0]!.result.order).toEqual(['A', 'B']);
    expect(project.plans[0]!.result.totals.accepted).toBe(false);
    goesOn(project);
  });

  it('and no other where they stand between words', () => {
    const text = link('B').replace('180 m ', '180 m \u00e9 ');
    const project = projectOf({ ...good, 'bad.lwl': Buffer.from(text, 'latin1') });
    expect(told(project, 'bad.lwl')).toEqual(['3:20 file-not-utf-8']);
    goesOn(project);
  });

  it('a NUL is one finding, and the lines around it are read', () => {
    const project = projectOf({ ...good, 'bad.lwl': `${link('B')}\n\0\n\n${link('C')}` });
    expect(told(project, 'bad.lwl')).toHaveLength(1);
    expect(project.plans[0]!.result.order).toEqual(['A', 'B', 'C']);
    goesOn(project);
  });

  it('a mark at the beginning and CR line ends change nothing', () => {
    const text = `\ufeff${link('B').replaceAll('\n', '\r')}`;
    const project = projectOf({ ...good, 'bad.lwl': text });
    expect(told(project, 'bad.lwl')).toEqual([]);
    expect(project.plans[0]!.result.order).toEqual(['A', 'B']);
    goesOn(project);
  });

  it('a line of 5 MB is one finding', () => {
    const project = projectOf({
      ...good,
      'bad.lwl': `${link('B')}\n# and\n${'x'.repeat(5_000_000)}\n`,
    });
    const said = told(project, 'bad.lwl').filter((each) => !each.endsWith('file-large'));
    expect(said).toHaveLength(1);
    goesOn(project);
  });

  it('100,000 brackets are one finding', () => {
    const project = projectOf({ ...good, 'bad.lwl': '['.repeat(100_000) });
    expect(told(project, 'bad.lwl')).toHaveLength(1);
    goesOn(project);
  });

  it.each([
    ['on one line', `link B {\n  ${'{'.repeat(100_000)}\n}\n`],
    ['on lines of their own', `link B {\n${'  a {\n'.repeat(100_000)}}\n`],
    [
      'each deeper than the one before',
      `link B {\n${Array.from({ length: 1000 }, (_, depth) => `${'  '.repeat(depth)} a {\n`).join('')}`,
    ],
  ])('100,000 braces %s are a few findings at most', (_, text) => {
    const project = projectOf({ ...good, 'bad.lwl': text });
    const said = told(project, 'bad.lwl').filter((each) => !each.endsWith('file-large'));
    expect(said.length).toBeGreaterThan(0);
    expect(said.length).toBeLessThan(4);
    goesOn(project);
  });

  it('an unclosed brace in block 3 of 100 is one finding there, and 99 links stand as they are', () => {
    const blocks = Array.from({ length: 100 }, (_, index) => link(`B-${index + 1}`));
    blocks[2] = blocks[2]!.replace('\n}\n', '\n');
    const project = projectOf({ ...good, 'bad.lwl': blocks.join('\n') });
    expect(told(project, 'bad.lwl')).toHaveLength(1);
    expect(project.plans[0]!.result.order).toHaveLength(101);
    goesOn(project);
  });
});

describe('a file that declares nothing', () => {
  const told = (text: string) => {
    const { findings, plan } = judge({
      'plan.lwl': 'plan "Kestrel Quay" {\n}\n\ninclude "other.lwl"\n',
      'other.lwl': text,
    });
    return findings
      .filter(({ place }) => plan.locate(place)?.uri.endsWith('other.lwl'))
      .map(({ name, severity, place }) => [name, severity, plan.locate(place)?.range.start]);
  };
  const start = { line: 0, character: 0 };

  it.each([
    ['no text', ''],
    ['empty lines', '\n\r\n \t\n'],
    ['comments', '# links of the north pier\n\n  # to come\n'],
    ['a mark at the beginning', '\uFEFF'],
  ])('is noted once, at its start: %s', (_, text) => {
    expect(told(text)).toEqual([['file-empty', 'note', start]]);
  });

  it('is one with a declaration below its comments no longer', () => {
    const text = '# north pier\n\ncolours KQ {\n  fibres      blue, orange\n}\n';
    expect(told(text).map(([name]) => name)).not.toContain('file-empty');
  });

  it('is not one that cannot be read', () => {
    expect(told('what is this\n').map(([name]) => name)).not.toContain('file-empty');
  });
});
