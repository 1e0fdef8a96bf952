import type { Fault } from '../../fault-shape.ts';
import type { Notice } from '../../notice-shape.ts';
import type { Speech } from '../say.ts';
import type { PhraseRoom } from '../sentence.ts';
import { clause, inBrackets } from '../within.ts';
import type { Mounting, Side } from '../../words.ts';
import { DESCRIPTION_REMARKS_EN } from './description-remarks.ts';

type Name = { name: string };
/** Null: sensors that nobody wears. */
type Who = { who: string | null };
type Rate = { nominal_hz: number; rate_hz: number; by: 'stamps' | 'arrival' };
const who = (name: string | null) => name ?? 'Sensors without an athlete';
const packetsOf = (packets: number, say: Speech) =>
  `${say.number(packets)} ${say.plural(packets, { one: 'packet', other: 'packets' })}`;

/** What live capture says while it runs: what happened, what it means for the recording, what to do. */
export const NOTICES_EN = {
  /** Words of a fault, where a line has no room for its hint. */
  of_fault: ({ fault }: { fault: Fault }, say) => say.tell(fault).message,

  // A sensor's card
  connecting: 'Connecting.',
  not_connected: ({ for_s, why }: { for_s: number; why: Notice }, say) =>
    `Not connected after ${say.number(for_s, 0)} s${inBrackets(why, say)}. Switch it on, bring it within 10 m, and check that no other device holds it. It is tried again and again.`,
  lost_ago: ({ for_s, why, advice }: { for_s: number; why: Notice; advice: Notice }, say) =>
    `Lost ${say.number(for_s, 0)} s ago${inBrackets(why, say)}. Connecting again by itself; the recording goes on and the gap is marked. ${say.notice(advice)}`.trim(),
  its_battery_was_low: 'Its battery was low: charge it.',
  bring_it_nearer: 'Bring it nearer, or switch it off and on.',
  no_data: ({ for_s }: { for_s: number }, say) =>
    `Connected, but no data for ${say.number(for_s, 0)} s. Bring sensor and machine nearer to each other; if that does not help, switch the sensor off and on.`,
  packets_do_not_fit:
    'Its packets do not fit its stream description: they are kept, but cannot be shown. Choose the right description.',
  battery_low: ({ percent }: { percent: number }, say) =>
    `Battery ${say.number(percent, 0)} %: charge it before the next session.`,
  battery_nearly_empty: ({ percent }: { percent: number }, say) =>
    `Battery ${say.number(percent, 0)} %: it may stop at any minute. Charge or change it now.`,

  // What a stream does
  rate_off: ({ name, nominal_hz, rate_hz, by }: Rate & Name, say) =>
    `${name}: ${rateWords({ nominal_hz, rate_hz, by }, say)} Check the rate in its stream description.`,
  rate_off_standing: ({ nominal_hz, rate_hz, by }: Rate, say) =>
    rateWords({ nominal_hz, rate_hz, by }, say).replace(/^i/, 'I'),
  counted_anew: ({ name }: Name) =>
    `${name} began to count anew. What follows is placed by its clock or by its arrival; the join is marked as a gap.`,
  clock_jumped: ({ name }: Name) => `${name}: its clock jumped, while its counter went on. Times go on by the counter.`,
  from_before_start: ({ name, packets }: Name & { packets: number }, say) =>
    `${name}: ${packetsOf(packets, say)} from before the start command were left out; the recording begins at the start.`,
  place_unknown: ({ name, packets }: Name & { packets: number }, say) =>
    `${name}: ${packetsOf(packets, say)} whose place cannot be told are kept in the log, but not used.`,
  other_packets: ({ name }: Name) =>
    `${name} sends packets of a kind that its stream description does not speak of: they are kept in the log, but not used.`,
  narrow_link: ({ name, mtu, needed }: Name & { mtu: number; needed: number }, say) =>
    `${name}: the link carries ${say.number(mtu)} bytes at a time, and its packets need ${say.number(needed)}. If data are missing, choose a setting with smaller packets, or another adapter.`,
  link_lost: ({ name, why }: Name & { why: Notice }, say) =>
    `${name}: ${clause(why, say)}. Connecting again; the recording goes on and the gap is marked.`,
  link_back: ({ name, seconds }: Name & { seconds: number }, say) =>
    `${name} is back after ${say.number(seconds, 1)} s without data.`,

  // Why a link ended
  link_broke: 'the radio link broke',
  service_stopped: 'the Bluetooth service of the machine stopped',
  bus_ended: 'the message bus of the machine ended',
  page_opened_anew: 'the page that holds it was opened again',
  page_sends_nothing: 'the browser that holds it sends nothing any more',
  link_to_browser_broke: 'the radio link to the browser that holds it broke',
  let_go_by_page: 'it was let go on the page that held it',
  no_data_for: ({ seconds }: { seconds: number }, say) => `no data for ${say.number(seconds)} s`,

  // Who is not measured, and why
  not_measured: ({ name, why }: Name & { why: Notice }, say) =>
    `${name} is recorded, but not measured: ${say.notice(why)}`,
  not_measured_standing: ({ why }: { why: Notice }, say) => `Recorded, but not measured: ${say.notice(why)}`,
  other_mounting_measured: ({ mounting }: { mounting: Mounting }) =>
    `the athlete wears sensors on foot and shank, and those on the ${mounting} are measured. Its data are kept in the capture.`,
  has_no_side: 'it has no side, while another sensor of this athlete has. Set its side.',
  same_place: ({ side, mounting }: { side: Side; mounting: Mounting }) =>
    `another sensor of this athlete is on the ${side} ${mounting} as well. Set the side of one of them anew.`,

  // A description that is loaded
  description_warning: (
    { description_id, field, words }: { description_id: string; field: string; words: Notice },
    say,
  ) => `The stream description ${description_id} can be used, but ${field}: ${say.notice(words)}`,
  ...DESCRIPTION_REMARKS_EN,

  // The disk
  disk_full: ({ waiting, lost }: Waiting, say) =>
    `The disk is full. ${fateOf({ waiting, lost }, say)} Free some space now.`,
  disk_refuses: ({ problem, waiting, lost }: Waiting & { problem: string }, say) =>
    `The disk does not take the data (${problem}). ${fateOf({ waiting, lost }, say)} Free some space now.`,
  disk_low: ({ free_mb }: { free_mb: number }, say) =>
    `Only ${say.number(free_mb, 0)} MB are free on the disk; two sensors need about 90 MB an hour. Free some space.`,

  // The capture as a whole
  started: ({ sensors }: { sensors: number }, say) =>
    `Recording ${say.number(sensors)} ${say.plural(sensors, { one: 'sensor', other: 'sensors' })} to disk.`,
  ended: 'Recording ended. All packets are on disk.',
  waits_for_space: ({ packets }: { packets: number }, say) =>
    `The sensors are stopped, but ${packetsOf(packets, say)} still ${say.plural(packets, { one: 'waits', other: 'wait' })} for room on the disk. They are written as soon as there is some: free some space and leave the program running, or give them up.`,
  given_up: ({ packets }: { packets: number }, say) =>
    `Recording ended. ${packetsOf(packets, say)} that the disk did not take were given up.`,
  bluetooth_is_back: 'Bluetooth is back.',
  resumed: ({ stopped_utc, away_s }: { stopped_utc: string; away_s: number }, say) =>
    `The program stopped at ${stopped_utc.slice(11, 19)} UTC and was started again ${say.number(away_s, 0)} s later. Everything up to then is kept; the time between is a marked gap, and the recording goes on.`,
  recovered: ({ started_utc, repetitions }: { started_utc: string; repetitions: number }, say) =>
    `The program stopped during the recording of ${started_utc.slice(0, 16).replace('T', ' ')} UTC. Everything up to then is kept; ${say.number(repetitions)} ${say.plural(repetitions, { one: 'repetition was', other: 'repetitions were' })} found in it and stored.`,
  capture_not_taken_up: ({ capture_id, why }: { capture_id: string; why: Notice }, say) =>
    `The capture ${capture_id} could not be taken up${inBrackets(why, say)}. Its packets are kept; everything else works.`,
  capture_unreadable: ({ capture_id, folder, why }: { capture_id: string; folder: string; why: Notice }, say) =>
    `The capture ${capture_id} cannot be read${inBrackets(why, say)}. Its packet logs are untouched in ${folder}; everything else works.`,
  record_of_other_form: 'its capture.json is not of the form capture/1',
  record_lacks_fields: 'its capture.json lacks fields',

  // Repetitions
  repetition: ({ who: name, contacts }: Who & { contacts: number }, say) =>
    `${who(name)}: repetition with ${say.number(contacts)} ${say.plural(contacts, { one: 'contact', other: 'contacts' })}.`,
  no_running: ({ who: name }: Who) =>
    `${who(name)}: no running was found between start and stop. The data are kept with the repetition.`,
  analysis_failed: ({ who: name, why }: Who & { why: Notice }, say) =>
    `${who(name)}: the live analysis failed${inBrackets(why, say)}. The recording goes on and is complete.`,
  not_stored: ({ who: name, why }: Who & { why: Notice }, say) =>
    `${who(name)}: the repetition could not be stored${inBrackets(why, say)}. Its packets are kept, and it is tried again by itself, every 10 s and at the next start of the program.`,
  stored_later: ({ who: name }: Who) =>
    `${name ?? 'Somebody'}: a repetition that could not be stored before is stored now.`,
  samples_missing: ({ percent }: { percent: number }, say) =>
    `${say.number(percent, 1)} % of the samples did not arrive; contacts inside the gaps are missing.`,

  // Recordings in sensors' memories
  waits_for_other_foot: ({ name, other, why }: Name & { other: string; why: Notice }, say) =>
    `${name}: its recording is kept, and waits for that of ${other} on the other foot, which could not be fetched${inBrackets(why, say)}. Fetch again when ${other} is near, or analyse this side alone on the page Captures.`,
  feet_not_joined: ({ name, other }: Name & { other: string }) =>
    `${name} and ${other}: their recordings are kept, but cannot be put on one clock; too little of the same running is in both. Each can be analysed alone on the page Captures.`,
} as const satisfies PhraseRoom;

interface Waiting {
  waiting: number;
  lost: number;
}

function fateOf({ waiting, lost }: Waiting, say: Speech): string {
  return lost > 0
    ? `${packetsOf(lost, say)} are lost; ${say.number(waiting)} wait in memory.`
    : `${packetsOf(waiting, say)} wait in memory (room for about 40 minutes) and are written when there is space.`;
}

function rateWords({ nominal_hz, rate_hz, by }: Rate, say: Speech): string {
  const off = 100 * (rate_hz / nominal_hz - 1);
  const what = `it sends ${say.number(rate_hz, 1)} samples a second, not ${say.number(nominal_hz)} (${off > 0 ? '+' : ''}${say.number(off, 1)} %)`;
  return by === 'stamps'
    ? `${what}, by its own clock. Times are by that clock, so contact times are right if it is.`
    : `${what}, by this machine's clock. Times are by the measured rate.`;
}
