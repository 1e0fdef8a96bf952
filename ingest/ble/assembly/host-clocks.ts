import type { PacketRecord } from '../../../shared/packet-record.ts';

/** Puts arrivals of later starts of the machine, whose clocks began at 0 again, on the first one's clock. */
export class HostClocks {
  boot_id = '';
  zero_ms = 0;
  #first: { zero_s: number; boot_id: string } | null = null;
  #shift_s = 0;

  place(record: PacketRecord): number {
    const at_s = record.arrival_s + this.#shift_s;
    if (record.kind === 'event' && record.event.event === 'clock') {
      const zero_s = record.event.utc_ms / 1000 - record.event.monotonic_s;
      this.boot_id = record.event.boot_id;
      this.zero_ms = 1000 * zero_s;
      this.#first ??= { zero_s, boot_id: this.boot_id };
      this.#shift_s = this.boot_id === this.#first.boot_id ? 0 : zero_s - this.#first.zero_s;
    }
    return at_s;
  }
}
