import * as vscode from 'vscode';
import { askCoverage } from '../coverage.ts';
import { showRange } from '../show-range.ts';
import type { Command } from './index.ts';

/** Puts the cursor where the next expected reading is to be typed. */
export const goToNextMissingReading: Command = async ({ server }) => {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== 'linkwright') return;
  const coverage = await askCoverage(server, editor, true);
  if (coverage?.next) {
    await showRange(coverage.next.uri, coverage.next.range);
    return;
  }
  void vscode.window.showInformationMessage(
    coverage && coverage.expected > 0
      ? `${coverage.object}: no reading is missing; ${coverage.present} of ${coverage.expected} are there.`
      : 'This plan expects no readings yet: it says no wavelengths to measure, or has no links.',
  );
};
