/*
 * Reference sensor, the portable core: sampling, counter, stamps, packets, a log in flash memory, its fetch protocol, start and
 * stop, battery. No operating system, no allocation, no radio: the board part gives samples in and takes packets out.
 * How it speaks: ingest/ble/descriptions/reference-sensor.json. SPDX-License-Identifier: Apache-2.0
 */
#ifndef SENSOR_CORE_H
#define SENSOR_CORE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define SC_HEADER_BYTES 10u
#define SC_SAMPLE_BYTES 12u
/* A prime: packets then become ready at many places of the grid of connection events, which puts two feet on one clock to a
   millisecond. 18 samples would take 22.5 ms, just three of the shortest intervals. */
#define SC_MAX_SAMPLES 17u
#define SC_MAX_PACKET (SC_HEADER_BYTES + SC_MAX_SAMPLES * SC_SAMPLE_BYTES)
#define SC_MAX_RECORDINGS 16u
/* A notification on the least link that the description allows: an MTU of 229 less 3. */
#define SC_BLOCK_BYTES 226u

enum sc_op {
  SC_START_STOP = 0x10,
  SC_SET_RATE = 0x11,
  SC_SET_ACC_RANGE = 0x12,
  SC_SET_GYR_RANGE = 0x13,
  SC_SET_TIME = 0x14,
  SC_RECORD = 0x20,
  SC_LIST = 0x30,
  SC_ENTRY = 0x31,
  SC_FETCH = 0x32,
  SC_BLOCK = 0x33,
  SC_END = 0x34,
  SC_CLEAR = 0x35
};

/* What the board part must do. Every function may be called from sc_* functions only, never by itself. */
struct sc_board {
  void *self;
  /* Sends a data packet as a notification; false when the radio's queue is full (the packet is then counted as lost). */
  bool (*notify_data)(void *self, const uint8_t *bytes, size_t length);
  /* Sends an answer; false when the queue is full (it is tried again from sc_idle). */
  bool (*notify_answer)(void *self, const uint8_t *bytes, size_t length);
  /* Sets the inertial sensor: samples a second, full scale in g and in degrees per second. False where it cannot. */
  bool (*configure)(void *self, uint16_t rate_hz, uint16_t acc_g, uint16_t gyr_dps);
  uint16_t (*battery_mv)(void *self);
  /* UTC seconds since 1970 of a clock of the board's own; 0 where it has none, and then the host's is used, once it has told. */
  uint32_t (*unix_s)(void *self);
  /* Flash memory as one flat store of flash_bytes, erased to 0xff in sectors of sector_bytes, of which it holds a whole number. */
  uint32_t flash_bytes;
  uint32_t sector_bytes;
  bool (*flash_erase)(void *self, uint32_t sector_at);
  bool (*flash_write)(void *self, uint32_t at, const uint8_t *bytes, size_t length);
  void (*flash_read)(void *self, uint32_t at, uint8_t *bytes, size_t length);
};

/* A recording begins at sector_at with its mark; its packets follow, over the end of the memory and on from its beginning. */
struct sc_recording {
  uint16_t id;
  uint32_t sector_at, bytes, packets, start_unix_s;
};

struct sensor_core {
  const struct sc_board *board;
  uint16_t rate_hz, acc_g, gyr_dps;
  bool streaming, recording;
  /* Samples since switching on: goes on whether anything is sent or not. */
  uint32_t counter;
  uint8_t packet[SC_MAX_PACKET];
  size_t samples_in_packet;
  uint32_t lost_packets;
  /* The calendar, as the host told it: seconds at a moment of the sample clock. told_unix_s is 0 until then. */
  uint64_t clock_us, told_us;
  uint32_t last_us, told_unix_s;
  /* The log: recordings in order, the open one last. */
  struct sc_recording log[SC_MAX_RECORDINGS];
  size_t recordings;
  uint32_t free_at;
  /* Bytes from the open recording's sector on that are erased. */
  uint32_t erased;
  uint16_t next_id;
  /* A fetch or a list under way; op 0 when none. */
  uint8_t answering;
  size_t answer_at;
  uint32_t fetch_from, fetch_crc;
};

/* Prepares the core, and finds the recordings that are in flash memory. */
void sc_init(struct sensor_core *core, const struct sc_board *board);

/* One sample of the inertial sensor, in its own counts, at a free-running microsecond clock. Call it for every sample. */
void sc_sample(struct sensor_core *core, uint32_t time_us, const int16_t acc[3], const int16_t gyr[3]);

/* The board could not read so many samples (a full FIFO, a busy bus): they are counted, and what follows begins a new packet. */
void sc_missed(struct sensor_core *core, uint32_t samples);

/* Bytes written to the control characteristic. Returns false for what it does not understand. */
bool sc_control(struct sensor_core *core, const uint8_t *bytes, size_t length);

/* The link broke: streaming stops, recording goes on. */
void sc_disconnected(struct sensor_core *core);

/* Call it whenever there is time: sends what is due of a list or a fetch. Returns true while there is more. */
bool sc_idle(struct sensor_core *core);

/* UTC seconds since 1970; 0 where nobody has told. */
uint32_t sc_unix_s(const struct sensor_core *core);

uint32_t sc_crc32(uint32_t before, const uint8_t *bytes, size_t length);

#endif
