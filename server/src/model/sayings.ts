/**
 * What all declarations at hand say of one name, figure beside figure: a fibre's
 * own greatest attenuation and the rate each set of limits gives it, a pair's
 * own loss and what each edition allows, the rows of an application declared
 * twice. So a reader sees where two editions differ before choosing one.
 */
import type { BoundEntry, Value } from '../../../grammar/src/bound.ts';
import { C, K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration } from './declaration.ts';
import { trustByEntry } from './trust.ts';
import type { Trust } from './types.ts';
import { has, nameOf, namesOf } from './values.ts';

/** What is looked at of a declaration. */
export type Said = Pick<Declaration, 'kind' | 'name' | 'origin' | 'entries'>;

export interface Saying {
  /** `TIA-568.3-E`, or `its own`. */
  readonly by: string;
  /** As written: `3.0 dB/km`. */
  readonly figure: string;
  /** In the base unit of its dimension, to compare. */
  readonly base: number;
  readonly trust?: Trust;
}

export interface Sayings {
  /** `greatest attenuation at 850 nm`. */
  readonly about: string;
  readonly said: readonly Saying[];
  /** Whether two of them differ. */
  readonly differ: boolean;
}

/** Kinds of which figures are compared. */
export const comparedKinds: ReadonlySet<string> = new Set([
  W.fibre,
  W.connector,
  W.splice,
  W.splitter,
  W.component,
  W.application,
]);

/** By what the figures are about, in the order in which the declarations say it; empty where nothing is said. */
export function sayingsOf(
  kind: Said['kind'],
  name: string,
  declarations: Iterable<Said>,
): readonly Sayings[] {
  const groups = new Map<string, Saying[]>();
  const all = [...declarations];
  for (const declaration of all) {
    const voices =
      declaration.kind === kind && declaration.name === name
        ? withBases(declaration, all)
        : declaration.kind === W.limits
          ? [declaration]
          : [];
    // What a declaration says itself replaces what it would take over.
    const told = new Set<string>();
    for (const voice of voices) {
      const said = figuresOf(voice, kind, name).filter(([about]) => !told.has(about));
      for (const [about, saying] of said) {
        told.add(about);
        const by =
          voice === declaration ? byWhom(voice) : `${byWhom(declaration)}, as ${voice.name}`;
        groups.set(about, [...(groups.get(about) ?? []), { ...saying, by }]);
      }
    }
  }
  return [...groups].map(([about, said]) => ({
    about,
    said,
    differ: new Set(said.map(({ base }) => base)).size > 1,
  }));
}

/** A declaration and those it is like, nearest first. Its own name stands for the one it shadows, which speaks for itself. */
function withBases(declaration: Said, all: readonly Said[]): readonly Said[] {
  const line = [declaration];
  for (;;) {
    const last = line.at(-1);
    const like = last?.entries.find(({ word }) => word === W.like);
    const base =
      like && all.find(({ kind, name }) => kind === last?.kind && name === nameOf(like.slots.name));
    if (!base || line.includes(base)) return line;
    line.push(base);
  }
}

function figuresOf(
  voice: Said,
  kind: Said['kind'],
  name: string,
): readonly (readonly [string, Omit<Saying, 'by'>])[] {
  const trusts = trustByEntry(voice.entries);
  return voice.entries.flatMap((entry) => {
    const figures = voice.kind === W.limits ? limitFigures(entry, kind, name) : ownFigures(entry);
    return figures.flatMap(([about, value]) =>
      value?.kind === 'quantity'
        ? [
            [
              about,
              {
                figure: `${value.digits} ${value.unit.name}`,
                base: value.base,
                trust: trusts.get(entry),
              },
            ] as const,
          ]
        : [],
    );
  });
}

/** One paragraph of lines: what differs first, each figure with who says it; empty where one voice says it all. */
export function sayingsInWords(sayings: readonly Sayings[]): readonly string[] {
  const several = sayings.filter(({ said }) => said.length > 1);
  return [...several]
    .sort((a, b) => Number(b.differ) - Number(a.differ))
    .map(({ about, said, differ }) => {
      const voices = said.map(
        ({ by, figure, trust }) => `${by} ${figure}${trust === 'recalled' ? ' (from memory)' : ''}`,
      );
      return `${about}${differ ? ', where they differ' : ''}: ${voices.join('; ')}`;
    });
}

type About = readonly (readonly [string, Value | undefined])[];

/** What a declaration says of itself. */
function ownFigures(entry: BoundEntry): About {
  const { slots } = entry;
  switch (entry.word) {
    case W.attenuation:
      return [[`greatest attenuation at ${written(slots.wavelength)}`, slots[K.max]?.[0]]];
    case W.loss: {
      const at = slots[K.wavelength] ? ` at ${written(slots[K.wavelength])}` : '';
      const out = slots[K.out] ? ' of some outputs' : '';
      return [[`greatest loss${out}${at}`, slots[K.max]?.[0]]];
    }
    case W.returnLoss:
      return [['least return loss', slots[K.min]?.[0]]];
    case W.fibre: {
      const on = `on ${namesOf(slots.fibre).join(', ')}`;
      return [
        [`reach ${on}`, slots[K.reach]?.[0]],
        [`greatest loss ${on}`, slots[K.loss]?.[0]],
        [`least loss ${on}`, slots[K.min]?.[0]],
      ];
    }
    default:
      return [];
  }
}

/** What a set of limits says of a fibre, a pair, a splice or a part. */
function limitFigures(entry: BoundEntry, kind: Said['kind'], name: string): About {
  const { slots } = entry;
  const names = (slot: string) => {
    const said = namesOf(slots[slot]);
    return said.includes(name) || said.includes(C.any);
  };
  switch (entry.word) {
    case W.fibre:
      return kind === W.fibre && namesOf(slots.fibre).includes(name)
        ? [[`greatest attenuation at ${written(slots.wavelength)}`, slots.rate?.[0]]]
        : [];
    case W.connector: {
      if (kind !== W.connector || !names('connector')) return [];
      const grade = nameOf(slots.grade);
      const mode = has(entry, K.for) ? `, ${nameOf(slots[K.for])}` : '';
      const about =
        grade === C.end
          ? 'loss of a pair with a reference-grade plug'
          : grade === C.reference
            ? 'loss of a pair of reference-grade plugs'
            : 'greatest loss';
      return [[`${about}${mode}`, slots.loss?.[0]]];
    }
    case W.splice:
      return kind === W.splice && names('splice') ? [['greatest loss', slots.loss?.[0]]] : [];
    case W.part:
      return (kind === W.component || kind === W.splitter) && names('part')
        ? [['greatest loss', slots.loss?.[0]]]
        : [];
    case W.returnLoss:
      return kind === W.connector && namesOf(slots.connector).includes(name)
        ? [['least return loss', slots[K.min]?.[0]]]
        : [];
    default:
      return [];
  }
}

function byWhom({ kind, name, origin }: Said): string {
  return kind === W.limits ? name : `its own${origin === 'plan' ? ', in the plan' : ''}`;
}

function written(values: readonly Value[] | undefined): string {
  const value = values?.[0];
  return value?.kind === 'quantity' ? `${value.digits} ${value.unit.name}` : '';
}
