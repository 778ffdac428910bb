/**
 * Charts of the readings of a link, or of all that filter and search leave.
 * Limit and expectation are named at their lines; each chart is one stop for
 * keys, steps through its readings and says each, and has a table behind it.
 */
import type { ChartsView } from '../charts.ts';
import { CourseChart } from './chart-course.tsx';
import { MarginSpreadChart } from './chart-margins.tsx';
import { RelationChart } from './chart-relation.tsx';
import { LossSpreadChart } from './chart-spread.tsx';
import type { Cell } from './coverage.tsx';

export interface ChartActions {
  /** A reading is pointed at: its row in the table is marked. */
  readonly point?: (row: string | undefined) => void;
  /** Shows a reading in the text. */
  readonly go?: (cell: Cell) => void;
}

interface ChartsProps extends ChartActions {
  readonly charts: ChartsView;
  /** Of the page's inside, px. */
  readonly width: number;
  /** Wavelength in nanometres, as chosen for the drawing. */
  readonly chosen?: number | undefined;
  /** The link that may be chosen, and which of both is. */
  readonly of?: { readonly link: string; readonly all: boolean; choose(all: boolean): void };
}

/** Of a plot: three stand in a row where there is room for them, px. */
const inRow = 372;
const alone = 396;
const gap = 24;

export function Charts({ charts, width, chosen, of, point, go }: ChartsProps) {
  const { spread, courses, relation, margins } = charts;
  const course = courses.find(({ nanometres }) => nanometres === chosen) ?? courses[0];
  const own = width >= 3 * inRow + 2 * gap ? inRow : Math.min(alone, width);
  const actions = { point, go };
  const nothing = !spread && !course && !relation && !margins;
  return (
    <section id="charts" aria-label="Charts">
      <div class="drawing-head">
        <h2>Charts {of && !of.all ? <span class="mono">{of.link}</span> : null}</h2>
        {of ? <Choice of={of} /> : null}
      </div>
      {nothing ? <p class="quiet">Nothing is read yet that a chart could show.</p> : null}
      <div class="charts">
        {margins ? (
          <MarginSpreadChart margins={margins} width={Math.min(width, 2 * inRow)} />
        ) : null}
        {spread ? (
          <LossSpreadChart
            spread={spread}
            points={courses.flatMap(({ points }) => points)}
            width={own}
            {...actions}
          />
        ) : null}
        {course ? <CourseChart course={course} width={own} {...actions} /> : null}
        {relation ? <RelationChart relation={relation} width={own} {...actions} /> : null}
      </div>
    </section>
  );
}

function Choice({ of: { link, all, choose } }: { readonly of: NonNullable<ChartsProps['of']> }) {
  const choices: readonly [boolean, string][] = [
    [false, link],
    [true, 'all that is shown'],
  ];
  return (
    <div class="words waves" role="radiogroup" aria-label="Readings of">
      {choices.map(([each, words]) => (
        // biome-ignore lint/a11y/useSemanticElements: words in a row, not a form
        <button
          key={words}
          type="button"
          role="radio"
          aria-checked={each === all}
          class={`word-choice${each === all ? ' current' : ''}`}
          onClick={() => choose(each)}
        >
          {words}
        </button>
      ))}
    </div>
  );
}
