/** Builds a set-up: instruments, cords, and what happened to them in time. */
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration } from './declaration.ts';
import type { Built, ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { keeping } from './kept.ts';
import { buildMandrel } from './launches.ts';
import { entriesOf } from './like.ts';
import { allOf, declaredOf, firstOf } from './lines.ts';
import { buildConnector, buildFibre, typeOf } from './parts.ts';
import { nearestSpelling, type PlacedEntry, type Scope } from './scope.ts';
import type {
  CordGrade,
  Instrument,
  ReferenceMethod,
  Setup,
  SetupEvent,
  TestCord,
  UsedMandrel,
} from './types.ts';
import {
  baseOf,
  decimalOf,
  has,
  lengthOf,
  lossOf,
  nameOf,
  placeOf,
  powerOf,
  sizeOf,
  valuePlace,
  wavelengthOf,
  wavelengthsOf,
  whenOf,
  wholeOf,
} from './values.ts';

export const buildSetup = keeping((declaration: Declaration, scope: Scope): Built<Setup> => {
  const { lines, findings: mistakes, misread } = entriesOf(declaration, scope);
  const findings = [...mistakes];
  const reference = firstOf(lines, W.reference);
  const launch = firstOf(lines, W.launch);
  const condition = launch && nameOf(launch.entry.slots.condition);
  const cords = allOf(lines, W.cord).flatMap((line) => cordOf(line, scope));
  const otdr = firstOf(lines, W.otdr);
  return {
    model: {
      kind: 'setup',
      ...declaredOf(declaration, lines),
      reference: nameOf(reference?.entry.slots.method) as ReferenceMethod | undefined,
      direct: reference ? has(reference.entry, K.direct) : false,
      referencePlace: reference && placeOf(reference),
      source: instrumentOf(firstOf(lines, W.source)),
      meter: instrumentOf(firstOf(lines, W.meter) ?? otdr),
      ...(otdr && { otdr: true as const }),
      launch: launch
        ? {
            condition: condition ?? '',
            aperture: decimalOf(launch.entry.slots[K.aperture]),
            mandrel: mandrelOf(launch, scope),
            place: placeOf(launch),
          }
        : undefined,
      cords,
      events: eventsOf(lines, cords, findings),
      index: allOf(lines, W.index).flatMap(({ entry }) => {
        const wavelength = wavelengthOf(entry.slots.wavelength);
        const value = decimalOf(entry.slots.index);
        return wavelength === undefined || value === undefined ? [] : [{ wavelength, value }];
      }),
      pulse: baseOf(firstOf(lines, W.pulse)?.entry.slots.span, 'time'),
      averaging: baseOf(firstOf(lines, W.averaging)?.entry.slots.span, 'time'),
      range: lengthOf(firstOf(lines, W.range)?.entry.slots.length),
      ...(misread && { unread: true as const }),
    },
    findings,
  };
});

/** By its name, or its diameter. What could not be read was said all the same, and nothing follows from it. */
function mandrelOf(line: PlacedEntry, scope: Scope): UsedMandrel | undefined {
  const { slots } = line.entry;
  const [value] = slots.mandrel ?? [];
  if (!value) return has(line.entry, K.turns) ? { written: '' } : undefined;
  return {
    written:
      value.kind === 'quantity' ? `${value.digits} ${value.unit.name}` : (nameOf([value]) ?? ''),
    type: typeOf(W.mandrel, buildMandrel, line, scope),
    diameter: sizeOf([value]),
    turns: wholeOf(slots[K.turns]),
  };
}

function instrumentOf(line: PlacedEntry | undefined): Instrument | undefined {
  const text = line && nameOf(line.entry.slots.instrument);
  if (!line || text === undefined) return undefined;
  const { slots } = line.entry;
  return {
    text,
    light: nameOf(slots.light) as Instrument['light'],
    wavelengths: wavelengthsOf(slots[K.wavelength]),
    floor: powerOf(slots[K.floor]),
    calibrated: whenOf(line, slots[K.calibrated]),
    due: whenOf(line, slots[K.due]),
    place: placeOf(line),
  };
}

function cordOf(line: PlacedEntry, scope: Scope): TestCord[] {
  const { slots } = line.entry;
  const name = nameOf(slots.name);
  const role = nameOf(slots.role) as TestCord['role'] | undefined;
  if (name === undefined || role === undefined) return [];
  return [
    {
      name,
      role,
      connector: nameOf(slots.connector) ?? '',
      connectorType: typeOf(W.connector, buildConnector, line, scope),
      fibre: nameOf(slots.fibre) ?? '',
      fibreType: typeOf(W.fibre, buildFibre, line, scope),
      grade: nameOf(slots.grade) as CordGrade | undefined,
      length: lengthOf(slots[K.length]),
      diameter: sizeOf(slots[K.diameter]),
      verified: lossOf(slots[K.verified]),
      since: whenOf(line, slots[K.since]),
      place: placeOf(line),
    },
  ];
}

/** In time order; equal times stay in the order of the text. */
function eventsOf(
  lines: readonly PlacedEntry[],
  cords: readonly TestCord[],
  findings: ModelFinding[],
): readonly SetupEvent[] {
  return lines
    .flatMap((line) => eventOf(line, cords, findings))
    .map((event, order) => ({ event, order }))
    .sort((a, b) => a.event.at.from - b.event.at.from || a.order - b.order)
    .map(({ event }) => event);
}

function eventOf(
  line: PlacedEntry,
  cords: readonly TestCord[],
  findings: ModelFinding[],
): SetupEvent[] {
  const { word, slots } = line.entry;
  const at = whenOf(line, slots.date);
  if (at === undefined) return [];
  const place = placeOf(line);
  if (word === W.disturbed) {
    return [{ kind: 'disturbed', at, because: nameOf(slots[K.because]), place }];
  }
  if (word === W.taken || word === W.checked) {
    const wavelength = wavelengthOf(slots.wavelength);
    const power = powerOf(slots.power);
    if (wavelength === undefined || power === undefined) return [];
    return [{ kind: word, at, wavelength, power, place }];
  }
  if (word === W.verified) {
    const cord = nameOf(slots.cord);
    const loss = lossOf(slots.loss);
    if (cord === undefined || loss === undefined) return [];
    checkCord(line, cord, cords, findings);
    return [{ kind: 'verified', at, cord, loss, place }];
  }
  return [];
}

/** Cords are names of their set-up only. */
function checkCord(
  line: PlacedEntry,
  name: string,
  cords: readonly TestCord[],
  findings: ModelFinding[],
): void {
  if (cords.some((cord) => cord.name === name)) return;
  const place = valuePlace(line, line.entry.slots.cord![0]!);
  const nearest = nearestSpelling(
    name,
    cords.map((cord) => cord.name),
  );
  findings.push(
    finding('unknown-reference', place, {
      what: 'cord',
      name,
      ...(nearest !== undefined && { nearest }),
    }),
  );
}
