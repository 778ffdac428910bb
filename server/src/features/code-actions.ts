import {
  type CodeAction,
  CodeActionKind,
  type CodeActionParams,
  CodeActionTriggerKind,
  type Diagnostic,
  type TextEdit,
} from 'vscode-languageserver-protocol';
import type { Finding, PlacedEdit } from '../checks/finding.ts';
import type { LinkResult } from '../evaluate/result.ts';
import type { BlockView, DocumentView, Plan, Range } from '../project/types.ts';
import { type Aim, leastLeft, type Offer, offersFor } from './design-offers.ts';
import { feature, subject } from './feature.ts';

/**
 * Fixes of the findings in a range, each as the check that found it wrote it;
 * where a design is short of something, changes with what each brings; and on
 * the line of a link, when somebody asks, what would make it lose less.
 */
export const codeActions = feature<CodeActionParams, CodeAction[]>({
  method: 'textDocument/codeAction',
  capabilities: {
    codeActionProvider: {
      codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.Refactor],
      resolveProvider: false,
    },
  },
  answer(session, { textDocument, range, context }) {
    const { document, plan } = subject(session, textDocument.uri) ?? {};
    if (!document || !plan) return [];
    const blocks = document.blocks(range.start.line, range.end.line);
    const found = plan.findingsIn(blocks).flatMap((finding): Met[] => {
      const located = plan.locate(finding.place);
      if (!located || !meet(located.range, range)) return [];
      const shown = context.diagnostics.filter((one) => isShown(one, finding, located.range));
      return [{ finding, shown }];
    });
    const wanted = (kind: string) =>
      context.only?.some((only) => only === '' || `${kind}.`.startsWith(`${only}.`)) ?? true;
    const fixes = wanted(CodeActionKind.QuickFix)
      ? found.flatMap(({ finding, shown }) => fixOf(plan, finding, shown))
      : [];
    // An editor asks after every key as well: what nobody waits for is not worked out then.
    if (context.triggerKind === CodeActionTriggerKind.Automatic) return fixes;
    const short = found.flatMap(({ finding, shown }): Short[] => {
      const aim = aimOf(finding);
      const result = finding.about === undefined ? undefined : plan.result.link(finding.about);
      return aim && result ? [{ result, aim, shown }] : [];
    });
    const asked =
      short.length > 0 || !wanted(CodeActionKind.Refactor)
        ? short
        : namedIn(document, plan, blocks, range).flatMap(aimsOf);
    const offers = asked.flatMap(({ result, aim, shown }) =>
      offersFor(session.project, plan, result, aim).flatMap((offer) => offerOf(plan, offer, shown)),
    );
    return [...fixes, ...alike(offers).filter(({ kind }) => wanted(kind ?? ''))];
  },
});

/** A finding that a range meets, as the editor shows it. */
interface Met {
  readonly finding: Finding;
  readonly shown: Diagnostic[];
}

/** What of an object is short, or shall have more left. */
interface Short {
  readonly result: LinkResult;
  readonly aim: Aim;
  readonly shown: Diagnostic[];
}

/** All that an object can have more of: under its limit, unless that is one of what it carries, and for each of those. */
function aimsOf(result: LinkResult): readonly Short[] {
  const names = new Set(result.applications.map(({ name }) => name));
  const aims: readonly Aim[] = [
    ...(leastLeft(result)?.governing?.kind === 'application' ? [] : [{ kind: 'limit' } as const]),
    ...[...names].map((name): Aim => ({ kind: 'application', name })),
  ];
  return aims.map((aim) => ({ result, aim, shown: [] }));
}

function fixOf(plan: Plan, { fix }: Finding, diagnostics: Diagnostic[]): readonly CodeAction[] {
  const changes = fix && editsOf(plan, fix.edits);
  if (!fix || !changes) return [];
  const kind = CodeActionKind.QuickFix;
  return [{ title: fix.title, kind, diagnostics, isPreferred: true, edit: { changes } }];
}

/** What a finding says is short, for which a change can be looked for. */
function aimOf({ name, details }: Finding): Aim | undefined {
  const application = details.application === undefined ? '' : String(details.application);
  switch (name) {
    case 'budget-over-limit':
      return { kind: 'limit' };
    case 'reach-exceeded':
    case 'application-loss-exceeded':
      return { kind: 'application', name: application };
    case 'budget-thin-margin':
      return { kind: 'application', name: application, margin: true };
    case 'power-budget-negative':
      return { kind: 'light', application };
    default:
      return undefined;
  }
}

/** A change that makes the design hold mends the finding; another brings it nearer. */
function offerOf(plan: Plan, offer: Offer, shown: Diagnostic[]): readonly CodeAction[] {
  const changes = editsOf(plan, offer.edits);
  if (!changes) return [];
  const { title } = offer;
  return offer.passes && shown.length > 0
    ? [{ title, kind: CodeActionKind.QuickFix, diagnostics: shown, edit: { changes } }]
    : [{ title, kind: CodeActionKind.Refactor, edit: { changes } }];
}

/** Two findings of one link may be mended by the same change: it stands once. */
function alike(actions: readonly CodeAction[]): readonly CodeAction[] {
  return [...new Map(actions.map((action) => [action.title, action])).values()];
}

/** Links and the like that are named on the lines of a range. */
function namedIn(
  document: DocumentView,
  plan: Plan,
  blocks: readonly BlockView[],
  range: Range,
): readonly LinkResult[] {
  return blocks.flatMap((block) =>
    plan.resultsIn(block.id).filter(({ link }) => {
      const at = document.rangeOf(block, link.namePlace.span);
      return at.start.line <= range.end.line && range.start.line <= at.end.line;
    }),
  );
}

function editsOf(plan: Plan, edits: readonly PlacedEdit[]): Record<string, TextEdit[]> | undefined {
  const changes: Record<string, TextEdit[]> = {};
  for (const { place, text } of edits) {
    const located = plan.locate(place);
    if (!located) return undefined;
    const there = changes[located.uri] ?? [];
    there.push({ range: located.range, newText: text });
    changes[located.uri] = there;
  }
  return changes;
}

function meet(a: Range, b: Range): boolean {
  return !(isBefore(a.end, b.start) || isBefore(b.end, a.start));
}

function isBefore(a: Range['start'], b: Range['start']): boolean {
  return a.line < b.line || (a.line === b.line && a.character < b.character);
}

function isShown(shown: Diagnostic, finding: Finding, range: Range): boolean {
  return (
    shown.code === finding.name &&
    shown.range.start.line === range.start.line &&
    shown.range.start.character === range.start.character
  );
}
