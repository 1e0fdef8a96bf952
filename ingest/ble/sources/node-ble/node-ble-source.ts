import { GattPacketSource } from '../gatt-packet-source.ts';
import { NodeBleRadio } from './node-ble-radio.ts';

/** Packets by BlueZ and node-ble: the radio of a Linux machine. */
export class NodeBleSource extends GattPacketSource {
  private readonly own: NodeBleRadio;

  /** @param listen_s how long a sensor that the machine does not know is listened for */
  constructor(listen_s?: number) {
    const own = new NodeBleRadio(listen_s);
    super(own);
    this.own = own;
  }

  /** How many match rules are in force on the bus; must not grow. */
  matchRules(): number {
    return this.own.matchRules();
  }

  /** How many listeners hang on the bus; must not grow. */
  busListeners(): number {
    return this.own.busListeners();
  }
}
