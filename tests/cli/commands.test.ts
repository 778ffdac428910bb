/** The other commands: formatting, beginning a plan, explaining, and the server by way of the command line. */
import { chmodSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { dist } from '../../client/build/paths.ts';
import { ProtocolClient } from '../protocol/harness/client.ts';
import { Folder } from './run.ts';

const canonical = `link KQ-1 {
  fibres      1..2
  connector   LC
  segment     180 m OM4
  connector   LC
}
`;
const loose = canonical.replaceAll(/ {2,}/gu, ' ').replaceAll('\n', '\n');

let folder: Folder;

afterEach(() => folder.remove());

describe('format', () => {
  it('rewrites what is not canonical, keeps its rights, and leaves nothing else behind', () => {
    folder = new Folder({ 'a.lwl': loose, 'sub/b.lwl': canonical });
    chmodSync(join(folder.path, 'a.lwl'), 0o640);
    expect(folder.run('format')).toMatchObject({ code: 0, out: 'a.lwl\n' });
    expect(readFileSync(join(folder.path, 'a.lwl'), 'utf8')).toBe(canonical);
    expect(statSync(join(folder.path, 'a.lwl')).mode & 0o777).toBe(0o640);
    expect(readdirSync(folder.path).sort()).toEqual(['a.lwl', 'sub']);
    expect(folder.run('format')).toMatchObject({ code: 0, out: '' });
  });

  it('only says which files would change, where asked to check', () => {
    folder = new Folder({ 'a.lwl': loose, 'b.lwl': canonical });
    expect(folder.run('format', '--check')).toMatchObject({ code: 1, out: 'a.lwl\n' });
    expect(readFileSync(join(folder.path, 'a.lwl'), 'utf8')).toBe(loose);
    expect(folder.run('format', '--check', 'b.lwl')).toMatchObject({ code: 0, out: '' });
  });

  it('keeps the line ends of a checkout that made CRLF of them', () => {
    const pairs = (text: string) => text.replaceAll('\n', '\r\n');
    folder = new Folder({ 'a.lwl': pairs(canonical), 'b.lwl': pairs(loose) });
    expect(folder.run('format', '--check')).toMatchObject({ code: 1, out: 'b.lwl\n' });
    expect(folder.run('format')).toMatchObject({ code: 0, out: 'b.lwl\n' });
    expect(readFileSync(join(folder.path, 'b.lwl'), 'utf8')).toBe(pairs(canonical));
  });

  it('leaves what is no UTF-8 text byte for byte, and says so', () => {
    const bytes = Uint8Array.from([...Buffer.from(loose), 0xe9]);
    folder = new Folder({ 'a.lwl': bytes });
    expect(folder.run('format').error).toContain('a.lwl is left as it is');
    expect(Uint8Array.from(readFileSync(join(folder.path, 'a.lwl')))).toEqual(bytes);
  });

  it('ends with 2 where it cannot run', () => {
    folder = new Folder({});
    expect(folder.run('format', 'nowhere.lwl')).toMatchObject({ code: 2, out: '' });
  });
});

describe('new', () => {
  it('begins a plan that checks clean and is in canonical form', () => {
    folder = new Folder({});
    expect(folder.run('new', 'first')).toMatchObject({ code: 0 });
    const { code, out } = folder.run('check', 'first', '--as-of', '2026-02-01');
    expect(code).toBe(0);
    expect(out).not.toMatch(/error:|warning:/u);
    expect(out).toMatch(/^LINK-1 +pass/mu);
    expect(folder.run('format', '--check', 'first')).toMatchObject({ code: 0, out: '' });
  });

  it('never writes into a folder that holds something', () => {
    folder = new Folder({ 'mine/plan.lwl': '# mine\n' });
    expect(folder.run('new', 'mine')).toMatchObject({ code: 2, out: '' });
    expect(readFileSync(join(folder.path, 'mine/plan.lwl'), 'utf8')).toBe('# mine\n');
    expect(readdirSync(join(folder.path, 'mine'))).toEqual(['plan.lwl']);
  });
});

describe('explain', () => {
  it.each([
    ['segment', 'segment (word, in'],
    ['core-size-mismatch', 'Source: '],
    ['OM4', 'OM4 (fibre, of the library)'],
    ['10GBASE-SR', '10GBASE-SR (application, of the library)'],
    ['encircled-flux', 'FLUX-50-UNCONFIRMED (flux, of the library)'],
    ['simple', 'simple (an argument of decision'],
  ])('says what %s is', (name, says) => {
    folder = new Folder({});
    const { code, out } = folder.run('explain', name);
    expect(code).toBe(0);
    expect(out).toContain(says);
  });

  it('offers the nearest name for one that it does not know', () => {
    folder = new Folder({});
    const { code, error } = folder.run('explain', 'segmnet');
    expect(code).toBe(2);
    expect(error).toContain('Did you mean "segment"?');
  });
});

describe('lsp', () => {
  it('serves an editor over standard input and output', async () => {
    folder = new Folder({});
    const client = await ProtocolClient.start({
      program: [process.execPath, join(dist, 'linkwright.cjs'), 'lsp', '--stdio'],
    });
    await client.open('untitled:plan', canonical.replace('OM4', 'OM44'));
    const codes = (await client.findings('untitled:plan', 1)).map(({ code }) => code);
    expect(codes).toContain('unknown-reference');
    expect(await client.stop()).toBe(0);
  });
});
