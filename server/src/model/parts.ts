/** Builds what parts are: types of fibre, connector, splice and component, with `like` and `meets` resolved. */
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration, DeclaredKind } from './declaration.ts';
import type { Built } from './finding.ts';
import { keeping } from './kept.ts';
import { buildFlux, buildMandrel } from './launches.ts';
import { entriesOf } from './like.ts';
import { allOf, declaredOf, figureOf, firstOf } from './lines.ts';
import { resolve } from './resolve.ts';
import type { PlacedEntry, Scope } from './scope.ts';
import type {
  Attenuation,
  ColoursType,
  ComponentType,
  ConnectorType,
  Dispersion,
  FibreColours,
  FibreType,
  LossShare,
  Mode,
  PartLoss,
  PlaceMap,
  ReturnLoss,
  SpliceType,
  SplitterType,
} from './types.ts';
import {
  bandwidthOf,
  baseOf,
  decimalOf,
  lossOf,
  nameOf,
  namesOf,
  rateOf,
  ratioOf,
  shareOf,
  sizeOf,
  wavelengthOf,
  wholeOf,
  wholesOf,
} from './values.ts';

export const buildFibre = keeping((declaration: Declaration, scope: Scope): Built<FibreType> => {
  const { lines, findings } = entriesOf(declaration, scope);
  const mode = firstOf(lines, W.mode)?.entry;
  const met = metFibres(declaration, scope);
  const attenuation = allOf(lines, W.attenuation).flatMap(attenuationOf);
  for (const other of met) {
    for (const figure of allOf(entriesOf(other, scope).lines, W.attenuation).flatMap(
      attenuationOf,
    )) {
      const named = attenuation.some(({ wavelength }) => wavelength === figure.wavelength);
      // What it meets binds it: the greatest loss of the other holds, its usual loss need not.
      if (!named) attenuation.push({ ...figure, min: undefined, typ: undefined, sigma: undefined });
    }
  }
  return {
    model: {
      kind: 'fibre',
      ...declaredOf(declaration, lines),
      mode: mode && (nameOf(mode.slots.mode) as Mode | undefined),
      core: mode && sizeOf(mode.slots[K.core]),
      attenuation,
      meets: met.map(({ name }) => name),
      bandwidth: allOf(lines, W.bandwidth).flatMap(({ entry, trust }) => {
        const wavelength = wavelengthOf(entry.slots.wavelength);
        const min = bandwidthOf(entry.slots[K.min]);
        const launch = nameOf(entry.slots.launch);
        return wavelength === undefined || min === undefined || launch === undefined
          ? []
          : [{ wavelength, min, launch, trust }];
      }),
      index: allOf(lines, W.index).flatMap(({ entry, trust }) => {
        const wavelength = wavelengthOf(entry.slots.wavelength);
        const value = decimalOf(entry.slots.index);
        return wavelength === undefined || value === undefined
          ? []
          : [{ wavelength, value, trust }];
      }),
      modeField: allOf(lines, W.modeField).flatMap((line) => {
        const wavelength = wavelengthOf(line.entry.slots.wavelength);
        return wavelength === undefined ? [] : [{ wavelength, ...figureOf(line, sizeOf) }];
      }),
      dispersion: allOf(lines, W.dispersion).flatMap(dispersionOf),
      pmd: pmdOf(firstOf(lines, W.pmd)),
      mandrel: ofItOrMet(W.mandrel, buildMandrel, [declaration, ...met], scope),
      flux: ofItOrMet(W.flux, buildFlux, [declaration, ...met], scope),
    },
    findings,
  };
});

/** What a fibre names for its launch, or else the nearest that it meets. */
function ofItOrMet<Model>(
  kind: DeclaredKind,
  build: (declaration: Declaration, scope: Scope) => Built<Model>,
  fibres: readonly Declaration[],
  scope: Scope,
): Model | undefined {
  for (const fibre of fibres) {
    const line = firstOf(entriesOf(fibre, scope).lines, kind);
    if (line) return typeOf(kind, build, line, scope);
  }
  return undefined;
}

function pmdOf(line: PlacedEntry | undefined): FibreType['pmd'] {
  const max = baseOf(line?.entry.slots[K.max], 'pmd');
  return max === undefined ? undefined : { max, trust: line?.trust };
}

function dispersionOf({ entry: { slots }, trust }: PlacedEntry): Dispersion[] {
  if (slots.zero) {
    const slope = baseOf(slots[K.slope], 'slope');
    const [min, max] = [wavelengthOf(slots[K.min]), wavelengthOf(slots[K.max])];
    return [{ kind: 'zero', min, max, slope, trust }];
  }
  const wavelength = wavelengthOf(slots.wavelength);
  const max = baseOf(slots[K.max], 'dispersion');
  return wavelength === undefined || max === undefined
    ? []
    : [{ kind: 'greatest', wavelength, max, trust }];
}

function attenuationOf(line: PlacedEntry): Attenuation[] {
  const wavelength = wavelengthOf(line.entry.slots.wavelength);
  if (wavelength === undefined) return [];
  const light = nameOf(line.entry.slots.light) as Attenuation['light'];
  return [{ wavelength, light, ...figureOf(line, rateOf), trust: line.trust }];
}

/** Fibres whose requirements this one fulfils, directly or through others, nearest first. */
function metFibres(declaration: Declaration, scope: Scope): readonly Declaration[] {
  const met: Declaration[] = [];
  let layer: readonly Declaration[] = [declaration];
  while (layer.length > 0) {
    const next: Declaration[] = [];
    for (const fibre of layer) {
      for (const line of allOf(entriesOf(fibre, scope).lines, W.meets)) {
        for (const value of line.entry.slots.fibre ?? []) {
          const other = resolve(W.fibre, value, scope);
          if (other && other.name !== declaration.name && !met.includes(other)) {
            met.push(other);
            next.push(other);
          }
        }
      }
    }
    layer = next;
  }
  return met;
}

export function partLosses(lines: readonly PlacedEntry[]): PartLoss[] {
  return allOf(lines, W.loss).map((line) => ({
    wavelength: wavelengthOf(line.entry.slots[K.wavelength]),
    out: wholesOf(line.entry.slots[K.out]),
    port: nameOf(line.entry.slots[K.port]),
    ...figureOf(line, lossOf),
    trust: line.trust,
  }));
}

export function lossShares(lines: readonly PlacedEntry[]): LossShare[] {
  return allOf(lines, W.share).flatMap(({ entry: { slots } }) => {
    const [share, loss] = [shareOf(slots.share), lossOf(slots.loss)];
    if (share === undefined || loss === undefined) return [];
    return [{ share, loss, wavelength: wavelengthOf(slots[K.wavelength]) }];
  });
}

function returnLosses(lines: readonly PlacedEntry[]): ReturnLoss[] {
  return allOf(lines, W.returnLoss).map((line) => ({
    wavelength: wavelengthOf(line.entry.slots[K.wavelength]),
    ...figureOf(line, lossOf),
    trust: line.trust,
  }));
}

export const buildConnector = keeping(
  (declaration: Declaration, scope: Scope): Built<ConnectorType> => {
    const { lines, findings } = entriesOf(declaration, scope);
    return {
      model: {
        kind: 'connector',
        ...declaredOf(declaration, lines),
        polish: nameOf(firstOf(lines, W.polish)?.entry.slots.polish),
        positions: wholeOf(firstOf(lines, W.positions)?.entry.slots.number),
        loss: partLosses(lines),
        shares: lossShares(lines),
        returnLoss: returnLosses(lines),
      },
      findings,
    };
  },
);

export const buildSplice = keeping((declaration: Declaration, scope: Scope): Built<SpliceType> => {
  const { lines, findings } = entriesOf(declaration, scope);
  return {
    model: {
      kind: 'splice',
      ...declaredOf(declaration, lines),
      loss: partLosses(lines),
      shares: lossShares(lines),
      returnLoss: returnLosses(lines),
    },
    findings,
  };
});

export const buildSplitter = keeping(
  (declaration: Declaration, scope: Scope): Built<SplitterType> => {
    const { lines, findings } = entriesOf(declaration, scope);
    // Missing ports have been reported; a part with one of each splits nothing.
    const [inputs, outputs] = ratioOf(firstOf(lines, W.ports)?.entry.slots.ratio) ?? [1, 1];
    return {
      model: {
        kind: 'splitter',
        ...declaredOf(declaration, lines),
        inputs,
        outputs,
        loss: partLosses(lines),
        shares: lossShares(lines),
        returnLoss: returnLosses(lines),
      },
      findings,
    };
  },
);

export const buildColours = keeping(
  (declaration: Declaration, scope: Scope): Built<ColoursType> => {
    const { lines, findings } = entriesOf(declaration, scope);
    return {
      model: {
        kind: 'colours',
        ...declaredOf(declaration, lines),
        tubes: namesOf(firstOf(lines, W.tubes)?.entry.slots.colours),
        fibres: namesOf(firstOf(lines, W.fibres)?.entry.slots.colours),
        jackets: allOf(lines, W.jacket).map(fibreColours),
        bodies: allOf(lines, W.body).map((line) => ({
          ...fibreColours(line),
          polish: nameOf(line.entry.slots[K.for]),
        })),
      },
      findings,
    };
  },
);

const fibreColours = ({ entry: { slots }, trust }: PlacedEntry): FibreColours => ({
  fibres: namesOf(slots.fibre),
  colours: namesOf(slots.colour),
  trust,
});

export const buildComponent = keeping(
  (declaration: Declaration, scope: Scope): Built<ComponentType> => {
    const { lines, findings } = entriesOf(declaration, scope);
    const joins = firstOf(lines, W.joins);
    const first = joins && nameOf(joins.entry.slots.first);
    const second = joins && nameOf(joins.entry.slots[K.to]);
    const kindAt = (slot: string) => {
      const kind = joins && resolve(W.connector, joins.entry.slots[slot]?.[0], scope);
      return kind && buildConnector(kind, scope).model;
    };
    return {
      model: {
        kind: 'component',
        ...declaredOf(declaration, lines),
        joins: first !== undefined && second !== undefined ? [first, second] : undefined,
        joined: joins && [kindAt('first'), kindAt(K.to)],
        map: placeMapOf(firstOf(lines, W.map)),
        loss: partLosses(lines),
        shares: lossShares(lines),
        returnLoss: returnLosses(lines),
      },
      findings,
    };
  },
);

function placeMapOf(line: PlacedEntry | undefined): PlaceMap | undefined {
  const value = line?.entry.slots.map?.[0];
  if (value?.kind === 'map') return value.places ?? (value.named as PlaceMap | undefined);
  return value && (nameOf([value]) as PlaceMap | undefined);
}

/** A component as light meets it at one of its ports: that port's figures, else those of the part. */
export function componentAtPort(
  declaration: Declaration,
  port: string | undefined,
  scope: Scope,
): ComponentType {
  const { model } = buildComponent(declaration, scope);
  const own = port === undefined ? [] : model.loss.filter((loss) => loss.port === port);
  // A figure for one port of it is not the figure of the part; one of the part holds for a port that lacks it.
  const common = model.loss.filter((loss) => loss.port === undefined);
  const complete = own.some(({ wavelength }) => wavelength === undefined);
  return { ...model, loss: complete ? own : [...own, ...common] };
}

/** The built type that the entry's name of that kind means, if there is one. */
export function typeOf<Model>(
  kind: DeclaredKind,
  build: (declaration: Declaration, scope: Scope) => Built<Model>,
  line: PlacedEntry,
  scope: Scope,
): Model | undefined {
  const declaration = resolve(kind, line.entry.slots[kind]?.[0], scope);
  return declaration && build(declaration, scope).model;
}
