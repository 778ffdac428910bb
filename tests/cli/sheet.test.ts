/** `linkwright sheet`: one page for paper, whole or not at all, in which no name can do anything. */
import { chmodSync, existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { Folder } from './run.ts';

const plan = `plan "Quay <script>alert(1)</script>" {
  site        "\\"><img src=x onerror=alert(2)>"
  revision    "A } body { display: none } </style><b>" on 2026-03-01
  limits      TIA-568.3-E
  measure     850 nm for multimode
  reference   one-cord
}

link KQ-1 "& <i>title</i>" {
  from        "A<b>/R1/A:01"
  to          B/R1/A:01
  connector   LC
  segment     180 m OM4
  connector   LC
}
`;

let folder: Folder;

afterEach(() => folder.remove());

describe('sheet', () => {
  it('writes one page that asks for nothing and runs nothing, whatever the names are', () => {
    folder = new Folder({ 'plan.lwl': plan });
    const { code, out, error } = folder.run('sheet', 'plan.lwl', '--as-of', '2026-04-01');
    expect({ code, error }).toEqual({ code: 0, error: '' });
    expect(out).toContain('Quay &lt;script');
    expect(out).not.toMatch(/<script|<img|<b>|<i>|<link|@import|url\(/u);
    expect(out.match(/<\/style>/gu)).toHaveLength(1);
    expect(out).toContain('limit 2.04 dB');
    expect(out).toContain('Never look into a fibre');
  });

  it('writes to a file whole, keeps nothing beside it, and only links that are asked for', () => {
    folder = new Folder({ 'plan.lwl': plan });
    expect(folder.run('sheet', '.', '--link', 'KQ-1', '--out', 'sheet.html')).toMatchObject({
      code: 0,
      out: '',
    });
    expect(readdirSync(folder.path).sort()).toEqual(['plan.lwl', 'sheet.html']);
    expect(readFileSync(join(folder.path, 'sheet.html'), 'utf8')).toContain('</html>');
    expect(folder.run('sheet', '.', '--link', 'KQ-9')).toMatchObject({
      code: 2,
      out: '',
      error: 'There is no link or channel KQ-9 in this plan.\n',
    });
  });

  it('says in plain words why it cannot write', () => {
    folder = new Folder({ 'plan.lwl': plan, 'sub/note.txt': 'x' });
    expect(folder.run('sheet', '.', '--out', 'none/sheet.html').error).toContain(
      'there is no folder none. Make it first',
    );
    expect(folder.run('sheet', '.', '--out', 'sub').error).toContain('a folder has that name');
    if (existsSync('/dev/full')) {
      const full = folder.run('sheet', '.', '--out', '/dev/full');
      expect(full).toMatchObject({ code: 2, out: '' });
      expect(full.error).toContain('there is no room left on the disk');
    }
    // Root may write everywhere.
    if (process.getuid?.() !== 0) {
      chmodSync(join(folder.path, 'sub'), 0o500);
      expect(folder.run('sheet', '.', '--out', 'sub/sheet.html').error).toContain(
        'you may not write in the folder sub',
      );
      chmodSync(join(folder.path, 'sub'), 0o700);
    }
  });

  it('is about one plan, and says which there are', () => {
    folder = new Folder({ 'a.lwl': plan, 'b.lwl': plan });
    expect(folder.run('sheet', '.')).toMatchObject({ code: 2 });
    expect(folder.run('sheet', '.').error).toContain('There are several plans: a.lwl, b.lwl.');
  });
});
