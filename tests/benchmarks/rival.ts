import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface, type Interface } from 'node:readline';
import { pythonWithScipy } from '../helpers/scipy.ts';

/** What one run of something took. `cpu_s` is the time of processors, which does not mind what else the machine does. */
export interface Taken {
  wall_s: number;
  cpu_s: number;
  /** What the work answered. */
  answer?: unknown;
}

/** Asks for the pieces of work by name, and answers with what each took. */
const LOOP = `
import json as _json, sys as _sys, time as _time
print('ready', flush=True)
for _line in _sys.stdin:
    _work = globals()[_line.strip()]
    _wall, _cpu = _time.perf_counter(), _time.process_time()
    _answer = _work()
    _wall, _cpu = _time.perf_counter() - _wall, _time.process_time() - _cpu
    _answer = _answer if isinstance(_answer, dict) else None
    print(_json.dumps({'wall_s': _wall, 'cpu_s': _cpu, 'answer': _answer}), flush=True)
`;

/**
 * A reference library in a Python process of its own that stays up, so that its work and ours can be timed in turn in the same run.
 * One thread: its linear algebra may not take a second processor.
 */
export class Rival {
  readonly #python: ChildProcess;
  readonly #lines: AsyncIterator<string>;
  readonly #reader: Interface;

  private constructor(script: string, args: string[]) {
    const python = pythonWithScipy();
    if (python === null) throw new Error('No Python with SciPy here (Debian: python3-scipy python3-pandas).');
    this.#python = spawn(python, ['-c', `${script}\n${LOOP}`, ...args], {
      stdio: ['pipe', 'pipe', 'inherit'],
      env: { ...process.env, OMP_NUM_THREADS: '1', OPENBLAS_NUM_THREADS: '1' },
    });
    this.#reader = createInterface({ input: this.#python.stdout! });
    this.#lines = this.#reader[Symbol.asyncIterator]();
  }

  /**
   * @param script defines functions without arguments, which `time` asks for by their names; `sys.argv[1:]` are `args`
   */
  static async start(script: string, args: string[] = []): Promise<Rival> {
    const rival = new Rival(script, args);
    await rival.#line();
    return rival;
  }

  /** Runs one of the script's functions. */
  async time(name: string): Promise<Taken> {
    this.#python.stdin!.write(`${name}\n`);
    return JSON.parse(await this.#line()) as Taken;
  }

  async close(): Promise<void> {
    const ended = once(this.#python, 'exit');
    this.#python.stdin!.end();
    await ended;
  }

  async #line(): Promise<string> {
    const { value, done } = await this.#lines.next();
    if (done) throw new Error('the Python process ended');
    return value;
  }
}
