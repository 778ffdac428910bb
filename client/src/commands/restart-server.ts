import type { Command } from './index.ts';

/** Starts the language server anew, whether it has stopped or answers no more. */
export const restartServer: Command = ({ server }) => server.restart();
