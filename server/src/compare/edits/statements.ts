/** What was done to objects and decided about their evidence: work, withdrawals, concessions. */
import { type Context, W } from '../../../../grammar/src/vocabulary/index.ts';
import { nameOf } from '../../model/values.ts';
import type { Draft } from './draft.ts';
import { entryEdits } from './entries.ts';
import { kindOfBlock } from './kinds.ts';
import { headOf, type SaidEntry, type Sides, type Voice, voiceOf } from './side.ts';
import type { Units } from './units.ts';
import { entryContent, printEntry } from './values.ts';

interface Statement extends SaidEntry {
  /** As it is called now, and as it is written. */
  readonly object: string;
  readonly written: string;
  readonly voice: Voice;
  readonly lines: ReadonlySet<string>;
}

export function statementEdits(before: Units, after: Units, sides: Sides): readonly Draft[] {
  const old = before.statements.map((said) => statementOf(said, voiceOf(said.block, sides)));
  const now = after.statements.map((said) => statementOf(said, voiceOf(said.block, sides)));
  const drafts: Draft[] = [];
  const left = new Map<string, Statement[]>();
  for (const each of now) {
    const same = left.get(aboutOf(each));
    if (same) same.push(each);
    else left.set(aboutOf(each), [each]);
  }
  const take = (one: Statement, find: (others: readonly Statement[]) => Statement | undefined) => {
    const others = left.get(aboutOf(one)) ?? [];
    const found = find(others);
    if (found) others.splice(others.indexOf(found), 1);
    return found;
  };
  const unlike = old.filter(
    (each) => !take(each, (others) => others.find((other) => sameWhole(each, other))),
  );
  for (const each of unlike) {
    const mate = take(each, (others) => likest(each, others));
    drafts.push(...(mate ? changed(each, mate) : [whole(each, 'gone')]));
  }
  for (const each of [...left.values()].flat()) drafts.push(whole(each, 'new'));
  return drafts;
}

function statementOf(said: SaidEntry, voice: Voice): Statement {
  const { entry } = said;
  const name = nameOf(entry.slots.object) ?? '';
  return {
    ...said,
    object: voice.naming(name, ['object']),
    written: name,
    voice,
    lines: new Set(
      (entry.body?.entries ?? []).map((line) => entryContent(line, entry.word as Context, voice)),
    ),
  };
}

/** Word and object. */
const aboutOf = ({ entry, object }: Statement): string => `${entry.word} ${object}`;

const sameWhole = (a: Statement, b: Statement): boolean =>
  a.lines.size === b.lines.size && [...a.lines].every((line) => b.lines.has(line));

/** The one that says most of the same: at least half of its lines. */
function likest(one: Statement, others: readonly Statement[]): Statement | undefined {
  let best: Statement | undefined;
  let most = 0;
  for (const other of others) {
    const same = [...one.lines].filter((line) => other.lines.has(line)).length;
    if (same > most && same * 2 >= Math.min(one.lines.size, other.lines.size)) {
      [best, most] = [other, same];
    }
  }
  return best;
}

function changed(old: Statement, now: Statement): readonly Draft[] {
  const lines = ({ block, entry, voice }: Statement) => ({
    block,
    entries: entry.body?.entries ?? [],
    voice,
  });
  return entryEdits(lines(old), lines(now), now.entry.word as Context, {
    label: `${calledOf(now.entry.word)} ${now.object}`,
    objects: [now.written, old.written],
  });
}

function whole(said: Statement, form: 'new' | 'gone'): Draft {
  const { entry, object, written } = said;
  const goneWork = form === 'gone' && entry.word === W.work;
  const text = (entry.body?.entries ?? [])
    .map((line) => {
      const args = printEntry(line, entry.word as Context, said.voice.text);
      if (line.word === W.fibres && /^\d+$/u.test(args)) return `${W.fibre} ${args}`;
      return line.word === W.done || line.word === W.because ? args : `${line.word} ${args}`;
    })
    .join(', ');
  return {
    kind: goneWork ? 'evidence' : kindOfBlock(entry.word as Context),
    form,
    subject: `${calledOf(entry.word)} ${object}`,
    ...(form === 'new' ? { now: text, after: headOf(said) } : { was: text, before: headOf(said) }),
    objects: [object, written],
    ...(form === 'new' && entry.word === W.work && { work: true }),
    ...(goneWork && { guarded: 'work-removed' }),
  };
}

function calledOf(word: string): string {
  if (word === W.work) return 'work on';
  return word === W.withdraw ? 'readings withdrawn of' : 'concession for';
}
