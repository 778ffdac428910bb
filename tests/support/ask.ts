/** Editor questions asked of a plan as text; `$0` marks the cursor. */
import { defaultSettings, type Feature, type Session } from '../../server/src/features/feature.ts';
import { judge, planUri } from './judge.ts';

export interface Asked {
  readonly session: Session;
  readonly uri: string;
  readonly position: { line: number; character: number };
  readonly text: string;
}

/** A session over one plan; the cursor stands where `$0` was. */
export function ask(marked: string, files: Readonly<Record<string, string>> = {}): Asked {
  const at = marked.indexOf('$0');
  const text = at < 0 ? marked : marked.slice(0, at) + marked.slice(at + 2);
  const before = marked.slice(0, Math.max(0, at)).split('\n');
  const { project } = judge({ 'plan.lwl': text, ...files });
  return {
    session: { project, settings: defaultSettings, snippets: true },
    uri: planUri,
    position: { line: before.length - 1, character: before.at(-1)?.length ?? 0 },
    text,
  };
}

/** The answer of a feature at the cursor. */
export function answer<Result>(
  // biome-ignore lint/suspicious/noExplicitAny: parameters are those of whichever feature is asked
  feature: Feature<any, Result>,
  asked: Asked,
  more: object = {},
): Result {
  return feature.answer(asked.session, {
    textDocument: { uri: asked.uri },
    position: asked.position,
    ...more,
  });
}

/** Text of a range. */
export function textIn(
  text: string,
  range: { start: { line: number; character: number }; end: { line: number; character: number } },
): string {
  const lines = text.split('\n').slice(range.start.line, range.end.line + 1);
  const last = lines.length - 1;
  return lines
    .map((line, index) =>
      line.slice(
        index === 0 ? range.start.character : 0,
        index === last ? range.end.character : undefined,
      ),
    )
    .join('\n');
}

/** Applies edits of one file, last first. */
export function applyEdits(
  text: string,
  edits: readonly {
    range: { start: { line: number; character: number }; end: { line: number; character: number } };
    newText: string;
  }[],
): string {
  const starts = [0];
  for (let index = 0; index < text.length; index += 1)
    if (text[index] === '\n') starts.push(index + 1);
  const offset = ({ line, character }: { line: number; character: number }) =>
    (starts[line] ?? text.length) + character;
  return [...edits]
    .sort((a, b) => offset(b.range.start) - offset(a.range.start))
    .reduce(
      (now, { range, newText }) =>
        now.slice(0, offset(range.start)) + newText + now.slice(offset(range.end)),
      text,
    );
}
