import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';

export interface Answer {
  status: number;
  // biome-ignore lint/suspicious/noExplicitAny: answers of every shape
  body: any;
}

/** Asks a server that may be killed meanwhile. @returns null when no whole answer came */
export async function ask(address: string, method: string, path: string, body?: unknown): Promise<Answer | null> {
  const raw = body instanceof Uint8Array || body instanceof FormData;
  const type = body instanceof Uint8Array ? 'application/octet-stream' : 'application/json';
  try {
    const answer = await fetch(`${address}/api${path}`, {
      method,
      headers: body === undefined || body instanceof FormData ? {} : { 'content-type': type },
      body: body === undefined ? undefined : raw ? (body as FormData) : JSON.stringify(body),
    });
    return { status: answer.status, body: await answer.json() };
  } catch {
    return null;
  }
}

/** Files of a folder in which some bytes stand. */
export function filesWith(folder: string, text: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => join(folder, name))
    .filter((file) => statSync(file).isFile() && readFileSync(file).includes(text));
}

/** Whether a database is whole. */
export function isSound(file: string): boolean {
  const database = new Database(file, { readonly: true });
  try {
    return database.pragma('integrity_check', { simple: true }) === 'ok';
  } catch {
    return false;
  } finally {
    database.close();
  }
}

export const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
