/** One block of a document: its text, read when it is asked for, and what it declares. */
import { bindBlock } from '../../../grammar/src/binding.ts';
import type { BoundBlock } from '../../../grammar/src/bound.ts';
import type { Side } from '../../../grammar/src/conflict.ts';
import { parseBlock } from '../../../grammar/src/parser.ts';
import type { SourceBlock } from '../../../grammar/src/source.ts';
import type { NotationFinding } from '../../../grammar/src/tree.ts';
import type { Finding } from '../checks/finding.ts';
import { type BlockDeclarations, declareBlock } from '../model/api.ts';
import type { BlockId } from '../model/types.ts';
import type { LiveDocument } from './document.ts';
import type { BlockView } from './types.ts';

/** One block as it stands now. */
export class LiveBlock implements BlockView {
  readonly id: BlockId;
  readonly document: LiveDocument;
  source: SourceBlock;
  edition = 0;
  /** Its first line, right as long as its document is laid out as it was then. */
  firstLine = 0;
  layout = -1;
  /** The side of a merge conflict that it begins on: of the other side nothing is read. */
  side: Side = 'none';
  notation: readonly Finding[] = [];
  #declared: BlockDeclarations | undefined;
  #bound: { readonly of: SourceBlock; readonly block: BoundBlock } | undefined;

  constructor(id: BlockId, source: SourceBlock, document: LiveDocument) {
    this.id = id;
    this.source = source;
    this.document = document;
  }

  get text(): string {
    return this.source.text;
  }

  get line(): number {
    return this.document.lineOf(this);
  }

  get lines(): number {
    return this.source.lines;
  }

  get isDeclared(): boolean {
    return this.#declared !== undefined;
  }

  get declared(): BlockDeclarations {
    return this.#declared ?? this.declare();
  }

  bound(): BoundBlock {
    if (this.#bound?.of === this.source) return this.#bound.block;
    const block = this.#bind();
    // A closed document's trees come back from its text when they are asked for.
    this.#bound = this.document.version === null ? undefined : { of: this.source, block };
    return block;
  }

  /** Reads the block anew; what is equal to before stays the same object. */
  declare(): BlockDeclarations {
    const { origin } = this.document;
    const bound = this.side === 'other' ? boundOf('') : this.bound();
    this.notation = this.#findings().map((finding) => notationFinding(this.id, finding));
    this.#declared = declareBlock(bound, this.id, { origin, previous: this.#declared });
    return this.#declared;
  }

  /** A conflict is told where it opens. */
  #findings(): readonly NotationFinding[] {
    const { findings } = this.bound();
    if (this.side === 'none') return findings;
    const opens = ({ span }: NotationFinding) => this.text[span.start] === '<';
    return findings.filter((finding) =>
      finding.name === 'merge-conflict' ? opens(finding) : this.side === 'first',
    );
  }

  #bind(): BoundBlock {
    return boundOf(this.source.text);
  }
}

/** A block of text, read and bound. */
export function boundOf(text: string): BoundBlock {
  return bindBlock(parseBlock(text), text);
}

function notationFinding(block: BlockId, finding: NotationFinding): Finding {
  const { name, severity, span, message, details = {}, related = [], fix } = finding;
  return {
    name,
    kind: 'notation',
    severity,
    place: { block, span },
    message,
    related: related.map((each) => ({ place: { block, span: each.span }, message: each.message })),
    details,
    ...(fix
      ? {
          fix: {
            title: fix.title,
            edits: fix.edits.map((each) => ({
              place: { block, span: each.span },
              text: each.text,
            })),
          },
        }
      : {}),
  };
}
