/** The library is read by the name: what is found so is what its files declare. */
import { describe, expect, it } from 'vitest';
import { libraryFiles } from '../../grammar/library/index.ts';
import { namespaceOf } from '../../server/src/model/api.ts';
import { Library } from '../../server/src/project/library.ts';

describe('the library', () => {
  it('knows every name before it has read a block', () => {
    const whole = new Library(libraryFiles);
    const declared = [...whole.all()];
    const byName = new Library(libraryFiles);
    for (const { kind, name } of declared) {
      const found = byName.declared(namespaceOf(kind), name).map((each) => [each.kind, each.name]);
      expect(found).toContainEqual([kind, name]);
    }
    for (const namespace of new Set(declared.map(({ kind }) => namespaceOf(kind)))) {
      const names = declared
        .filter(({ kind }) => namespaceOf(kind) === namespace)
        .map(({ name }) => name);
      expect([...byName.names(namespace)]).toEqual([...new Set(names)]);
    }
  });

  it('gives the same object for a name, however often it is asked', () => {
    const library = new Library(libraryFiles);
    expect(library.declared('fibre', 'OM4')).toHaveLength(1);
    expect(library.declared('fibre', 'OM4')).toBe(library.declared('fibre', 'OM4'));
    expect(library.declared('fibre', 'none of it')).toEqual([]);
  });

  it('reads a block at once that does not begin with a plain name', () => {
    const library = new Library({
      'odd.lwl': '# a word before\nfibre "OM 4" {\n  like OM4\n}\nfibre 50 {\n  like OM4\n}\n',
    });
    const names = [...library.all()].map(({ name }) => name);
    expect(names).toContain('OM 4');
    expect([...library.names('fibre')]).toEqual(names);
  });
});
