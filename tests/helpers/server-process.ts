import { type ChildProcess, spawn } from 'node:child_process';

/** Enough of what a server said to see why it ended. */
const SAID_CHARACTERS = 2000;
/** A start that takes longer has failed, on the busiest machine. */
const START_MS = 120_000;

/** The real server as a process of its own, to be killed. */
export class ServerProcess {
  private static readonly running = new Set<ServerProcess>();
  readonly address: string;
  private readonly child: ChildProcess;

  private constructor(child: ChildProcess, address: string) {
    this.child = child;
    this.address = address;
    ServerProcess.running.add(this);
    child.once('exit', () => ServerProcess.running.delete(this));
  }

  /** Starts it on a free port and waits until it listens. @param words more options of `serve` */
  static async start(
    data_folder: string,
    env: Record<string, string> = {},
    words: string[] = [],
  ): Promise<ServerProcess> {
    const child = spawn(
      process.execPath,
      ['api/command-line/cinderlane.mjs', 'serve', '--port', '0', '--data', data_folder, ...words],
      { env: { ...process.env, ...env }, stdio: ['ignore', 'pipe', 'pipe'] },
    );
    let said = '';
    child.stderr!.on('data', (bytes: Buffer) => {
      said = (said + bytes.toString()).slice(-SAID_CHARACTERS);
      process.stderr.write(bytes);
    });
    const address = await new Promise<string>((resolve, reject) => {
      const limit = setTimeout(() => child.kill('SIGKILL'), START_MS).unref();
      child.once('close', () => clearTimeout(limit));
      // When its output has come to the end, so that what it said is whole.
      child.once('close', (code, signal) =>
        reject(new Error(`the server did not start (${signal ?? code}): ${said.trim() || 'it said nothing'}`)),
      );
      let text = '';
      child.stdout!.on('data', (bytes: Buffer) => {
        text += bytes.toString();
        const found = /http:\/\/\S+/.exec(text);
        if (!found) return;
        clearTimeout(limit);
        resolve(found[0]);
      });
    });
    return new ServerProcess(child, address);
  }

  /** Kills every one that was started and not ended, as where a test broke off. */
  static async killAll(): Promise<void> {
    await Promise.all([...ServerProcess.running].map((server) => server.kill()));
  }

  get pid(): number {
    return this.child.pid!;
  }

  /** As a power cut of the process: nothing can be tidied up. */
  kill(): Promise<void> {
    return this.end('SIGKILL');
  }

  close(): Promise<void> {
    return this.end('SIGTERM');
  }

  private async end(signal: 'SIGKILL' | 'SIGTERM'): Promise<void> {
    if (this.child.exitCode !== null || this.child.signalCode !== null) return;
    const ended = new Promise((resolve) => this.child.once('exit', resolve));
    this.child.kill(signal);
    await ended;
  }
}
