import { type Notice, notice, SILENT } from '../../../shared/notice.ts';
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
  reason: Notice;
  /** What is odd about its data, or why it is not measured. */
  doubt: Notice;
}

const LOW_BATTERY_PERCENT = 15;
const EMPTY_BATTERY_PERCENT = 5;
/** Until then connecting is nothing to speak of, and a lost link comes back by itself. */
const PATIENCE_S = 6;
const BACK_BY_ITSELF_S = 8;

/** What the matter is with a sensor and what to do, for its card; nothing where all is well. */
export function sensorNotice(condition: SensorCondition): Notice {
  const { state, for_s, reason, battery_percent: percent } = condition;
  if (state === 'connecting') {
    return for_s < PATIENCE_S ? notice('connecting') : notice('not_connected', { for_s, why: reason });
  }
  if (state === 'lost') return notice('lost_ago', { for_s, why: reason, advice: whatToDo(condition) });
  if (state === 'silent') return notice('no_data', { for_s: condition.silent_s ?? for_s });
  if (state !== 'live') return SILENT;
  if (condition.packets > 50 && condition.unreadable_packets > condition.packets / 10) {
    return notice('packets_do_not_fit');
  }
  if (percent === null || percent > LOW_BATTERY_PERCENT) return condition.doubt;
  return percent <= EMPTY_BATTERY_PERCENT
    ? notice('battery_nearly_empty', { percent })
    : notice('battery_low', { percent });
}

function whatToDo({ for_s, battery_percent }: SensorCondition): Notice {
  if (for_s < BACK_BY_ITSELF_S) return SILENT;
  const was_low = battery_percent !== null && battery_percent <= LOW_BATTERY_PERCENT;
  return was_low ? notice('its_battery_was_low') : notice('bring_it_nearer');
}
