/**
 * The form of an answer to an editor: one file per question, its handler and
 * its capability together. A feature is a pure function of the session (the
 * project as it stands now, and the user's settings) and the request.
 */
import type { ServerCapabilities } from 'vscode-languageserver-protocol';
import type { BeginThread, Work } from '../import/index.ts';
import type { DocumentView, Plan, Project } from '../project/types.ts';
import type { Earlier } from './earlier.ts';

/** What the user may set; each has a default, so that no setting is needed. */
export interface FeatureSettings {
  readonly hints: { readonly enabled: boolean; readonly most: number };
  /** Decimals of a decibel on display. */
  readonly precision: number;
  readonly lengthUnit: 'm' | 'ft';
}

export const defaultSettings: FeatureSettings = {
  hints: { enabled: true, most: 2000 },
  precision: 2,
  lengthUnit: 'm',
};

export interface Session {
  readonly project: Project;
  readonly settings: FeatureSettings;
  /** True where the client said it can; for instance snippets in completion. */
  readonly snippets: boolean;
  /** Revisions that plans are compared with; there where an editor asks. */
  readonly earlier?: Earlier;
  /** Begins the thread that reads a workbook, where there are threads. */
  readonly beginThread?: BeginThread;
}

export interface Feature<Params = never, Result = unknown> {
  /** Protocol method: `textDocument/hover`. */
  readonly method: string;
  readonly capabilities: Partial<ServerCapabilities>;
  /** `work` is there where an editor asks. */
  answer(session: Session, params: Params, work?: Work): Result;
}

/** Keeps the parameter and result types of a feature while the list holds all of them alike. */
export function feature<Params, Result>(spec: Feature<Params, Result>): Feature<Params, Result> {
  return spec;
}

/** The document and the plan a request is about; undefined where the document is unknown. */
export function subject(
  session: Session,
  uri: string,
): { document: DocumentView; plan: Plan | undefined } | undefined {
  const document = session.project.document(uri);
  return document ? { document, plan: session.project.planOf(uri) } : undefined;
}
