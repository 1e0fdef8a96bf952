/* Sampling, packets, commands. SPDX-License-Identifier: Apache-2.0 */
#include "sensor_core.h"

#include <string.h>

#include "flash_log.h"
#include "little_endian.h"

void sc_init(struct sensor_core *core, const struct sc_board *board) {
  memset(core, 0, sizeof *core);
  core->board = board;
  core->rate_hz = 800;
  core->acc_g = 32;
  core->gyr_dps = 4000;
  board->configure(board->self, core->rate_hz, core->acc_g, core->gyr_dps);
  flash_log_open(core);
}

static void send_packet(struct sensor_core *core) {
  size_t length = SC_HEADER_BYTES + core->samples_in_packet * SC_SAMPLE_BYTES;
  put16(core->packet + 8, core->board->battery_mv(core->board->self));
  /* Into memory first: what the radio does not take is there all the same. */
  if (core->recording && !flash_log_append(core, core->packet, length)) {
    core->recording = false;
    flash_log_end(core);
  }
  if (core->streaming && !core->board->notify_data(core->board->self, core->packet, length)) core->lost_packets++;
  core->samples_in_packet = 0;
}

uint32_t sc_unix_s(const struct sensor_core *core) {
  uint32_t own = core->board->unix_s(core->board->self);
  if (own != 0 || core->told_unix_s == 0) return own;
  return core->told_unix_s + (uint32_t)((core->clock_us - core->told_us) / 1000000u);
}

void sc_sample(struct sensor_core *core, uint32_t time_us, const int16_t acc[3], const int16_t gyr[3]) {
  /* The stamps begin anew every 71 minutes; this clock does not. */
  core->clock_us += time_us - core->last_us;
  core->last_us = time_us;
  if (core->streaming || core->recording) {
    uint8_t *to = core->packet + SC_HEADER_BYTES + core->samples_in_packet * SC_SAMPLE_BYTES;
    if (core->samples_in_packet == 0) {
      put32(core->packet, core->counter);
      put32(core->packet + 4, time_us);
    }
    for (int axis = 0; axis < 3; axis++) {
      put16(to + 2 * axis, (uint16_t)acc[axis]);
      put16(to + 6 + 2 * axis, (uint16_t)gyr[axis]);
    }
    if (++core->samples_in_packet == SC_MAX_SAMPLES) send_packet(core);
  }
  core->counter++;
}

/* What is in the packet is sent before anything changes, so that no sample is left behind. */
static void flush_packet(struct sensor_core *core) {
  if (core->samples_in_packet > 0) send_packet(core);
}

void sc_missed(struct sensor_core *core, uint32_t samples) {
  flush_packet(core);
  core->counter += samples;
}

static bool set(struct sensor_core *core, uint16_t rate_hz, uint16_t acc_g, uint16_t gyr_dps) {
  if (core->streaming || core->recording) {
    /* Half a recording at another rate would be worthless: stop first. The same settings again are no change. */
    return rate_hz == core->rate_hz && acc_g == core->acc_g && gyr_dps == core->gyr_dps;
  }
  if (!core->board->configure(core->board->self, rate_hz, acc_g, gyr_dps)) return false;
  core->rate_hz = rate_hz;
  core->acc_g = acc_g;
  core->gyr_dps = gyr_dps;
  return true;
}

bool sc_control(struct sensor_core *core, const uint8_t *bytes, size_t length) {
  if (length == 0) return false;
  switch (bytes[0]) {
    case SC_START_STOP:
      if (length < 2) return false;
      flush_packet(core);
      core->streaming = bytes[1] == 1;
      return true;
    case SC_SET_RATE:
      return length >= 3 && set(core, get16(bytes + 1), core->acc_g, core->gyr_dps);
    case SC_SET_ACC_RANGE:
      return length >= 2 && set(core, core->rate_hz, bytes[1], core->gyr_dps);
    case SC_SET_GYR_RANGE:
      return length >= 3 && set(core, core->rate_hz, core->acc_g, get16(bytes + 1));
    case SC_SET_TIME:
      if (length < 5) return false;
      core->told_unix_s = get32(bytes + 1);
      core->told_us = core->clock_us;
      return true;
    case SC_RECORD:
      if (length < 2) return false;
      if (bytes[1] == 1 && core->recording) return true;
      flush_packet(core);
      if (bytes[1] == 1) core->recording = flash_log_begin(core);
      else if (core->recording) {
        core->recording = false;
        flash_log_end(core);
      }
      return bytes[1] != 1 || core->recording;
    default:
      return flash_log_command(core, bytes, length);
  }
}

void sc_disconnected(struct sensor_core *core) {
  flush_packet(core);
  core->streaming = false;
  core->answering = 0;
}
