/**
 * The results page in a real browser, framed as the editor frames it; its
 * questions go to the real project through the server's own feature.
 */
import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import type { FromPage, ToPage } from '../../client/src/preview/messages.ts';
import { defaultSettings } from '../../server/src/features/feature.ts';
import { results } from '../../server/src/features/results.ts';
import type { LiveProject } from '../../server/src/project/index.ts';
import { judge, planUri } from '../support/judge.ts';
import { propertiesOf, type ThemeColours, type ThemeName, themes } from './themes.ts';

const folder = 'examples/kestrel-quay-terminal';
const days = ['16', '17', '18', '19', '24'].map((day) => `readings-2026-03-${day}`);

/** The whole ferry terminal, its plan file first. */
export const terminal: Readonly<Record<string, string>> = Object.fromEntries(
  [
    ['plan.lwl', 'terminal'],
    ...['cables', 'channels', 'links-multimode', 'links-single-mode', 'setups', ...days].map(
      (name) => [`${name}.lwl`, name],
    ),
  ].map(([file = '', name]) => [file, readFileSync(`${folder}/${name}.lwl`, 'utf8')]),
);

export interface OpenedPage {
  readonly page: Page;
  readonly project: LiveProject;
  /** What the page told the editor. */
  readonly told: FromPage[];
  /** Violations of the page's policy and errors in its script. */
  readonly troubles: string[];
  /** What the editor says by itself. */
  say(message: ToPage): Promise<void>;
  /** From now on the server does not answer. */
  silence(): void;
}

interface OpenOptions {
  readonly theme?: ThemeName;
  /** Colours of some other theme. */
  readonly colours?: ThemeColours;
  readonly width?: number;
  readonly height?: number;
  /** State that the editor kept of the page before a reload. */
  readonly kept?: object;
}

const policy = "default-src 'none'; script-src 'nonce-n'; style-src http://page.invalid";

export async function open(
  browser: Browser,
  files: Readonly<Record<string, string>>,
  options: OpenOptions = {},
): Promise<OpenedPage> {
  const { project } = judge(files);
  const session = { project, settings: defaultSettings, snippets: true };
  const framed = await frame(browser, {
    ...options,
    bundle: 'preview',
    data: { plan: planUri },
    ready: '.row, .status',
    answer: (question) => results.answer(session, { uri: planUri, question }),
  });
  return { ...framed, project };
}

interface FrameOptions extends OpenOptions {
  /** Name of the page's script and sheet in `dist`. */
  readonly bundle: string;
  /** What the body knows, as the editor's frame says it. */
  readonly data: Readonly<Record<string, string>>;
  /** What is there as soon as the page has something to show. */
  readonly ready: string;
  answer(question: unknown): unknown;
}

/** A page of ours as the editor frames it; what it asks goes to `answer`. */
export async function frame(
  browser: Browser,
  {
    bundle,
    data,
    ready,
    answer,
    theme = 'dark',
    colours = themes[theme],
    width = 1200,
    height = 900,
    kept,
  }: FrameOptions,
): Promise<Omit<OpenedPage, 'project'>> {
  const page = await browser.newPage({ viewport: { width, height } });
  const told: FromPage[] = [];
  const troubles: string[] = [];
  let silent = false;
  page.on('pageerror', (error) => troubles.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') troubles.push(message.text());
  });
  await page.exposeFunction('tellEditor', (message: FromPage) => {
    told.push(message);
    if (message.kind !== 'ask') return null;
    if (silent) return { kind: 'failed', id: message.id, because: 'no server' };
    return { kind: 'answer', id: message.id, result: answer(message.question) };
  });
  await page.addInitScript((before) => {
    let state: unknown = before;
    const { tellEditor } = window as unknown as {
      tellEditor(message: unknown): Promise<unknown>;
    };
    Object.assign(window, {
      acquireVsCodeApi: () => ({
        postMessage: async (message: unknown) => {
          const answer = await tellEditor(message);
          if (answer) window.postMessage(answer, '*');
        },
        setState: (next: unknown) => {
          state = next;
        },
        getState: () => state,
      }),
    });
  }, kept);
  const { kind } = colours;
  const known = Object.entries(data)
    .map(([name, value]) => ` data-${name}="${value}"`)
    .join('');
  const html = `<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>Results</title>
<link rel="stylesheet" href="theme.css"><link rel="stylesheet" href="${bundle}.css"></head>
<body class="${kind}"${known}><main id="page"></main>
<script nonce="n" src="${bundle}.js"></script></body></html>`;
  const served: Readonly<Record<string, readonly [string, string]>> = {
    '/': ['text/html', html],
    '/theme.css': ['text/css', `html{${propertiesOf(colours)}}`],
    [`/${bundle}.css`]: ['text/css', readFileSync(`dist/${bundle}.css`, 'utf8')],
    [`/${bundle}.js`]: ['text/javascript', readFileSync(`dist/${bundle}.js`, 'utf8')],
  };
  await page.route('http://page.invalid/**', (route) => {
    const [type, body] = served[new URL(route.request().url()).pathname] ?? ['text/plain', ''];
    return route.fulfill({
      contentType: `${type}; charset=utf-8`,
      headers: { 'content-security-policy': policy },
      body,
    });
  });
  await page.goto('http://page.invalid/');
  await page.locator(ready).first().waitFor();
  return {
    page,
    told,
    troubles,
    async say(message) {
      await page.evaluate((sent) => window.postMessage(sent, '*'), message);
    },
    silence() {
      silent = true;
    },
  };
}

/** Brings a section of the page into sight, which may be put in place of another meanwhile. */
export function toSection(page: Page, id: string): Promise<void> {
  return page.evaluate((own) => document.getElementById(own)?.scrollIntoView(), id);
}
