/*
 * The core on a computer, for tests: commands on standard input, a line each, what the sensor sends on standard output.
 *   sample TIME_US AX AY AZ GX GY GZ | missed N | control HEX | idle N | disconnect | restart | cut N
 * restart: switched off and on, memory kept. cut N: the battery gives out N bytes of flash memory from now; then restart.
 * Answers: "data HEX", "answer HEX", "refused", "done". SPDX-License-Identifier: Apache-2.0
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../sensor_core.h"

#define FLASH_BYTES (1u << 20)
#define SECTOR_BYTES 4096u

static uint8_t flash[FLASH_BYTES];
/* Bytes that can still be written before the battery is flat; negative while it is not. */
static long left_to_write = -1;

static void tell(const char *what, const uint8_t *bytes, size_t length) {
  printf("%s ", what);
  for (size_t i = 0; i < length; i++) printf("%02x", bytes[i]);
  printf("\n");
}

static bool data(void *self, const uint8_t *bytes, size_t length) {
  (void)self;
  tell("data", bytes, length);
  return true;
}

static bool answer(void *self, const uint8_t *bytes, size_t length) {
  (void)self;
  tell("answer", bytes, length);
  return true;
}

static bool configure(void *self, uint16_t rate_hz, uint16_t acc_g, uint16_t gyr_dps) {
  (void)self;
  return (rate_hz == 400 || rate_hz == 800) && acc_g == 32 && gyr_dps == 4000;
}

static uint16_t battery_mv(void *self) {
  (void)self;
  return 3900;
}

/* As most boards: no clock of its own. */
static uint32_t unix_s(void *self) {
  (void)self;
  return 0;
}

static bool flash_erase(void *self, uint32_t at) {
  (void)self;
  if (at % SECTOR_BYTES != 0 || at >= FLASH_BYTES) {
    fprintf(stderr, "no sector at %u\n", (unsigned)at);
    exit(1);
  }
  if (left_to_write == 0) return true;
  memset(flash + at, 0xff, SECTOR_BYTES);
  return true;
}

/* As flash does: bits go from one to zero only. */
static bool flash_write(void *self, uint32_t at, const uint8_t *bytes, size_t length) {
  (void)self;
  if (at + length > FLASH_BYTES) {
    fprintf(stderr, "write over the end of memory, at %u\n", (unsigned)at);
    exit(1);
  }
  for (size_t i = 0; i < length; i++) {
    if (left_to_write == 0) return true;
    if (left_to_write > 0) left_to_write--;
    if ((flash[at + i] & bytes[i]) != bytes[i]) {
      fprintf(stderr, "write over memory that is not erased, at %u\n", (unsigned)(at + i));
      exit(1);
    }
    flash[at + i] &= bytes[i];
  }
  return true;
}

static void flash_read(void *self, uint32_t at, uint8_t *bytes, size_t length) {
  (void)self;
  memcpy(bytes, flash + at, length);
}

int main(void) {
  const struct sc_board board = {NULL,   data,        answer,       configure,   battery_mv,  unix_s,
                                 FLASH_BYTES, SECTOR_BYTES, flash_erase, flash_write, flash_read};
  static struct sensor_core core;
  char line[1024];
  memset(flash, 0xff, sizeof flash);
  sc_init(&core, &board);
  setvbuf(stdout, NULL, _IOFBF, 1 << 16);
  while (fgets(line, sizeof line, stdin) != NULL) {
    unsigned long time_us;
    int a[3], g[3], n;
    char hex[512];
    if (sscanf(line, "sample %lu %d %d %d %d %d %d", &time_us, a, a + 1, a + 2, g, g + 1, g + 2) == 7) {
      int16_t acc[3] = {(int16_t)a[0], (int16_t)a[1], (int16_t)a[2]};
      int16_t gyr[3] = {(int16_t)g[0], (int16_t)g[1], (int16_t)g[2]};
      sc_sample(&core, (uint32_t)time_us, acc, gyr);
      continue;
    }
    if (sscanf(line, "control %511s", hex) == 1) {
      uint8_t bytes[256];
      size_t length = strlen(hex) / 2;
      for (size_t i = 0; i < length; i++) {
        unsigned byte;
        sscanf(hex + 2 * i, "%2x", &byte);
        bytes[i] = (uint8_t)byte;
      }
      printf(sc_control(&core, bytes, length) ? "done\n" : "refused\n");
    } else if (sscanf(line, "idle %d", &n) == 1) {
      while (n-- > 0 && sc_idle(&core)) continue;
      printf("done\n");
    } else if (strncmp(line, "disconnect", 10) == 0) {
      sc_disconnected(&core);
      printf("done\n");
    } else if (sscanf(line, "missed %d", &n) == 1) {
      sc_missed(&core, (uint32_t)n);
      printf("done\n");
    } else if (sscanf(line, "cut %d", &n) == 1) {
      left_to_write = n;
      printf("done\n");
    } else if (strncmp(line, "restart", 7) == 0) {
      left_to_write = -1;
      sc_init(&core, &board);
      printf("done\n");
    }
    fflush(stdout);
  }
  return 0;
}
