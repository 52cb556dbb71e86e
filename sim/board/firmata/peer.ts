import { assert } from '../../../src/units/assertion.ts';
import type { BoardPeer, BoardTally } from '../board-peer.ts';
import {
  analogMappingMessage,
  capabilityMessage,
  firmwareMessage,
  noSuchPinMessage,
  pinStateMessage,
  PIN_MODE,
  samplingIntervalMessage,
  stringMessage,
  versionMessage,
  type Version,
} from './bytes.ts';
import type { HostMessage } from './host-message.ts';
import { createOutbox } from './outbox.ts';
import { createParser, type ParserTally } from './parser.ts';
import { createPinBank, type Level, type OutputHabit } from './pin-bank.ts';
import { createReports } from './reports.ts';
import type { PinTable } from './uno-pins.ts';

/** The revision whose tables this board was written from. */
export const PROTOCOL_VERSION: Version = { major: 2, minor: 8 };
/** Bytes heard in one call; a real board loses far fewer, since its own buffer holds 64. */
export const INPUT_BYTES_MAX = 4096;
/** Pin numbers have 7 bits. */
const PINS_MAX = 128;
/** A longer name is a mistake; stock names have about 20 letters. */
const FIRMWARE_NAME_LETTERS_MAX = 64;

/** What the pins are wired to. */
export interface PinWorld {
  readonly readDigital: (pin: number) => 0 | 1 | 'floating';
  /** Counts of the converter, 0 to 1023. */
  readonly readAnalog: (channel: number) => number;
  /** Called when what a pin does to its wire changes; all pins float to begin with. */
  readonly drive: (pin: number, level: Level) => void;
}

export interface PeerSetup {
  readonly firmwareName: string;
  readonly firmwareVersion: Version;
  readonly protocolVersion?: Version;
  readonly pins: PinTable;
  readonly world: PinWorld;
  /** From a reset until the firmware talks: bootloader and start of the firmware. */
  readonly bootMillis: number;
  /** `keeps-latch`, the habit of today's stock firmware, unless said otherwise. */
  readonly outputHabit?: OutputHabit;
}

export interface PeerTally extends BoardTally {
  readonly parser: ParserTally;
  readonly droppedMessages: number;
  readonly skippedSamplings: number;
}

/** A board made of software. Every opening of its port resets it. */
export interface FirmataPeer extends BoardPeer {
  readonly tally: () => PeerTally;
}

/**
 * A board that speaks Firmata in front of nothing but pins: written from the protocol's tables, with the
 * habits of stock firmware (github firmata/arduino, `StandardFirmata.ino`) where the tables are silent.
 */
export const createFirmataPeer = (setup: PeerSetup): FirmataPeer => {
  const { pins, world, bootMillis } = setup;
  assert(pins.length <= PINS_MAX, `${pins.length} pins, at most ${PINS_MAX} can be numbered`);
  assert(setup.firmwareName.length <= FIRMWARE_NAME_LETTERS_MAX, `too long a name: ${setup.firmwareName}`);
  assert(bootMillis >= 0, `a start of ${bootMillis} ms`);
  let port: 'open' | 'closed' = 'closed';
  let phase: 'unpowered' | 'starting' | 'running' = 'unpowered';
  let startedAt = 0;
  let latest = -Infinity;
  let unheardBytes = 0;
  let overrunBytes = 0;

  const parser = createParser();
  const outbox = createOutbox();
  const bank = createPinBank(pins, world, setup.outputHabit ?? 'keeps-latch');
  const send = (message: readonly number[]): void => {
    if (port === 'open') outbox.put(message);
  };
  const reports = createReports(pins, bank, world.readAnalog, send);

  const tellVersion = (): void => {
    send(versionMessage(setup.protocolVersion ?? PROTOCOL_VERSION));
  };
  const tellFirmware = (): void => {
    send(firmwareMessage(setup.firmwareVersion, setup.firmwareName));
  };
  const tellPinState = (pin: number): void => {
    const held = bank.stateOf(pin);
    send(held ? pinStateMessage(pin, held.mode, held.state) : noSuchPinMessage(pin));
  };
  const setMode = (pin: number, mode: number): void => {
    const outcome = bank.setMode(pin, mode);
    if (outcome === 'no-such-mode') send(stringMessage(`No pin mode ${mode}`));
    // Stock firmware starts and stops the reports of an analog pin with its mode.
    const channel = pins[pin]?.analogChannel ?? null;
    if (channel !== null) reports.wantAnalog(channel, mode === PIN_MODE.analog);
  };

  const obey = (message: HostMessage): void => {
    switch (message.kind) {
      case 'set-pin-mode':
        setMode(message.pin, message.mode);
        return;
      case 'set-pin-value':
        bank.writePin(message.pin, message.level);
        return;
      case 'digital-port-write':
        bank.writePort(message.port, message.bits);
        return;
      case 'analog-write':
      case 'extended-analog-write':
        bank.writePwm(message.pin, message.value);
        return;
      case 'report-analog':
        reports.wantAnalog(message.channel, message.wanted);
        return;
      case 'report-digital':
        reports.wantDigital(message.port, message.wanted);
        return;
      case 'version-query':
        tellVersion();
        return;
      case 'firmware-query':
        tellFirmware();
        return;
      case 'capability-query':
        send(capabilityMessage(pins.map(({ abilities }) => abilities)));
        return;
      case 'analog-mapping-query':
        send(analogMappingMessage(pins.map(({ analogChannel }) => analogChannel)));
        return;
      case 'pin-state-query':
        tellPinState(message.pin);
        return;
      case 'sampling-interval':
        reports.setIntervalMillis(message.millis);
        return;
      case 'sampling-interval-query':
        send(samplingIntervalMessage(reports.intervalMillis()));
        return;
      case 'reset':
        reports.silence();
        bank.toDefaults();
        return;
      case 'string':
      case 'unknown-sysex':
        return;
    }
  };

  const advance = (now: number): void => {
    assert(now >= latest, `time ran backwards from ${latest} to ${now} ms`);
    latest = now;
    if (phase === 'starting' && now >= startedAt + bootMillis) {
      phase = 'running';
      tellVersion();
      tellFirmware();
      bank.toDefaults();
      reports.start(startedAt + bootMillis);
    }
    if (phase === 'running') reports.advance(now);
  };
  const reset = (now: number): void => {
    advance(now);
    phase = 'starting';
    startedAt = now;
    parser.forget();
    bank.float();
  };

  return {
    open: (now) => {
      reset(now);
      outbox.clear();
      port = 'open';
    },
    close: (now) => {
      advance(now);
      outbox.clear();
      port = 'closed';
    },
    reset,
    receive: (bytes, now) => {
      advance(now);
      if (port === 'closed' || phase !== 'running') {
        unheardBytes += bytes.length;
        return;
      }
      overrunBytes += Math.max(0, bytes.length - INPUT_BYTES_MAX);
      parser.push(bytes.subarray(0, INPUT_BYTES_MAX)).forEach(obey);
    },
    advance,
    take: outbox.take,
    nextDue: (now) => {
      if (phase === 'starting') return Math.max(now, startedAt + bootMillis);
      return phase === 'running' && port === 'open' ? reports.nextDue(now) : null;
    },
    tally: () => ({
      parser: parser.tally(),
      unheardBytes,
      overrunBytes,
      droppedMessages: outbox.droppedMessages(),
      skippedSamplings: reports.skippedSamplings(),
    }),
  };
};
