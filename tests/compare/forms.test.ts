/** A comparison in the forms that other programs read, with a plan whose words try to take part in them. */
import { afterEach, describe, expect, it } from 'vitest';
import { URI } from 'vscode-uri';
import { comparedSides } from '../../server/src/cli/compare-plans.ts';
import { twoPaths } from '../../server/src/cli/compare-sides.ts';
import type { Compared } from '../../server/src/cli/formats/changes/compared.ts';
import { json } from '../../server/src/cli/formats/changes/json.ts';
import { junit } from '../../server/src/cli/formats/changes/junit.ts';
import { markdown, words } from '../../server/src/cli/formats/changes/markdown.ts';
import { text } from '../../server/src/cli/formats/changes/text.ts';
import { titlesOf, toldOf } from '../../server/src/cli/formats/changes/told.ts';
import { github } from '../../server/src/cli/formats/github.ts';
import { gitlab } from '../../server/src/cli/formats/gitlab.ts';
import { sarif } from '../../server/src/cli/formats/sarif.ts';
import { parseInstant } from '../../server/src/project/instant.ts';
import { asOf, plan, readings } from '../cli/compared-plan.ts';
import { Folder } from '../cli/run.ts';
import { expectSarif } from '../support/sarif.ts';

let folder: Folder | undefined;

afterEach(() => {
  folder?.remove();
  folder = undefined;
});

async function compared(files: Readonly<Record<string, string>>): Promise<Compared> {
  folder = new Folder(files);
  const instant = parseInstant(asOf[1])!;
  const sides = await twoPaths(`${folder.path}/old`, `${folder.path}/new`, instant);
  return comparedSides(sides, instant);
}

/** Words that mean something to a shell, a page, a table, a code host or a terminal. */
const attack =
  '@everyone #1 !2 %3 ~4 `code` **bold** _it_ | cell | <script>alert(1)</script> <!-- --> </details> [a](javascript:x) ![i](x) &lt; https://harm.example www.harm.example :tada: $x$ ::error::x %0A';
const controls = '\u001b[2Jgone\u0007 \u202eesrever\u2066';

const old = `${plan.replace('  limits ', `  site        "Berth 3"\n  limits `)}\n${readings('0.90', '1.10')}`;
const hostile = old
  .replace('"Berth 3"', `"${attack}"`)
  .replace('link KQ-1 {', `link KQ-1 "${controls}" {`)
  .replace('1.10', '9.10');
const attacked = { 'old/my plan,1.lwl': old, 'new/my plan,1.lwl': hostile };

describe('markdown', () => {
  it('lets no word of a plan take part in the page', async () => {
    const page = markdown(await compared(attacked));
    expect(page).toContain('everyone');
    // Of tags and marks only those stand in it that it makes itself.
    const tags = [...page.matchAll(/<[^>]*>?/gu)].map(([tag]) => tag);
    expect(new Set(tags)).toEqual(
      new Set([
        '<details>',
        '<details open>',
        '<summary>',
        '</summary>',
        '<b>',
        '</b>',
        '</details>',
      ]),
    );
    const own = page.replaceAll(/&#\d+;/gu, '').replaceAll(/\*\*/gu, '');
    expect(own).not.toMatch(/[`*_~[\]\\]|https:|www\.|[@#!$%]\w|:\w+:/u);
    expect(page.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Bidi_Control}]/u);
  });

  it('gives every row of a table as many cells as its head', async () => {
    const lines = markdown(await compared(attacked)).split('\n');
    let width = 0;
    for (const line of lines) {
      if (!line.startsWith('|')) width = 0;
      else {
        const cells = line.split('|').length;
        expect(width === 0 || cells === width, line).toBe(true);
        width = cells;
      }
    }
  });

  it('opens each fold once and closes it', async () => {
    const page = markdown(await compared(attacked));
    const count = (tag: RegExp) => [...page.matchAll(tag)].length;
    expect(count(/<details/gu)).toBeGreaterThan(1);
    expect(count(/<details/gu)).toBe(count(/<\/details>/gu));
    expect(count(/<summary>/gu)).toBe(count(/<\/summary>/gu));
  });

  it('writes what means something as entities, and keeps what does not', () => {
    expect(words('a|b <c> `d`\n- e')).toBe('a&#124;b &#60;c&#62; &#96;d&#96; - e');
    expect(words('KQ-OPS-B3 7, 850 nm, −0.18 (was 3.5 dB/km)')).toBe(
      'KQ-OPS-B3 7, 850 nm, −0.18 (was 3.5 dB/km)',
    );
    // Behind a sign that calls somebody stands U+2060, WORD JOINER.
    expect(words('@berth')).toBe('&#64;&#8288;berth');
  });
});

describe('text', () => {
  it('steers no terminal', async () => {
    const said = text(await compared(attacked), 'file.txt');
    expect(said).toContain('everyone');
    expect(said.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Bidi_Control}]/u);
  });
});

describe('SARIF', () => {
  it('is what the standard asks for, and every rule of it is named and explained', async () => {
    const changes = await compared(attacked);
    const log = JSON.parse(sarif({ findings: toldOf(changes) }, titlesOf(changes)));
    expectSarif(log);
    const [{ tool, results }] = log.runs;
    for (const { ruleId, ruleIndex, locations } of results) {
      expect(tool.driver.rules[ruleIndex].id).toBe(ruleId);
      const { uri } = locations[0].physicalLocation.artifactLocation;
      // RFC 3986: no character that is to be written in hundreds.
      expect(uri).toMatch(/new\/my%20plan%2C1\.lwl$/u);
      expect(URI.parse(`file:///${uri}`).path).toContain('my plan,1.lwl');
    }
    for (const rule of tool.driver.rules) expect(rule.shortDescription.text).not.toBe('');
    expect(results.map(({ level }: { level: string }) => level)).toContain('error');
  });

  it('shows what is gone where it stood in the old state', async () => {
    const changes = await compared({
      'old/a.lwl': old,
      'new/a.lwl': old.replace(/ {2}2 +1\.10\n/u, ''),
    });
    const log = JSON.parse(sarif({ findings: toldOf(changes) }));
    const gone = log.runs[0].results.find(
      ({ ruleId }: { ruleId: string }) => ruleId === 'reading-removed',
    );
    const { artifactLocation, region: at } = gone.locations[0].physicalLocation;
    expect(artifactLocation.uri).toMatch(/old\/a\.lwl$/u);
    expect(old.split('\n')[at.startLine - 1]).toContain('1.10');
    expect(gone.message.text).toContain('It stood here in');
  });
});

describe('commands of a workflow', () => {
  it('are one line each, whatever a plan says', async () => {
    const said = github({ findings: toldOf(await compared(attacked)) });
    const lines = said.split('\n').filter(Boolean);
    expect(lines.length).toBeGreaterThan(1);
    for (const line of lines) {
      expect(line).toMatch(/^::(error|warning|notice) file=[^,:]*,line=\d+,endLine=\d+,col=\d+,/u);
      expect(line).toContain('my plan%2C1.lwl');
    }
    expect(said).toContain('%250A');
  });
});

describe('the report of code quality', () => {
  it('tells each change once, with a place', async () => {
    const report = JSON.parse(gitlab({ findings: toldOf(await compared(attacked)) }));
    expect(report.length).toBeGreaterThan(1);
    const prints = report.map(({ fingerprint }: { fingerprint: string }) => fingerprint);
    expect(new Set(prints).size).toBe(report.length);
    for (const { severity, location } of report) {
      expect(['info', 'minor', 'major']).toContain(severity);
      expect(location.lines.begin).toBeGreaterThan(0);
    }
  });
});

describe('test results', () => {
  it('are well formed, and fail where somebody has to answer', async () => {
    const xml = junit(await compared(attacked));
    // XML 1.0: what is left when every tag and reference is taken out holds neither < nor &.
    const open: string[] = [];
    const rest = xml
      .replace(/^<\?xml[^?]*\?>/u, '')
      .replaceAll(
        /<(\/?)([a-z-]+)((?: [a-z]+="[^"<]*")*)(\/?)>/gu,
        (_, close, name, _words, empty) => {
          if (close) expect(open.pop()).toBe(name);
          else if (!empty) open.push(name);
          return '';
        },
      )
      .replaceAll(/&(?:amp|lt|gt|quot);/gu, '');
    expect(open).toEqual([]);
    expect(rest).not.toMatch(/[<&]/u);
    const [, tests, failures] = /tests="(\d+)" failures="(\d+)"/u.exec(xml) ?? [];
    expect(Number(tests)).toBeGreaterThan(Number(failures));
    expect(failures).toBe('1');
    expect(xml).toMatch(
      /classname="reading-altered"><failure message="[^"]*was 1\.10 dB, now 9\.10 dB/u,
    );
  });
});

describe('JSON', () => {
  it('says no value that is not known as zero', async () => {
    const form = JSON.parse(json(await compared({ 'old/a.lwl': plan, 'new/a.lwl': old })));
    const reading = form.effects.find(({ kind }: { kind: string }) => kind === 'reading');
    expect(reading.before).toMatchObject({
      verdict: 'untested',
      loss_db: null,
      margin_db: null,
      attempt: null,
    });
    expect(reading.after).toMatchObject({ verdict: 'pass', loss_db: 0.9, limit_db: 2.04 });
    expect(form.before.commit).toBeNull();
  });
});

describe('a broken rule of the plan', () => {
  it('is an error of its own, where the change stands', async () => {
    const ruled = old.replace(
      'plan "Example" {',
      'plan "Example" {\n  changes {\n    unedited\n  }',
    );
    const changes = await compared({
      'old/a.lwl': ruled,
      'new/a.lwl': ruled.replace('1.10', '1.00'),
    });
    const told = toldOf(changes);
    const broken = told.filter(({ finding }) => finding.name.startsWith('rule-'));
    expect(broken.map(({ finding }) => [finding.severity, finding.name])).toEqual([
      ['error', 'rule-unedited'],
    ]);
    expect(titlesOf(changes).get('rule-unedited')).toContain('unedited');
  });
});

describe('a rule that a change takes away', () => {
  it('stands where it stood, in the old state', async () => {
    const held = old.replace('{\n', '{\n  changes {\n    no-worse\n  }\n');
    const changes = await compared({ 'old/a.lwl': held, 'new/a.lwl': old });
    expect(text(changes, undefined)).toMatch(
      /^! .*old\/a\.lwl:3 before: The rule `no-worse` was taken away/mu,
    );
    const [breach] = JSON.parse(json(changes)).breaches;
    expect(breach.stands.file).toMatch(/old\/a\.lwl$/u);
    expect(breach.stands.range.start.line).toBe(2);
    expect(breach.at).toBeNull();
  });
});
