/** Lets the browser save a file under a name. */
export function saveFile(name: string, content: Blob): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(content);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** Lets the browser save a value as a JSON file. */
export function saveJson(name: string, value: unknown): void {
  saveFile(name, new Blob([`${JSON.stringify(value, null, 2)}\n`], { type: 'application/json' }));
}
