import { phrasesOf } from '../../app/language.ts';
import { liveWords } from '../../../shared/messages/en/view/live.ts';
import { type Notice, notice } from '../../../shared/notice.ts';
import { encodeRecord } from '../../../shared/packet-record.ts';
import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';
import { type StreamWrite, streamWrites } from '../../../shared/stream-writes.ts';
import { dataCharacteristics } from '../../../shared/packet-streams.ts';
import { stayAwake } from '../../app/stay-awake.ts';
import { live } from './live-api.ts';
import { Outbox } from './outbox.ts';

const t = phrasesOf('live', liveWords);

const PAGE = Math.random().toString(36).slice(2);
const BACK_OFF_MS = [300, 1000, 2500, 5000];
/** A browser that connects several sensors one after the other lets go of one now and then. */
const FIRST_TRIES = 3;
/** Longer than any sensor takes; a connection that hangs says nothing by itself. */
const OPEN_MS = 30_000;
const LOOK_MS = 1000;
/** Silence of a connected sensor that is told, and after which it is connected anew. */
const SILENT_MS = 3000;
const GIVE_UP_MS = 8000;

/** Whether this browser can reach sensors by itself, and if not, why. */
export function browserRadio(): { usable: boolean; why: string } {
  if (!window.isSecureContext) {
    return {
      usable: false,
      why: t('browsers_allow_bluetooth_only_on'),
    };
  }
  if (!('bluetooth' in navigator)) {
    return {
      usable: false,
      why: t('this_browser_has_no_web'),
    };
  }
  return { usable: true, why: '' };
}

/** A sensor that this browser holds by Web Bluetooth: its packets go to the server as they come. */
export class BrowserSensor {
  readonly sensor_id: string;
  readonly name: string;
  words = t('connecting');
  readonly device: BluetoothDevice;
  private readonly descriptions: StreamDescription[];
  private readonly outbox: Outbox;
  private readonly changed: () => void;
  private description: StreamDescription | null = null;
  private settings: StreamSettings | null = null;
  private battery_percent: number | null = null;
  private server: BluetoothRemoteGATTServer | null = null;
  private wanted = true;
  /** It has been connected once: from then on a lost link is made again for as long as it is wanted. */
  private opened = false;
  /** When it last sent something, or was connected. */
  private heard_ms = 0;
  private silent = false;
  private readonly watch = setInterval(() => this.look(), LOOK_MS);
  /** Lets the screen go dark again; null while this sensor does not hold it on. */
  private letSleep: (() => void) | null = null;

  /** Asks the user to choose a sensor. @throws when nothing is chosen */
  static async choose(descriptions: StreamDescription[]): Promise<BluetoothDevice> {
    return navigator.bluetooth.requestDevice({
      // Many sensors do not advertise their service: the beginning of their name finds them as well.
      filters: descriptions.flatMap(({ service_uuid, advertised_name_prefix }) => [
        { services: [service_uuid] },
        { namePrefix: advertised_name_prefix },
      ]),
      optionalServices: ['battery_service', ...new Set(descriptions.flatMap(servicesOf))],
    });
  }

  constructor(
    device: BluetoothDevice,
    descriptions: StreamDescription[],
    capturing: () => boolean,
    changed: () => void,
  ) {
    this.device = device;
    this.descriptions = descriptions;
    this.changed = changed;
    this.name = device.name ?? t('sensor_2');
    this.sensor_id = `browser-${device.id.replace(/[^A-Za-z0-9]/g, '').slice(0, 40)}`;
    this.outbox = new Outbox({
      sensor_id: this.sensor_id,
      page: PAGE,
      wanted: capturing,
      announce: () => this.announce(),
    });
    device.addEventListener('gattserverdisconnected', () => this.lost());
  }

  /** Connects for the first time, again where the radio lets go. @throws when the sensor does not answer */
  async open(): Promise<void> {
    for (let tries = 1; ; tries++) {
      try {
        await within(this.connect(), OPEN_MS, () => new DOMException(t('sensor_did_not_answer'), 'NetworkError'));
        this.opened = true;
        return;
      } catch (error) {
        this.device.gatt?.disconnect();
        if (tries === FIRST_TRIES || (error as Error).name !== 'NetworkError') throw error;
        await pause(BACK_OFF_MS[tries - 1]);
      }
    }
  }

  /** Connects, tells the server, starts the stream. */
  private async connect(): Promise<void> {
    const server = await this.device.gatt!.connect();
    const { description } = await this.findService(server);
    this.description = description;
    this.battery_percent = await readBattery(server);
    await this.announce();
    this.settings ??= (await live.place(this.sensor_id, { name: this.name, description_id: description.id })).settings;
    this.record({ kind: 'event', arrival_s: now(), event: { event: 'link_started', awaits_start: true } });
    this.server = server;
    for (const [source, one] of dataCharacteristics(description).entries()) {
      const data = await this.characteristic(one.service_uuid, one.characteristic_uuid);
      data.addEventListener('characteristicvaluechanged', () => {
        const value = data.value!;
        this.heard();
        const bytes = new Uint8Array(value.buffer.slice(value.byteOffset, value.byteOffset + value.byteLength));
        this.record({ kind: 'packet', arrival_s: now(), bytes, source });
      });
      await data.startNotifications();
    }
    await this.setUp();
    // A phone whose screen goes dark stops its radio.
    this.letSleep ??= stayAwake();
    this.heard_ms = performance.now();
    this.say(t('connected_to_this_browser'));
  }

  private heard(): void {
    this.heard_ms = performance.now();
    if (!this.silent) return;
    this.silent = false;
    this.say(t('connected_to_this_browser'));
  }

  /** A sensor that is connected and sends nothing: it is said, and the link is made anew. */
  private look(): void {
    if (!this.opened || !this.device.gatt?.connected) return;
    const silent_ms = performance.now() - this.heard_ms;
    if (silent_ms <= SILENT_MS) return;
    this.silent = true;
    this.say(t('connected_but_no_data_for', { seconds: Math.round(silent_ms / 1000) }));
    if (silent_ms > GIVE_UP_MS) this.device.gatt.disconnect();
  }

  /** Writes rate and ranges anew when they were changed on the page; what came before is then of no use. */
  async useSettings(settings: StreamSettings): Promise<void> {
    if (this.settings === null || JSON.stringify(settings) === JSON.stringify(this.settings)) return;
    this.settings = settings;
    if (!this.device.gatt?.connected) return;
    try {
      await this.setUp();
      this.outbox.clear();
    } catch (error) {
      this.say(t('rate_and_ranges_could_not', { message: (error as Error).message }));
    }
  }

  private async setUp(): Promise<void> {
    const { set_up, start } = streamWrites(this.description!, this.settings!);
    await this.run(set_up);
    this.record({ kind: 'event', arrival_s: now(), event: { event: 'start_written' } });
    await this.run(start);
    this.record({ kind: 'event', arrival_s: now(), event: { event: 'stream_started' } });
  }

  /** Makes writes in order, with their answers and pauses. @throws Error when an answer stays away */
  private async run(writes: StreamWrite[]): Promise<void> {
    for (const { service_uuid, characteristic_uuid, with_response, bytes, answer, then_wait_s } of writes) {
      const control = await this.characteristic(service_uuid, characteristic_uuid);
      const answered = answer === null ? null : await this.awaitAnswer(answer);
      const value = bytes(Date.now()) as BufferSource;
      await (with_response ? control.writeValueWithResponse(value) : control.writeValueWithoutResponse(value));
      await answered?.();
      if (then_wait_s > 0) await pause(then_wait_s * 1000);
    }
  }

  private async awaitAnswer(answer: NonNullable<StreamWrite['answer']>): Promise<() => Promise<void>> {
    const from = await this.characteristic(answer.service_uuid, answer.characteristic_uuid);
    const told = new Promise<void>((resolve) => {
      from.addEventListener('characteristicvaluechanged', () => {
        if ([...answer.begins_with].every((byte, i) => from.value!.getUint8(i) === byte)) resolve();
      });
    });
    const { within_s } = answer;
    const coming = within(told, within_s * 1000, () => new Error(t('no_answer_within', { within_s })));
    coming.catch(() => {});
    await from.startNotifications();
    return () => coming;
  }

  private async characteristic(service_uuid: string, characteristic_uuid: string) {
    return (await this.server!.getPrimaryService(service_uuid)).getCharacteristic(characteristic_uuid);
  }

  close(): void {
    const held = this.opened && this.wanted;
    this.wanted = false;
    clearInterval(this.watch);
    this.letSleep?.();
    this.letSleep = null;
    this.device.gatt?.disconnect();
    if (held) this.lostBy(notice('let_go_by_page'));
    this.outbox.leave();
    this.outbox.close();
    this.say(t('was_let_go'));
  }

  private async findService(server: BluetoothRemoteGATTServer) {
    for (const description of this.descriptions) {
      const service = await server.getPrimaryService(description.service_uuid).catch(() => null);
      if (service !== null) return { description };
    }
    throw new Error(t('no_known_service'));
  }

  private async announce(): Promise<void> {
    const { description, name, battery_percent } = this;
    // Before the first connection there is nothing to announce.
    if (description === null) return;
    await live.announce(this.sensor_id, { name, service_uuid: description.service_uuid, battery_percent });
  }

  private lost(): void {
    if (!this.opened || !this.wanted) return;
    const { silent } = this;
    this.silent = false;
    this.lostBy(silent ? notice('no_data_for', { seconds: GIVE_UP_MS / 1000 }) : notice('link_to_browser_broke'));
    this.say(t(silent ? 'no_data_connecting_again' : 'link_lost_connecting_again'));
    void this.openAgain(0);
  }

  private lostBy(reason: Notice): void {
    this.record({ kind: 'event', arrival_s: now(), event: { event: 'link_lost', reason } });
  }

  private async openAgain(tries: number): Promise<void> {
    await pause(BACK_OFF_MS[Math.min(tries, BACK_OFF_MS.length - 1)]);
    if (!this.wanted || this.device.gatt?.connected) return;
    try {
      await this.connect();
    } catch {
      void this.openAgain(tries + 1);
    }
  }

  private record(record: Parameters<typeof encodeRecord>[0]): void {
    this.outbox.add(encodeRecord(record));
  }

  private say(words: string): void {
    this.words = words;
    this.changed();
  }
}

/** Every service that a description reads from or writes to: a browser allows no other. */
function servicesOf(description: StreamDescription): string[] {
  const { rates, acc, gyr, start, stop } = description;
  const writes = [...start, ...stop, ...[...rates, ...acc.ranges, ...(gyr?.ranges ?? [])].flatMap((one) => one.writes)];
  return [
    ...dataCharacteristics(description).map((one) => one.service_uuid),
    ...writes.flatMap((write) => [write.service_uuid, write.answer?.service_uuid].filter((uuid) => uuid !== undefined)),
  ];
}

async function readBattery(server: BluetoothRemoteGATTServer): Promise<number | null> {
  try {
    const service = await server.getPrimaryService('battery_service');
    const level = await (await service.getCharacteristic('battery_level')).readValue();
    return level.getUint8(0) <= 100 ? level.getUint8(0) : null;
  } catch {
    return null;
  }
}

/** The page's monotonic clock, seconds. */
function now(): number {
  return performance.now() / 1000;
}

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/** What the work gives. Its own, beside that of the radio: the view shares with it only what has no clock. @throws what `late` makes when it takes longer */
function within<T>(work: Promise<T>, ms: number, late: () => Error): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(late()), ms);
    work.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}
