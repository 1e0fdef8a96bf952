import { refusalOf } from '../../helpers/told.ts';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync, readdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { CaptureFolder } from '../../../api/capture/recording/capture-folder.ts';
import { CaptureService } from '../../../api/capture/capture-service.ts';
import { sensorNotice } from '../../../api/capture/sensors/sensor-notice.ts';
import { createAthlete } from '../../../api/store/athletes.ts';
import { erasePerson } from '../../../api/coach/people/erase-person.ts';
import { createRepetition, listRepetitions } from '../../../api/store/repetitions.ts';
import { createSession } from '../../../api/store/sessions.ts';
import { Store } from '../../../api/store/store.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { encodePackets } from '../../../ingest/ble/packets/encode-packets.ts';
import { hostTime } from '../../../ingest/ble/sources/host-clock.ts';
import { readPacketLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import type { CaptureState, RepetitionEvent, StoredEvent } from '../../../shared/schemas/capture.ts';
import { numberedBlock } from '../../helpers/numbered-samples.ts';
import { type RunningPackets, runningPackets } from '../../helpers/running-packets.ts';
import { PacketLogWriter } from '../../../api/capture/recording/packet-log-writer.ts';
import { inWords, said } from '../../helpers/told.ts';
import { ScriptedSource } from '../../helpers/scripted-source.ts';

const [bramble] = shippedDescriptions();
const settings = { rate_hz: 500, acc_full_scale: 32, gyr_full_scale: 4000 };
const SENSORS = [
  { sensor_id: 'S:1', name: 'Bramble one' },
  { sensor_id: 'S:2', name: 'Bramble two' },
];
let made: RunningPackets | null = null;
/** A 30 m repetition; the same for all tests of this file. */
const running = () => {
  made ??= runningPackets(bramble, settings, { seed: 12 });
  return made;
};
const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

describe('capture service', () => {
  let folder: string;
  let store: Store;
  let radio: ScriptedSource;
  let service: CaptureService;
  let athlete_id: number;
  let session_id: number;
  let told: { event: string; value: unknown }[];

  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'cinderlane-service-'));
    store = Store.open(join(folder, 'cinderlane.sqlite'));
    athlete_id = createAthlete(store, { name: 'Wren Abara' }).athlete_id;
    session_id = createSession(store, { session_date: '2026-11-25' }).session_id;
    open();
  });
  afterEach(async () => {
    await service.close();
    store.close();
    rmSync(folder, { recursive: true, force: true });
  });

  function open(): void {
    radio = new ScriptedSource(SENSORS);
    service = new CaptureService({ store, folder, radio });
    told = [];
    service.listen((event, value) => told.push({ event, value }));
  }

  async function until(what: string, condition: () => boolean, limit_ms = 120_000): Promise<void> {
    for (let waited = 0; !condition(); waited += 10) {
      if (waited > limit_ms) throw new Error(`${what}: ${JSON.stringify(inWords(service.state()).messages)}`);
      await pause(10);
    }
  }
  const results = () => told.filter(({ event }) => event === 'repetition').map(({ value }) => value as RepetitionEvent);
  const stored = () => told.filter(({ event }) => event === 'stored').map(({ value }) => value as StoredEvent);
  const sensor = (sensor_id: string) => inWords(service.state()).sensors.find((one) => one.sensor_id === sensor_id)!;

  async function pairAndStart(athlete: number | null = athlete_id): Promise<void> {
    for (const [i, { sensor_id }] of SENSORS.entries()) {
      const side = i === 0 ? ('left' as const) : ('right' as const);
      await service.place(sensor_id, { description_id: bramble.id, side, athlete_id: athlete, settings });
    }
    service.start({ session_id });
    await until('links', () => SENSORS.every(({ sensor_id }) => sensor(sensor_id).state === 'live'));
  }

  /** Hands over the whole repetition as if it had just been run. */
  function run(): void {
    const { recorded } = running();
    const zero_s = hostTime() - recorded.left.at(-1)!.due_s - 0.05;
    for (let i = 0; i < recorded.left.length; i++) {
      for (const [k, side] of (['left', 'right'] as const).entries()) {
        const { bytes, due_s } = recorded[side][i];
        radio.send(SENSORS[k].sensor_id, Buffer.from(bytes, 'hex'), zero_s + due_s);
      }
    }
  }

  it('remembers sensors over a restart of the program, with the description that fits their name', async () => {
    await service.search(true);
    await service.place('S:1', { side: 'left' });
    expect(inWords(service.state()).found).toMatchObject([
      { paired: true },
      { paired: false, description_id: 'bramble' },
    ]);
    await service.close();
    open();
    expect(sensor('S:1')).toMatchObject({ name: 'Bramble one', side: 'left', description_id: 'bramble', state: 'off' });
    service.forget('S:1');
    expect(inWords(service.state()).sensors).toEqual([]);
  });

  it('offers every description that fits a sensor, and takes an added one away when no sensor is read by it', async () => {
    service.descriptions.add(JSON.stringify({ ...bramble, id: 'bramble-own', name: 'Bramble, as we read it' }));
    await service.search(true);
    expect(inWords(service.state()).found[0]).toMatchObject({
      description_id: 'bramble',
      fitting: ['bramble', 'bramble-own'],
    });
    await service.place('S:1', { description_id: 'bramble-own', side: 'left' });
    expect(service.descriptions.added()).toEqual(['bramble-own']);
    expect(() => service.removeDescription('bramble-own')).toThrow(/description_in_use.*Bramble one/);
    service.forget('S:1');
    service.removeDescription('bramble-own');
    expect(inWords(service.state()).found[0].fitting).toEqual(['bramble']);
    expect(() => service.removeDescription('bramble')).toThrow(/STREAM_DESCRIPTION_INVALID.shipped/);
  });

  it('refuses what cannot be: rates a sensor has not, two captures at once, a start without sensors', async () => {
    expect(refusalOf(() => service.start())).toMatch(/no sensor is paired/);
    await expect(service.place('S:1', { description_id: 'bramble', settings: { rate_hz: 123 } })).rejects.toMatchObject(
      { code: 'STREAM_SETTINGS_INVALID' },
    );
    await expect(service.place('S:1', { description_id: 'none' })).rejects.toMatchObject({
      code: 'STREAM_DESCRIPTION_INVALID',
    });
    await pairAndStart();
    expect(refusalOf(() => service.start())).toMatch(/a capture runs/);
    await expect(service.place('S:1', { settings: { rate_hz: 400 } })).rejects.toMatchObject({ code: 'CAPTURE_STATE' });
  });

  it('fills the planned repetition with the run, and uses its course', async () => {
    const planned = createRepetition(store, { session_id, athlete_id, course_distance_m: 30, course_time_s: 5.1 });
    await pairAndStart();
    run();
    await until('stored', () => stored().length === 1);
    expect(stored()[0].repetition_id).toBe(planned.repetition_id);
    const [line] = listRepetitions(store, { session_id });
    expect(line).toMatchObject({ state: 'analysed', course_distance_m: 30 });
    expect(line.figures?.time_s).toBe(5.1);
  });

  it('notices a tap, and lets the side be changed while it records', async () => {
    await pairAndStart();
    const still = { ...numberedBlock(bramble, 500), sampling_rate_hz: 500 };
    for (const column of [still.acc_mps2.x, still.acc_mps2.y]) column.fill(0);
    still.acc_mps2.z.fill(9.81);
    // A tap of some 5 g for 4 ms after 0.8 s of standing.
    still.acc_mps2.z.set([55, 60], 400);
    const packets = encodePackets(bramble, settings, still);
    for (const { bytes } of packets) radio.send('S:2', bytes);
    expect(sensor('S:2').tap_s).toBeLessThan(1);
    expect(sensor('S:1').tap_s).toBeNull();
    await service.place('S:2', { side: 'left' });
    await service.place('S:1', { side: 'right' });
    const { capture } = inWords(service.state());
    await service.stop();
    const file = new CaptureFolder(join(folder, 'captures')).logFile(capture!.capture_id, 'S:2');
    expect(readPacketLog('log', readFileSync(file)).header.side).toBe('left');
  });

  it('stores a run of unnamed sensors as soon as an athlete is chosen, and only once', async () => {
    await pairAndStart(null);
    run();
    await until('result', () => results().length === 1);
    expect(results()[0]).toMatchObject({ athlete_id: null, to_be_stored: false });
    expect(listRepetitions(store, { session_id })).toEqual([]);
    for (const { sensor_id } of SENSORS) await service.place(sensor_id, { athlete_id });
    await until('stored', () => stored().length === 1);
    await pause(300);
    expect(listRepetitions(store, { session_id })).toHaveLength(1);
  });

  it('keeps what lay between start and stop even when nobody ran', async () => {
    await pairAndStart();
    await service.mark('start');
    for (const { bytes } of encodePackets(bramble, settings, numberedBlock(bramble, 600))) {
      for (const { sensor_id } of SENSORS) radio.send(sensor_id, bytes);
    }
    await pause(50);
    await service.mark('stop');
    expect(results()).toMatchObject([{ contacts: [], to_be_stored: true }]);
    expect(listRepetitions(store, { session_id })).toMatchObject([
      { state: 'recorded', fault: { code: 'NO_RUNNING_FOUND' } },
    ]);
    await expect(service.mark('stop')).rejects.toThrow(/CAPTURE_STATE.not_marked/);
  });

  it('connects again after a break, into the same recording, and says both', async () => {
    await pairAndStart();
    const packets = encodePackets(bramble, settings, numberedBlock(bramble, 2000));
    const began_s = hostTime();
    const send = (from: number, to?: number) =>
      packets.slice(from, to).forEach(({ bytes }, i) => {
        radio.send('S:1', bytes, began_s + 0.04 * (from + i));
      });
    send(0, 40);
    radio.breakLink('S:1', 'the radio link broke');
    expect(sensor('S:1')).toMatchObject({ state: 'lost', words: expect.stringMatching(/the gap is marked/) });
    await until('link', () => radio.linked('S:1') && sensor('S:1').state === 'live');
    send(60);
    expect(sensor('S:1')).toMatchObject({ reconnects: 1, lost_samples: 400 });
    expect(inWords(service.state()).messages.map((message) => message.text)).toEqual([
      expect.stringMatching(/S:1 is back/),
      expect.stringMatching(/S:1: the radio link broke. Connecting again/),
      expect.stringMatching(/Recording 2 sensors/),
    ]);
  });

  it('tries a repetition that could not be stored again until it is, while running and at the next start', async () => {
    await pairAndStart();
    const failing = vi.spyOn(store, 'transaction').mockImplementation(() => {
      throw new Error('database or disk is full');
    });
    run();
    await until('told', () =>
      inWords(service.state()).messages.some(({ text }) => /could not be stored/.test(String(text))),
    );
    expect(listRepetitions(store, { session_id })).toEqual([]);
    // The capture ends, the program ends, and only the next one finds room.
    await service.stop();
    await service.close();
    failing.mockRestore();
    open();
    await service.recover();
    expect(listRepetitions(store, { session_id })).toMatchObject([{ state: 'analysed' }]);
    expect(inWords(service.state()).messages[0].text).toMatch(/is stored now/);
    await service.recover();
    expect(listRepetitions(store, { session_id })).toHaveLength(1);
  });

  it('ends a recording on a full disk without losing what waits, and asks', async () => {
    await pairAndStart();
    const { capture } = inWords(service.state());
    const full = vi.spyOn(PacketLogWriter.prototype as unknown as { write(): boolean }, 'write').mockReturnValue(false);
    run();
    const sent = 2 * running().recorded.left.length;
    await service.stop();
    expect(inWords(service.state()).capture).toBeNull();
    expect(inWords(service.state()).ending_packets).toBeGreaterThanOrEqual(sent);
    expect(inWords(service.state()).messages[0].text).toMatch(/packets still wait for room/);
    full.mockRestore();
    await until('written', () => inWords(service.state()).ending_packets === 0);
    const file = new CaptureFolder(join(folder, 'captures')).logFile(capture!.capture_id, 'S:1');
    const log = readPacketLog('log', readFileSync(file));
    expect(log.records.filter((record) => record.kind === 'packet')).toHaveLength(sent / 2);
  });

  it('starts with captures that are damaged in every way, says so, and takes up the good ones', async () => {
    const captures = join(folder, 'captures');
    const damage = {
      torn: '{"format":"capt',
      other: '[]',
      empty: '',
      fields: '{"format":"capture/1","capture_id":"x"}',
    };
    for (const [name, text] of Object.entries(damage)) {
      mkdirSync(join(captures, name), { recursive: true });
      writeFileSync(join(captures, name, 'capture.json'), text);
    }
    const lost = {
      format: 'capture/1',
      capture_id: 'lost',
      kind: 'live',
      started_utc: '2026-11-25T10:00:00Z',
      session_id,
    };
    const sensors = [{ sensor_id: 'S:1', place: { athlete_id }, athlete_ids: [athlete_id] }];
    mkdirSync(join(captures, 'lost', 'S-1.packets'), { recursive: true });
    writeFileSync(
      join(captures, 'lost', 'capture.json'),
      JSON.stringify({ ...lost, state: 'running', sensors, handled: [] }),
    );
    await service.close();
    open();
    await service.recover();
    const texts = inWords(service.state()).messages.map((message) => message.text);
    for (const name of Object.keys(damage)) {
      expect(texts).toContainEqual(expect.stringMatching(new RegExp(`capture ${name} cannot be read`)));
    }
    expect(texts).toContainEqual(expect.stringMatching(/2026-11-25 10:00/));
    await pairAndStart();
    run();
    await until('stored', () => stored().length === 1);
  });

  it('warns when a description is loaded whose counter begins again sooner than a link may stall, then and at the next start', async () => {
    const [shipped] = shippedDescriptions();
    const header = shipped.packet.header.map((entry) =>
      entry.field === 'counter' ? { ...entry, type: 'uint8' } : entry,
    );
    const counter = { ...shipped.counter, counts: 'samples' };
    const narrow = { ...shipped, id: 'narrow', counter, packet: { ...shipped.packet, header } };
    service.addDescription(JSON.stringify(narrow));
    const warned = () =>
      inWords(service.state()).messages.filter(({ text }) =>
        /narrow can be used, but .*counter begins again every/.test(String(text)),
      );
    expect(warned()).toHaveLength(1);
    await service.close();
    service = new CaptureService({ store, folder, radio });
    expect(warned()).toHaveLength(1);
  });

  it('goes on trying a sensor that is not there, and records the other', async () => {
    radio.absent.add('S:2');
    for (const { sensor_id } of SENSORS) await service.place(sensor_id, { description_id: bramble.id, settings });
    service.start({ session_id });
    await until('one link', () => sensor('S:1').state === 'live');
    expect(sensor('S:2').state).toBe('connecting');
    radio.absent.clear();
    await until('the other link', () => sensor('S:2').state === 'live');
  });

  it('brings back the repetitions of a capture that broke off long ago, each once', async () => {
    await pairAndStart(null);
    run();
    const { capture } = inWords(service.state());
    await service.stop();
    const captures = new CaptureFolder(join(folder, 'captures'));
    const [record] = captures.all();
    // As if the program had been killed before anything was stored, on another day.
    const sensors = record.sensors.map((entry) => ({ ...entry, place: { ...entry.place, athlete_id } }));
    captures.save({ ...record, state: 'running', sensors, handled: [] });
    const old_ms = Date.now() + 3_600_000;
    const real = Date.now;
    Date.now = () => old_ms;
    try {
      await service.recover();
    } finally {
      Date.now = real;
    }
    expect(listRepetitions(store, { session_id })).toMatchObject([{ state: 'analysed', athlete_id }]);
    expect(inWords(service.state()).capture).toBeNull();
    expect(inWords(service.state()).messages[0].text).toMatch(
      /Everything up to then is kept; 1 repetition was found in it/,
    );
    expect(captures.all()).toMatchObject([{ capture_id: capture!.capture_id, state: 'ended' }]);
    await service.recover();
    expect(listRepetitions(store, { session_id })).toHaveLength(1);
  });

  it('erases a person together with what their sensors sent', async () => {
    await pairAndStart();
    run();
    await until('stored', () => stored().length === 1);
    await service.stop();
    expect(new CaptureFolder(join(folder, 'captures')).all()).toHaveLength(1);
    await erasePerson(store, athlete_id, 'Wren Abara');
    expect(new CaptureFolder(join(folder, 'captures')).all()).toEqual([]);
    expect(sensor('S:1')).toMatchObject({ athlete_id: null, athlete_name: null });
  });

  it('erases a person while a capture of theirs is being taken up, and leaves nothing of it', async () => {
    await pairAndStart();
    run();
    await service.stop();
    const captures = new CaptureFolder(join(folder, 'captures'));
    const [record] = captures.all();
    captures.save({ ...record, state: 'running', handled: [], started_utc: '2026-03-02T10:00:00.000Z' });
    const old_ms = Date.now() + 3_600_000;
    const real = Date.now;
    Date.now = () => old_ms;
    try {
      const recovering = service.recover();
      await service.stopWearing(athlete_id);
      captures.erasePerson(athlete_id);
      await recovering;
    } finally {
      Date.now = real;
    }
    expect(captures.all()).toEqual([]);
    // What is told too late of a capture that is gone does not bring it back.
    captures.change(record.capture_id, { state: 'ended' });
    expect(captures.all()).toEqual([]);
    expect(readdirSync(join(folder, 'captures'))).toEqual([]);
  });

  it('finds at the end a repetition that no look has seen, as when all of it came at once on a busy machine', async () => {
    await pairAndStart();
    run();
    await service.stop();
    expect(results()).toHaveLength(1);
    expect(listRepetitions(store, { session_id })).toMatchObject([{ state: 'analysed', athlete_id }]);
  });

  it('plays a stored session through the whole path, ten times as fast, and stores nothing', async () => {
    await pairAndStart();
    run();
    await until('stored', () => stored().length === 1);
    await service.stop();
    const first = results()[0];
    told.length = 0;
    await service.startReplay(session_id, undefined, 10);
    expect(inWords(service.state()).capture?.kind).toBe('replay');
    await until('the end of the replay', () => inWords(service.state()).capture === null);
    expect(results()).toHaveLength(1);
    const [line] = listRepetitions(store, { session_id });
    expect(results()[0]).toMatchObject({ athlete_id, to_be_stored: false, replay_of: line.repetition_id });
    expect(results()[0].contacts.length).toBe(first.contacts.length);
    expect(listRepetitions(store, { session_id })).toHaveLength(1);
    expect(new CaptureFolder(join(folder, 'captures')).all()).toHaveLength(1);
  });

  it('tells, before a replay is over, that its last repetition was played, also when its result is only found at the end', async () => {
    await pairAndStart();
    run();
    await until('stored', () => stored().length === 1);
    await service.stop();
    const [{ repetition_id }] = listRepetitions(store, { session_id });
    told.length = 0;
    // A second becomes a hundredth: nothing is looked at before the end.
    await service.startReplay(session_id, undefined, 1000);
    await until('the end of the replay', () => inWords(service.state()).capture === null);
    expect(results()).toMatchObject([{ replay_of: repetition_id }]);
    const played = told
      .filter(({ event }) => event === 'state')
      .map(({ value }) => (value as CaptureState).capture?.replay)
      .filter((replay) => replay !== null && replay !== undefined);
    expect(played.at(-1)).toEqual({ repetition_ids: [repetition_id], total: 1 });
  });

  it('plays everybody of a session, ends without an alarm, and tells what was to a page that comes later', async () => {
    const other_id = createAthlete(store, { name: 'Tove Lindqvist' }).athlete_id;
    for (const [i, wearer] of [athlete_id, other_id].entries()) {
      await pairAndStart(wearer);
      run();
      await until('stored', () => stored().length === i + 1);
      await service.stop();
    }
    told.length = 0;
    await service.startReplay(session_id, undefined, 10);
    expect(
      inWords(service.state())
        .sensors.map((one) => one.athlete_name)
        .sort(),
    ).toEqual(['Tove Lindqvist', 'Tove Lindqvist', 'Wren Abara', 'Wren Abara']);
    await until('the end of the replay', () => inWords(service.state()).capture === null);
    expect(
      results()
        .map((result) => result.athlete_id)
        .sort(),
    ).toEqual([athlete_id, other_id].sort());
    expect(
      told
        .flatMap(({ event, value }) => (event === 'state' ? (value as CaptureState).sensors : []))
        .map(({ state }) => state),
    ).not.toContain('lost');
    expect(
      inWords(service.state())
        .messages.map(({ text }) => text)
        .join(),
    ).not.toMatch(/broke|no data|lost/i);
    const late: string[] = [];
    service.listen((event) => late.push(event))();
    expect(late.filter((event) => event === 'repetition')).toHaveLength(2);
    expect(late).toContain('signal');
  });
});

describe('what is said of a sensor', () => {
  const good = {
    state: 'live' as const,
    for_s: 30,
    silent_s: 0.1,
    battery_percent: 80,
    unreadable_packets: 0,
    packets: 1000,
    reason: '',
    doubt: '',
  };
  it.each([
    ['nothing while all is well', good, /^$/],
    [
      'how long it has been silent, and what to do',
      { ...good, state: 'silent' as const, silent_s: 4.2 },
      /no data for 4 s\. Bring/,
    ],
    ['a low battery', { ...good, battery_percent: 12 }, /12 %: charge it before the next session/],
    ['a flat battery', { ...good, battery_percent: 3 }, /3 %: it may stop at any minute/],
    [
      'a description that does not fit',
      { ...good, unreadable_packets: 900 },
      /do not fit its stream description: they are kept/,
    ],
    [
      'that a lost one is tried again',
      { ...good, state: 'lost' as const, reason: 'the radio link broke' },
      /Lost 30 s ago.*by itself/,
    ],
  ])('%s', (_name, condition, words) => {
    expect(said(sensorNotice(condition))).toMatch(words);
  });
});
