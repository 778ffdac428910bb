/**
 * The model as the rest of the house uses it. Pure functions: a block of text
 * is declared for itself; a declaration is built through a scope that answers
 * for its names. What is built through a scope is kept by declaration and
 * reused while everything it read is still the same.
 */
export { buildCable } from './cable.ts';
export { type CableUse, cableUse } from './cable-use.ts';
export {
  checkCableFibres,
  checkDeclaration,
  checkDuplicates,
  checkLookAlike,
  checkPlan,
  checkSamePorts,
  checkShadowing,
  checkUnused,
} from './check.ts';
export { checkEvidence } from './check-evidence.ts';
export { type FibreInCable, fibreInCable, fibreInWords } from './colours.ts';
export type * from './declaration.ts';
export { type DeclareOptions, declareBlock, isDeclaredKind } from './declare.ts';
export { evidenceOf, noEvidence } from './evidence.ts';
export type * from './finding.ts';
export { findingNames } from './findings.ts';
export { entriesOf } from './like.ts';
export { buildLink } from './link.ts';
export { buildColours, buildConnector, buildFibre, buildSplice } from './parts.ts';
export { referencesIn } from './references.ts';
export { comparedKinds, type Said, sayingsInWords, sayingsOf } from './sayings.ts';
export {
  type Names,
  namespaceOf,
  nearestSpelling,
  type PlacedEntry,
  type ReadKind,
  type Scope,
  scopeOf,
} from './scope.ts';
export { buildSection } from './section.ts';
export { planSettings } from './settings.ts';
export { buildSetup } from './setup.ts';
export { silencesIn, silencesInPart } from './terms.ts';
export { namesStandingIn } from './uses.ts';
export { namesOf } from './values.ts';
export { offsetOf } from './zone.ts';
