import { main } from '../../../api/command-line/main.ts';

export interface CommandEnd {
  exit_code: number;
  stdout: string;
  stderr: string;
}

/** Runs a command line in this process and catches what it prints. */
export async function runCommand(words: string[]): Promise<CommandEnd> {
  const caught = { stdout: '', stderr: '' };
  const real = { stdout: process.stdout.write, stderr: process.stderr.write };
  for (const name of ['stdout', 'stderr'] as const) {
    process[name].write = ((text: string | Uint8Array) => {
      caught[name] += String(text);
      return true;
    }) as typeof process.stdout.write;
  }
  try {
    const exit_code = await main(words);
    return { exit_code, ...caught };
  } finally {
    process.stdout.write = real.stdout;
    process.stderr.write = real.stderr;
  }
}
