import type { PhraseRoom } from '../../sentence.ts';

/** Describing a sensor. */
export const describeWords = {
  describe_a_sensor: 'Describe a sensor',
  a_description_tells_how_one:
    'A description tells how one kind of sensor speaks. Copy the one that is nearest, change what differs, and try it here on the sensor itself: lying still it must read 9.8 m/s², whichever way it is turned.',
  choose_the_sensor: 'Choose the sensor',
  n_1_the_sensor: '1. The sensor',
  search: 'Search',
  dbm: ({
    name,
    value,
    rssi_dbm,
    description_id,
  }: {
    name: string;
    value: string;
    rssi_dbm: string | number;
    description_id: string;
  }) => `${name} (${value}), ${rssi_dbm} dBm, ${description_id} `,
  no_description_fits: 'no description fits',
  look_inside: ({ name }: { name: string }) => `Look inside ${name}`,
  the_description: 'The description',
  n_2_its_description: '2. Its description',
  begin_with_a_copy_of: 'Begin with a copy of ',
  choose_one: 'choose one',
  description_as_json: 'Description as JSON',
  the_whole: 'The whole',
  mind: 'Mind: ',
  the_description_has_no_faults: 'The description has no faults.',
  try_and_keep: 'Try and keep',
  n_3_try_it_keep_it: '3. Try it, keep it',
  try_it_on_the_sensor: 'Try it on the sensor',
  is_kept_pair_the_sensor: ({ name }: { name: string }) => `${name} is kept. Pair the sensor on the page Live.`,
  keep_it: 'Keep it',
  save_as_a_file_to: 'Save as a file to share',
  the_link_ended_choose_the: ({ lost }: { lost: string }) => `The link ended: ${lost}. Choose the sensor again.`,
  what_it_offers: 'What it offers',
  service: 'Service ',
  listen: 'Listen',
  packets: ({ packet_count }: { packet_count: number }) => `${packet_count} packets`,
  a_second: ({ packets_per_s }: { packets_per_s: string }) => `, ${packets_per_s} a second`,
  the_link_carries_bytes_at: ({ mtu }: { mtu: number }) => `; the link carries ${mtu} bytes at a time`,
  bytes: ({ bytes, hex }: { bytes: number; hex: string }) => `${bytes} bytes: ${hex}`,
  what_the_description_makes_of: 'What the description makes of it',
  packets_not_read: 'packets not read',
  measuring: 'measuring',
  of_hz: ({ nominal_rate_hz }: { nominal_rate_hz: number }) => ` of ${nominal_rate_hz} Hz`,
  acceleration: 'acceleration',
  gravity_at_rest: '(gravity: at rest)',
} as const satisfies PhraseRoom;
