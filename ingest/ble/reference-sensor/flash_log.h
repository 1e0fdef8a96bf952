/* The log in flash memory, and its list, fetch and clear. SPDX-License-Identifier: Apache-2.0 */
#ifndef FLASH_LOG_H
#define FLASH_LOG_H

#include "sensor_core.h"

void flash_log_open(struct sensor_core *core);
bool flash_log_begin(struct sensor_core *core);
bool flash_log_append(struct sensor_core *core, const uint8_t *packet, size_t length);
void flash_log_end(struct sensor_core *core);
bool flash_log_command(struct sensor_core *core, const uint8_t *bytes, size_t length);

#endif
