/** Every file of a drop, those inside dropped folders too; hidden files are left out. */
export async function droppedFiles(transfer: DataTransfer | null): Promise<File[]> {
  const entries = [...(transfer?.items ?? [])].map((item) => item.webkitGetAsEntry()).filter((entry) => entry !== null);
  if (entries.length === 0) return [...(transfer?.files ?? [])];
  const files = (await Promise.all(entries.map(filesOf))).flat();
  return files.filter((file) => !file.name.startsWith('.'));
}

async function filesOf(entry: FileSystemEntry): Promise<File[]> {
  if (entry.isFile) {
    return [await new Promise<File>((resolve, reject) => (entry as FileSystemFileEntry).file(resolve, reject))];
  }
  const reader = (entry as FileSystemDirectoryEntry).createReader();
  const found: FileSystemEntry[] = [];
  for (;;) {
    // A reader hands out a folder in parts, and ends with an empty one.
    const part = await new Promise<FileSystemEntry[]>((resolve, reject) => reader.readEntries(resolve, reject));
    if (part.length === 0) break;
    found.push(...part);
  }
  return (await Promise.all(found.map(filesOf))).flat();
}
