/** Revisions of a git repository, for whoever compares plans with them. */
export { filesOf, type RevisionFiles } from './files.ts';
export {
  isRevision,
  type Repository,
  type Revision,
  repositoryAt,
  revisionOf,
} from './repository.ts';
export { GitError } from './run.ts';
