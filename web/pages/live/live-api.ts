import type { FetchedRecordings } from '../../../shared/schemas/captures.ts';
import type {
  BrowserSensor,
  CaptureStart,
  CaptureState,
  ReplayStart,
  SensorPlace,
  SensorPlaceChange,
} from '../../../shared/schemas/capture.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { client } from '../../client.ts';

const sensorPath = (sensor_id: string) => `/capture/sensors/${encodeURIComponent(sensor_id)}`;

/** The stream descriptions there are; `added` are not shipped and can be removed. */
export interface DescriptionList {
  items: StreamDescription[];
  added: string[];
}

/** Calls on the capture. */
export const live = {
  eventsUrl: '/api/capture/events',
  state: () => client.get<CaptureState>('/capture'),
  descriptionsPath: '/capture/descriptions',
  descriptions: () => client.get<DescriptionList>('/capture/descriptions'),
  removeDescription: (id: string) => client.remove(`/capture/descriptions/${encodeURIComponent(id)}`),
  addDescription: (description: unknown) => client.post<StreamDescription>('/capture/descriptions', description),
  search: (on: boolean) => client.post('/capture/search', { on }),
  place: (sensor_id: string, change: SensorPlaceChange) => client.put<SensorPlace>(sensorPath(sensor_id), change),
  fetchRecordings: (sensor_id: string) => client.post<FetchedRecordings>(`${sensorPath(sensor_id)}/fetch`, {}),
  forget: (sensor_id: string) => client.remove(sensorPath(sensor_id)),
  check: (sensor_id: string, athlete_id: number | null) =>
    client.put<CaptureState>(`/capture/checks/${encodeURIComponent(sensor_id)}`, { athlete_id }),
  endCheck: (sensor_id: string) => client.remove(`/capture/checks/${encodeURIComponent(sensor_id)}`),
  start: (options: CaptureStart) => client.post<CaptureState>('/capture/start', options),
  replay: (options: ReplayStart) => client.post<CaptureState>('/capture/replay', options),
  stop: (discard_waiting = false) => client.post<CaptureState>('/capture/stop', { discard_waiting }),
  mark: (mark: 'start' | 'stop') => client.post<CaptureState>('/capture/mark', { mark }),
  announce: (sensor_id: string, sensor: BrowserSensor) =>
    client.post(`/capture/browser/${encodeURIComponent(sensor_id)}`, sensor),
};
