import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { commandManifest, commands, extensionManifest } from '../../client/build/manifest.ts';
import { packagedReadme } from '../../client/build/readme.ts';

interface Manifest {
  readonly activationEvents: readonly string[];
  readonly capabilities: Record<string, { readonly supported: boolean }>;
  readonly contributes: {
    readonly commands: readonly { readonly command: string; readonly category: string }[];
    readonly languages: readonly {
      readonly icon: { readonly light: string; readonly dark: string };
    }[];
    readonly configuration: { readonly properties: Record<string, { readonly default: unknown }> };
  };
}

const manifest = extensionManifest(new Set(), true) as Manifest;

describe('the manifest of the packaged extension', () => {
  it('offers every command that the extension registers, and no other', () => {
    const source = readFileSync('client/src/commands/index.ts', 'utf8');
    const registered = [...source.matchAll(/'(linkwright\.\w+)':/g)].map((match) => match[1]);
    expect(registered.length).toBeGreaterThan(0);
    expect(registered.sort()).toEqual(commands.map(({ id }) => id).sort());
    expect(manifest.contributes.commands.map(({ command }) => command).sort()).toEqual(registered);
  });

  it('works in untrusted and in virtual workspaces, and says so', () => {
    expect(manifest.capabilities).toEqual({
      untrustedWorkspaces: { supported: true },
      virtualWorkspaces: { supported: true },
    });
  });

  it('needs no setting: each has a default', () => {
    for (const [name, setting] of Object.entries(manifest.contributes.configuration.properties)) {
      expect(setting.default, name).toBeDefined();
    }
  });

  it('has a picture for its files on light and on dark ground', () => {
    const { icon } = manifest.contributes.languages[0]!;
    for (const path of [icon.light, icon.dark]) {
      expect(existsSync(`client/${path}`), path).toBe(true);
    }
  });

  it('brings no dependency to install', () => {
    for (const each of [manifest, commandManifest()]) {
      expect(each).not.toHaveProperty('dependencies');
      expect(each).not.toHaveProperty('devDependencies');
      expect(each).not.toHaveProperty('optionalDependencies');
    }
  });
});

describe('the README', () => {
  const readme = readFileSync('README.md', 'utf8');
  const targets = (text: string) => [...text.matchAll(/\]\(([^)]*)\)/g)].map((match) => match[1]!);

  it('shows a picture and leads to files that are there', () => {
    expect(readme).toMatch(/^!\[/m);
    for (const target of targets(readme)) expect(existsSync(target), target).toBe(true);
  });

  it('in a package leads nowhere that the package has not, and keeps its words', () => {
    const packaged = packagedReadme(readme);
    expect(targets(packaged)).toEqual([]);
    expect(packaged).not.toContain('![');
    expect(packaged).toContain('examples/first-link');
    expect(packaged.split('\n\n').length).toBe(readme.split('\n\n').length - 1);
  });
});
