/** Every command by its identifier; each stands in its own file. */
import * as vscode from 'vscode';
import type { ChangesPanels } from '../preview/changes-panel.ts';
import type { ResultsPanels } from '../preview/panel.ts';
import type { BesideHead } from '../revisions/beside-head.ts';
import type { Server } from '../server.ts';
import { compareRevision } from './compare-revision.ts';
import { enterReadings } from './enter-readings.ts';
import { importReadings } from './import-readings.ts';
import { layOutReadings } from './lay-out-readings.ts';
import { newPlan } from './new-plan.ts';
import { goToNextMissingReading } from './next-missing-reading.ts';
import { openExample } from './open-example.ts';
import { openResults } from './open-results.ts';
import { pasteReadings } from './paste-readings.ts';
import { restartServer } from './restart-server.ts';
import { showLimit } from './show-limit.ts';
import { writeAcceptanceRecord, writeFieldSheet } from './write-paper.ts';

/** What commands work with. */
export interface Surroundings {
  readonly context: vscode.ExtensionContext;
  readonly server: Server;
  readonly panels: ResultsPanels;
  readonly changes: ChangesPanels;
  readonly besideHead: BesideHead;
}

export type Command = (around: Surroundings, ...words: unknown[]) => unknown;

const commands: Readonly<Record<string, Command>> = {
  'linkwright.openResults': openResults,
  'linkwright.nextMissingReading': goToNextMissingReading,
  'linkwright.layOutReadings': layOutReadings,
  'linkwright.enterReadings': enterReadings,
  'linkwright.pasteReadings': pasteReadings,
  'linkwright.importReadings': importReadings,
  'linkwright.showLimit': showLimit,
  'linkwright.compareRevision': compareRevision,
  'linkwright.writeFieldSheet': writeFieldSheet,
  'linkwright.writeAcceptanceRecord': writeAcceptanceRecord,
  'linkwright.newPlan': newPlan,
  'linkwright.openExample': openExample,
  'linkwright.restartServer': restartServer,
};

export function registerCommands(around: Surroundings): vscode.Disposable[] {
  return Object.entries(commands).map(([id, command]) =>
    vscode.commands.registerCommand(id, (...words: unknown[]) => command(around, ...words)),
  );
}
