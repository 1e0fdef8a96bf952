/** The interfaces of org.bluez that clients use, as plain objects on a bus. BlueZ's own documentation names the members. */
import dbus from 'dbus-next';

const { Interface } = dbus.interface;
export type Properties = Record<string, { signature: string; value: unknown }>;
type Method = { in: string; out: string; call: (...args: never[]) => unknown };

/** A BlueZ failure as clients see it. */
export function bluezError(name: string, text: string): Error {
  return new dbus.DBusError(`org.bluez.Error.${name}`, text);
}

/** One interface with its properties; `change` sends PropertiesChanged. */
export interface BusObject {
  path: string;
  name: string;
  properties: Properties;
  iface: dbus.interface.Interface;
  change(values: Record<string, unknown>): void;
  /** Sends PropertiesChanged without keeping the value, as notifications do. */
  notify(values: Record<string, unknown>): void;
}

export function makeObject(
  path: string,
  name: string,
  properties: Properties,
  methods: Record<string, Method> = {},
  signals: Record<string, string> = {},
): BusObject {
  class Made extends Interface {}
  const proto = Made.prototype as unknown as Record<string, unknown>;
  for (const key of Object.keys(properties)) {
    Object.defineProperty(proto, key, { get: () => properties[key].value, set: () => {}, configurable: true });
  }
  for (const [key, method] of Object.entries(methods)) proto[key] = method.call;
  for (const key of Object.keys(signals)) proto[key] = (...args: unknown[]) => args;
  Made.configureMembers({
    properties: Object.fromEntries(
      Object.entries(properties).map(([key, { signature }]) => [key, { signature, access: 'read' as const }]),
    ),
    methods: Object.fromEntries(
      Object.entries(methods).map(([key, method]) => [key, { inSignature: method.in, outSignature: method.out }]),
    ),
    signals: Object.fromEntries(Object.entries(signals).map(([key, signature]) => [key, { signature }])),
  });
  const iface = new Made(name);
  return {
    path,
    name,
    properties,
    iface,
    change(values) {
      for (const [key, value] of Object.entries(values)) properties[key].value = value;
      Interface.emitPropertiesChanged(iface, values, []);
    },
    notify(values) {
      Interface.emitPropertiesChanged(iface, values, []);
    },
  };
}

/** Values as variants, for GetManagedObjects and InterfacesAdded. */
export function variants(properties: Properties): Record<string, dbus.Variant> {
  return Object.fromEntries(
    Object.entries(properties).map(([key, { signature, value }]) => [key, new dbus.Variant(signature, value)]),
  );
}
