/** Charts and coverage: asked for once they come into sight, and again when results change while they are. */
import type { ComponentChildren, RefObject } from 'preact';
import { useCallback, useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Answers } from '../../../../server/src/report/answer.ts';
import { Charts } from '../../../../server/src/report/page/charts.tsx';
import { type Cell, Coverage } from '../../../../server/src/report/page/coverage.tsx';
import type { Question, TableView } from '../../../../server/src/report/question.ts';
import type { Results, TextPlace } from '../../../../server/src/report/view.ts';
import type { Editor } from './editor.ts';
import { latestOnly } from './latest-only.ts';

interface FurtherProps {
  readonly editor: Editor;
  readonly results: Results;
  readonly view: TableView;
  readonly width: number;
  readonly show: (place: TextPlace) => void;
}

interface ChartsPartProps extends FurtherProps {
  readonly link: string | undefined;
  readonly chosen: number | undefined;
  readonly point: (row: string | undefined) => void;
}

export function ChartsPart(props: ChartsPartProps) {
  const { editor, view, width, show, link, chosen, point } = props;
  const [all, setAll] = useState(false);
  const place = useRef<HTMLDivElement>(null);
  const object = all ? undefined : link;
  const charts = useAnswer(props, place, {
    ask: 'charts',
    view,
    ...(object === undefined ? {} : { object }),
  });
  const go = useGo(editor, show);
  return (
    <Place of={place} id="charts" words="Charts">
      {charts ? (
        <Charts
          charts={charts}
          width={width}
          chosen={chosen}
          {...(link === undefined ? {} : { of: { link, all, choose: setAll } })}
          point={point}
          go={go}
        />
      ) : null}
    </Place>
  );
}

export function CoveragePart(props: FurtherProps) {
  const { editor, view, width, show } = props;
  const [cable, setCable] = useState<string>();
  const place = useRef<HTMLDivElement>(null);
  const coverage = useAnswer(props, place, {
    ask: 'coverage',
    view,
    ...(cable === undefined ? {} : { cable }),
  });
  const go = useGo(editor, show);
  return (
    <Place of={place} id="coverage" words="Coverage">
      {coverage ? (
        <Coverage
          coverage={coverage}
          width={width}
          go={go}
          openCable={setCable}
          {...(cable === undefined ? {} : { opened: cable })}
        />
      ) : null}
    </Place>
  );
}

interface PlaceProps {
  readonly of: RefObject<HTMLDivElement | null>;
  readonly id: string;
  readonly words: string;
  readonly children: ComponentChildren;
}

/** Keeps its section's place until it has come. */
function Place({ of, id, words, children }: PlaceProps) {
  return (
    <div ref={of}>
      {children ?? (
        <section id={id} aria-label={words} class="to-come">
          <h2>{words}</h2>
        </section>
      )}
    </div>
  );
}

/** Shows a reading in the text, by what names it. */
function useGo(editor: Editor, show: (place: TextPlace) => void): (cell: Cell) => void {
  return useCallback(
    (cell) => {
      void editor
        .ask({ ask: 'place', ...cell })
        .then((place) => place && show(place))
        .catch(() => undefined);
    },
    [editor, show],
  );
}

/** The newest answer; an older one stays until then. */
function useAnswer<Q extends Extract<Question, { ask: 'charts' | 'coverage' }>>(
  { editor, results }: FurtherProps,
  place: RefObject<HTMLElement | null>,
  question: Q,
): Answers[Q['ask']] | undefined {
  const [answer, setAnswer] = useState<Answers[Q['ask']]>();
  const near = useNear(place);
  const asked = JSON.stringify(question);
  const latest = useRef(question);
  latest.current = question;
  const ask = useMemo(
    () =>
      latestOnly(async () => {
        const now = await editor.ask(latest.current);
        if (now) setAnswer(now);
      }),
    [editor],
  );
  useEffect(() => {
    if (near) void ask().catch(() => undefined);
  }, [near, ask, results, asked]);
  return answer;
}

/** Whether it is in sight, or will be soon. */
function useNear(place: RefObject<HTMLElement | null>): boolean {
  const [near, setNear] = useState(false);
  useEffect(() => {
    if (!place.current) return;
    const seen = new IntersectionObserver(
      (entries) => setNear(entries.at(-1)?.isIntersecting ?? false),
      { rootMargin: '300px 0px' },
    );
    seen.observe(place.current);
    return () => seen.disconnect();
  }, [place]);
  return near;
}
