import { closeSync, fdatasync, fdatasyncSync, ftruncateSync, fstatSync, openSync, writeSync } from 'node:fs';
import { encodeRecord, type PacketRecord } from '../../../shared/packet-record.ts';

/** A power cut loses at most this much; a killed process loses nothing that was written. */
const SYNC_MS = 1000;
const RETRY_MS = 500;
/** What waits in memory while the disk is full: some 40 minutes of one sensor. */
const WAITING_LIMIT_BYTES = 32 * 1024 * 1024;

/** The parts of node:fs used, so that tests can fill the disk at will. */
export interface DiskWrites {
  write(fd: number, bytes: Uint8Array): number;
}

/**
 * One sensor's append-only packet log. Every record is written with one system call the moment it arrives, before anything
 * else is done with it: from then on it outlives the process. Once a second the file is synchronised (fdatasync), so that a
 * power cut costs at most that second. A full disk is told, and records wait in memory until there is room.
 */
export class PacketLogWriter {
  private readonly fd: number;
  private readonly disk: DiskWrites;
  private good_bytes: number;
  private waiting: Uint8Array[] = [];
  private waiting_bytes = 0;
  private dropped = 0;
  private failure = '';
  private last_try_ms = 0;
  private dirty = false;
  private syncing = false;
  private readonly timer: NodeJS.Timeout;
  /** Records lost because the disk was full and the memory for waiting was used up. */
  get lost_records(): number {
    return this.dropped;
  }

  /** @param good_bytes what a torn tail is cut to when a log is opened again; the file's length without it */
  constructor(file: string, good_bytes?: number, disk: DiskWrites = { write: (fd, bytes) => writeSync(fd, bytes) }) {
    this.fd = openSync(file, 'a');
    this.disk = disk;
    this.good_bytes = good_bytes ?? fstatSync(this.fd).size;
    ftruncateSync(this.fd, this.good_bytes);
    this.timer = setInterval(() => this.tend(), SYNC_MS);
    this.timer.unref();
  }

  /** Empty while all is well, else why nothing can be written. */
  get problem(): string {
    return this.failure;
  }

  get waiting_records(): number {
    return this.waiting.length;
  }

  append(record: PacketRecord): void {
    const bytes = encodeRecord(record);
    if (this.waiting.length === 0 && this.write(bytes)) return;
    if (this.waiting_bytes + bytes.length > WAITING_LIMIT_BYTES) {
      this.dropped++;
      return;
    }
    this.waiting.push(bytes);
    this.waiting_bytes += bytes.length;
    this.retry();
  }

  /** Tries at once to write what waits. @returns true when nothing waits any more */
  flush(): boolean {
    this.last_try_ms = 0;
    this.retry();
    return this.waiting.length === 0;
  }

  /** Writes what can still be written, and synchronises; what waits then is lost. */
  close(): void {
    clearInterval(this.timer);
    this.flush();
    if (this.dirty) fdatasyncSync(this.fd);
    closeSync(this.fd);
  }

  private tend(): void {
    this.retry();
    if (!this.dirty || this.syncing) return;
    this.syncing = true;
    this.dirty = false;
    fdatasync(this.fd, (error) => {
      this.syncing = false;
      if (error !== null) this.failure = error.message;
    });
  }

  private retry(): void {
    const now_ms = performance.now();
    if (this.waiting.length === 0 || (this.last_try_ms > 0 && now_ms - this.last_try_ms < RETRY_MS)) return;
    this.last_try_ms = now_ms;
    let written = 0;
    while (written < this.waiting.length && this.write(this.waiting[written])) {
      this.waiting_bytes -= this.waiting[written].length;
      written++;
    }
    this.waiting = this.waiting.slice(written);
  }

  private write(bytes: Uint8Array): boolean {
    try {
      const written = this.disk.write(this.fd, bytes);
      if (written < bytes.length) throw new Error('ENOSPC: the disk took only a part');
      this.good_bytes += bytes.length;
      this.dirty = true;
      this.failure = '';
      return true;
    } catch (error) {
      this.failure = (error as Error).message;
      // Take back a part that was written, so that the next record starts clean.
      try {
        ftruncateSync(this.fd, this.good_bytes);
      } catch {
        // The reader skips damage; nothing better can be done here.
      }
      return false;
    }
  }
}
