import type { StreamSettings } from '../../../shared/schemas/stream-description.ts';
import type { PacketStream } from '../../../shared/packet-streams.ts';
import type { DecodedPacket } from '../packets/decode-packet.ts';
import { CounterReader } from './counter-reader.ts';
import { hasDrained, type HeldPacket, type Run, runsOf } from './held-packets.ts';
import { continuationOf, countOfPacket, goesOnAsBefore, onlyCountOf, PATIENCE_S, stampsGoOn } from './next-count.ts';
import { PacketGrid, type Placed } from './packet-grid.ts';
import { RepeatedPackets } from './repeated-packets.ts';
import { runsAfterStart } from './runs-after-start.ts';

/** After start was written, packets of the time before may still come for so long, seconds. */
const SETTLE_S = 0.3;
/** Packets in a row that agree with each other but not with the past: the sensor began anew. */
const AGREEING_PACKETS = 5;

/**
 * Gives each packet its place. Works from the packet's counter alone while that is unambiguous. Where it is not (a silence in
 * which it may have wrapped, a backlog longer than its wrap, a new link, a counter that contradicts stamp or arrival), packets
 * are held until what follows decides: the backlog has drained, the stamps tell, or so many agree that the sensor must have begun
 * anew. Late packets get the place they always had.
 */
export class PacketSequence {
  /** Readable packets whose counter is impossible, and packets from before the written start: none of them is used. */
  out_of_sequence_packets = 0;
  before_start_packets = 0;
  /** How often the stamps jumped while the counter went on. */
  stamp_jumps = 0;
  private readonly grid: PacketGrid;
  private readonly repeated: RepeatedPackets;
  private readonly restarts: boolean;
  private readonly rate_tolerance: number;
  private held: HeldPacket[] = [];
  private why: 'start' | 'silence' | 'doubt' = 'doubt';
  private starting: { from_s: number; started_s: number | null } | null = null;

  constructor(stream: PacketStream, settings: StreamSettings, rate_tolerance: number) {
    const reader = new CounterReader(stream, settings);
    this.grid = new PacketGrid(reader);
    this.repeated = new RepeatedPackets(reader);
    this.restarts = stream.counter?.on_start === 'restarts';
    this.rate_tolerance = rate_tolerance;
  }

  /** The true rate has been measured: a count lasts `scale` times as long as was thought. */
  rescale(scale: number): void {
    this.grid.rescale(scale);
  }

  /** What was added to the stamps to make them continuous, seconds. */
  stampShift(): number {
    return this.grid.stamp_shift_s;
  }

  /**
   * The link was made (again): the next packets may have any counter.
   * @param awaits_start true when `streamStarted` will follow, before which packets are of the time before
   */
  linkStarted(at_s: number, awaits_start = false): Placed[] {
    const out = this.finish();
    if (awaits_start || this.grid.begun) {
      this.starting = { from_s: at_s, started_s: awaits_start ? null : at_s };
      this.why = 'start';
    }
    return out;
  }

  /** Start is about to be written: what a sensor that begins anew sends from now on counts from its beginning. */
  startWritten(at_s: number): void {
    if (this.starting !== null) this.starting.from_s = at_s;
  }

  streamStarted(at_s: number): void {
    if (this.starting !== null) this.starting.started_s = at_s;
  }

  /**
   * @returns the packets whose place is known now: none while they are held, many when a question is decided; null for a packet
   * that came before
   */
  take(packet: DecodedPacket, arrival_s: number): Placed[] | null {
    const { grid } = this;
    const one: HeldPacket = { packet, arrival_s, ...grid.reader.read(packet, arrival_s) };
    if (this.repeated.see(one)) return null;
    if (this.starting !== null && grid.begun && !this.restarts && this.held.length === 0) {
      if (goesOnAsBefore(grid, one, this.rate_tolerance)) this.starting = null;
    }
    if (this.starting === null) {
      if (!grid.begun) return [grid.beginFirst(one)];
      if (this.held.length === 0 || this.why === 'doubt') {
        const count = countOfPacket(grid, one);
        if (typeof count === 'number') return [...this.dismissDoubt(), grid.accept(one, count)];
        this.why = count;
      }
    }
    this.held.push(one);
    return this.isDecided(arrival_s) ? this.decide() : [];
  }

  /** The end of the recording, or of the link: decides with what is there. */
  finish(): Placed[] {
    const out = this.held.length === 0 ? [] : this.decide();
    this.starting = null;
    return out;
  }

  /** The packet just taken continues as before: what was doubted were late or damaged ones. */
  private dismissDoubt(): Placed[] {
    const doubted = this.held;
    this.held = [];
    return doubted.flatMap((one) => {
      const count = this.grid.nearestCount(one, this.grid.last.count);
      if (!this.grid.reader.stamped && count <= this.grid.last.count) return [this.grid.accept(one, count)];
      this.out_of_sequence_packets++;
      return [];
    });
  }

  private runs(): Run[] {
    const { count_s, reader } = this.grid;
    return this.why === 'start' && this.restarts && this.starting !== null
      ? runsAfterStart(this.held, this.starting.from_s, reader.modulus, count_s)
      : runsOf(this.held, reader.modulus, count_s);
  }

  private isDecided(now_s: number): boolean {
    const { grid } = this;
    const { stamped } = grid.reader;
    if (this.why === 'start' && this.starting!.started_s === null) return false;
    const run = this.runs().at(-1)!;
    const first_s = run.packets[0].arrival_s;
    if (now_s - first_s > PATIENCE_S) return true;
    if (this.why === 'doubt') {
      const counts = run.counts[run.counts.length - 1];
      const behind = !stamped && grid.nearestCount(run.packets[0], grid.last.count) < grid.last.count;
      const own_pace = now_s - first_s > Math.max(0.3, (counts * grid.count_s) / 2);
      return run.packets.length >= AGREEING_PACKETS && (!behind || own_pace);
    }
    if (this.why === 'start' && now_s < Math.max(this.starting!.started_s!, first_s) + SETTLE_S) return false;
    return stamped || hasDrained(run, grid.count_s, grid.wrap_s);
  }

  private decide(): Placed[] {
    const { grid } = this;
    const runs = this.runs();
    const final = runs.pop()!;
    const at_start = this.why === 'start';
    this.held = [];
    this.starting = null;
    const forced = at_start && this.restarts;
    const goes_on = !grid.begun || forced ? null : continuationOf(grid, final, this.rate_tolerance);
    if (goes_on !== null && goes_on.stamp_shift_s !== null) {
      this.stamp_jumps++;
      grid.stamp_shift_s = goes_on.stamp_shift_s;
    }
    const out = runs.flatMap((run) => this.placeEarlier(run, goes_on?.count ?? null, at_start));
    if (goes_on !== null) return [...out, ...grid.acceptRun(final, goes_on.count)];
    const late_s = grid.begun ? grid.stampsLate(final) : null;
    return [...out, ...grid.beginRun(final, late_s !== null && stampsGoOn(late_s))];
  }

  /** Packets from before the run that decided: placed where only one place is possible, else counted. */
  private placeEarlier(run: Run, next_count: number | null, before_start: boolean): Placed[] {
    const count = onlyCountOf(this.grid, run, next_count);
    if (count !== null) return this.grid.acceptRun(run, count);
    if (before_start) this.before_start_packets += run.packets.length;
    else this.out_of_sequence_packets += run.packets.length;
    return [];
  }
}
