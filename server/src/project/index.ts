/** The project, for whoever feeds it or asks it. */
export { decodeFile } from './decode.ts';
export { LiveDocument } from './document.ts';
export { planEnding } from './files.ts';
export { isWithin, sameAddress, standsAlone } from './include.ts';
export { loadFiles, loadFolders, loadWanted } from './load.ts';
export { LiveProject } from './project.ts';
export type * from './types.ts';
