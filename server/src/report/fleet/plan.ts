/** What tables of a fleet ask of one plan, and the columns by which rows of several plans are told apart. */
import type { LinkResult } from '../../evaluate/result.ts';
import type { Cable, Place } from '../../model/types.ts';
import type { DocumentedPlan } from '../paper/plan.ts';
import { type Column, column } from './table.ts';

export interface FleetPlan {
  readonly plan: DocumentedPlan & {
    /** By which it is judged, on the site's clock. */
    readonly minute: number;
    named(kind: 'setup' | 'cable'): readonly { readonly name: string }[];
    cable(name: string): Cable | undefined;
    fibresNeeded(cable: string): number;
  };
  /** Those to be told of, in order of the text. */
  readonly links: readonly LinkResult[];
  /** Of a file, as a person writes it. */
  pathOf(uri: string): string;
  readonly fingerprint: string;
  readonly tool: string;
}

/** A row of a fleet knows whose it is and, where it stands in the text, where. */
export interface OfPlan {
  readonly from: FleetPlan;
  readonly place?: Place;
}

const located = ({ from, place }: OfPlan) => place && from.plan.locate(place);

/** Columns that every table ends with. */
export const planColumns: readonly Column<OfPlan>[] = [
  column('file', 'text', 'file in which the row has its place; null: it has none', (row) => {
    const place = located(row);
    return place && row.from.pathOf(place.uri);
  }),
  column('line', 'whole', 'its line in that file, counted from 1', (row) => {
    const place = located(row);
    return place && place.range.start.line + 1;
  }),
  column('plan', 'text', 'title of the plan', ({ from }) => from.plan.settings.title),
  column('plan_file', 'text', 'first file of the plan', ({ from }) => from.pathOf(from.plan.root)),
  column(
    'plan_revision',
    'text',
    'as the plan says it',
    ({ from }) => from.plan.settings.revision?.text,
  ),
  column(
    'plan_fingerprint',
    'text',
    'SHA-256 over names and texts of its files: equal, where nothing was changed',
    ({ from }) => from.fingerprint,
  ),
  column(
    'as_of',
    'minute',
    'by which it was judged, on the site’s clock',
    ({ from }) => from.plan.minute,
  ),
  column('tool', 'text', 'name and version of this tool', ({ from }) => from.tool),
];
