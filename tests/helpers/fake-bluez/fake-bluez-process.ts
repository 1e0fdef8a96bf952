/** A process of its own, so that a busy or killed server cannot disturb the sensors. Told what to do by its parent. */
import { FakeAdapter } from './fake-adapter.ts';
import { CoreSensor } from './core-sensor.ts';
import type { FakeSensor } from './fake-sensor.ts';
import { SimulatedSensor, type SimulatedSensorOptions } from './simulated-sensor.ts';

const CONNECTION_INTERVAL_MS = 8;
const ADVERTISING_INTERVAL_MS = 200;

let address = '';
let sensors: FakeSensor[] = [];
let adapter: FakeAdapter | null = null;

const commands: Record<string, (...args: never[]) => unknown> = {
  async begin(bus_address: string, options: SimulatedSensorOptions[]) {
    address = bus_address;
    sensors = options.map((option) => (option.core ? new CoreSensor(option) : new SimulatedSensor(option)));
    await commands.startBluetoothd();
    setInterval(() => adapter?.tick(), CONNECTION_INTERVAL_MS);
    setInterval(() => adapter?.advertise(), ADVERTISING_INTERVAL_MS);
  },
  async startBluetoothd() {
    adapter = new FakeAdapter(address, sensors);
    await adapter.own();
  },
  stopBluetoothd() {
    adapter?.stop();
    adapter = null;
  },
  drop: (sensor: string) => adapter!.drop(sensor),
  setInRange: (sensor: string, in_range: boolean) => adapter!.setInRange(sensor, in_range),
  failNextConnects: (sensor: string, count: number) => adapter!.failNextConnects(sensor, count),
  setBattery: (sensor: string, percent: number) => adapter!.setBattery(sensor, percent),
  setAdapterPresent: (present: boolean) => adapter!.setAdapterPresent(present),
  disturb(sensor: string, disturbances: FakeSensor['disturbances']) {
    find(sensor).disturbances = disturbances;
  },
  report(sensor: string) {
    return { ...find(sensor).report(), connects: adapter?.connects(sensor) ?? 0 };
  },
};

function find(sensor: string): FakeSensor {
  return sensors.find((candidate) => candidate.options.address === sensor)!;
}

process.on('message', async ({ id, command, args }: { id: number; command: string; args: never[] }) => {
  try {
    process.send!({ id, result: (await commands[command](...args)) ?? null });
  } catch (error) {
    process.send!({ id, error: (error as Error).message });
  }
});
process.on('disconnect', () => {
  for (const sensor of sensors) sensor.close();
  process.exit(0);
});
