/**
 * The drawing of a tree or a ring as a picture for paper: the one of the results
 * page, with the looks that a sheet gives its parts written onto them.
 */
import renderToString from 'preact-render-to-string';
import type { LinkResult } from '../../evaluate/result.ts';
import { drawingOf } from '../drawing.ts';
import type { Block } from '../paper/blocks.ts';
import type { Subject } from '../subject.ts';
import { RingView } from './ring.tsx';
import { TreeView } from './tree.tsx';

/** Units of a drawing, which are shown at the width of the page. */
const drawnWidth = 680;
const pageWidth = 510;

/** Undefined where light has one way. */
export function branchPicture(subject: Subject, result: LinkResult): Block | undefined {
  if (result.ways.length === 0) return undefined;
  const { name } = result.link;
  const { tree, ring } = drawingOf(subject, name, undefined) ?? {};
  const page = tree
    ? renderToString(<TreeView tree={tree} width={drawnWidth} narrow={false} />)
    : ring
      ? renderToString(<RingView ring={ring} width={drawnWidth} />)
      : '';
  const picture = /<svg[\s\S]*?<\/svg>/u.exec(page)?.[0];
  const [, width, height] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/u.exec(picture ?? '') ?? [];
  if (!picture || !width || !height) return undefined;
  return {
    kind: 'picture',
    width: pageWidth,
    height: (Number(height) / Number(width)) * pageWidth,
    says: `${name}, ${tree ? 'each end by its loss' : 'both ways round by their loss'}; the table below says the same`,
    svg: onPaper(picture),
  };
}

type Look = Readonly<Record<string, string>>;

const line: Look = { fill: 'none', stroke: '#000000', 'stroke-width': '1' };
const words: Look = { fill: '#000000', stroke: 'none', 'font-size': '11' };

const looks: Readonly<Record<string, Look>> = {
  fibre: { 'stroke-width': '1.2' },
  stem: { 'stroke-width': '1.2' },
  'split-loss': { 'stroke-dasharray': '1.5 3' },
  hair: { stroke: '#dddddd' },
  leader: { stroke: '#777777' },
  over: { fill: '#f2f2f2', stroke: 'none' },
  allowed: { 'stroke-width': '1.5' },
  expected: { stroke: '#777777', 'stroke-width': '1.5', 'stroke-dasharray': '4 2' },
  'gauge-limit': { 'stroke-width': '1.5' },
  'gauge-reading': { 'stroke-width': '1.4' },
  marked: { 'stroke-width': '3' },
  sign: { fill: '#ffffff', 'stroke-width': '1.4' },
  station: { fill: '#ffffff', 'stroke-width': '1.4' },
  filled: { fill: '#000000' },
};

/** Looks of words: quiet ones are greyer, what is not pass is heavier. */
function lookOfWords(names: readonly string[]): Look {
  const quiet = names.includes('quiet') || names.includes('text-quiet');
  const heavy = names.some((each) => each.startsWith('text-') && each !== 'text-quiet');
  return {
    ...words,
    ...(quiet ? { fill: '#555555' } : {}),
    ...(heavy ? { 'font-weight': 'bold' } : {}),
  };
}

/** What a part says of itself stays; its class gives the rest. */
function onPaper(svg: string): string {
  const own = svg.replace(
    '<svg',
    '<svg xmlns="http://www.w3.org/2000/svg" font-family="sans-serif"',
  );
  const looking = own.replaceAll(
    /<(path|rect|circle|text)\b([^>]*?)(\/?)>/gu,
    (_, tag, said, close) => {
      const [, list = ''] = /class="([^"]*)"/u.exec(said) ?? [];
      const names = list.split(' ');
      const look: Look =
        tag === 'text'
          ? lookOfWords(names)
          : Object.assign({}, line, ...names.map((each) => looks[each] ?? {}));
      const added = Object.entries(look)
        .filter(([key]) => !new RegExp(`\\s${key}=`, 'u').test(said))
        .map(([key, value]) => ` ${key}="${value}"`);
      return `<${tag}${said}${added.join('')}${close}>`;
    },
  );
  // A class that is empty has no value, which is no XML; on paper none is needed.
  return looking.replaceAll(/ class(?:="[^"]*")?(?=[\s/>])/gu, '');
}
