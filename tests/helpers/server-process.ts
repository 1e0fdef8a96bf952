import { type ChildProcess, spawn } from 'node:child_process';

/** The real server as a process of its own, to be killed. */
export class ServerProcess {
  readonly address: string;
  private readonly child: ChildProcess;

  private constructor(child: ChildProcess, address: string) {
    this.child = child;
    this.address = address;
  }

  /** Starts it on a free port and waits until it listens. */
  static async start(data_folder: string, env: Record<string, string> = {}): Promise<ServerProcess> {
    const child = spawn(
      process.execPath,
      ['api/command-line/cinderlane.mjs', 'serve', '--port', '0', '--data', data_folder],
      { env: { ...process.env, ...env }, stdio: ['ignore', 'pipe', 'inherit'] },
    );
    const address = await new Promise<string>((resolve, reject) => {
      child.once('exit', (code) => reject(new Error(`the server ended with ${code}`)));
      let text = '';
      child.stdout!.on('data', (bytes: Buffer) => {
        text += bytes.toString();
        const found = /http:\/\/\S+/.exec(text);
        if (found) resolve(found[0]);
      });
    });
    return new ServerProcess(child, address);
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
