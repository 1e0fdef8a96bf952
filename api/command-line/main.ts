import { type Fault, FaultError } from '../../shared/fault.ts';
import { VERSION } from '../version.ts';
import { type Command, helpOf, parseOptions } from './command.ts';
import { EXIT, type ExitCode, exitCodeOf } from './exit-codes.ts';

/** Commands by their word. Each is loaded when asked for, so that a quick one starts quickly. */
const COMMANDS: Record<string, { summary: string; load(): Promise<Command> }> = {
  analyze: {
    summary: "every ground contact of one athlete's recording, from one or two sensor files",
    load: async () => (await import('./analyze.ts')).analyzeCommand,
  },
  serve: {
    summary: 'the view and the API in a browser',
    load: async () => (await import('./serve.ts')).serveCommand,
  },
  import: {
    summary: 'sensor files into the database, one repetition or thousands',
    load: async () => (await import('./import.ts')).importCommand,
  },
  export: {
    summary: 'data for research: tidy tables or Motion-BIDS, of those who agreed',
    load: async () => (await import('./export.ts')).exportCommand,
  },
  reproduce: {
    summary: 'an exported data set analysed again and compared to the last digit',
    load: async () => (await import('./reproduce.ts')).reproduceCommand,
  },
  agreement: {
    summary: 'agreement with a force plate, photocells or video',
    load: async () => (await import('./agreement.ts')).agreementCommand,
  },
  reanalyze: {
    summary: 'stored repetitions analysed again, new compared with old',
    load: async () => (await import('./reanalyze.ts')).reanalyzeCommand,
  },
  backup: {
    summary: 'a checked copy of the whole database',
    load: async () => (await import('./backup.ts')).backupCommand,
  },
};

/**
 * Runs one command line.
 * @param words the words behind `cinderlane`
 * @returns the exit code: 0 done, 1 failed, 2 wrong usage, 3 input refused
 */
export async function main(words: string[]): Promise<ExitCode> {
  try {
    return await dispatch(words);
  } catch (error) {
    if (error instanceof FaultError) {
      printFault(error);
      return exitCodeOf(error.code);
    }
    process.stderr.write(
      `cinderlane failed: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
    );
    return EXIT.failed;
  }
}

async function dispatch(words: string[]): Promise<ExitCode> {
  const [word, ...rest] = words;
  if (word === undefined || word === '--help' || word === '-h' || word === 'help') {
    const asked = word === 'help' ? COMMANDS[rest[0] ?? ''] : undefined;
    process.stdout.write(asked ? helpOf(await asked.load()) : overview());
    return word === undefined ? EXIT.wrongUsage : EXIT.done;
  }
  if (word === '--version' || word === '-v') {
    process.stdout.write(`${VERSION}\n`);
    return EXIT.done;
  }
  const entry = Object.hasOwn(COMMANDS, word) ? COMMANDS[word] : undefined;
  if (!entry) {
    throw new FaultError({
      code: 'COMMAND_UNKNOWN',
      message: `There is no command "${word}". Nothing was done.`,
      where: { command: word },
      hint: `Commands: ${Object.keys(COMMANDS).join(', ')}. cinderlane --help says more.`,
    });
  }
  const command = await entry.load();
  if (rest.includes('--help') || rest.includes('-h')) {
    process.stdout.write(helpOf(command));
    return EXIT.done;
  }
  const { options, operands } = parseOptions(command, rest);
  return command.run(options, operands);
}

function overview(): string {
  const lines = Object.entries(COMMANDS).map(([name, { summary }]) => `  ${name.padEnd(12)} ${summary}`);
  return [
    `cinderlane ${VERSION}: ground contacts of every repetition from sensors on both shoes or shanks`,
    '',
    'cinderlane COMMAND [options]',
    '',
    ...lines,
    '',
    '  --help       this text; cinderlane COMMAND --help for one command',
    '  --version    the version',
    '',
    'Exit codes: 0 done, 1 failed, 2 wrong usage, 3 input refused.',
    '',
  ].join('\n');
}

/** A fault on standard error: what happened, then what to do. */
export function printFault(fault: Fault): void {
  process.stderr.write(`${fault.code}: ${fault.message}\n${fault.hint ? `${fault.hint}\n` : ''}`);
}
