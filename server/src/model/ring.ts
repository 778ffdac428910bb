/**
 * A ring: its nodes in order, the spans between neighbours, and for each span
 * the long way that light takes round the ring when that one is lost. It goes
 * on in the order of the text, from the node behind the lost span to the one
 * before it, through the cord of every node that it passes.
 */
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { buildFibre } from './parts.ts';
import { elementsOf, type LinkBuilder } from './path.ts';
import type { PathLine } from './placing.ts';
import { resolve } from './resolve.ts';
import type { Scope } from './scope.ts';
import type { Stretch } from './tree.ts';
import type { PathElement, Place, RingNode, Way } from './types.ts';
import { lengthOf, nameOf, placeOf } from './values.ts';

export interface Ring {
  /** Once round from the first node. */
  readonly path: readonly PathElement[];
  readonly nodes: readonly RingNode[];
  readonly ways: readonly Way[];
  readonly stretches: readonly Stretch[];
  readonly findings: readonly ModelFinding[];
}

interface Span {
  readonly elements: readonly PathElement[];
  readonly from: RingNode;
  readonly to: RingNode;
}

/** Long ways hold a ring's parts once for each span: more is no ring of fibre. */
const mostHeld = 1_000_000;

export function closeRing(
  lines: readonly PathLine[],
  about: { readonly name: string; readonly place: Place; readonly n: number | undefined },
  scope: Scope,
  linkOf: LinkBuilder,
): Ring {
  const findings: ModelFinding[] = [];
  const nodeLines = lines.filter(({ entry }) => entry.word === W.node);
  const nodes = nodeLines.map((line) => nodeOf(line, scope));
  const first = lines.findIndex(({ entry }) => entry.word === W.node);
  // What stands before the first node closes the circle behind the last.
  const round = first > 0 ? [...lines.slice(first), ...lines.slice(0, first)] : lines;
  const elements = (part: readonly PathLine[]) => {
    const made = elementsOf(part, about.n, about.name, scope, linkOf);
    findings.push(...made.findings);
    return made.path;
  };
  if (nodes.length < 2) {
    findings.push(
      finding('node-missing', nodes[0]?.place ?? about.place, {
        ring: about.name,
        nodes: nodes.length,
      }),
    );
    const path = elements(round.filter(({ entry }) => entry.word !== W.node));
    return {
      path,
      nodes,
      ways: [],
      stretches: [{ elements: path, n: about.n }],
      findings,
    };
  }
  const spans = spansOf(round, nodes, elements);
  findings.push(...namedTwice(nodes, about.name), ...notClosed(spans));
  const size = spans.reduce((sum, span) => sum + span.elements.length + 1, 0);
  const tooLong = size * spans.length > mostHeld;
  if (tooLong) {
    findings.push(finding('ring-too-long', about.place, { ring: about.name, most: mostHeld }));
  }
  const closed = spans.every((span) => span.elements.length > 0);
  if (closed) findings.push(...noLongWay(nodes, about));
  return {
    path: spans.flatMap((span, index) => [
      ...(index > 0 ? throughOf(span.from) : []),
      ...span.elements,
    ]),
    nodes,
    ways: closed && !tooLong ? [...spans.map(spanWay), ...longWays(spans)] : [],
    stretches: spans.map((span) => ({ elements: span.elements, n: about.n })),
    findings,
  };
}

function nodeOf(line: PathLine, scope: Scope): RingNode {
  const { slots } = line.entry;
  const place = placeOf(line);
  const name = nameOf(slots.name) ?? '';
  if (!slots[K.through]) return { name, place };
  const declared = resolve(W.fibre, slots.throughFibre?.[0], scope);
  return {
    name,
    through: {
      kind: 'cord',
      length: lengthOf(slots[K.through]),
      fibre: declared && buildFibre(declared, scope).model,
      fibreName: nameOf(slots.throughFibre) ?? '',
      // Whether it crosses the pair is said, never assumed.
      map: nameOf(slots.crossing) as 'straight' | 'crossed' | undefined,
      place,
    },
    place,
  };
}

function spansOf(
  round: readonly PathLine[],
  nodes: readonly RingNode[],
  elements: (lines: readonly PathLine[]) => readonly PathElement[],
): readonly Span[] {
  const parts: PathLine[][] = [];
  for (const line of round) {
    if (line.entry.word === W.node) parts.push([]);
    else parts.at(-1)?.push(line);
  }
  return parts.map((part, index) => ({
    elements: elements(part),
    from: nodes[index]!,
    to: nodes[(index + 1) % nodes.length]!,
  }));
}

const spanName = ({ from, to }: Span): string => `${from.name} to ${to.name}`;

function spanWay(span: Span): Way {
  return { name: spanName(span), kind: 'span', path: span.elements, place: span.from.place };
}

function throughOf({ through }: RingNode): readonly PathElement[] {
  return through ? [through] : [];
}

function longWays(spans: readonly Span[]): readonly Way[] {
  return spans.flatMap((cut, index): Way[] => {
    const others = [...spans.slice(index + 1), ...spans.slice(0, index)];
    const passed = others.slice(1).map(({ from }) => from);
    if (passed.some(({ through }) => !through)) return [];
    return [
      {
        name: `${cut.to.name} to ${cut.from.name}, the long way`,
        kind: 'long-way',
        path: others.flatMap((span, place) => [
          ...(place > 0 ? throughOf(span.from) : []),
          ...span.elements,
        ]),
        cut: spanName(cut),
        place: cut.from.place,
      },
    ];
  });
}

// ---- findings

function* namedTwice(nodes: readonly RingNode[], ring: string): Iterable<ModelFinding> {
  const known = new Set<string>();
  for (const { name, place } of nodes) {
    if (known.has(name)) yield finding('node-named-twice', place, { ring, node: name });
    known.add(name);
  }
}

function* notClosed(spans: readonly Span[]): Iterable<ModelFinding> {
  for (const { elements, from, to } of spans) {
    if (elements.length > 0) continue;
    yield finding('span-missing', from.place, { from: from.name, to: to.name });
  }
}

/** Every long way of a ring of three nodes and more passes a node: without a cord through it there is none. */
function* noLongWay(
  nodes: readonly RingNode[],
  { name, place }: { readonly name: string; readonly place: Place },
): Iterable<ModelFinding> {
  const closing = nodes.filter(({ through }) => !through);
  if (nodes.length < 3 || closing.length === 0) return;
  const listed = closing.map((node) => node.name).join(', ');
  yield finding('long-way-missing', place, { ring: name, nodes: listed });
}
