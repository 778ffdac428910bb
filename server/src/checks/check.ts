/**
 * The form of a check: one file per finding holds its condition, its sentence,
 * its explanation, its fix, and a bad and a good example. The examples are the
 * check's tests and its documentation page.
 */
import type { Severity } from '../../../grammar/src/tree.ts';
import type { Doubt, LinkResult } from '../evaluate/result.ts';
import type { Evidence, LinkModel, Place, PlanSettings, Setup } from '../model/types.ts';
import type { Finding, FindingKind, PlacedFix } from './finding.ts';

/** What a check may look at when it is asked about one link or channel. */
export interface LinkContext {
  readonly link: LinkModel;
  readonly result: LinkResult;
  readonly evidence: Evidence;
  readonly settings: PlanSettings;
  setup(name: string): Setup | undefined;
}

/** What a check may look at when it is asked about one set-up. */
export interface SetupContext {
  readonly setup: Setup;
  readonly settings: PlanSettings;
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
  /** A plan on which it fires, and the same plan put right. */
  readonly bad: string;
  readonly good: string;
  link?(context: LinkContext): Iterable<Found>;
  setup?(context: SetupContext): Iterable<Found>;
}

/** What evaluation noticed under a name, for checks whose condition is part of the evaluation. */
export function doubtsNamed(context: LinkContext, name: string): readonly Doubt[] {
  return context.result.doubts.filter((doubt) => doubt.name === name);
}

/** Numbers and words of a doubt, for its sentence. */
export class Details {
  readonly #details: Doubt['details'];

  constructor(doubt: Doubt) {
    this.#details = doubt.details;
  }

  has(name: string): boolean {
    return this.#details[name] !== undefined;
  }

  text(name: string): string {
    return String(this.#details[name] ?? '');
  }

  number(name: string): number {
    return Number(this.#details[name] ?? 0);
  }

  /** `2.805 dB`: all the digits there are, two at least. */
  db(name: string): string {
    return `${decimals(this.number(name))} dB`;
  }

  dbm(name: string): string {
    return `${decimals(this.number(name))} dBm`;
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
}

/** A decimal with at least two places and at most six: what evaluation hands on is exact to a micro-decibel and better. */
function decimals(value: number): string {
  const text = value.toFixed(6).replace(/0+$/u, '');
  const places = text.length - text.indexOf('.') - 1;
  return places < 2 ? value.toFixed(2) : text;
}

/** A check whose condition is part of the evaluation: the sentence is all it adds. */
export function noticed(
  name: string,
  sentence: (details: Details, context: LinkContext) => string,
) {
  return function* find(context: LinkContext): Iterable<Found> {
    for (const doubt of doubtsNamed(context, name)) {
      yield {
        place: doubt.place,
        related: doubt.related,
        details: doubt.details,
        message: sentence(new Details(doubt), context),
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
