/** What there is to say about declarations and the plan's own words, each judged by itself. */
import { slotsOf, W, wordsIn } from '../../../grammar/src/vocabulary/index.ts';
import { amountsAstray } from './amounts.ts';
import { buildCable } from './cable.ts';
import { componentFindings } from './component.ts';
import type { Declaration } from './declaration.ts';
import { figuresOutOfOrder } from './figures-order.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { formerNamesAstray } from './former-names.ts';
import { namesOffShape, shapesUnreadable } from './identify.ts';
import { entriesOf } from './like.ts';
import { buildLink } from './link.ts';
import { numbersInWords } from './numbers.ts';
import { layOut } from './placing.ts';
import { kindInWords, unknownNames } from './resolve.ts';
import type { Scope } from './scope.ts';
import { buildSetup } from './setup.ts';
import { sharesAstray } from './shares.ts';
import type { LinkModel, Place } from './types.ts';
import { zoneUnreadable } from './zone.ts';

/** Findings about any declaration, whatever its kind; those of `buildLink` and the others are among them. */
export function checkDeclaration(declaration: Declaration, scope: Scope): readonly ModelFinding[] {
  const { kind, entries, block, name, misread } = declaration;
  if (kind === W.link || kind === W.channel || kind === W.ring) {
    return [
      ...buildLink(declaration, scope).findings,
      ...namesOffShape(declaration, scope),
      ...ownWords(declaration, scope),
    ];
  }
  const own = [
    ...unknownNames(entries, kind, block, scope, misread),
    ...ownWords(declaration, scope),
  ];
  return [...own, ...structureOf(declaration, scope)].map((found) => ({ about: name, ...found }));
}

/** What its own lines say that cannot be, whatever they are taken together with. */
function ownWords(declaration: Declaration, scope: Scope): readonly ModelFinding[] {
  const { entries, block, table, first, name: about } = declaration;
  const shared = first && table ? table.entries : [];
  return [
    ...figuresOutOfOrder([...shared, ...entries], block),
    ...amountsAstray(declaration),
    ...sharesAstray(declaration, scope),
    ...formerNamesAstray(declaration, scope),
  ].map((found) => ({ about, ...found }));
}

function structureOf(declaration: Declaration, scope: Scope): readonly ModelFinding[] {
  switch (declaration.kind) {
    case W.setup:
      return buildSetup(declaration, scope).findings;
    case W.cable:
      return [...buildCable(declaration, scope).findings, ...namesOffShape(declaration, scope)];
    case W.component:
      return componentFindings(declaration, scope);
    case W.pattern:
      return [...patternCycles(declaration, scope), ...holesMisnamed(declaration)];
    default:
      return entriesOf(declaration, scope).findings;
  }
}

/** Holes are filled where a pattern is used; that it contains itself is wrong wherever it is. */
function patternCycles(declaration: Declaration, scope: Scope): readonly ModelFinding[] {
  return layOut(declaration, scope).findings.filter(({ name }) => name === 'pattern-cycle');
}

/** Words that stand behind a pattern's name and cannot be the name of a hole. */
const wordsBehindPattern: ReadonlySet<string> = new Set(
  [...slotsOf(W.as, W.pattern), ...slotsOf(W.out, W.split)].flatMap(({ keyword }) => keyword ?? []),
);

function* holesMisnamed({ entries, block }: Declaration): Iterable<ModelFinding> {
  for (const value of entries.flatMap(({ slots }) => Object.values(slots).flat())) {
    if (value.kind !== 'hole' || !wordsBehindPattern.has(value.name)) continue;
    yield finding('hole-name-taken', { block, span: value.span }, { hole: value.name });
  }
}

/** Findings about names in the `plan` block. */
export function checkPlan(scope: Scope): readonly ModelFinding[] {
  const unknown = wordsIn(W.plan).flatMap(({ word }) =>
    scope.plan(word).flatMap(({ block, entry }) => unknownNames([entry], W.plan, block, scope)),
  );
  const wanted = scope.plan(W.require);
  return [
    ...unknown,
    ...shapesUnreadable(scope),
    ...zoneUnreadable(scope),
    ...wanted.flatMap(({ block, entry }) => [...figuresOutOfOrder([entry], block)]),
  ];
}

/** Each declaration after the first of one name in a plan; the list is all of that name, in order of the text. */
export function checkDuplicates(declared: readonly Declaration[]): readonly ModelFinding[] {
  const [first, ...others] = declared.filter(({ origin }) => origin === 'plan');
  if (!first) return [];
  return others.map((other) =>
    finding(
      'duplicate-definition',
      other.namePlace,
      { name: other.name, what: kindInWords(other.kind) },
      {
        about: other.name,
        related: [{ place: first.namePlace, message: `${first.name} is declared here first.` }],
      },
    ),
  );
}

/** A doubt at a name that is easily taken for another of its kind. */
export function checkLookAlike(
  declared: Declaration,
  other: Declaration,
  differ: string,
): ModelFinding {
  return finding(
    'look-alike-names',
    declared.namePlace,
    { name: declared.name, other: other.name, differ },
    {
      about: declared.name,
      related: [{ place: other.namePlace, message: `${other.name} is declared here.` }],
    },
  );
}

/** A doubt where a link ends at ports of another at both of its ends. */
export function checkSamePorts(link: LinkModel, before: LinkModel): ModelFinding | undefined {
  const shared = (own: readonly string[], other: readonly string[]) => {
    const taken = new Set(other);
    return own.filter((port) => taken.has(port));
  };
  const [from, to] = [shared(link.from, before.from), shared(link.to, before.to)];
  const [first] = from;
  const [last] = to;
  if (first === undefined || last === undefined) return undefined;
  return finding(
    'ports-taken-twice',
    link.namePlace,
    { link: link.name, other: before.name, from: first, to: last, more: from.length - 1 },
    {
      about: link.name,
      related: [{ place: before.namePlace, message: `${before.name} ends there as well.` }],
    },
  );
}

/** A note where a plan declares a name that the library has. */
export function checkShadowing(declared: readonly Declaration[]): readonly ModelFinding[] {
  const own = declared.find(({ origin }) => origin === 'plan');
  const shadowed = declared.find(({ origin, kind }) => origin === 'library' && kind === own?.kind);
  if (!own || !shadowed) return [];
  return [
    finding(
      'library-shadowed',
      own.namePlace,
      { name: own.name, what: kindInWords(own.kind) },
      {
        about: own.name,
        related: [{ place: shadowed.namePlace, message: `The library's ${shadowed.name}.` }],
      },
    ),
  ];
}

/** A note at something that nothing in the plan names. */
export function checkUnused(declared: Declaration): ModelFinding {
  const { kind, name, namePlace, place } = declared;
  return finding(
    'unused-definition',
    namePlace,
    { what: kindInWords(kind), name },
    { about: name, fix: { title: `Take ${name} out`, edits: [{ place, text: '' }] } },
  );
}

/** A fibre of a cable that a link takes, and who takes it before. */
interface CableFibreUse {
  readonly fibre: number;
  readonly place: Place;
  readonly reels?: ReadonlySet<string>;
  /** In order of the text. */
  readonly before: readonly {
    readonly link: string;
    readonly place: Place;
    readonly reels?: ReadonlySet<string>;
  }[];
}

/**
 * Fibres of a cable that a link takes and another took before: one finding for
 * all that the same two lines take. Two that take a fibre in different reels
 * share nothing.
 */
export function checkCableFibres(
  cable: string,
  link: string,
  uses: readonly CableFibreUse[],
): readonly ModelFinding[] {
  const clashes = new Map<string, { use: CableFibreUse; first: Use; fibres: number[] }>();
  for (const use of uses) {
    const { place, fibre } = use;
    const first = use.before.find(({ reels }) => sharesReel(reels, use.reels));
    if (!first) continue;
    const key = `${place.span.start} ${first.link} ${first.place.span.start}`;
    const known = clashes.get(key);
    if (known) known.fibres.push(fibre);
    else clashes.set(key, { use, first, fibres: [fibre] });
  }
  return [...clashes.values()].map(({ use, first, fibres }) => {
    const numbers = numbersInWords(fibres);
    return finding(
      'cable-fibre-used-twice',
      use.place,
      { cable, fibre: numbers, first: first.link, link, ...(fibres.length > 1 && { many: 1 }) },
      {
        about: link,
        related: [
          {
            place: first.place,
            message: `${first.link} takes ${fibres.length > 1 ? 'fibres' : 'fibre'} ${numbers} of ${cable} here.`,
          },
        ],
      },
    );
  });
}

type Use = CableFibreUse['before'][number];

function sharesReel(
  one: ReadonlySet<string> | undefined,
  other: ReadonlySet<string> | undefined,
): boolean {
  return !one || !other || [...one].some((reel) => other.has(reel));
}
