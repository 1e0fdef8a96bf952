/*
 * Thin board part for an nRF52840 development board under Zephyr, with an inertial sensor on SPI that raises an interrupt when its FIFO
 * is to be read. Its settings are in prj.conf. UNTRIED ON HARDWARE: written from documentation, neither compiled nor run.
 * SPDX-License-Identifier: Apache-2.0
 */
#include <zephyr/bluetooth/bluetooth.h>
#include <zephyr/bluetooth/gatt.h>
#include <zephyr/drivers/flash.h>
#include <zephyr/kernel.h>

#include "../sensor_core.h"
/*
 * Yours: imu_configure; imu_on_sample, which calls for every sample in order from a thread; imu_on_missed, which calls with the number of
 * samples that a full FIFO has lost; battery_read_mv, which answers from the last reading (it is asked for every packet). Erasing a sector
 * may hold the thread for 0.3 s: the FIFO must be that deep (240 samples at 800 Hz).
 */
#include "imu.h"

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
static uint32_t unix_s(void *self) { return 0; /* no clock of its own: the host tells the time at the start */ }

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

static void on_missed(uint32_t samples) {
  k_mutex_lock(&core_lock, K_FOREVER);
  sc_missed(&core, samples);
  k_mutex_unlock(&core_lock);
}

/* The service is advertised, and a name that begins as the stream description says; a number of your own after it tells left from right. */
#define NAME "Cinder 1"
static const struct bt_data advertised[] = {BT_DATA_BYTES(BT_DATA_FLAGS, BT_LE_AD_GENERAL | BT_LE_AD_NO_BREDR),
                                            BT_DATA_BYTES(BT_DATA_UUID128_ALL, UUID(1))};
static const struct bt_data answered[] = {BT_DATA(BT_DATA_NAME_COMPLETE, NAME, sizeof NAME - 1)};

static void advertise(struct k_work *work) {
  bt_le_adv_start(BT_LE_ADV_CONN, advertised, ARRAY_SIZE(advertised), answered, ARRAY_SIZE(answered));
}
K_WORK_DEFINE(advertising, advertise);

static void disconnected(struct bt_conn *conn, uint8_t reason) {
  k_mutex_lock(&core_lock, K_FOREVER);
  sc_disconnected(&core);
  k_mutex_unlock(&core_lock);
}
/* The connection's memory is free again: advertising ends with a connection and is begun anew. */
static void recycled(void) { k_work_submit(&advertising); }
BT_CONN_CB_DEFINE(callbacks) = {.disconnected = disconnected, .recycled = recycled};

int main(void) {
  sc_init(&core, &board);
  imu_on_sample(on_sample);
  imu_on_missed(on_missed);
  if (bt_enable(NULL) != 0) return 1;
  k_work_submit(&advertising);
  for (;;) {
    k_mutex_lock(&core_lock, K_FOREVER);
    bool more = sc_idle(&core);
    k_mutex_unlock(&core_lock);
    k_sleep(more ? K_NO_WAIT : K_MSEC(10));
  }
}
