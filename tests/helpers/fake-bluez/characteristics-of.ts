import { dataCharacteristics } from '../../../shared/packet-streams.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';

interface Place {
  service_uuid: string;
  characteristic_uuid: string;
}

/** What a sensor of this description must offer: characteristics that notify, and that are written to. */
export function characteristicsOf(description: StreamDescription): { notifying: Place[]; written: Place[] } {
  const { service_uuid: main, recordings } = description;
  const place = (one: { service_uuid?: string; characteristic_uuid: string }): Place => ({
    service_uuid: one.service_uuid ?? main,
    characteristic_uuid: one.characteristic_uuid,
  });
  const choices = [...description.rates, ...description.acc.ranges, ...(description.gyr?.ranges ?? [])];
  const writes = [...description.start, ...description.stop, ...choices.flatMap((choice) => choice.writes)];
  const answers = writes.flatMap((write) => (write.answer ? [place(write.answer)] : []));
  const memory = recordings
    ? {
        told: place({ ...recordings, characteristic_uuid: recordings.data_characteristic_uuid }),
        asked: place({ ...recordings, characteristic_uuid: recordings.control_characteristic_uuid }),
      }
    : null;
  return {
    notifying: [...dataCharacteristics(description), ...answers, ...(memory ? [memory.told] : [])],
    written: [...writes.map(place), ...(memory ? [memory.asked] : [])],
  };
}
