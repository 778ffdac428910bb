/** What a difference is of, in the words of the trade. */
import { C, type Context, K, W } from '../../../../grammar/src/vocabulary/index.ts';

/** Arguments that say which one it is, as people write them, by their slot. */
export type Shown = ReadonlyMap<string, string>;

type Phrase = string | ((shown: Shown) => string);

const at = (shown: Shown, slot: string = W.wavelength): string =>
  shown.get(slot) ? ` at ${shown.get(slot)}` : '';
const behind = (shown: Shown, ...slots: readonly string[]): string =>
  slots.map((slot) => (shown.get(slot) ? ` ${shown.get(slot)}` : '')).join('');
const forWhat = (shown: Shown): string => (shown.get(K.for) ? ` for ${shown.get(K.for)}` : '');
const ofNames = (shown: Shown, slot: string): string =>
  shown.get(slot) === undefined ? '' : ` of ${shown.get(slot)}`;

/** Of words that say the same wherever they stand. */
const everywhere: Readonly<Record<string, Phrase>> = {
  [W.uncertainty]: (s) => `uncertainty${at(s)}${behind(s, 'method')}${forWhat(s)}`,
  [W.decision]: 'decision rule',
  [W.policy]: 'policy of test-cord pairs',
  [W.drift]: 'allowed drift of a reference',
  [W.percentile]: 'share shown of a spread',
  [W.spares]: 'share of spare fibres',
  [W.identify]: (s) => `shape of ${s.get('what') ?? ''} names`,
  [W.measure]: (s) => `wavelengths to measure${forWhat(s)}`,
  [W.directions]: (s) => `directions to measure${forWhat(s)}`,
  [W.reference]: (s) => `reference method${forWhat(s)}`,
  [W.limits]: 'limits in force',
  [W.compare]: 'limits shown beside',
  [W.require]: (s) => `required ${s.get('what') ?? ''}${at(s)}${behind(s, 'statistic')}`,
  [W.carries]: (s) => `application${behind(s, 'application')}`,
  [W.reserve]: (s) => `reserve for ${s.get('what') ?? ''}`,
  [W.margin]: 'wanted margin',
  [W.spare]: 'spare fibres',
  [W.dead]: 'dead fibres',
  [W.adopt]: 'figures answered for',
  [W.doubts]: 'bounds of doubts',
  [W.values]: (s) => `unit${ofNames(s, 'quantity')}`,
  [W.changes]: 'rules for changes',
  [W.silence]: (s) => `answer to ${s.get('finding') ?? ''}`,
  [W.out]: (s) => {
    const outputs = s.get('outputs') ?? '';
    return `${/\D/u.test(outputs) ? 'outputs' : 'output'} ${outputs}`;
  },
  [W.accepted]: 'accepted loss',
  [W.because]: 'reason',
  [W.by]: 'signature',
  [W.tested]: 'time',
  [W.done]: 'what was done',
  [W.on]: 'day',
  [W.at]: 'place',
  [W.until]: 'end',
  [W.returnLoss]: (s) => `return loss${ofNames(s, 'connector')}${at(s)}`,
  [W.modeField]: (s) => `mode field diameter${at(s)}`,
  [W.coreStep]: (s) =>
    `step of cores${behind(s, 'first')}${s.get(K.to) ? ` to ${s.get(K.to)}` : ''}`,
  [W.pmd]: 'polarisation mode dispersion',
  [W.from]: 'ports of end A',
  [W.to]: 'ports of end B',
  [W.was]: 'former name',
  [W.like]: 'what it is like',
  [W.include]: 'file taken in',
  [W.as]: 'pattern',
  [W.loss]: (s) =>
    `loss${s.get(K.out) ? ` of output ${s.get(K.out)}` : ''}${s.get(K.port) ? ` of port ${s.get(K.port)}` : ''}${at(s)}`,
  [W.share]: (s) => `spread of loss${behind(s, 'share')}${at(s)}`,
};

/** Of words whose meaning depends on the block that they stand in. */
const inside: Readonly<Record<string, Readonly<Record<string, Phrase>>>> = {
  limits: {
    [W.fibre]: (s) => `fibre allowance of ${s.get('fibre') ?? ''}${at(s)}`,
    [W.connector]: (s) => `pair allowance of ${pairOf(s)}${forWhat(s)}`,
    [W.splice]: (s) => `splice allowance of ${pairOf(s)}${forWhat(s)}`,
    [W.part]: (s) => `part allowance of ${pairOf(s)}${forWhat(s)}`,
    [W.reject]: (s) => `bound of retests${forWhat(s)}`,
  },
  cable: {
    [W.fibre]: 'kind of fibre',
    [W.count]: 'number of fibres',
    [W.from]: 'beginning',
    [W.to]: 'end',
    [W.excess]: 'excess of fibre over sheath',
    [W.colours]: 'order of colours',
    [W.jacket]: 'colour of the jacket',
  },
  application: {
    [W.count]: 'number of fibres',
    [W.fibre]: (s) => `row of ${s.get('fibre') ?? ''}`,
    [W.wavelength]: (s) => `wavelength${behind(s, 'wavelength', 'direction')}`,
  },
  transceiver: {
    [W.output]: 'output power',
    [W.input]: 'input power',
    [W.damage]: 'input power that damages',
    [W.wavelength]: 'wavelength',
  },
  setup: {
    [W.reference]: 'reference method',
    [W.launch]: 'launch condition',
    [W.cord]: (s) => `${[s.get('role'), 'cord', s.get('name')].filter(Boolean).join(' ')}`,
    [W.taken]: (s) => `reference${at(s)}${taken(s)}`,
    [W.checked]: (s) => `drift check${at(s)}${taken(s)}`,
    [W.verified]: (s) => `verification${s.get('cord') ? ` of ${s.get('cord')}` : ''}${taken(s)}`,
    [W.disturbed]: (s) => `disturbance${taken(s)}`,
    [W.otdr]: 'reflectometer',
    [W.index]: (s) => `group index${at(s)}`,
  },
  fibre: { [W.index]: (s) => `group index${at(s)}`, [W.meets]: 'fibres it meets' },
  work: { [W.by]: 'person' },
};

const pairOf = (shown: Shown): string =>
  [...shown]
    .filter(([slot]) => slot !== K.for)
    .map(([, text]) => (text === C.any ? 'any kind' : text))
    .filter(Boolean)
    .join(', ');
const taken = (shown: Shown): string => (shown.get('date') ? ` of ${shown.get('date')}` : '');

/** `fibre allowance of OM4 at 850 nm`, without what it stands in. */
export function phraseOf(context: Context, word: string, shown: Shown): string {
  if (word === '') return 'line that is not read';
  if (context === W.doubts) return `bound ${word}`;
  if (context === W.changes) return `rule ${word}`;
  const phrase = inside[context]?.[word] ?? everywhere[word] ?? everyday;
  const text = typeof phrase === 'string' ? phrase : phrase(shown);
  if (phrase !== everyday) return text;
  const keys = [...shown]
    .filter(([, value]) => value !== '')
    .map(([slot, value]) =>
      slot === W.wavelength ? ` at ${value}` : slot === K.for ? ` for ${value}` : ` ${value}`,
    );
  return `${word.replaceAll('-', ' ')}${keys.join('')}`;
}

const everyday: Phrase = () => '';

/** What a slot is called where it is all that differs; undefined where its line says it better. */
const slotNames: Readonly<Record<string, string>> = {
  length: 'length',
  fibre: 'fibre',
  [K.fibres]: 'fibres',
  [K.map]: 'map',
  [K.at]: 'place',
  [K.tube]: 'tubes',
  [K.reels]: 'reels',
  cable: 'cable',
  crossing: 'crossing',
  [K.turned]: 'sense',
  [K.port]: 'port',
  [K.plugs]: 'plugs',
  [K.cords]: 'cords',
  [K.with]: 'transceivers',
  [K.calibrated]: 'calibration',
  [K.due]: 'end of calibration',
  [K.verified]: 'verified loss',
  [K.floor]: 'floor',
  [K.because]: 'reason',
  splitter: 'splitter',
  connector: 'kind',
};

export function slotPhrase(slot: string): string | undefined {
  return slotNames[slot] ?? /^<(.+)>$/u.exec(slot)?.[1];
}

/** What a declaration is called where something of it is named: of links and the like, the name says it. */
export function labelOf(kind: string, name: string): string {
  if (bare.has(kind)) return name;
  return kind === W.setup ? `set-up ${name}` : `${kind} ${name}`;
}

const bare: ReadonlySet<string> = new Set([
  W.link,
  W.channel,
  W.ring,
  W.limits,
  W.application,
  W.transceiver,
]);

/** What a word is called as a thing that is new or gone: `set-up`, `order of colours`. */
export function thingOf(kind: string): string {
  if (kind === W.setup) return 'set-up';
  if (kind === W.colours) return 'order of colours';
  return kind;
}
