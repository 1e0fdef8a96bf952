import { execFile, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pythonClient } from '../../api/packaging/clients/python-client.ts';
import { rClient } from '../../api/packaging/clients/r-client.ts';
import { type Operation, readOperations } from '../../api/packaging/clients/read-operations.ts';
import { stepsCsv } from '../../api/measuring/steps-csv.ts';
import { listContacts } from '../../api/store/analyses.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';
import { openTestApi, type TestApi } from '../helpers/test-api.ts';

let api: TestApi;
let operations: Operation[];
let server: string;
let folder: string;
beforeAll(async () => {
  api = await openTestApi();
  server = await api.app.listen({ port: 0, host: '127.0.0.1' });
  operations = readOperations(api.app.swagger());
  folder = mkdtempSync(join(tmpdir(), 'cinderlane-clients-'));
  const { left, right } = sprintFiles();
  const write = (name: string, text: string) => writeFileSync(join(folder, name), text);
  write('left.csv', left);
  write('right.csv', right);
  write('cinderlane.py', pythonClient(operations, 'test'));
  write('cinderlane.R', rClient(operations, 'test'));
});
afterAll(async () => {
  await api.close();
  rmSync(folder, { recursive: true });
});

/** The lines of the README in a language. */
function lines(language: string): string {
  const text = readFileSync('api/packaging/clients/README.md', 'utf8');
  return new RegExp(`\`\`\`${language}\\n([\\s\\S]*?)\`\`\``).exec(text)![1];
}

const has = (program: string, words: string[]) => spawnSync(program, words).status === 0;

/** Runs a program beside the server, which answers meanwhile. @returns what it printed */
async function run(program: string, words: string[]): Promise<string> {
  const { stdout } = await promisify(execFile)(program, words, { cwd: folder, timeout: 100_000 });
  return stdout;
}

function latestSteps(): string {
  const { analysis_id } = api.store.prepare('SELECT max(analysis_id) AS analysis_id FROM analyses').get() as {
    analysis_id: number;
  };
  return stepsCsv(listContacts(api.store, analysis_id));
}

describe('the description of the API', () => {
  it('gives every operation an id of its own and a summary, and every upload its body', () => {
    const ids = operations.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.every((id) => /^[a-z][A-Za-z]+$/.test(id))).toBe(true);
    expect(operations.filter(({ summary }) => !/^[A-Z].{5,}/.test(summary ?? ''))).toEqual([]);
    const upload = operations.find(({ id }) => id === 'uploadImport')!;
    expect(upload.body).toMatchObject({ kind: 'form', files: ['left', 'right', 'file'] });
    for (const id of ['uploadTimings', 'setRatingPhoto', 'sendBrowserPackets'])
      expect(operations.find((operation) => operation.id === id)?.body).toMatchObject({ kind: 'bytes' });
  });

  it('refuses a parameter that an operation does not have, and names it', async () => {
    const { status, body } = await api.call('GET', '/athletes?colour=red');
    expect(status).toBe(400);
    expect(body).toMatchObject({ code: 'REQUEST_INVALID', where: { field: 'colour' } });
  });

  it('hands out lists in pages, with how many there are', async () => {
    for (const name of ['one', 'two', 'three']) await api.call('POST', '/athletes', { name });
    const all = (await api.call('GET', '/athletes')).body.items;
    const page = (await api.call('GET', '/athletes?limit=2&offset=1')).body;
    expect(page).toEqual({ items: all.slice(1, 3), total: all.length });
    expect((await api.call('GET', '/athletes?limit=0')).status).toBe(400);
    expect((await api.call('GET', '/athletes?limit=1001')).status).toBe(400);
  });
});

describe('ten lines that upload a pair, wait and fetch contacts', () => {
  it('are ten in each language', () => {
    for (const language of ['python', 'r']) expect(lines(language).trim().split('\n').length).toBeLessThanOrEqual(10);
  });

  // Outside check: programs that are not ours, Debian's Python with requests and R with httr and jsonlite.
  it('run from Python and bring the contacts that are stored', async (context) => {
    if (!has('/usr/bin/python3', ['-c', 'import requests']))
      return context.skip('no Python with requests: install python3-requests');
    writeFileSync(join(folder, 'ten.py'), `server = "${server}"\n${lines('python')}`);
    expect((await run('/usr/bin/python3', ['ten.py'])).trim()).toBe(latestSteps().trim());
  }, 120_000);

  it('say in Python what the server refused', async (context) => {
    if (!has('/usr/bin/python3', ['-c', 'import requests']))
      return context.skip('no Python with requests: install python3-requests');
    const script = `import cinderlane as c\nc.base = "${server}"\ntry:\n    c.get_athlete(999999)\nexcept c.Fault as fault:\n    print(fault.code)`;
    expect((await run('/usr/bin/python3', ['-c', script])).trim()).toBe('ATHLETE_NOT_FOUND');
  });

  it('run from R and bring as many contacts, with the same contact times', async (context) => {
    if (!has('Rscript', ['-e', 'library(httr);library(jsonlite)']))
      return context.skip('no R with httr: install r-cran-httr r-cran-jsonlite');
    writeFileSync(join(folder, 'ten.R'), `server <- "${server}"\n${lines('r')}`);
    const [header, ...rows] = (await run('Rscript', ['ten.R'])).trim().replaceAll('"', '').split('\n');
    const [wanted_header, ...wanted] = latestSteps().trim().split('\n');
    const column = (head: string, of: string[]) =>
      of.map((row) => Number(row.split(',')[head.split(',').indexOf('contact_time_ms')]));
    expect(column(header, rows)).toEqual(column(wanted_header, wanted));
    expect(rows.length).toBeGreaterThan(10);
  }, 120_000);
});
