/** What is said of declarations, evidence and the plan's own block, apart from the links that are judged. */
import type { Finding } from '../checks/finding.ts';
import {
  checkCable,
  checkDeclared,
  checkPlanSettings,
  checkSetup,
  checkSilence,
  unanswered,
} from '../checks/index.ts';
import {
  buildCable,
  buildSetup,
  checkDeclaration,
  checkEvidence,
  checkPlan,
  type Declaration,
  type EvidencePart,
  entriesOf,
  type Scope,
  silencesIn,
  silencesInPart,
} from '../model/api.ts';
import type { PlanSettings } from '../model/types.ts';
import { kindOfFinding } from './finding-pages.ts';
import type { Bench } from './judgement.ts';
import type { PlacedPlan } from './names.ts';
import { readKey } from './readers.ts';

export interface Told {
  readonly findings: readonly Finding[];
  /** Names and fields that were read for it: when one changes, it is told again. */
  readonly reads: ReadonlySet<string>;
}

/** `needed` says how many fibres of a cable some link takes and does not keep as spares. */
export function tellDeclaration(
  declaration: Declaration,
  bench: Bench,
  needed: (cable: string) => number,
): Told {
  const reads = new Set<string>();
  const scope = bench.scope(reads);
  const silences = silencesIn(declaration);
  const findings: Finding[] = [
    ...checkDeclaration(declaration, scope),
    ...checkDeclared({ declaration }),
  ];
  if (declaration.kind === 'setup') {
    findings.push(...ofSetup(declaration, scope, bench.settings(reads)));
  }
  if (declaration.kind === 'cable') {
    const { name } = declaration;
    reads.add(readKey('taken', name));
    const cable = buildCable(declaration, scope).model;
    const settings = bench.settings(reads);
    findings.push(...checkCable({ cable, settings, needed: needed(name) }));
  }
  const { silence } = bench.settings(reads);
  return {
    reads,
    findings: [
      ...unanswered(findings, [...silences.holding, ...silence]),
      ...checkSilence(silences.own, declaration.name, kindOfFinding),
    ],
  };
}

/** What one set-up has wrong; what it took over from the one it is like is told there. */
function ofSetup(declaration: Declaration, scope: Scope, settings: PlanSettings): Finding[] {
  const check = (each: Declaration) =>
    checkSetup({ setup: buildSetup(each, scope).model, settings });
  const { base } = entriesOf(declaration, scope);
  const there = base ? check(base).map((finding) => sameMistake(finding, base)) : [];
  return check(declaration).filter((finding) => !there.includes(sameMistake(finding, declaration)));
}

/** By name and line; what a declaration lacks stands at its name. */
function sameMistake({ name, place }: Finding, { block, namePlace }: Declaration): string {
  const atName = place.block === block && place.span.start === namePlace.span.start;
  return atName ? name : `${name} ${place.block} ${place.span.start}`;
}

export function tellPart(part: EvidencePart, bench: Bench): Told {
  const reads = new Set<string>();
  const findings = checkEvidence(part, bench.scope(reads));
  const own = silencesInPart(part);
  const answers = [...own, ...bench.settings(reads).silence];
  return {
    reads,
    findings: [...unanswered(findings, answers), ...checkSilence(own, part.object, kindOfFinding)],
  };
}

/** Of the first of the `plan` blocks what it says, of the others that they are not used. */
export function tellPlan(plans: readonly PlacedPlan[], bench: Bench): Told {
  const reads = new Set<string>();
  const settings = bench.settings(reads);
  const scope = bench.scope(reads);
  const findings = [
    ...checkPlan(scope),
    ...checkPlanSettings({
      settings,
      placeOf: (word: string) =>
        scope.plan(word).map(({ block, entry }) => ({ block, span: entry.span }))[0],
    }),
  ];
  return {
    reads,
    findings: [
      ...unanswered(findings, settings.silence),
      ...checkSilence(settings.silence, 'plan', kindOfFinding),
      ...repeatedPlans(plans),
    ],
  };
}

/** A plan says once what holds in it: each `plan` block after the first is left out. */
function repeatedPlans(plans: readonly PlacedPlan[]): readonly Finding[] {
  const [first, ...others] = plans;
  return others.map(({ plan }) => ({
    name: 'plan-twice',
    kind: 'contradiction',
    severity: 'error',
    place: plan.namePlace,
    message:
      'This plan has its settings already, in the block that stands first; this one is not used. Keep one of the two.',
    related: first ? [{ place: first.plan.namePlace, message: 'The settings in force' }] : [],
    details: {},
  }));
}
