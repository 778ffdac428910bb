/** The project, for whoever feeds it or asks it. */
export { type DecodedFile, decodeFile } from './decode.ts';
export { LiveDocument, type TextChange } from './document.ts';
export { type FileSource, MemoryFiles, planEnding } from './files.ts';
export { isWithin, libraryScheme, sameAddress, standsAlone } from './include.ts';
export { loadFiles, loadFolders, loadWanted } from './load.ts';
export { type ChangedResults, LiveProject } from './project.ts';
export type * from './types.ts';
