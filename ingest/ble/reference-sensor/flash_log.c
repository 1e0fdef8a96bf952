/*
 * The log in flash memory, a ring: a recording that comes to the end of the memory goes on at its beginning, and the oldest ones give
 * way. It begins at a sector with a mark (magic, id, start, checksum); then packets, each with its length before it, up to a length of
 * 0xffff (erased memory) or 0 (ended). The length is written after its packet: what a flat battery cuts is whole up to its last packet.
 * SPDX-License-Identifier: Apache-2.0
 */
#include "flash_log.h"

#include <string.h>

#include "little_endian.h"

#define MAGIC 0x31524353u /* "SCR1" */
#define MARK_BYTES 16u

uint32_t sc_crc32(uint32_t before, const uint8_t *bytes, size_t length) {
  uint32_t crc = ~before;
  for (size_t i = 0; i < length; i++) {
    crc ^= bytes[i];
    for (int bit = 0; bit < 8; bit++) crc = crc & 1u ? crc >> 1 ^ 0xedb88320u : crc >> 1;
  }
  return ~crc;
}

/* Reads at a place of the ring, over its end where need be. */
static void ring_read(const struct sc_board *board, uint32_t at, uint8_t *bytes, size_t length) {
  size_t to_end = board->flash_bytes - at % board->flash_bytes, first = length < to_end ? length : to_end;
  board->flash_read(board->self, at % board->flash_bytes, bytes, first);
  if (first < length) board->flash_read(board->self, 0, bytes + first, length - first);
}

static bool ring_write(const struct sc_board *board, uint32_t at, const uint8_t *bytes, size_t length) {
  size_t to_end = board->flash_bytes - at % board->flash_bytes, first = length < to_end ? length : to_end;
  if (!board->flash_write(board->self, at % board->flash_bytes, bytes, first)) return false;
  return first == length || board->flash_write(board->self, 0, bytes + first, length - first);
}

/* Bytes of memory that a recording takes: mark, packets, and two that end it. */
static uint32_t taken(const struct sc_recording *one) { return MARK_BYTES + one->bytes + 2; }

/* Where in the ring a recording's packets are. */
static uint32_t place(const struct sc_recording *one, uint32_t offset) { return one->sector_at + MARK_BYTES + offset; }

/* The sector that follows a recording. */
static uint32_t sector_after(const struct sc_board *board, const struct sc_recording *one) {
  uint32_t sectors = (taken(one) + board->sector_bytes - 1) / board->sector_bytes;
  return (one->sector_at + sectors * board->sector_bytes) % board->flash_bytes;
}

static void forget(struct sensor_core *core, size_t which) {
  memmove(core->log + which, core->log + which + 1, (core->recordings - which - 1) * sizeof core->log[0]);
  core->recordings--;
}

/* Erases a sector; recordings that lie in it are gone. False where the one that is being written does. */
static bool erase(struct sensor_core *core, uint32_t sector_at, uint16_t but_id) {
  const struct sc_board *board = core->board;
  for (size_t i = 0; i < core->recordings;) {
    const struct sc_recording *one = &core->log[i];
    uint32_t behind = (sector_at + board->flash_bytes - one->sector_at) % board->flash_bytes;
    if (behind >= taken(one)) i++;
    else if (one->id == but_id) return false;
    else {
      /* Its mark must not be found again. */
      if (behind != 0 && !board->flash_erase(board->self, one->sector_at)) return false;
      forget(core, i);
    }
  }
  return board->flash_erase(board->self, sector_at);
}

static bool read_mark(const struct sc_board *board, uint32_t sector_at, struct sc_recording *one) {
  uint8_t mark[MARK_BYTES];
  board->flash_read(board->self, sector_at, mark, MARK_BYTES);
  *one = (struct sc_recording){get16(mark + 4), sector_at, 0, 0, get32(mark + 8)};
  return get32(mark) == MAGIC && get32(mark + 12) == sc_crc32(0, mark, 12);
}

/* Follows a recording's packets to its end. */
static void measure(const struct sc_board *board, struct sc_recording *one) {
  while (taken(one) + 2 <= board->flash_bytes) {
    uint8_t length[2];
    ring_read(board, place(one, one->bytes), length, 2);
    uint16_t packet = get16(length);
    if (packet == 0 || packet > SC_MAX_PACKET || taken(one) + 2 + packet > board->flash_bytes) break;
    one->bytes += 2u + packet;
    one->packets++;
  }
}

/* Identifiers go round as well: which of two was given later. */
static bool is_later(uint16_t a, uint16_t b) { return (uint16_t)(a - b) < 0x8000u && a != b; }

void flash_log_open(struct sensor_core *core) {
  const struct sc_board *board = core->board;
  core->next_id = 1;
  for (uint32_t at = 0; at + board->sector_bytes <= board->flash_bytes; at += board->sector_bytes) {
    struct sc_recording one;
    if (!read_mark(board, at, &one)) continue;
    measure(board, &one);
    /* In the order they were made, wherever in the ring they lie. */
    size_t to = core->recordings;
    while (to > 0 && is_later(core->log[to - 1].id, one.id)) to--;
    if (core->recordings == SC_MAX_RECORDINGS) {
      if (to == 0) continue;
      forget(core, 0);
      to--;
    }
    memmove(core->log + to + 1, core->log + to, (core->recordings - to) * sizeof one);
    core->log[to] = one;
    core->recordings++;
  }
  if (core->recordings == 0) return;
  const struct sc_recording *newest = &core->log[core->recordings - 1];
  core->next_id = (uint16_t)(newest->id + 1);
  core->free_at = sector_after(board, newest);
}

bool flash_log_begin(struct sensor_core *core) {
  const struct sc_board *board = core->board;
  uint8_t mark[MARK_BYTES] = {0};
  struct sc_recording one = {core->next_id, core->free_at, 0, 0, sc_unix_s(core)};
  if (core->recordings == SC_MAX_RECORDINGS && !erase(core, core->log[0].sector_at, one.id)) return false;
  if (!erase(core, one.sector_at, one.id)) return false;
  core->erased = board->sector_bytes;
  put32(mark, MAGIC);
  put16(mark + 4, one.id);
  put32(mark + 8, one.start_unix_s);
  put32(mark + 12, sc_crc32(0, mark, 12));
  if (!board->flash_write(board->self, one.sector_at, mark, MARK_BYTES)) return false;
  core->next_id++;
  core->log[core->recordings++] = one;
  return true;
}

bool flash_log_append(struct sensor_core *core, const uint8_t *packet, size_t length) {
  const struct sc_board *board = core->board;
  uint8_t before[2];
  struct sc_recording *one = &core->log[core->recordings - 1];
  uint16_t id = one->id;
  /* Two more bytes stay erased: they end the recording. */
  uint32_t wanted = taken(one) + 2 + (uint32_t)length;
  while (core->erased < wanted) {
    uint32_t sector_at = (one->sector_at + core->erased) % board->flash_bytes;
    /* Full of this one recording alone: it ends here. */
    if (core->erased >= board->flash_bytes || !erase(core, sector_at, id)) return false;
    core->erased += board->sector_bytes;
    one = &core->log[core->recordings - 1];
  }
  put16(before, (uint16_t)length);
  if (!ring_write(board, place(one, one->bytes + 2), packet, length)) return false;
  if (!ring_write(board, place(one, one->bytes), before, 2)) return false;
  one->bytes += 2 + (uint32_t)length;
  one->packets++;
  return true;
}

void flash_log_end(struct sensor_core *core) {
  const struct sc_recording *one = &core->log[core->recordings - 1];
  uint8_t end[2] = {0, 0};
  ring_write(core->board, place(one, one->bytes), end, 2);
  core->free_at = sector_after(core->board, one);
}

/* Recordings that have ended: what is still written is not told, fetched or cleared. */
static size_t ended(const struct sensor_core *core) { return core->recordings - (core->recording ? 1 : 0); }

static const struct sc_recording *find(const struct sensor_core *core, uint16_t id) {
  for (size_t i = 0; i < ended(core); i++)
    if (core->log[i].id == id) return &core->log[i];
  return NULL;
}

bool flash_log_command(struct sensor_core *core, const uint8_t *bytes, size_t length) {
  const struct sc_board *board = core->board;
  uint8_t answer[2] = {SC_CLEAR, 1};
  switch (bytes[0]) {
    case SC_LIST:
      core->answering = SC_LIST;
      core->answer_at = 0;
      return true;
    case SC_FETCH: {
      const struct sc_recording *one = length < 7 ? NULL : find(core, get16(bytes + 1));
      if (one == NULL || get32(bytes + 3) > one->bytes) return false;
      core->answering = SC_FETCH;
      core->answer_at = one->id;
      core->fetch_from = get32(bytes + 3);
      return true;
    }
    case SC_CLEAR: {
      const struct sc_recording *one = length < 3 ? NULL : find(core, get16(bytes + 1));
      if (one != NULL && board->flash_erase(board->self, one->sector_at)) {
        forget(core, (size_t)(one - core->log));
        answer[1] = 0;
      }
      return board->notify_answer(board->self, answer, 2);
    }
    default:
      return false;
  }
}

static bool send_list(struct sensor_core *core) {
  const struct sc_board *board = core->board;
  size_t count = ended(core);
  uint8_t answer[15] = {SC_LIST, (uint8_t)count};
  if (core->answer_at == 0) {
    if (board->notify_answer(board->self, answer, 2)) core->answer_at = 1;
  } else if (core->answer_at <= count) {
    const struct sc_recording *one = &core->log[core->answer_at - 1];
    answer[0] = SC_ENTRY;
    put16(answer + 1, one->id);
    put32(answer + 3, one->bytes);
    put32(answer + 7, one->packets);
    put32(answer + 11, one->start_unix_s);
    if (board->notify_answer(board->self, answer, sizeof answer)) core->answer_at++;
  }
  if (core->answer_at > count) core->answering = 0;
  return core->answering != 0;
}

static uint32_t whole_crc(const struct sensor_core *core, const struct sc_recording *one) {
  uint8_t part[64];
  uint32_t crc = 0;
  for (uint32_t at = 0; at < one->bytes; at += sizeof part) {
    size_t length = one->bytes - at < sizeof part ? one->bytes - at : sizeof part;
    ring_read(core->board, place(one, at), part, length);
    crc = sc_crc32(crc, part, length);
  }
  return crc;
}

static bool send_block(struct sensor_core *core) {
  const struct sc_board *board = core->board;
  const struct sc_recording *one = find(core, (uint16_t)core->answer_at);
  uint8_t block[SC_BLOCK_BYTES];
  if (one == NULL) {
    core->answering = 0;
    return false;
  }
  if (core->fetch_from >= one->bytes) {
    block[0] = SC_END;
    put16(block + 1, one->id);
    put32(block + 3, one->bytes);
    put32(block + 7, whole_crc(core, one));
    if (board->notify_answer(board->self, block, 11)) core->answering = 0;
    return core->answering != 0;
  }
  size_t room = SC_BLOCK_BYTES - 9, left = one->bytes - core->fetch_from, length = left < room ? left : room;
  block[0] = SC_BLOCK;
  put32(block + 1, core->fetch_from);
  ring_read(board, place(one, core->fetch_from), block + 5, length);
  put32(block + 5 + length, sc_crc32(0, block + 1, 4 + length));
  if (board->notify_answer(board->self, block, 9 + length)) core->fetch_from += (uint32_t)length;
  return true;
}

bool sc_idle(struct sensor_core *core) {
  if (core->answering == SC_LIST) return send_list(core);
  return core->answering == SC_FETCH && send_block(core);
}
