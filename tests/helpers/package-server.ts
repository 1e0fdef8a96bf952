import type { ChildProcess } from 'node:child_process';
import { setTimeout as wait } from 'node:timers/promises';
import type { Import } from '../../shared/schemas/import.ts';

/** Address that a server prints once it listens. @throws Error with what it printed when it ends instead */
export function addressOf(server: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let printed = '';
    const read = (bytes: Buffer) => {
      printed += bytes.toString();
      const found = /http:\/\/\S+/.exec(printed);
      if (found) resolve(found[0]);
    };
    server.stdout!.on('data', read);
    server.stderr!.on('data', read);
    server.once('exit', (code) => reject(new Error(`the server ended with ${code}: ${printed}`)));
  });
}

/** Waits until an import has ended, either way. */
export async function finishedImport(address: string, import_id: number): Promise<Import> {
  for (;;) {
    const answer = await fetch(`${address}/api/imports/${import_id}`);
    if (!answer.ok) throw new Error(await answer.text());
    const now = (await answer.json()) as Import;
    if (now.state === 'done' || now.state === 'failed') return now;
    await wait(25);
  }
}
