/** Files that commands write: whole or not at all, wherever the workspace lies. */
import * as vscode from 'vscode';

/** Beside the file first, then in its place: never half of it. False: it could not be, and the user was told why. */
export async function writeWhole(target: vscode.Uri, content: Uint8Array): Promise<boolean> {
  const { fs } = vscode.workspace;
  const name = nameOf(target);
  const beside = vscode.Uri.joinPath(target, '..', `.${name}.${Date.now().toString(36)}`);
  try {
    await fs.writeFile(beside, content);
    await fs.rename(beside, target, { overwrite: true });
    return true;
  } catch (error) {
    await Promise.resolve(fs.delete(beside)).catch(() => undefined);
    const why = error instanceof Error ? error.message : String(error);
    void vscode.window.showErrorMessage(`${name} could not be written: ${why}`);
    return false;
  }
}

export function nameOf(file: vscode.Uri): string {
  return file.path.slice(file.path.lastIndexOf('/') + 1);
}
