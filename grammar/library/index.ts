/** The library: texts of the language, by the name of their file. */
import applications from './applications.lwl';
import colours from './colours.lwl';
import connections from './connections.lwl';
import fibres from './fibres.lwl';
import limits from './limits.lwl';

export const libraryFiles: Readonly<Record<string, string>> = {
  'fibres.lwl': fibres,
  'connections.lwl': connections,
  'limits.lwl': limits,
  'applications.lwl': applications,
  'colours.lwl': colours,
};
