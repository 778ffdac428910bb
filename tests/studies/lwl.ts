/** Lets Node read files of the language as their text, as the bundler and the tests do. Import it first. */
import { readFileSync } from 'node:fs';
import { registerHooks } from 'node:module';
import { fileURLToPath } from 'node:url';

registerHooks({
  load(url, context, next) {
    if (!url.endsWith('.lwl')) return next(url, context);
    const text = readFileSync(fileURLToPath(url), 'utf8');
    return {
      format: 'module',
      shortCircuit: true,
      source: `export default ${JSON.stringify(text)};`,
    };
  },
});
