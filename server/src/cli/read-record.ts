/** Reads the seal back out of a written record, whatever its format. */
import { strFromU8, unzipSync } from 'fflate';
import { readSeal, type Seal } from '../report/record/seal.ts';

export interface ReadRecord {
  readonly state: 'draft' | 'issued';
  readonly on: string;
  readonly title: string;
  readonly revision: string;
  readonly fingerprint: string;
  /** Where the format has room for it: with the fingerprint of every file. */
  readonly seal?: Seal;
}

export function recordIn(bytes: Uint8Array): ReadRecord | undefined {
  const text = isZip(bytes) ? partsOf(bytes) : new TextDecoder('latin1').decode(bytes);
  const seal = readSeal(text);
  return seal ? { ...seal, seal } : readCsv(new TextDecoder().decode(bytes));
}

/** Sheets of a workbook lie in an archive. */
function isZip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b;
}

/** Larger parts than a workbook of records has are not unpacked. */
const mostBytes = 200_000_000;

function partsOf(bytes: Uint8Array): string {
  try {
    const parts = unzipSync(bytes, {
      filter: ({ name, originalSize }) => name.endsWith('.xml') && originalSize < mostBytes,
    });
    return Object.values(parts)
      .map((part) => strFromU8(part))
      .join('\n');
  } catch {
    return '';
  }
}

/** Every row of the table says to which record it belongs, in its last four columns. */
function readCsv(text: string): ReadRecord | undefined {
  const [head = '', ...rows] = text.split('\r\n');
  if (!head.endsWith('record_state,record_date,plan_revision,plan_fingerprint')) return undefined;
  const row = rows.findLast(Boolean) ?? '';
  const [, state, on, quoted, revision, fingerprint] =
    /,(draft|issued),([^,"]*),(?:"((?:[^"]|"")*)"|([^,"]*)),([0-9a-f]{64})$/u.exec(row) ?? [];
  if (!state || !fingerprint) return undefined;
  return {
    state: state === 'issued' ? 'issued' : 'draft',
    on: on ?? '',
    title: '',
    revision: quoted?.replaceAll('""', '"') ?? revision ?? '',
    fingerprint,
  };
}
