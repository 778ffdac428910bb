/**
 * A comparison for a merge request: a few sentences, tables, the rest folded.
 * Every word of a plan is written so that it can only be read, never take part
 * in the page: no mark-up, no link, nobody called, no command to the host.
 */
import type { ChangeRow, MatrixView } from '../../../report/changes/view.ts';
import { counted as countedWords } from '../../../report/figures.ts';
import { type Compared, type Said, saidOf, toldPlans, untoldPlans } from './compared.ts';
import { shownWords, verdictOf } from './text.ts';
import { valuesOf } from './told.ts';

/** Code hosts cut long comments: what does not fit is counted. */
const mostChanges = 40;

export function markdown(compared: Compared): string {
  const parts = toldPlans(compared).map((plan) => planLines(saidOf(plan)).join('\n'));
  const others = untoldPlans(compared);
  return [...parts, ...(others ? [words(others)] : [])].map((part) => `${part}\n`).join('\n');
}

function planLines({ view, places, asks, retest }: Said): readonly string[] {
  const { compared, counted, sentences, matrix, changes, repeat } = view;
  const lines = [`## Changes of the plan: ${words(counted)}`, '', words(compared), ''];
  lines.push(
    sentences
      .map((pieces) =>
        pieces
          .map(({ text, strong }) =>
            strong ? `**${words(text).trim()}**${after(text)}` : words(text),
          )
          .join(''),
      )
      .join(' '),
  );
  if (asks.length > 0) {
    lines.push('', '| needs an answer | where | |', '| --- | --- | --- |');
    for (const { name, where, message } of asks) lines.push(cells([name, where, message]));
  }
  if (matrix && changes.some(({ kind }) => kind !== 'text')) lines.push('', ...matrixLines(matrix));
  for (const [index, change] of changes.slice(0, mostChanges).entries()) {
    lines.push('', ...changeLines(change, places[index] ?? []));
  }
  if (changes.length > mostChanges) {
    lines.push('', `${countedWords(changes.length - mostChanges, 'more change')}.`);
  }
  if (retest.length > 0) {
    lines.push(
      ...['', '<details>', `<summary>To be made again: ${repeat}</summary>`, ''],
      ...['| readings | of | because |', '| ---: | --- | --- |'],
      ...retest.map(({ because, readings, of }) =>
        cells([String(readings), of.join('; '), because]),
      ),
      ...['', '</details>'],
    );
  }
  return lines;
}

function matrixLines({ rows, columns }: MatrixView): readonly string[] {
  const word = (verdict: string) => (verdict === 'none' ? 'not there' : verdict);
  return [
    cells(['was, now', ...columns.map(({ after: verdict }) => word(verdict))]),
    `| --- |${columns.map(() => ' ---: |').join('')}`,
    ...rows.map(({ before, cells: row }) =>
      [
        `| ${word(before)} |`,
        ...row.map(({ count, same }) => {
          if (count === 0) return ' · |';
          return same ? ` ${count} |` : ` **${count}** |`;
        }),
      ].join(''),
    ),
  ];
}

function changeLines(row: ChangeRow, places: readonly string[]): readonly string[] {
  const { number, label, alarming, subject, notes, effects, shown, rest } = row;
  const values = valuesOf(row);
  const open = alarming ? ' open' : '';
  const lines = [
    `<details${open}>`,
    `<summary>${number}. ${words(label)}: <b>${words(subject)}</b>${values ? `, ${words(values)}` : ''}</summary>`,
    '',
    ...places.map((at) => `- ${words(at)}`),
    ...notes.map((note) => `- ${words(note)}`),
  ];
  if (effects.length > 0) {
    lines.push('', '| | | verdict | margin was | now |', '| --- | --- | --- | ---: | ---: |');
    for (const effect of effects.slice(0, shown)) {
      const { object, fibres, what, was, now } = effect;
      const none = was || now ? 'none' : '';
      lines.push(
        cells([
          `${object} ${fibres}`.trim(),
          what,
          verdictOf(effect),
          was?.text ?? none,
          now?.text ?? none,
        ]),
      );
    }
    if (rest) lines.push('', words(rest));
  }
  return [...lines, '', '</details>'];
}

function cells(texts: readonly string[]): string {
  return `| ${texts.map(words).join(' | ')} |`;
}

/** A space that ends a piece stays outside the strong mark. */
function after(text: string): string {
  return /\s$/u.test(text) ? ' ' : '';
}

/**
 * As entities, which CommonMark (section 6.2) never reads as structure; behind
 * a sign by which hosts call a person or name another request stands a joiner
 * of words, which nobody sees.
 */
export function words(text: string): string {
  return shownWords(text.replaceAll(/\s+/gu, ' '))
    .replaceAll(/[&<>`*_~#|\\[\]!$%:@]/gu, entity)
    .replaceAll(/\bwww\./giu, (start) => `${start.slice(0, -1)}&#46;`);
}

const calling: ReadonlySet<string> = new Set(['@', '#', '!', '$', '%', '~', '&']);

function entity(sign: string): string {
  const code = `&#${sign.codePointAt(0)};`;
  return calling.has(sign) ? `${code}&#8288;` : code;
}
