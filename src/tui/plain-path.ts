/** The last part of a path, without asking the file system. */
export function basename(path: string): string {
  return path.split(/[/\\]/).at(-1) ?? path;
}
