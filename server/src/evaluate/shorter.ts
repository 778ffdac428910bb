/**
 * A fibre that measures much shorter than its plan says is judged on what was
 * measured: a limit never counts glass that nobody found. One that measures
 * longer is judged on what the plan says. Common practice, no source.
 */
import { type Micrometres, micrometres } from '../../../grammar/src/quantity/index.ts';
import { boundsOf } from './bounds.ts';
import { type Context, contextWith } from './context.ts';
import { differs, lengthResults } from './lengths.ts';
import type { FlatPath, Piece } from './path.ts';
import type { LengthResult } from './result.ts';

const known = new WeakMap<Context, Map<Micrometres, Context>>();

/** The context that a reading of a fibre is judged by; `whole` knows what was measured. */
export function onShorter(context: Context, fibre: number, whole: Context): Context {
  if (context.input.evidence.lengths.length === 0) return context;
  const measured = lengthResults(whole).find((one) => one.fibre === fibre);
  if (!measured || !isShort(measured, whole)) return context;
  const made = known.get(context) ?? new Map<Micrometres, Context>();
  known.set(context, made);
  const before = made.get(measured.length);
  if (before) return before;
  const shorter = contextWith(context, shortened(context.path, measured));
  made.set(measured.length, shorter);
  return shorter;
}

function isShort(measured: LengthResult, { settings }: Context): boolean {
  return differs(measured, boundsOf(settings).length) && measured.length < (measured.declared ?? 0);
}

/** Every stretch of fibre in proportion: where the glass is missing is not known. */
function shortened(path: FlatPath, { length, declared }: LengthResult): FlatPath {
  const [measured, whole] = [BigInt(length), BigInt(declared ?? length)];
  const share = (stretch: Micrometres | undefined) =>
    stretch === undefined ? undefined : micrometres(Number((BigInt(stretch) * measured) / whole));
  const cut = new Map<Piece, Piece>(
    path.pieces.map((piece) => [
      piece,
      piece.kind === 'fibre'
        ? { ...piece, length: share(piece.length), along: share(piece.along) }
        : piece,
    ]),
  );
  const of = (pieces: readonly Piece[]) => pieces.map((piece) => cut.get(piece) ?? piece);
  return { ...path, pieces: of(path.pieces), inside: of(path.inside) };
}
