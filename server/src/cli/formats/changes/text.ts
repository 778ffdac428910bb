/** A comparison for a terminal: what it comes to, verdicts before and after, each change with what it does. */
import type { ChangeRow, EffectRow, MatrixView } from '../../../report/changes/view.ts';
import { paint, wantsColour } from '../../console.ts';
import { type Compared, type Said, saidOf, toldPlans, untoldPlans } from './compared.ts';
import { valuesOf } from './told.ts';

export function text(compared: Compared, out: string | undefined): string {
  const colour = wantsColour(out);
  const parts = toldPlans(compared).map((plan) =>
    planLines(withoutControls(saidOf(plan)), colour).join('\n'),
  );
  const others = untoldPlans(compared);
  return [...parts, ...(others ? [others] : [])].map((part) => `${part}\n`).join('\n');
}

function planLines({ view, places, asks, retest }: Said, colour: boolean): readonly string[] {
  const { compared, counted, sentences, matrix, changes, repeat } = view;
  const lines = [
    `${paint(compared, 'bold', colour)} · ${counted}`,
    ...sentences.map((pieces) => pieces.map(({ text: piece }) => piece).join('')),
  ];
  if (matrix && changes.some(({ kind }) => kind !== 'text')) lines.push('', ...matrixLines(matrix));
  if (asks.length > 0) lines.push('');
  for (const { name, where, message } of asks) {
    lines.push(`${paint('!', 'red', colour)} ${where ? `${where}: ` : ''}${message} [${name}]`);
  }
  for (const [index, change] of changes.entries()) {
    lines.push('', ...changeLines(change, places[index] ?? [], colour));
  }
  if (retest.length > 0) {
    lines.push('', `To be made again: ${repeat}`);
    for (const { because, readings, of } of retest) {
      lines.push(`  ${readings}: ${of.join('; ')}`, `     ${because}`);
    }
  }
  return lines;
}

const dot = '·';

function matrixLines({ rows, columns }: MatrixView): readonly string[] {
  const table = [
    ['was \\ now', ...columns.map(({ after }) => wordOf(after))],
    ...rows.map(({ before, cells }) => [
      wordOf(before),
      ...cells.map(({ count }) => (count === 0 ? dot : String(count))),
    ]),
  ];
  const widths = widthsOf(table);
  return table.map((row) =>
    row
      .map((cell, index) =>
        index === 0 ? cell.padEnd(widths[0] ?? 0) : cell.padStart(widths[index] ?? 0),
      )
      .join('  ')
      .trimEnd(),
  );
}

/** A verdict, or that there was nothing to judge. */
function wordOf(verdict: string): string {
  return verdict === 'none' ? 'not there' : verdict;
}

function changeLines(row: ChangeRow, at: readonly string[], colour: boolean): readonly string[] {
  const { number, label, alarming, subject, notes, effects, shown, rest, left } = row;
  const indent = ' '.repeat(4);
  const values = valuesOf(row);
  const head = `${String(number).padStart(2)}  ${alarming ? paint(label, 'red', colour) : label}`;
  const lines = [
    `${head}${at.length > 0 ? paint(`   ${at.join('; ')}`, 'faint', colour) : ''}`,
    `${indent}${paint(subject, 'bold', colour)}`,
    ...(values ? [`${indent}${values}`] : []),
    ...notes.map((note) => `${indent}${note}`),
  ];
  const table = effects.slice(0, shown).map((effect) => effectCells(effect));
  const widths = widthsOf(table);
  for (const cells of table) {
    lines.push(
      `${indent}  ${cells
        .map((cell, index) => cell.padEnd(widths[index] ?? 0))
        .join('  ')
        .trimEnd()}`,
    );
  }
  if (rest) lines.push(`${indent}  ${rest}`);
  if (left > 0) lines.push(`${indent}  All of them stand in --format json.`);
  return lines;
}

/** Where, at which light, what becomes of the verdict, margins before and after. */
function effectCells(row: EffectRow): readonly string[] {
  const { object, fibres, what, was, now } = row;
  return [
    [object, fibres].filter(Boolean).join(' '),
    what,
    verdictOf(row),
    was || now ? `${was?.text ?? 'none'}  ${now?.text ?? 'none'}` : '',
  ];
}

export function verdictOf({ before, after, words }: EffectRow): string {
  if (words) return words;
  if (before === after) return before ? `${before} stays` : '';
  if (before === undefined) return `${after}, new`;
  return after === undefined ? `${before}, gone` : `${before} to ${after}`;
}

function widthsOf(table: readonly (readonly string[])[]): readonly number[] {
  return table.reduce<readonly number[]>(
    (widest, row) => row.map((cell, index) => Math.max(cell.length, widest[index] ?? 0)),
    [],
  );
}

/** What a plan says cannot steer a terminal: in all its words a control becomes a sign that shows. */
function withoutControls(said: Said): Said {
  return JSON.parse(JSON.stringify(said), (_, value: unknown) =>
    typeof value === 'string' ? shownWords(value) : value,
  );
}

/** Controls, and what turns the direction of writing. */
export function shownWords(text: string): string {
  return text.replaceAll(/[\p{Cc}\p{Bidi_Control}]/gu, '\uFFFD');
}
