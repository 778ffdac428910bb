/**
 * What a record carries so that it can be held against its plan later: state,
 * day, and the fingerprint of every file. A seal says whether plan and evidence
 * are the same; who issued it is for signatures to say.
 */
import * as z from 'zod/mini';
import { fingerprintOf } from '../json.ts';
import type { Recorded, RecordedFile, RecordState } from './recorded.ts';

const sealed = z.object({
  state: z.enum(['draft', 'issued']),
  on: z.string(),
  title: z.string(),
  revision: z.string(),
  tool: z.string(),
  fingerprint: z.string(),
  files: z.array(z.tuple([z.string(), z.string()])),
});

export type Seal = z.infer<typeof sealed>;

const mark = 'linkwright-record:1:';

export function sealOf(recorded: Recorded, { state, fingerprint }: RecordState): Seal {
  const { title = '', revision } = recorded.plan.settings;
  return {
    state,
    on: recorded.asOf,
    title,
    revision: revision?.text ?? '',
    tool: recorded.tool,
    fingerprint,
    files: recorded.files.map((file) => [file.path, fingerprintOf([file])]),
  };
}

/** As one word of letters, digits, `-`, `_` and `:`, which every format can hold. */
export function writtenSeal(seal: Seal): string {
  const bytes = new TextEncoder().encode(JSON.stringify(seal));
  const binary = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  return `${mark}${btoa(binary).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '')}`;
}

/**
 * The seal in a text; undefined where there is none that can be read, or more
 * than one: a name in a plan may have been made to look like a seal.
 */
export function readSeal(text: string): Seal | undefined {
  const found = text.matchAll(new RegExp(`${mark}([\\w-]+)`, 'gu'));
  const [word, ...others] = new Set(Array.from(found, ([, each]) => each));
  if (!word || others.length > 0) return undefined;
  try {
    const binary = atob(word.replaceAll('-', '+').replaceAll('_', '/'));
    const bytes = Uint8Array.from(binary, (each) => each.charCodeAt(0));
    const read = sealed.safeParse(JSON.parse(new TextDecoder().decode(bytes)));
    return read.success ? read.data : undefined;
  } catch {
    return undefined;
  }
}

export interface SealCheck {
  readonly same: boolean;
  readonly changed: readonly string[];
  readonly gone: readonly string[];
  readonly added: readonly string[];
}

/** The files of a plan as they are now, held against a seal. */
export function checkSeal(seal: Seal, files: readonly RecordedFile[]): SealCheck {
  const same = seal.fingerprint === fingerprintOf(files);
  // Where the format had no room for them, only the whole can be compared.
  if (seal.files.length === 0) return { same, changed: [], gone: [], added: [] };
  const then = new Map(seal.files);
  const now = new Map(files.map((file) => [file.path, fingerprintOf([file])]));
  return {
    same,
    changed: [...now].flatMap(([path, print]) =>
      then.has(path) && then.get(path) !== print ? [path] : [],
    ),
    gone: [...then.keys()].filter((path) => !now.has(path)),
    added: [...now.keys()].filter((path) => !then.has(path)),
  };
}
