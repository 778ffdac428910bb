/**
 * A tester's day in the editor, as a person would go through it: the sheet for
 * the site, 48 readings typed one after the other with two slips noticed, a dark
 * fibre, a record that is refused, the fibre put right and read again, the record.
 * And another day: a thousand readings of a table, and the gap it had.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { useWorkbench } from './host/workbench.ts';

const workbench = useWorkbench();
const { workspace } = inject('workbench');
const example = readFileSync('examples/first-link/first-link.lwl', 'utf8');
const now = new Date();
const two = (value: number) => String(value).padStart(2, '0');
const year = now.getFullYear();
const day = `${year}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
const plan = example
  .slice(0, example.indexOf('readings KQ'))
  .replaceAll('01..04', '01..12')
  .replace('  limits ', `  site        "Kestrel Quay"\n  revision    "A" on ${day}\n  limits `)
  .replace(/2026-03-14 08:1\d/gu, `${day} 00:00`)
  .replaceAll('2026-01-12', `${year}-01-01`)
  .replaceAll('2027-01-12', `${year + 1}-12-31`);

const fibres = Array.from({ length: 12 }, (_, index) => index + 1);
/** What the meter shows of a fibre: a few hundredths apart, as fibres of one cable are. */
const shown = (fibre: number, column: number) =>
  ([0.97, 0.99, 0.66, 0.64][column]! + ((fibre * 7 + column * 3) % 11) / 100).toFixed(2);
const dark = 7;

const text = () => workbench.host((vscode) => vscode.window.activeTextEditor!.document.getText());
const box = () => workbench.page.locator('.quick-input-widget');
const title = () => box().locator('.quick-input-title').innerText();
const message = () => box().locator('.quick-input-message').innerText();
const written = (name: string) => readFileSync(join(workspace, 'day', name), 'utf8');

async function type(what: string): Promise<void> {
  await box().locator('input').first().fill(what);
  await workbench.page.keyboard.press('Enter');
}

async function pick(label: string): Promise<void> {
  await box().locator('.monaco-list-row', { hasText: label }).first().waitFor();
  await type(label);
}

async function paper(command: string, name: string, ...more: readonly unknown[]): Promise<void> {
  const [from, to] = await workbench.host((vscode, file) => {
    const [folder] = vscode.workspace.workspaceFolders ?? [];
    const at = (path: string) => vscode.Uri.joinPath(folder!.uri, 'day', path).toString();
    return [at('plan.lwl'), at(file)] as const;
  }, name);
  await workbench.command(command, from, to, ...more);
}

async function begin(): Promise<void> {
  await workbench.host((vscode) => {
    const editor = vscode.window.activeTextEditor!;
    const at = editor.document.positionAt(editor.document.getText().indexOf('KQ-OPS-B3 "') + 1);
    editor.selection = new vscode.Selection(at, at);
  });
  void workbench.command('linkwright.enterReadings');
}

afterAll(() =>
  workbench.host((vscode) => {
    const settings = vscode.workspace.getConfiguration('linkwright');
    return settings.update('tester', undefined, vscode.ConfigurationTarget.Global);
  }),
);

describe("a tester's day", () => {
  it('begins with a plan and a sheet for the site', async () => {
    await workbench.open('day', { 'plan.lwl': plan });
    await paper('linkwright.writeFieldSheet', 'sheet.html');
    expect(written('sheet.html')).toContain('B3/R1');
  });

  it('takes 48 readings, and notices what is mistyped', { timeout: 240_000 }, async () => {
    await begin();
    await expect.poll(title).toBe('Who measures?');
    await type('R. Vale');
    await pick('Fibre by fibre');
    await pick('Every fibre, upwards');
    for (const fibre of fibres) {
      for (const column of [0, 1, 2, 3]) {
        await expect.poll(title).toContain(`(${(fibre - 1) * 4 + column + 1}/48)`);
        if (fibre === 3 && column === 0) {
          // The point forgotten: no fibre loses so much and is not dark.
          await type(shown(fibre, column).replace('.', ''));
          await expect.poll(message).toContain('Enter writes it all the same');
          await workbench.pictures('day-point-forgotten');
        }
        if (fibre === 5 && column === 1) {
          await type(`-${shown(fibre, column)}`);
          await expect.poll(message).toContain('more light arrived');
        }
        await type(fibre === dark ? 'dark' : shown(fibre, column));
      }
    }
    await expect.poll(text).toMatch(/^ {2}12 +\d\.\d\d +\d\.\d\d +\d\.\d\d +\d\.\d\d$/mu);
    expect((await text()).match(/ dark/gu)).toHaveLength(4);
    await workbench.pictures('day-48-readings');
  });

  it('is no record while a fibre fails', async () => {
    await paper('linkwright.writeAcceptanceRecord', 'record.html', true);
    await expect.poll(() => box().innerText()).toContain('The record is not issued');
    await workbench.pictures('day-record-refused');
    expect(() => written('record.html')).toThrow();
    await workbench.page.keyboard.press('Escape');
  });

  it('reads the fibre again once it is mended, in a block of its own', {
    timeout: 180_000,
  }, async () => {
    const before = await text();
    // A person needs longer than a minute to mend a fibre; two attempts of one minute are a doubt.
    const begun = /tested +\S+ (\d\d:\d\d)/u.exec(before)?.[1];
    const clock = () => `${two(new Date().getHours())}:${two(new Date().getMinutes())}`;
    await expect.poll(clock, { timeout: 90_000, interval: 1000 }).not.toBe(begun);
    await begin();
    await pick('Fibre by fibre');
    for (const column of [0, 1, 2, 3]) {
      await expect.poll(title).toContain(`fibre ${dark}`);
      await expect.poll(title).toContain(`(${column + 1}/4)`);
      await type(shown(dark, column));
    }
    await expect.poll(text).toMatch(/columns fibre, 850 nm A>B[^\n]*\n {2}7 +\d\.\d\d[^\n]*\n\}/u);
    // What was read before stands as it stood.
    const readings = before.slice(before.indexOf('readings KQ'), before.indexOf('# One cord'));
    expect(await text()).toContain(readings.trimEnd());
    await workbench.pictures('day-read-again');
  });

  it('ends with a record that is issued', async () => {
    await workbench.command('workbench.action.files.save');
    await paper('linkwright.writeAcceptanceRecord', 'record.html', true);
    await expect
      .poll(() => {
        try {
          return written('record.html');
        } catch {
          return '';
        }
      })
      .toContain('KQ-OPS-B3');
    expect(written('record.html')).not.toMatch(/\bdraft\b/iu);
  });
});

/** A table with a reading a row of all fibres but one, as they scatter by chance. */
describe('a day whose readings come in a table', () => {
  const last = 251;
  const gap = 77;
  const ways = [
    [850, 'A>B'],
    [850, 'B>A'],
    [1300, 'A>B'],
    [1300, 'B>A'],
  ] as const;
  const loss = (fibre: number, column: number) =>
    (
      [0.97, 0.99, 0.66, 0.64][column]! +
      0.14 * chance(fibre * 97 + 5) +
      0.06 * chance(fibre * 97 + column * 13 + 7)
    ).toFixed(2);
  const table = [
    'Link,Fibre,Wavelength,Direction,Loss (dB),Date,Tester',
    ...Array.from({ length: last }, (_, at) => at + 1)
      .filter((fibre) => fibre !== gap)
      .flatMap((fibre) =>
        ways.map(([wavelength, way], column) =>
          [
            'KQ-OPS-B3',
            fibre,
            wavelength,
            way,
            loss(fibre, column),
            `${day} 00:${two(1 + Math.floor(fibre / 10))}`,
            'R. Vale',
          ].join(','),
        ),
      ),
  ].join('\n');
  const line = (label: string) => box().locator('.monaco-list-row', { hasText: label }).first();

  beforeAll(() =>
    workbench.host((vscode) => {
      const settings = vscode.workspace.getConfiguration('linkwright');
      return settings.update('tester', 'R. Vale', vscode.ConfigurationTarget.Global);
    }),
  );

  it('takes its thousand rows in one edit', { timeout: 240_000 }, async () => {
    await workbench.clear();
    await workbench.open('day', {
      'plan.lwl': plan.replaceAll('01..12', `001..${last}`),
      'quay.csv': table,
    });
    const address = await workbench.host((vscode) =>
      vscode.Uri.joinPath(vscode.window.activeTextEditor!.document.uri, '../quay.csv').toString(),
    );
    void workbench.command('linkwright.importReadings', address).catch(() => undefined);
    await line('Read all 1,000 rows').waitFor();
    await workbench.page.keyboard.press('Enter');
    await line('Write 1,000 readings in 1 block').waitFor();
    await workbench.pictures('day-table-found');
    await line('Write 1,000 readings').click();
    await expect.poll(text).toMatch(/^ {2}251 +\d\.\d\d +\d\.\d\d +\d\.\d\d +\d\.\d\d/mu);
  });

  it('is no record while a fibre lacks its readings', async () => {
    await paper('linkwright.writeAcceptanceRecord', 'table.html', true);
    await expect.poll(() => box().innerText()).toContain('1 thing is missing');
    expect(await box().innerText()).toContain('4 readings untested');
    expect(() => written('table.html')).toThrow();
    await workbench.page.keyboard.press('Escape');
  });

  it('ends with the gap closed and the record issued', { timeout: 180_000 }, async () => {
    await begin();
    await pick('Fibre by fibre');
    for (const [column] of ways.entries()) {
      await expect.poll(title).toContain(`fibre ${gap}`);
      await expect.poll(title).toContain(`(${column + 1}/4)`);
      await type(loss(gap, column));
    }
    await expect.poll(text).toMatch(/^ {2}77 +\d\.\d\d +\d\.\d\d +\d\.\d\d +\d\.\d\d/mu);
    await workbench.command('workbench.action.files.save');
    await paper('linkwright.writeAcceptanceRecord', 'table.html', true);
    const issued = () => {
      try {
        return written('table.html');
      } catch {
        return '';
      }
    };
    await expect.poll(issued).toContain('<strong>Issued</strong>');
    expect(issued()).toContain('1,004');
    await workbench.pictures('day-table-issued');
  });
});

/** From 0 to below 1, the same for a seed. */
function chance(seed: number): number {
  let mixed = Math.imul(seed ^ (seed >>> 16), 0x85ebca6b);
  mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
  return ((mixed ^ (mixed >>> 16)) >>> 0) / 2 ** 32;
}
