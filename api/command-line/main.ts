import { FaultError, fault } from '../../shared/fault.ts';
import { VERSION } from '../version.ts';
import { databaseProblem } from './check-machine.mjs';
import { type Command, helpOf, type LoadFile, parseOptions } from './command.ts';
import { printFault } from './print-fault.ts';
import { EXIT, type ExitCode, exitCodeOf } from './exit-codes.ts';

/** Commands by their word: command `analyze` is `analyzeCommand` of `analyze.ts`, loaded when asked for, so that a quick one starts quickly. */
const SUMMARIES: Record<string, string> = {
  analyze: "every ground contact of one athlete's recording, from one or two sensor files",
  serve: 'the view and the API in a browser',
  import: 'sensor files into the database, one repetition or thousands',
  export: 'data for research: tidy tables or Motion-BIDS, of those who agreed',
  reproduce: 'an exported data set analysed again and compared to the last digit',
  agreement: 'agreement with a force plate, photocells or video',
  captures: 'what was recorded by radio: list, analyse again, export, delete',
  reanalyze: 'stored repetitions analysed again, new compared with old',
  backup: 'a checked copy of the whole database, sealed with a passphrase where asked for',
  archive: "a programme's archive: what was measured in many clubs",
  work: 'a worker of an archive: stored repetitions analysed again by many machines',
  restore: 'a backup put in the place of the database',
};

/** The words that name a command, and the files of this folder that hold them. */
export const COMMAND_NAMES: readonly string[] = Object.keys(SUMMARIES);

/** Files of this folder that a command loads only for one of its actions; each is built as a command is. */
export const LOADED_BY_COMMANDS: readonly string[] = ['archive-serve'];

/**
 * Runs one command line.
 * @param words the words behind `cinderlane`
 * @returns the exit code: 0 done, 1 failed, 2 wrong usage, 3 input refused
 */
export async function main(words: string[], load: LoadFile = (file) => import(file)): Promise<ExitCode> {
  try {
    return await dispatch(words, load);
  } catch (error) {
    if (error instanceof FaultError) {
      printFault(error.fault);
      return exitCodeOf(error.code);
    }
    if (isLibraryMissing(error)) {
      process.stderr.write(`${databaseProblem() ?? String(error)}\n`);
      return EXIT.failed;
    }
    process.stderr.write(
      `cinderlane failed: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
    );
    return EXIT.failed;
  }
}

async function dispatch(words: string[], load: LoadFile): Promise<ExitCode> {
  const [word, ...rest] = words;
  if (word === undefined || word === '--help' || word === '-h' || word === 'help') {
    const asked = word === 'help' && isCommand(rest[0]) ? await loadCommand(rest[0], load) : undefined;
    process.stdout.write(asked ? helpOf(asked) : overview());
    return word === undefined ? EXIT.wrongUsage : EXIT.done;
  }
  if (word === '--version' || word === '-v') {
    process.stdout.write(`${VERSION}\n`);
    return EXIT.done;
  }
  if (!isCommand(word)) {
    throw new FaultError(fault('COMMAND_UNKNOWN', { word, commands: COMMAND_NAMES }, { command: word }));
  }
  const command = await loadCommand(word, load);
  if (rest.includes('--help') || rest.includes('-h')) {
    process.stdout.write(helpOf(command));
    return EXIT.done;
  }
  const { options, operands } = parseOptions(command, rest);
  return command.run(options, operands, load);
}

/** Whether a library could not be loaded; the database's is the one that a machine may fail to build. */
function isLibraryMissing(error: unknown): boolean {
  const { code = '', message = '' } = error as NodeJS.ErrnoException;
  return ['ERR_MODULE_NOT_FOUND', 'MODULE_NOT_FOUND', 'ERR_DLOPEN_FAILED'].includes(code) || /bindings/.test(message);
}

function isCommand(word: string | undefined): word is string {
  return word !== undefined && Object.hasOwn(SUMMARIES, word);
}

async function loadCommand(word: string, load: LoadFile): Promise<Command> {
  const exported = (await load(`./${word}.ts`)) as Record<string, Command>;
  return exported[`${word}Command`];
}

function overview(): string {
  const lines = Object.entries(SUMMARIES).map(([name, summary]) => `  ${name.padEnd(12)} ${summary}`);
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
