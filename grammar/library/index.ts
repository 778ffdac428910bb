/** The library: texts of the language, by the name of their file, in the order in which a reader meets the subjects. */
import access from './applications-access.lwl';
import ethernet25gTo100g from './applications-ethernet-25g-100g.lwl';
import ethernet200gOn from './applications-ethernet-200g-on.lwl';
import ethernetTo10g from './applications-ethernet-to-10g.lwl';
import machine from './applications-machine.lwl';
import storage from './applications-storage.lwl';
import unconfirmed from './applications-unconfirmed.lwl';
import colours from './colours.lwl';
import grades from './connection-grades.lwl';
import connections from './connections.lwl';
import faces from './faces.lwl';
import fibres from './fibres.lwl';
import launches from './launches.lwl';
import limits from './limits.lwl';
import parts from './parts.lwl';
import splices from './splices.lwl';
import splitters from './splitters.lwl';
import accessTransceivers from './transceivers-access.lwl';
import ethernetTransceivers from './transceivers-ethernet.lwl';

export const libraryFiles: Readonly<Record<string, string>> = {
  'fibres.lwl': fibres,
  'connections.lwl': connections,
  'connection-grades.lwl': grades,
  'splices.lwl': splices,
  'splitters.lwl': splitters,
  'parts.lwl': parts,
  'colours.lwl': colours,
  'launches.lwl': launches,
  'faces.lwl': faces,
  'limits.lwl': limits,
  'applications-ethernet-to-10g.lwl': ethernetTo10g,
  'applications-ethernet-25g-100g.lwl': ethernet25gTo100g,
  'applications-ethernet-200g-on.lwl': ethernet200gOn,
  'applications-storage.lwl': storage,
  'applications-access.lwl': access,
  'applications-machine.lwl': machine,
  'applications-unconfirmed.lwl': unconfirmed,
  'transceivers-ethernet.lwl': ethernetTransceivers,
  'transceivers-access.lwl': accessTransceivers,
};
