import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { compileFunction } from 'node:vm';
import type { ClientTransport } from './client-transport.ts';
import type { Timers } from './timers.ts';

/** The Firmata client, as far as it is used here. */
export interface FirmataClient {
  readonly isReady: boolean;
  readonly firmware: {
    readonly name?: string | null;
    readonly version?: { readonly major: number; readonly minor: number };
  };
  readonly version: { readonly major?: number; readonly minor?: number };
  readonly pins: readonly { readonly supportedModes: readonly number[]; readonly analogChannel: number }[];
  readonly analogPins: readonly number[];
  readonly MODES: {
    readonly OUTPUT: number;
    readonly INPUT: number;
    readonly ANALOG: number;
    readonly PULLUP: number;
  };
  on(event: string, heard: (...values: readonly unknown[]) => void): this;
  once(event: string, heard: (...values: readonly unknown[]) => void): this;
  removeAllListeners(): this;
  reportVersion(answered: () => void): void;
  queryFirmware(answered: () => void): void;
  digitalWrite(pin: number, value: 0 | 1): void;
  reportDigitalPin(pin: number, value: 0 | 1): void;
  pinMode(pin: number, mode: number): void;
  digitalRead(pin: number, heard: (value: number) => void): void;
}

export interface SensorPart {
  on(event: 'data', heard: (value: number | null) => void): this;
}

export interface RelayPart {
  close(): unknown;
  open(): unknown;
}

export interface LampPart {
  on(): unknown;
  off(): unknown;
}

/** A board of the device library: parts are made on it. */
export interface LibraryBoard {
  once(event: 'ready', heard: () => void): this;
  on(event: 'error', heard: (error: unknown) => void): this;
}

/** Firmata client and device library, as far as they are used here. */
export interface DeviceLibrary {
  readonly Firmata: new (
    transport: ClientTransport,
    options: { readonly reportVersionTimeout: number; readonly samplingInterval: number },
  ) => FirmataClient;
  readonly Board: new (options: {
    readonly io: FirmataClient;
    readonly repl: false;
    readonly sigint: false;
    readonly debug: false;
    readonly timeout: number;
  }) => LibraryBoard;
  readonly Relay: new (options: {
    readonly pin: number;
    readonly type: 'NO' | 'NC';
    readonly board: LibraryBoard;
  }) => RelayPart;
  readonly Sensor: new (options: {
    readonly pin: string;
    readonly freq: number;
    readonly board: LibraryBoard;
  }) => SensorPart;
  readonly Led: new (options: { readonly pin: number; readonly board: LibraryBoard }) => LampPart;
}

/** A CommonJS module as Node runs it, with the timers that it takes for the global ones. */
type ModuleBody = (
  exports: unknown,
  require: (name: string) => unknown,
  module: { exports: unknown },
  file: string,
  folder: string,
  ...timers: readonly unknown[]
) => void;

const TIMER_NAMES = ['setTimeout', 'clearTimeout', 'setInterval', 'clearInterval'] as const;
const OWN = /[\\/]node_modules[\\/](?:johnny-five|firmata-io)[\\/]/;
const bodies = new Map<string, ModuleBody>();

const bodyOf = (file: string): ModuleBody => {
  const known = bodies.get(file);
  if (known !== undefined) return known;
  const parameters = ['exports', 'require', 'module', '__filename', '__dirname', ...TIMER_NAMES];
  const body = compileFunction(readFileSync(file, 'utf8'), parameters, { filename: file }) as ModuleBody;
  bodies.set(file, body);
  return body;
};

/**
 * A fresh copy of the two packages, on timers of the caller's. Both keep lists of every board and part ever
 * made, and share message handlers between boards; so each connection runs a copy of its own, which goes with
 * it. What they require from other packages is shared as usual.
 */
export const freshLibrary = (timers: Timers): DeviceLibrary => {
  const loaded = new Map<string, { exports: unknown }>();
  const timerValues = TIMER_NAMES.map((name) => timers[name]);
  const load = (file: string): unknown => {
    const known = loaded.get(file);
    if (known !== undefined) return known.exports;
    const module: { exports: unknown } = { exports: {} };
    loaded.set(file, module);
    const plain = createRequire(file);
    const require = (name: string): unknown => {
      const found = plain.resolve(name);
      return OWN.test(found) ? load(found) : (plain(name) as unknown);
    };
    bodyOf(file).call(module.exports, module.exports, require, module, file, dirname(file), ...timerValues);
    return module.exports;
  };
  const { resolve } = createRequire(import.meta.url);
  const { Firmata } = load(resolve('firmata-io')) as Pick<DeviceLibrary, 'Firmata'>;
  // Only the four parts that are used: the package's own index would load forty.
  return {
    Firmata,
    Board: load(resolve('johnny-five/lib/board.js')) as DeviceLibrary['Board'],
    Relay: load(resolve('johnny-five/lib/relay.js')) as DeviceLibrary['Relay'],
    Sensor: load(resolve('johnny-five/lib/sensor.js')) as DeviceLibrary['Sensor'],
    Led: load(resolve('johnny-five/lib/led/led.js')) as DeviceLibrary['Led'],
  };
};
