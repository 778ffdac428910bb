/**
 * The form of a check: one file per finding holds its condition, its sentence,
 * its explanation, its fix, and a bad and a good example. The examples are the
 * check's tests and its documentation page.
 */
import {
  type ExactDb,
  exactFromNumber,
  placesApart,
  printProse,
} from '../../../grammar/src/quantity/index.ts';
import type { Severity } from '../../../grammar/src/tree.ts';
import type { Word } from '../../../grammar/src/vocabulary/index.ts';
import type { Doubt, LinkResult } from '../evaluate/result.ts';
import type { Declaration } from '../model/api.ts';
import type { Cable, Evidence, LinkModel, Place, PlanSettings, Setup } from '../model/types.ts';
import type { Finding, FindingKind, PlacedFix } from './finding.ts';

/** What a check may look at when it is asked about one link or channel. */
export interface LinkContext {
  readonly link: LinkModel;
  readonly result: LinkResult;
  readonly evidence: Evidence;
  readonly settings: PlanSettings;
  /** The instant of judgement in minutes of the site's clock. */
  readonly asOf: number;
  setup(name: string): Setup | undefined;
}

/** What a check may look at when it is asked about one set-up. */
export interface SetupContext {
  readonly setup: Setup;
  readonly settings: PlanSettings;
}

/** What a check may look at when it is asked about one cable. */
export interface CableContext {
  readonly cable: Cable;
  readonly settings: PlanSettings;
  /** How many of its fibres some link takes and does not keep as spares. */
  readonly needed: number;
}

/** What a check may look at when it is asked about the lines of one declaration. */
export interface DeclaredContext {
  readonly declaration: Declaration;
}

/** What a check may look at when it is asked about the plan itself. */
export interface PlanContext {
  readonly settings: PlanSettings;
  /** Where a word of the plan stands for the first time. */
  placeOf(word: Word): Place | undefined;
}

/** What a check found; name, kind and severity are the check's own. */
export interface Found {
  readonly place: Place;
  readonly message: string;
  readonly related?: readonly { readonly place: Place; readonly message: string }[];
  readonly fix?: PlacedFix;
  readonly details?: Readonly<Record<string, string | number>>;
}

export interface Check {
  /** Kebab-case words of the trade. */
  readonly name: string;
  readonly kind: FindingKind;
  readonly severity: Severity;
  /** One line: what it says. */
  readonly title: string;
  /** Why it matters and what to do: the check's page. */
  readonly explanation: string;
  /** The rule's source: a published standard or text, or "common practice, no source". */
  readonly source: string;
  /** Words in `doubts` of the plan that set from where on it is said. */
  readonly bounds?: readonly Word[];
  /** A plan on which it fires, and the same plan put right. */
  readonly bad: string;
  readonly good: string;
  link?(context: LinkContext): Iterable<Found>;
  setup?(context: SetupContext): Iterable<Found>;
  cable?(context: CableContext): Iterable<Found>;
  declared?(context: DeclaredContext): Iterable<Found>;
  plan?(context: PlanContext): Iterable<Found>;
}

/** What evaluation noticed under a name, for checks whose condition is part of the evaluation. */
export function doubtsNamed(context: LinkContext, name: string): readonly Doubt[] {
  return context.result.doubts.filter((doubt) => doubt.name === name);
}

/**
 * Numbers and words of a doubt, for its sentence. Decibels have the places that
 * keep all those of the sentence apart, which only the sentence itself can say.
 */
export class Details {
  readonly #details: Doubt['details'];
  readonly #places: number | undefined;
  readonly #said: ExactDb[] = [];

  constructor(doubt: Doubt, places?: number) {
    this.#details = doubt.details;
    this.#places = places;
  }

  /** Places for the decibels that were asked for so far. */
  get places(): number {
    return placesApart(this.#said);
  }

  has(name: string): boolean {
    return this.#details[name] !== undefined;
  }

  text(name: string): string {
    // An end of a tree is known by its port; its number is what work and concessions take.
    if (name === 'fibre' && this.has('end')) return `${this.number(name)} (${this.text('end')})`;
    return String(this.#details[name] ?? '');
  }

  number(name: string): number {
    return Number(this.#details[name] ?? 0);
  }

  /** `2.81 dB`, or `2.805 dB` beside 2.81 dB. */
  db(name: string): string {
    return `${this.#decimals(name)} dB`;
  }

  dbm(name: string): string {
    return `${this.#decimals(name)} dBm`;
  }

  #decimals(name: string): string {
    const value = exactFromNumber(this.number(name));
    this.#said.push(value);
    return printProse(value, this.#places);
  }

  /** `fibre 7 at 850 nm A>B`. */
  get key(): string {
    const direction = this.has('direction') ? ` ${this.text('direction')}` : '';
    return `fibre ${this.text('fibre')} at ${this.text('wavelength')} nm${direction}`;
  }

  /** `Fibre 7 at 850 nm A>B`, to begin a sentence. */
  get Key(): string {
    return `F${this.key.slice(1)}`;
  }

  /** `12 readings (fibres 1..6)`, or the key where it is one reading. */
  get readings(): string {
    const many = this.number('readings');
    const fibres = this.text('fibres');
    const noun = /^\d+$/u.test(fibres) ? 'fibre' : 'fibres';
    return many === 1 ? 'one reading' : `${many} readings (${noun} ${fibres})`;
  }

  /** To begin a sentence: `One reading is`, `12 readings (fibres 1..6) are`. */
  beginReadings(one: string, many: string): string {
    const readings = this.readings;
    const verb = this.number('readings') === 1 ? one : many;
    return `${readings[0]?.toUpperCase()}${readings.slice(1)} ${verb}`;
  }

  /** `lost 2.81 dB`, `lost 1.97 dB on average`, `received −20.05 dBm`. */
  get measured(): string {
    if (this.has('power') && !this.has('loss')) return `received ${this.dbm('power')}`;
    return this.has('average')
      ? `lost ${this.db('average')} on average`
      : `lost ${this.db('loss')}`;
  }

  /** `0.01 dB over the limit of 2.805 dB (…)`; of light, outside its window. */
  get beyond(): string {
    const side = this.has('power') && !this.has('loss') ? 'outside' : 'over';
    return `${this.db('over')} ${side} ${this.limit}`;
  }

  /** Whether more light was received than is asked: no cleaning helps there. */
  get strong(): boolean {
    return this.has('power') && !this.has('loss') && this.number('power') > this.number('limit');
  }

  /** `the limit of 2.805 dB (components, TIA-568.3-E)`; one that rests on a figure from memory says so. */
  get limit(): string {
    const recalled = this.has('recalled') ? ', recalled' : '';
    const named = `${this.text('limitKind')}, ${this.text('limitName')}${recalled}`;
    return this.has('power') && !this.has('loss')
      ? `what is asked (${named})`
      : `the limit of ${this.db('limit')} (${named})`;
  }
}

/** A check whose condition is part of the evaluation: the sentence is all it adds. */
export function noticed(
  name: string,
  sentence: (details: Details, context: LinkContext) => string,
) {
  return function* find(context: LinkContext): Iterable<Found> {
    for (const doubt of doubtsNamed(context, name)) {
      const draft = new Details(doubt);
      sentence(draft, context);
      yield {
        place: doubt.place,
        related: doubt.related,
        details: doubt.details,
        message: sentence(new Details(doubt, draft.places), context),
      };
    }
  };
}

/** A check's find as a finding about a link or set-up, silenced where someone answered it in words. */
export function makeFinding(check: Check, found: Found, about: string): Finding {
  return {
    name: check.name,
    kind: check.kind,
    severity: check.severity,
    place: found.place,
    message: found.message,
    related: found.related ?? [],
    fix: found.fix,
    details: found.details ?? {},
    about,
  };
}
