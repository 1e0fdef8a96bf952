/*
 * Thin board part for an nRF52840 development board under Zephyr, with an inertial sensor on SPI that raises an interrupt for each
 * sample. UNTRIED ON HARDWARE: written from documentation, neither compiled nor run. SPDX-License-Identifier: Apache-2.0
 */
#include <zephyr/bluetooth/bluetooth.h>
#include <zephyr/bluetooth/gatt.h>
#include <zephyr/drivers/flash.h>
#include <zephyr/kernel.h>

#include "../sensor_core.h"
#include "imu.h" /* yours: imu_configure, imu_read (12 bytes of counts), imu_on_sample, battery_read_mv */

#define UUID(n) BT_UUID_128_ENCODE(0xc1d30000 | (n), 0x90e8, 0x4d52, 0xa7b4, 0x5f6e2a8c1b90)
static struct bt_uuid_128 service = BT_UUID_INIT_128(UUID(1)), data = BT_UUID_INIT_128(UUID(2)),
                          control = BT_UUID_INIT_128(UUID(3)), memory = BT_UUID_INIT_128(UUID(4));

static struct sensor_core core;
K_MUTEX_DEFINE(core_lock);

static ssize_t on_control(struct bt_conn *conn, const struct bt_gatt_attr *attr, const void *bytes, uint16_t length,
                          uint16_t offset, uint8_t flags) {
  k_mutex_lock(&core_lock, K_FOREVER);
  bool understood = offset == 0 && sc_control(&core, bytes, length);
  k_mutex_unlock(&core_lock);
  return understood ? length : BT_GATT_ERR(BT_ATT_ERR_VALUE_NOT_ALLOWED);
}

BT_GATT_SERVICE_DEFINE(sensor, BT_GATT_PRIMARY_SERVICE(&service),
                       BT_GATT_CHARACTERISTIC(&data.uuid, BT_GATT_CHRC_NOTIFY, 0, NULL, NULL, NULL),
                       BT_GATT_CCC(NULL, BT_GATT_PERM_READ | BT_GATT_PERM_WRITE),
                       BT_GATT_CHARACTERISTIC(&control.uuid, BT_GATT_CHRC_WRITE, BT_GATT_PERM_WRITE, NULL, on_control, NULL),
                       BT_GATT_CHARACTERISTIC(&memory.uuid, BT_GATT_CHRC_NOTIFY, 0, NULL, NULL, NULL),
                       BT_GATT_CCC(NULL, BT_GATT_PERM_READ | BT_GATT_PERM_WRITE));

static bool notify_data(void *self, const uint8_t *bytes, size_t length) {
  return bt_gatt_notify(NULL, &sensor.attrs[2], bytes, length) == 0;
}
static bool notify_answer(void *self, const uint8_t *bytes, size_t length) {
  return bt_gatt_notify(NULL, &sensor.attrs[7], bytes, length) == 0;
}
static bool configure(void *self, uint16_t rate_hz, uint16_t acc_g, uint16_t gyr_dps) {
  return imu_configure(rate_hz, acc_g, gyr_dps);
}
static uint16_t battery(void *self) { return battery_read_mv(); }
static uint32_t unix_s(void *self) { return 0; /* the board has no clock of its own */ }

static const struct device *flash = DEVICE_DT_GET(DT_CHOSEN(sensor_flash));
static bool erase(void *self, uint32_t at) { return flash_erase(flash, at, 4096) == 0; }
static bool write(void *self, uint32_t at, const uint8_t *bytes, size_t n) { return flash_write(flash, at, bytes, n) == 0; }
static void read(void *self, uint32_t at, uint8_t *bytes, size_t n) { (void)flash_read(flash, at, bytes, n); }

static const struct sc_board board = {NULL, notify_data, notify_answer, configure, battery, unix_s,
                                      8u << 20, 4096, erase, write, read};

/* Called from a thread, not from the interrupt: SPI and flash wait. */
static void on_sample(uint32_t time_us, const int16_t acc[3], const int16_t gyr[3]) {
  k_mutex_lock(&core_lock, K_FOREVER);
  sc_sample(&core, time_us, acc, gyr);
  k_mutex_unlock(&core_lock);
}

static void disconnected(struct bt_conn *conn, uint8_t reason) {
  k_mutex_lock(&core_lock, K_FOREVER);
  sc_disconnected(&core);
  k_mutex_unlock(&core_lock);
}
BT_CONN_CB_DEFINE(callbacks) = {.disconnected = disconnected};

int main(void) {
  sc_init(&core, &board);
  imu_on_sample(on_sample);
  bt_enable(NULL);
  bt_le_adv_start(BT_LE_ADV_CONN, NULL, 0, NULL, 0);
  for (;;) {
    k_mutex_lock(&core_lock, K_FOREVER);
    bool more = sc_idle(&core);
    k_mutex_unlock(&core_lock);
    k_sleep(more ? K_NO_WAIT : K_MSEC(10));
  }
}
