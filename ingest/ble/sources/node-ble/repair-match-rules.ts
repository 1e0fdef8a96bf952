import dbus from 'dbus-next';

interface MatchBus {
  call(message: dbus.Message): Promise<dbus.Message | null>;
  _connection: { stream: { writable: boolean } };
  _addMatch(rule: string): Promise<unknown>;
  _removeMatch(rule: string): Promise<unknown>;
}

/**
 * dbus-next 0.10.2 counts its match rules wrongly (the arguments of hasOwnProperty are swapped): it adds a rule again for
 * every listener and never removes one, until the bus refuses at 512. This puts right counting in its place, for one bus.
 * @returns the rules now in force, for tests
 */
export function repairMatchRules(bus: unknown): Map<string, number> {
  const target = bus as MatchBus;
  const rules = new Map<string, number>();
  const tell = (member: string, rule: string) =>
    target.call(
      new dbus.Message({
        destination: 'org.freedesktop.DBus',
        path: '/org/freedesktop/DBus',
        interface: 'org.freedesktop.DBus',
        member,
        signature: 's',
        body: [rule],
      }),
    );
  target._addMatch = async (rule) => {
    const listeners = (rules.get(rule) ?? 0) + 1;
    rules.set(rule, listeners);
    if (listeners === 1) await tell('AddMatch', rule);
  };
  target._removeMatch = async (rule) => {
    const listeners = (rules.get(rule) ?? 0) - 1;
    if (listeners > 0) {
      rules.set(rule, listeners);
      return;
    }
    if (!rules.delete(rule) || !target._connection.stream.writable) return;
    await tell('RemoveMatch', rule);
  };
  return rules;
}
