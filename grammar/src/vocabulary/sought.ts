/**
 * Words of the trade that people look for where the notation has another:
 * `pigtail` where `segment` stands. Of several, the first that stands there is meant.
 */
import { canonical, W, type Word } from './spelling.ts';

const found: readonly (readonly [Word, readonly string[]])[] = [
  [W.segment, ['cable', 'pigtail', 'run', 'length', 'trunk', 'cord', 'span', 'fibre']],
  [W.component, ['module', 'cassette', 'mux', 'tap', 'attenuator', 'part', 'fan-out', 'breakout']],
  [W.connector, ['adapter', 'adaptor', 'coupler', 'pair', 'mating', 'panel']],
  [W.splice, ['joint', 'closure', 'fusion', 'mechanical']],
  [W.cord, ['patch', 'patchcord', 'patch-cord', 'jumper', 'lead']],
  [W.carries, ['application', 'service', 'transceiver', 'services']],
  [W.split, ['splitter', 'coupler', 'branch']],
  [W.out, ['output', 'branch', 'leg', 'drop', 'port', 'end']],
  [W.fibres, ['strands', 'cores', 'count']],
  [W.count, ['fibres', 'strands', 'cores']],
  [W.reel, ['drum', 'segment', 'section']],
  [W.measure, ['wavelength', 'wavelengths', 'test']],
  [W.limits, ['standard', 'limit', 'budget', 'contract']],
  [W.require, ['loss', 'contract']],
  [W.dead, ['broken', 'failed', 'damaged']],
  [W.spare, ['unused', 'dark', 'reserved']],
  [W.node, ['station', 'site', 'from']],
  [W.because, ['reason', 'why']],
  [W.note, ['reason', 'why', 'comment', 'remark', 'description']],
  [W.on, ['date', 'day', 'when', 'tested']],
  [W.tested, ['date', 'day', 'when', 'on', 'by', 'tester']],
  [W.by, ['tester', 'person', 'technician', 'who']],
  [W.values, ['units', 'unit', 'loss', 'in']],
  [W.done, ['what', 'action', 'cleaned']],
  [W.source, ['light', 'laser', 'led', 'LED']],
  [W.taken, ['zeroed', 'set', 'referenced']],
  [W.output, ['power', 'transmit', 'sent']],
  [W.input, ['receive', 'sensitivity', 'received']],
  [W.link, ['trunk', 'backbone', 'path', 'circuit', 'tree', 'line', 'span', 'segment']],
  [W.reference, ['method']],
  [W.meter, ['instrument', 'power-meter', 'detector']],
  [W.criterion, ['standard', 'limits', 'rule']],
  [W.readings, ['results', 'measurements', 'measurement', 'tests', 'test', 'losses']],
  [W.events, ['trace', 'traces', 'otdr']],
  [W.inspection, ['end-faces', 'endface', 'faces', 'microscope']],
  [W.work, ['repair', 'cleaning', 'cleaned']],
  [W.pattern, ['template', 'type']],
  [W.include, ['import', 'file', 'use']],
  [W.client, ['customer', 'owner']],
  [W.fibre, ['attenuation', 'type']],
  [W.part, ['component', 'module', 'splitter']],
  [W.jacket, ['sheath']],
  [W.launch, ['mandrel', 'encircled-flux', 'mode-controller']],
  [W.at, ['distance', 'position', 'location', 'place']],
  [W.kind, ['type', 'event']],
  [W.endA, ['near', 'start']],
  [W.endB, ['far', 'finish']],
  [W.fibre, ['core', 'strand', 'no', 'number']],
  [W.remark, ['comment', 'note', 'notes']],
  [W.end, ['port', 'outlet', 'drop']],
  [W.seen, ['arrived', 'found']],
  [W.changes, ['rules', 'review', 'change']],
  [W.noWorse, ['verdicts', 'verdict', 'worse']],
  [W.signed, ['signature', 'by', 'who']],
  [W.sameLimits, ['limits']],
  [W.unedited, ['evidence', 'readings']],
  [W.retested, ['retest', 'stale']],
];

/** The words that may be meant by one that does not stand here, the likeliest first. */
export function soughtAs(text: string): readonly Word[] {
  const small = canonical(text.toLowerCase());
  return found.flatMap(([word, names]) => (names.includes(small) ? [word] : []));
}

/** Whether a cell says in a sheet's or an instrument's way that no light was seen. */
export const saysDark = (text: string): boolean => /^(?:OL|LO|no-?light|inf)$/iu.test(text);
