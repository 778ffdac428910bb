import manifest from '../../../package.json' with { type: 'json' };

/** What a file that was written by this tool names as its maker. */
export const toolName = `${manifest.name} ${manifest.version}`;
