import { parseArgs } from 'node:util';
import { type CodedFault, FaultError, fault } from '../../shared/fault.ts';
import type { ExitCode } from './exit-codes.ts';

export interface OptionDefinition {
  /** Placeholder of the value in the help; absent for a switch. */
  value?: string;
  /** May be given several times. */
  multiple?: boolean;
  required?: boolean;
  /** One of these words. */
  words?: readonly string[];
  help: string;
}

export type OptionValues = Record<string, string | string[] | boolean | undefined>;

/** Loads a file of this folder. Given by cinderlane.mjs, which knows whether sources or what was built from them lie here. */
export type LoadFile = (file: string) => unknown;

/** One word of the command line. */
export interface Command {
  name: string;
  summary: string;
  /** Placeholder of the arguments without a name; absent when there are none. */
  operands?: string;
  options: Record<string, OptionDefinition>;
  /** More lines of help. */
  details?: string;
  /** @param load for what only one of its actions needs */
  run(options: OptionValues, operands: string[], load: LoadFile): Promise<ExitCode>;
}

/**
 * Reads the words behind a command by its definition.
 * @throws FaultError OPTION_UNKNOWN, OPTION_MISSING or OPTION_UNREADABLE
 */
export function parseOptions(command: Command, words: string[]): { options: OptionValues; operands: string[] } {
  const known = Object.fromEntries(
    Object.entries(command.options).map(([name, option]) => [
      name,
      { type: option.value ? ('string' as const) : ('boolean' as const), multiple: option.multiple ?? false },
    ]),
  );
  const { tokens } = parseArgs({ args: words, options: known, strict: false, allowPositionals: true, tokens: true });
  const options: OptionValues = {};
  const operands: string[] = [];
  for (const token of tokens) {
    if (token.kind === 'positional') {
      if (!command.operands)
        throw usage(
          command,
          token.value,
          fault('OPTION_UNKNOWN.operand', { command: command.name, word: token.value }),
        );
      operands.push(token.value);
    }
    if (token.kind === 'option') {
      // An option in the place of a value means that the value was forgotten.
      const forgotten = !token.inlineValue && token.value?.startsWith('--');
      takeOption(command, options, token.name, token.rawName, forgotten ? undefined : token.value);
    }
  }
  for (const [name, option] of Object.entries(command.options)) {
    if (option.required && options[name] === undefined) {
      const values = { command: command.name, option: `--${name} ${option.value ?? ''}`.trimEnd() };
      throw usage(command, `--${name}`, fault('OPTION_MISSING.option', values));
    }
  }
  return { options, operands };
}

function takeOption(command: Command, options: OptionValues, name: string, rawName: string, value?: string): void {
  const option = command.options[name];
  const told = { command: command.name, option: rawName };
  if (!option)
    throw usage(command, rawName, fault('OPTION_UNKNOWN.option', { command: command.name, option: rawName }));
  if (!option.value) {
    if (value !== undefined) throw usage(command, rawName, fault('OPTION_UNREADABLE.no_value', told));
    options[name] = true;
    return;
  }
  if (value === undefined)
    throw usage(command, rawName, fault('OPTION_MISSING.value', { ...told, value: option.value }));
  if (option.words && !option.words.includes(value)) {
    throw usage(command, rawName, fault('OPTION_UNREADABLE.choice', { ...told, value, words: [...option.words] }));
  }
  if (!option.multiple && options[name] !== undefined) {
    throw usage(command, rawName, fault('OPTION_UNREADABLE.twice', told));
  }
  options[name] = option.multiple ? [...((options[name] as string[] | undefined) ?? []), value] : value;
}

/**
 * The text of an option that one action of a command cannot do without.
 * @param command with the action: `archive query`
 * @param value what is told to stand behind it, such as FILE
 * @throws FaultError OPTION_MISSING
 */
export function neededOption(options: OptionValues, command: string, name: string, value: string): string {
  const text = options[name] as string | undefined;
  if (text !== undefined) return text;
  const option = `--${name}`;
  throw new FaultError(fault('OPTION_MISSING.option', { command, option: `${option} ${value}` }, { option }));
}

/** Wrong usage of a command, with the place of it. */
function usage(command: Command, word: string, made: CodedFault): FaultError {
  return new FaultError({ ...made, where: { command: command.name, option: word } });
}

/** Help text of one command. */
export function helpOf(command: Command): string {
  const lines = Object.entries(command.options).map(([name, option]) => {
    const left = `  --${name}${option.value ? ` ${option.value}` : ''}`;
    const marks = [option.required ? 'needed' : '', option.multiple ? 'may be repeated' : '']
      .filter(Boolean)
      .join(', ');
    return `${left.padEnd(34)} ${option.help}${marks ? ` (${marks})` : ''}`;
  });
  return [
    `cinderlane ${command.name}${command.operands ? ` ${command.operands}` : ''} [options]`,
    '',
    command.summary,
    '',
    ...lines,
    ...(command.details ? ['', command.details] : []),
    '',
  ].join('\n');
}

/** A whole number from 1 to 10 000. @throws FaultError OPTION_UNREADABLE */
export function wholeNumber(options: OptionValues, name: string, usual: number): number {
  const text = options[name] as string | undefined;
  if (text === undefined) return usual;
  if (/^\d{1,5}$/.test(text) && Number(text) >= 1 && Number(text) <= 10_000) return Number(text);
  const option = `--${name}`;
  throw new FaultError(fault('OPTION_UNREADABLE.whole_number', { option, text }, { option, value: text }));
}
