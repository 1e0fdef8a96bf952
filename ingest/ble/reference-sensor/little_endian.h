/* Numbers in packets are little-endian, whatever the processor. SPDX-License-Identifier: Apache-2.0 */
#ifndef LITTLE_ENDIAN_H
#define LITTLE_ENDIAN_H

#include <stdint.h>

static inline void put16(uint8_t *to, uint16_t value) {
  to[0] = (uint8_t)value;
  to[1] = (uint8_t)(value >> 8);
}

static inline void put32(uint8_t *to, uint32_t value) {
  put16(to, (uint16_t)value);
  put16(to + 2, (uint16_t)(value >> 16));
}

static inline uint16_t get16(const uint8_t *from) { return (uint16_t)(from[0] | from[1] << 8); }

static inline uint32_t get32(const uint8_t *from) { return get16(from) | (uint32_t)get16(from + 2) << 16; }

#endif
