/** What a path does to the signal, as Markdown: delay, skew, bandwidth that is left, dispersion, by design. */
import { toMetres } from '../../../grammar/src/quantity/index.ts';
import type { LinkResult, SignalResult } from '../evaluate/result.ts';
import type { Place, Trust } from '../model/types.ts';
import { wavelengthInWords } from './wording.ts';

/** Most lines that are written out; a tree has one per end. */
const most = 4;

/**
 * Of a whole link: the link itself at each wavelength; of a channel that is not
 * measured what it carries; of a tree or ring its ways, the longest first.
 */
export function signalOfLink(result: LinkResult): readonly string[] {
  const all = everywhere(result);
  const itself = all.filter(({ signal }) => signal.application === undefined);
  return written(itself.length > 0 ? itself : all);
}

/** Of what one line of the plan carries, with its cords. */
export function signalOfCarried(result: LinkResult, at: Place): readonly string[] {
  return written(
    everywhere(result).filter(
      ({ signal: { application, place } }) =>
        application !== undefined &&
        place.block === at.block &&
        place.span.start <= at.span.start &&
        at.span.end <= place.span.end,
    ),
  );
}

interface Told {
  readonly signal: SignalResult;
  readonly way?: string;
}

function everywhere({ signal, ways }: LinkResult): readonly Told[] {
  return [
    ...signal.map((one): Told => ({ signal: one })),
    ...ways.flatMap((way) => way.signal.map((one): Told => ({ signal: one, way: way.name }))),
  ];
}

function written(all: readonly Told[]): readonly string[] {
  const order = all.every(({ way }) => way === undefined)
    ? all
    : [...all].sort((a, b) => (b.signal.length ?? Infinity) - (a.signal.length ?? Infinity));
  const shown = order.slice(0, most).map(signalAsMarkdown);
  const more = order.length - most;
  return [
    ...shown,
    ...(more > 0 ? [`and ${more} more of what a path does to the signal`] : []),
    ...(all.some(({ signal }) => signal.bandwidth.length > 0)
      ? ['Bandwidths of stretches add as length ÷ bandwidth (exponent 1), which gives the least.']
      : []),
  ];
}

function signalAsMarkdown({ signal, way }: Told): string {
  const { wavelength, direction, length, delay, skew, bandwidth, dispersion, pmd, trust, unknown } =
    signal;
  const over = length === undefined ? '' : ` over ${toMetres(length)} m`;
  const facts = [
    delay === undefined ? '' : `delay ${timeInWords(delay)}${over}${recalled(trust.delay)}`,
    skew === undefined ? '' : `skew between its fibres ${timeInWords(skew)}`,
    bandwidth.length === 0
      ? ''
      : `modal bandwidth at least ${bandwidth.map((one) => `${frequencyInWords(one.value)} ${one.launch}${recalled(one.trust)}`).join(', ')}`,
    dispersion === undefined
      ? ''
      : `dispersion at most ${round(dispersion / 1e6)} ps/nm${recalled(trust.dispersion)}`,
    pmd === undefined
      ? ''
      : `polarisation mode dispersion ${round(pmd / 1e6)} ps${recalled(trust.pmd)}`,
  ].filter(Boolean);
  const where = [way, signal.application].filter(Boolean).join(', ');
  const head = `**signal, ${wavelengthInWords(wavelength)}${direction ? ` ${direction}` : ''}**${where ? `, ${where}` : ''}`;
  const lines = [`${head}: ${facts.length > 0 ? facts.join(' · ') : 'nothing is known'}`];
  if (unknown.length > 0) lines.push(`not known: ${unknown.join('; ')}`);
  return lines.join('  \n');
}

/** As of every figure that rests on one from memory. */
const recalled = (trust: Trust | undefined): string => (trust === 'recalled' ? ', recalled' : '');

/** Femtoseconds in the unit that a person would take. */
function timeInWords(femtoseconds: number): string {
  const [unit, size] =
    femtoseconds >= 1e9
      ? (['us', 1e9] as const)
      : femtoseconds >= 1e6
        ? (['ns', 1e6] as const)
        : (['ps', 1e3] as const);
  return `${round(femtoseconds / size)} ${unit}`;
}

function frequencyInWords(kilohertz: number): string {
  return kilohertz >= 1e6 ? `${round(kilohertz / 1e6)} GHz` : `${round(kilohertz / 1e3)} MHz`;
}

/** Four digits that count, no exponent. */
function round(value: number): string {
  return String(Number(value.toPrecision(4)));
}
