import { encodeRecord, type LogHeader, type PacketRecord } from '../../../shared/packet-record.ts';

/** The last minutes of a sensor's records in memory, to cut a repetition from. */
export class RecentRecords {
  private records: PacketRecord[] = [];
  private head = 0;
  private readonly keep_s: number;

  constructor(keep_s: number) {
    this.keep_s = keep_s;
  }

  add(record: PacketRecord): void {
    this.records.push(record);
    while (this.records[this.head].arrival_s < record.arrival_s - this.keep_s) this.head++;
    if (this.head > 1000 && this.head > this.records.length / 2) {
      this.records = this.records.slice(this.head);
      this.head = 0;
    }
  }

  get length(): number {
    return this.records.length - this.head;
  }

  /**
   * A packet log of its own that holds the records between two host times: what a repetition is stored with.
   * @param clock the reading of both clocks that the excerpt is dated by
   */
  excerpt(header: LogHeader, clock: PacketRecord, from_s: number, to_s: number): Uint8Array {
    const wanted = this.records
      .slice(this.head)
      .filter((record) => record.arrival_s >= from_s && record.arrival_s <= to_s);
    return Buffer.concat([{ kind: 'header' as const, arrival_s: from_s, header }, clock, ...wanted].map(encodeRecord));
  }
}
