/** What a launch has to be, for the cord of a set-up that is put to the light: bounds of encircled flux, size of a mandrel. */
import type { Value } from '../../../grammar/src/bound.ts';
import { C, W } from '../../../grammar/src/vocabulary/index.ts';
import { inMicrons, inMillimetres, inNm } from '../checks/figures.ts';
import type { FluxType, MandrelType, Setup, TestCord } from '../model/types.ts';
import type { BlockView, Plan } from '../project/types.ts';
import type { Words } from './cable-fibres.ts';

/** Under the pointer on the condition of a `launch` line, where a launch cord of the set-up asks for something. */
export function launchAt(plan: Plan, block: BlockView, offset: number): Words | undefined {
  const declared = block
    .bound()
    .entries.find(({ word, span }) => word === W.setup && holds(span, offset));
  const line = declared?.body?.entries.find(
    ({ word, span }) => word === W.launch && holds(span, offset),
  );
  const [condition] = line?.slots.condition ?? [];
  const [name] = declared?.slots.name ?? [];
  if (!condition || !holds(condition.span, offset) || !name) return undefined;
  const setup = plan.setup(textOf(name));
  const text = setup && wordsOf(setup, textOf(condition));
  return text ? { text, span: condition.span } : undefined;
}

function wordsOf(setup: Setup, condition: string): string | undefined {
  const cords = setup.cords.filter(({ role }) => role === C.launch);
  const parts = cords.flatMap((cord) => {
    const { flux, mandrel } = cord.fibreType ?? {};
    if (condition === C.encircledFlux && flux) return fluxAsMarkdown(flux, cord);
    return condition === C.mandrel && mandrel ? mandrelAsMarkdown(mandrel, cord) : [];
  });
  const [first] = parts;
  // Cords that followed each other in one role mostly ask for the same.
  return first && [...new Set(parts)].join('\n\n');
}

function fluxAsMarkdown({ name, edition, bounds }: FluxType, { fibre }: TestCord): string {
  const rows = bounds.map(({ radius, wavelength, min, typ, max, trust }) =>
    [
      inNm(wavelength),
      inMicrons(radius),
      ...[min, typ, max].map((share) => (share === undefined ? '' : `${share / 1e4} %`)),
      trust === 'recalled' ? 'from memory' : (trust ?? ''),
    ].join(' | '),
  );
  return [
    `**Encircled flux into ${fibre}**, by ${name}${edition ? ` (${edition})` : ''}: the light within a radius, at the end of the launch cord. It is shown and judges nothing.`,
    '',
    '| at | within | at least | aimed at | at most | known |',
    '| :-- | --: | --: | --: | --: | :-- |',
    ...rows.map((row) => `| ${row} |`),
  ].join('\n');
}

function mandrelAsMarkdown(mandrel: MandrelType, cord: TestCord): string {
  const { name, edition, diameters, turns } = mandrel;
  const sizes = diameters
    .filter(({ cord: thick }) => thick === undefined || (cord.diameter ?? thick) === thick)
    .map(
      ({ diameter, cord: thick, trust }) =>
        `${inMillimetres(diameter)}${thick === undefined ? '' : ` for a cord of ${inMillimetres(thick)}`}${trust === 'recalled' ? ', from memory' : ''}`,
    );
  const wound = turns === undefined ? '' : `, ${turns} ${turns === 1 ? 'turn' : 'turns'}`;
  const asked =
    sizes.length > 0 ? sizes.join('; ') : `no size for a cord of ${inMillimetres(cord.diameter!)}`;
  return `**Mandrel for ${cord.fibre}**, by ${name}${edition ? ` (${edition})` : ''}: ${asked}${wound}.`;
}

const textOf = (value: Value): string => ('text' in value ? value.text : '');

const holds = ({ start, end }: { start: number; end: number }, offset: number): boolean =>
  start <= offset && offset <= end;
