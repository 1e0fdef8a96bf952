/** What the capture says to the coach: what happened, what it means for the recording, what to do. */
import type { MeasuredRate } from '../../../ingest/ble/assembly/stream-assembler.ts';
import type { SensorState } from '../../../shared/schemas/capture.ts';

export interface SensorCondition {
  state: SensorState;
  /** Seconds in this state. */
  for_s: number;
  silent_s: number | null;
  battery_percent: number | null;
  unreadable_packets: number;
  packets: number;
  /** Why the link last broke, or the connection last failed. */
  reason: string;
  /** What is odd about its data, or why it is not measured; empty when nothing is. */
  doubt: string;
}

const LOW_BATTERY_PERCENT = 15;

export function sensorWords(condition: SensorCondition): string {
  const { state, battery_percent: battery } = condition;
  if (state === 'connecting') return connectingWords(condition);
  if (state === 'lost') {
    return `Lost ${Math.round(condition.for_s)} s ago (${condition.reason}). Connecting again by itself; the recording goes on and the gap is marked. ${nearer(condition)}`;
  }
  if (state === 'silent') {
    return `Connected, but no data for ${Math.round(condition.silent_s ?? condition.for_s)} s. Bring sensor and machine nearer to each other; if that does not help, switch the sensor off and on.`;
  }
  if (state === 'live' && condition.packets > 50 && condition.unreadable_packets > condition.packets / 10) {
    return 'Its packets do not fit its stream description: they are kept, but cannot be shown. Choose the right description.';
  }
  if (state === 'live' && battery !== null && battery <= LOW_BATTERY_PERCENT) {
    return battery <= 5
      ? `Battery ${battery} %: it may stop at any minute. Charge or change it now.`
      : `Battery ${battery} %: charge it before the next session.`;
  }
  return state === 'live' ? condition.doubt : '';
}

function connectingWords({ for_s, reason }: SensorCondition): string {
  if (for_s < 6) return 'Connecting.';
  return `Not connected after ${Math.round(for_s)} s${reason ? ` (${reason})` : ''}. Switch it on, bring it within 10 m, and check that no other device holds it. It is tried again and again.`;
}

function nearer({ for_s, battery_percent }: SensorCondition): string {
  if (for_s < 8) return '';
  return battery_percent !== null && battery_percent <= LOW_BATTERY_PERCENT
    ? 'Its battery was low: charge it.'
    : 'Bring it nearer, or switch it off and on.';
}

export function diskWords(problem: string, waiting_records: number, lost_records: number): string {
  if (problem === '') return '';
  const full = /ENOSPC|EDQUOT|EFBIG/.test(problem);
  const what = full ? 'The disk is full' : `The disk does not take the data (${problem})`;
  const fate =
    lost_records > 0
      ? `${lost_records} packets are lost; ${waiting_records} wait in memory.`
      : `${waiting_records} packets wait in memory (room for about 40 minutes) and are written when there is space.`;
  return `${what}. ${fate} Free some space now.`;
}

function rateWords(nominal_hz: number, { rate_hz, by }: MeasuredRate): string {
  const off = 100 * (rate_hz / nominal_hz - 1);
  const what = `it sends ${rate_hz.toFixed(1)} samples a second, not ${nominal_hz} (${off > 0 ? '+' : ''}${off.toFixed(1)} %)`;
  return by === 'stamps'
    ? `${what}, by its own clock. Times are by that clock, so contact times are right if it is.`
    : `${what}, by this machine's clock. Times are by the measured rate.`;
}

export const WORDS = {
  rateOff: (name: string, nominal_hz: number, rate: MeasuredRate) =>
    `${name}: ${rateWords(nominal_hz, rate)} Check the rate in its stream description.`,
  rateOffShort: (nominal_hz: number, rate: MeasuredRate) => {
    const words = rateWords(nominal_hz, rate);
    return words[0].toUpperCase() + words.slice(1);
  },
  restarted: (name: string) =>
    `${name} began to count anew. What follows is placed by its clock or by its arrival; the join is marked as a gap.`,
  stampsJumped: (name: string) => `${name}: its clock jumped, while its counter went on. Times go on by the counter.`,
  beforeStart: (name: string, packets: number) =>
    `${name}: ${packets} packets from before the start command were left out; the recording begins at the start.`,
  unplaced: (name: string, packets: number) =>
    `${name}: ${packets} packets whose place cannot be told are kept in the log, but not used.`,
  otherPackets: (name: string) =>
    `${name} sends packets of a kind that its stream description does not speak of: they are kept in the log, but not used.`,
  narrowLink: (name: string, mtu: number, needed: number) =>
    `${name}: the link carries ${mtu} bytes at a time, and its packets need ${needed}. If data are missing, choose a setting with smaller packets, or another adapter.`,
  notMeasuredShort: (why: string) => `Recorded, but not measured: ${why}`,
  waitsForSpace: (packets: number) =>
    `The sensors are stopped, but ${packets} packets still wait for room on the disk. They are written as soon as there is some: free some space and leave the program running, or give them up.`,
  givenUp: (packets: number) => `Recording ended. ${packets} packets that the disk did not take were given up.`,
  storedLater: (name: string) => `${name}: a repetition that could not be stored before is stored now.`,
  badCapture: (capture_id: string, reason: string) =>
    `The capture ${capture_id} could not be taken up (${reason}). Its packets are kept; everything else works.`,
  notMeasured: (name: string, why: string) => `${name} is recorded, but not measured: ${why}`,
  started: (sensors: number) => `Recording ${sensors} ${sensors === 1 ? 'sensor' : 'sensors'} to disk.`,
  ended: 'Recording ended. All packets are on disk.',
  linkLost: (name: string, reason: string) =>
    `${name}: ${reason}. Connecting again; the recording goes on and the gap is marked.`,
  linkBack: (name: string, seconds: number) => `${name} is back after ${seconds.toFixed(1)} s without data.`,
  radio: (problem: string) => problem,
  radioBack: 'Bluetooth is back.',
  resumed: (stopped_utc: string, away_s: number) =>
    `The program stopped at ${stopped_utc.slice(11, 19)} UTC and was started again ${Math.round(away_s)} s later. Everything up to then is kept; the time between is a marked gap, and the recording goes on.`,
  recovered: (started_utc: string, repetitions: number) =>
    `The program stopped during the recording of ${started_utc.slice(0, 16).replace('T', ' ')} UTC. Everything up to then is kept; ${repetitions === 1 ? '1 repetition was' : `${repetitions} repetitions were`} found in it and stored.`,
  repetition: (name: string, contacts: number) => `${name}: repetition with ${contacts} contacts.`,
  noRunning: (name: string) =>
    `${name}: no running was found between start and stop. The data are kept with the repetition.`,
  analysisFailed: (name: string, reason: string) =>
    `${name}: the live analysis failed (${reason}). The recording goes on and is complete.`,
  notStored: (name: string, reason: string) =>
    `${name}: the repetition could not be stored (${reason}). Its packets are kept, and it is tried again by itself, every 10 s and at the next start of the program.`,
};
