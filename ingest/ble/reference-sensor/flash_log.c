/*
 * The log in flash memory. A recording begins at a sector: a mark of 16 bytes (magic, id, start), then packets, each with its
 * length before it, up to a length of 0xffff (erased memory) or 0 (ended). So a recording that a flat battery cut is whole up
 * to its last packet. When the memory is full the oldest recording gives way (a ring). SPDX-License-Identifier: Apache-2.0
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

static uint32_t next_sector(const struct sc_board *board, uint32_t at) {
  return (at + board->sector_bytes - 1) / board->sector_bytes * board->sector_bytes;
}

static void forget(struct sensor_core *core, size_t which) {
  memmove(core->log + which, core->log + which + 1, (core->recordings - which - 1) * sizeof core->log[0]);
  core->recordings--;
}

/* Erases a sector; recordings that lie in it are gone. */
static bool erase(struct sensor_core *core, uint32_t sector_at, uint16_t but_id) {
  const struct sc_board *board = core->board;
  for (size_t i = 0; i < core->recordings;) {
    uint32_t from = core->log[i].at - MARK_BYTES, to = core->log[i].at + core->log[i].bytes;
    bool touched = from < sector_at + board->sector_bytes && to > sector_at;
    if (!touched) i++;
    else if (core->log[i].id == but_id) return false;
    else {
      /* Its mark must not be found again. */
      if (from / board->sector_bytes != sector_at / board->sector_bytes)
        board->flash_erase(board->self, from / board->sector_bytes * board->sector_bytes);
      forget(core, i);
    }
  }
  return board->flash_erase(board->self, sector_at);
}

void flash_log_open(struct sensor_core *core) {
  const struct sc_board *board = core->board;
  core->next_id = 1;
  for (uint32_t at = 0; at + MARK_BYTES <= board->flash_bytes; at += board->sector_bytes) {
    uint8_t mark[MARK_BYTES], length[2];
    board->flash_read(board->self, at, mark, MARK_BYTES);
    if (get32(mark) != MAGIC || core->recordings == SC_MAX_RECORDINGS) continue;
    struct sc_recording *one = &core->log[core->recordings++];
    *one = (struct sc_recording){get16(mark + 4), at + MARK_BYTES, 0, 0, get32(mark + 8)};
    while (one->at + one->bytes + 2 <= board->flash_bytes) {
      board->flash_read(board->self, one->at + one->bytes, length, 2);
      uint16_t packet = get16(length);
      if (packet == 0 || packet > SC_MAX_PACKET) break;
      one->bytes += 2u + packet;
      one->packets++;
    }
    if (one->id >= core->next_id) core->next_id = (uint16_t)(one->id + 1);
    core->free_at = next_sector(board, one->at + one->bytes + 2);
  }
}

bool flash_log_begin(struct sensor_core *core) {
  const struct sc_board *board = core->board;
  uint8_t mark[MARK_BYTES] = {0};
  uint32_t at = core->free_at + board->sector_bytes <= board->flash_bytes ? core->free_at : 0;
  if (core->recordings == SC_MAX_RECORDINGS && !erase(core, (core->log[0].at - MARK_BYTES), 0)) return false;
  if (!erase(core, at, 0)) return false;
  core->erased_to = at + board->sector_bytes;
  struct sc_recording one = {core->next_id++, at + MARK_BYTES, 0, 0, board->unix_s(board->self)};
  put32(mark, MAGIC);
  put16(mark + 4, one.id);
  put32(mark + 8, one.start_unix_s);
  if (!board->flash_write(board->self, at, mark, MARK_BYTES)) return false;
  core->log[core->recordings++] = one;
  return true;
}

bool flash_log_append(struct sensor_core *core, const uint8_t *packet, size_t length) {
  const struct sc_board *board = core->board;
  uint16_t id = core->log[core->recordings - 1].id;
  struct sc_recording *one = &core->log[core->recordings - 1];
  uint8_t before[2];
  uint32_t at = one->at + one->bytes;
  /* Two more bytes stay erased: they end the recording. */
  if (at + length + 4 > board->flash_bytes) return false;
  while (core->erased_to < at + length + 4) {
    if (!erase(core, core->erased_to, id)) return false;
    core->erased_to += board->sector_bytes;
    one = &core->log[core->recordings - 1];
  }
  put16(before, (uint16_t)length);
  if (!board->flash_write(board->self, at + 2, packet, length)) return false;
  if (!board->flash_write(board->self, at, before, 2)) return false;
  one->bytes += 2 + (uint32_t)length;
  one->packets++;
  return true;
}

void flash_log_end(struct sensor_core *core) {
  struct sc_recording *one = &core->log[core->recordings - 1];
  uint8_t end[2] = {0, 0};
  core->board->flash_write(core->board->self, one->at + one->bytes, end, 2);
  core->free_at = next_sector(core->board, one->at + one->bytes + 2);
}

static struct sc_recording *find(struct sensor_core *core, uint16_t id) {
  for (size_t i = 0; i < core->recordings; i++)
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
      struct sc_recording *one = length < 7 ? NULL : find(core, get16(bytes + 1));
      if (one == NULL || get32(bytes + 3) > one->bytes) return false;
      core->answering = SC_FETCH;
      core->answer_at = one->id;
      core->fetch_from = get32(bytes + 3);
      return true;
    }
    case SC_CLEAR: {
      struct sc_recording *one = length < 3 ? NULL : find(core, get16(bytes + 1));
      bool open = core->recording && one == &core->log[core->recordings - 1];
      if (one != NULL && !open && board->flash_erase(board->self, one->at - MARK_BYTES)) {
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
  uint8_t answer[15] = {SC_LIST, (uint8_t)core->recordings};
  if (core->answer_at == 0) {
    if (board->notify_answer(board->self, answer, 2)) core->answer_at = 1;
  } else if (core->answer_at <= core->recordings) {
    const struct sc_recording *one = &core->log[core->answer_at - 1];
    answer[0] = SC_ENTRY;
    put16(answer + 1, one->id);
    put32(answer + 3, one->bytes);
    put32(answer + 7, one->packets);
    put32(answer + 11, one->start_unix_s);
    if (board->notify_answer(board->self, answer, sizeof answer)) core->answer_at++;
  }
  if (core->answer_at > core->recordings) core->answering = 0;
  return core->answering != 0;
}

static uint32_t whole_crc(struct sensor_core *core, const struct sc_recording *one) {
  uint8_t part[64];
  uint32_t crc = 0;
  for (uint32_t at = 0; at < one->bytes; at += sizeof part) {
    size_t length = one->bytes - at < sizeof part ? one->bytes - at : sizeof part;
    core->board->flash_read(core->board->self, one->at + at, part, length);
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
  board->flash_read(board->self, one->at + core->fetch_from, block + 5, length);
  put32(block + 5 + length, sc_crc32(0, block + 1, 4 + length));
  if (board->notify_answer(board->self, block, 9 + length)) core->fetch_from += (uint32_t)length;
  return true;
}

bool sc_idle(struct sensor_core *core) {
  if (core->answering == SC_LIST) return send_list(core);
  return core->answering == SC_FETCH && send_block(core);
}
