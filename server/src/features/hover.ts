import { type Hover, type HoverParams, MarkupKind } from 'vscode-languageserver-protocol';
import { comparedKinds, type Said, sayingsInWords, sayingsOf } from '../model/api.ts';
import type { BlockView, DocumentView, NamedThing, Plan } from '../project/types.ts';
import { cableAsMarkdown, colourAsMarkdown, fibresAt } from './cable-fibres.ts';
import { otherEvidenceAt } from './event-hover.ts';
import { feature, type Session, subject } from './feature.ts';
import { launchAt } from './launch-hover.ts';
import { lightAsMarkdown } from './light-workings.ts';
import { nameAt } from './names.ts';
import { roomOfCarried, roomOfLink } from './room-workings.ts';
import { signalOfCarried, signalOfLink } from './signal-workings.ts';
import { wordAsMarkdown, wordAt } from './word-help.ts';
import { applicationAsMarkdown, linkAsMarkdown, readingAsMarkdown } from './workings.ts';

/**
 * What stands under the pointer: a reading and how it was judged, a link and
 * how its limits are built, a declared thing with its figures and sources, a
 * word of the language with its help.
 */
export const hover = feature<HoverParams, Hover | null>({
  method: 'textDocument/hover',
  capabilities: { hoverProvider: true },
  answer(session, { textDocument, position }) {
    const found = subject(session, textDocument.uri);
    const block = found?.document.blockAt(position);
    if (!found || !block) return null;
    const { document, plan } = found;
    const offset = document.offsetIn(block, position);
    return (
      (plan && readingHover(session, document, plan, block, offset)) ??
      (plan && otherEvidenceHover(session, document, plan, block, offset)) ??
      (plan && fibreHover(document, plan, block, offset)) ??
      (plan && launchHover(document, plan, block, offset)) ??
      nameHover(session, textDocument.uri, position) ??
      wordHover(document, block, offset) ??
      null
    );
  },
});

function readingHover(
  session: Session,
  document: DocumentView,
  plan: Plan,
  block: BlockView,
  offset: number,
): Hover | undefined {
  for (const name of plan.objectsIn(block.id)) {
    const result = plan.result.link(name);
    const reading = result?.readings.find(
      ({ reading: cell }) =>
        cell?.place.block === block.id &&
        cell.place.span.start <= offset &&
        offset <= cell.place.span.end,
    );
    if (!result || !reading?.reading) continue;
    return shown(
      readingAsMarkdown(reading, result, session.settings.precision),
      document,
      block,
      reading.reading.place.span,
    );
  }
  return undefined;
}

function otherEvidenceHover(
  session: Session,
  document: DocumentView,
  plan: Plan,
  block: BlockView,
  offset: number,
): Hover | undefined {
  for (const name of plan.objectsIn(block.id)) {
    const result = plan.result.link(name);
    const found = result && otherEvidenceAt(result, block.id, offset, session.settings.precision);
    if (found) return shown(found.markdown, document, block, found.place.span);
  }
  return undefined;
}

function fibreHover(
  document: DocumentView,
  plan: Plan,
  block: BlockView,
  offset: number,
): Hover | undefined {
  const words = fibresAt(plan, block, offset);
  return words && shown(words.text, document, block, words.span);
}

function launchHover(
  document: DocumentView,
  plan: Plan,
  block: BlockView,
  offset: number,
): Hover | undefined {
  const words = launchAt(plan, block, offset);
  return words && shown(words.text, document, block, words.span);
}

function nameHover(
  session: Session,
  uri: string,
  position: HoverParams['position'],
): Hover | undefined {
  const at = nameAt(session, uri, position);
  if (!at) return undefined;
  const { plan, use, thing, document, block } = at;
  const span = use.place.span;
  const result = plan.result.link(use.name);
  if (result) {
    const section = result.link.kind === 'section' ? plan.cable(result.link.name) : undefined;
    const itself = section
      ? [cableAsMarkdown(section, plan.fibresNeeded(section.name), plan.settings.spares)]
      : [];
    const parts = [
      linkAsMarkdown(result, session.settings.precision),
      ...roomOfLink(plan, result, session.settings.precision),
      ...signalOfLink(result),
      ...itself,
    ];
    return shown(parts.join('\n\n'), document, block, span);
  }
  if (use.kind === 'colour') {
    const text = colourAsMarkdown(use.name, plan.orders());
    return text ? shown(text, document, block, span) : undefined;
  }
  if (!thing) return undefined;
  const parts: string[] = [];
  const cable = thing.kind === 'cable' ? plan.cable(use.name) : undefined;
  if (cable)
    parts.push(cableAsMarkdown(cable, plan.fibresNeeded(cable.name), plan.settings.spares));
  for (const owner of plan.objectsIn(block.id)) {
    for (const application of plan.result.link(owner)?.applications ?? []) {
      const { place } = application;
      const here =
        place.block === block.id && place.span.start <= span.start && span.end <= place.span.end;
      if (here && application.name === use.name) parts.push(applicationAsMarkdown(application));
    }
    const result = plan.result.link(owner);
    if (!result) continue;
    if (use.kind === 'application')
      parts.push(...roomOfCarried(plan, owner, use.place, session.settings.precision));
    parts.push(...lightAsMarkdown(result, use.place, session.settings.precision));
    parts.push(...signalOfCarried(result, use.place));
  }
  const text = declarationText(session, plan, thing.place);
  if (text)
    parts.push(
      `${thing.origin === 'library' ? 'From the library:' : 'Declared in the plan:'}\n\`\`\`linkwright\n${text}\n\`\`\``,
    );
  const said = sayingsInWords(
    sayingsOf(thing.kind as Said['kind'], use.name, saidIn(session, plan, thing)),
  );
  if (said.length > 0) parts.push(said.map((line) => `- ${line}`).join('\n'));
  return parts.length > 0 ? shown(parts.join('\n\n'), document, block, span) : undefined;
}

/** Every declaration of the kind, and every set of limits, of plan and library. */
function saidIn(session: Session, plan: Plan, thing: NamedThing): readonly Said[] {
  if (!comparedKinds.has(thing.kind)) return [];
  const same = plan.named(thing.kind);
  const sets = plan.named('limits');
  return [...same, ...sets].flatMap(({ kind, name, origin, place }): Said[] => {
    const located = plan.locate(place);
    const block = located && session.project.document(located.uri)?.blockAt(located.range.start);
    const entry = block?.bound().entries.find(({ span }) => span.start === place.span.start);
    const entries = entry?.body?.entries;
    return entries ? [{ kind: kind as Said['kind'], name, origin, entries }] : [];
  });
}

/** The declaration as it is written, without the comments around it; long tables are cut. */
function declarationText(
  session: Session,
  plan: Plan,
  place: Parameters<Plan['locate']>[0],
): string | undefined {
  const located = plan.locate(place);
  if (!located) return undefined;
  const text =
    session.project.libraryText(located.uri) ?? session.project.document(located.uri)?.text();
  const lines = text
    ?.split(/\r\n|\n|\r/u)
    .slice(located.range.start.line, located.range.end.line + 1);
  if (!lines) return undefined;
  return (
    lines.length > 40 ? [...lines.slice(0, 40), `# … ${lines.length - 40} more lines`] : lines
  ).join('\n');
}

function wordHover(document: DocumentView, block: BlockView, offset: number): Hover | undefined {
  const word = wordAt(block.bound(), offset);
  return word && shown(wordAsMarkdown(word.entry), document, block, word.span);
}

function shown(
  value: string,
  document: DocumentView,
  block: BlockView,
  span: { start: number; end: number },
): Hover {
  return { contents: { kind: MarkupKind.Markdown, value }, range: document.rangeOf(block, span) };
}
