/** The parts of @homebridge/dbus-native that are used; its own declarations leave most of them out. */
declare module '@homebridge/dbus-native' {
  import type { EventEmitter } from 'node:events';

  export interface Message {
    type?: number;
    destination?: string;
    path?: string;
    interface?: string;
    member?: string;
    signature?: string;
    sender?: string;
    body?: unknown[];
  }

  export interface ReplyError {
    name?: string;
    message?: unknown;
  }

  export interface MessageBus {
    connection: EventEmitter & { end(): void };
    /** @param callback takes the values of the answer one by one */
    invoke(message: Message, callback: (error: ReplyError | null, ...values: unknown[]) => void): void;
    exportInterface(
      implementation: Record<string, unknown>,
      path: string,
      description: { name: string; methods: Record<string, [inSignature: string, outSignature: string]> },
    ): void;
  }

  const library: {
    createClient(options: { busAddress: string }): MessageBus;
    messageType: { signal: number };
  };
  export default library;
}
