/**
 * `npm start`: builds, packages the extension, judges the whole-terminal example
 * and says where everything lies.
 */
import { spawnSync } from 'node:child_process';
import { join, relative } from 'node:path';
import { bundle } from './bundle.ts';
import { requireExample, terminalExample } from './examples.ts';
import { packageCommand, packageExtension } from './package.ts';
import { dist, root } from './paths.ts';

const started = performance.now();
await bundle();
const vsix = packageExtension();
const tarball = packageCommand();
say(`Built and packaged in ${((performance.now() - started) / 1000).toFixed(1)} s.`);

const plan = shown(requireExample(terminalExample));
const page = shown(join(dist, 'results.html'));
say(`\nlinkwright check ${plan}`);
linkwright('check', plan);
say(`\nlinkwright results ${plan}`);
linkwright('results', plan);
linkwright('results', plan, '--format', 'html', '--out', page);

say(`
Results as one page:    ${page}
Extension for VS Code:  ${shown(vsix)}
Command line:           npm install -g ./${shown(tarball)}

To open the extension:
  in VS Code              Extensions view, menu “…”, “Install from VSIX…”, choose that file;
                          then open the folder ${shown(join(root, 'examples'))} and run “Linkwright: Open results”
  from a terminal         code --install-extension ${shown(vsix)}
  without a desktop one   npm run workbench`);

/** Runs the built command. A verdict that fails a check is an answer, not an error. */
function linkwright(...words: readonly string[]): void {
  const done = spawnSync(process.execPath, [join(dist, 'linkwright.cjs'), ...words], {
    cwd: root,
    stdio: 'inherit',
  });
  if (done.status !== 0 && done.status !== 1) {
    throw new Error(`linkwright ${words.join(' ')} could not run (exit ${done.status}).`);
  }
}

function shown(path: string): string {
  return relative(root, path).replaceAll('\\', '/');
}

function say(text: string): void {
  process.stdout.write(`${text}\n`);
}
