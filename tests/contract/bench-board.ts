import { createParser } from '../../sim/board/firmata/parser.ts';
import type { BoardPeer } from '../../sim/board/board-peer.ts';
import type { HostMessage } from '../../sim/board/firmata/host-message.ts';
import type { FirmataPeer, PeerSetup } from '../../sim/board/firmata/peer.ts';
import type { Farm, Wiring } from '../../src/farm/farm.ts';
import { wiringSchema } from '../../src/farm/wiring-schema.ts';
import { farmWith } from '../support/farm.ts';
import { onDesk, type Desk } from '../unit/board/desk.ts';

export const RELAY_PIN = 7;
export const BUZZER_PIN = 5;
export const LAMP_PIN = 6;
export const BUTTON_PIN = 8;
export const SERIAL_NUMBER = '0042';
/** Long enough that the host has to wait for it. */
export const BOOT_MILLIS = 100;

/** A board with a part on every kind of pin; contacts of both polarities. */
export const wiringWith = (change: object = {}): Wiring =>
  wiringSchema.parse({
    relay: { pin: RELAY_PIN },
    returnFlow: { pin: 2, pulsesPerLitre: 10 },
    relayReadBack: { pin: 3 },
    tankFloat: { pin: 4, reads: 'high' },
    buzzer: BUZZER_PIN,
    lamp: LAMP_PIN,
    button: BUTTON_PIN,
    leakSensor: { pin: 9 },
    overflowFloat: { pin: 10, reads: 'high' },
    airThermistor: { pin: 'A0' },
    waterThermistor: { pin: 'A1', wired: 'to-reference' },
    probe: { pin: 'A2', fullScaleMicrosiemensPerCm: 3000 },
    pumpCurrent: { pin: 'A3', drawsAboveCounts: 100 },
    humidity: { pin: 'A4' },
    tankLevel: { pin: 'A5', litresAtZero: 0, litresAtFullScale: 600 },
    ...change,
  });

export const SHORTEST_OFF_SECONDS = 10;

const FARM = farmWith(
  [['pump', 'shortestOffSeconds'], SHORTEST_OFF_SECONDS],
  [['pump', 'longestOnMinutes'], 40],
);

/** The farm of the bench: its pump may start again as soon as any board allows. */
export const benchFarm = (change: Partial<Pick<Farm, 'deadBoard' | 'pump'>> = {}): Farm => ({
  ...FARM,
  deadBoard: 'pump-stops',
  ...change,
});

/** A board whose pins a test holds in its hands; it remembers every byte it was sent. */
export interface BenchBoard extends Omit<Desk, 'peer'> {
  readonly peer: BoardPeer;
  readonly heard: readonly number[];
}

/** For what a board is made. */
export interface BoardAsked {
  readonly farm?: Farm;
  readonly wiring?: Wiring;
  readonly bootMillis?: number;
}

/** What differs between boards by their nature, and not by what is wired to them. */
export interface BoardKind {
  readonly keeper: 'none' | 'on-the-board';
  readonly says: {
    readonly firmwareName: string;
    readonly firmwareVersion: string;
    readonly protocolVersion: string;
  };
  /** From its power-on until it lets its motor start. */
  readonly restsSeconds: number;
  /** A press is heard of so long after it. */
  readonly pressSeconds: number;
  /** A run may end so much sooner than asked; never later. */
  readonly runGrainSeconds: number;
}

/** What a board is sent, remembered on the way to it. */
export const listeningAt = <Peer extends BoardPeer>(
  peer: Peer,
): { readonly peer: Peer; readonly heard: readonly number[] } => {
  const heard: number[] = [];
  return {
    heard,
    peer: {
      ...peer,
      receive: (bytes, now) => {
        for (const byte of bytes) heard.push(byte);
        peer.receive(bytes, now);
      },
    },
  };
};

/** Contacts of a shed in which all is well; the others are open. */
export const asInAWellShed = <Wires extends Pick<Desk, 'digital'>>(wires: Wires): Wires => {
  // A float and an overflow that read high when it is bad.
  wires.digital.set(4, 0).set(10, 0);
  return wires;
};

export const STOCK: BoardKind = {
  keeper: 'none',
  says: { firmwareName: 'Board under test', firmwareVersion: '3.4', protocolVersion: '2.8' },
  restsSeconds: 0,
  pressSeconds: 0.5,
  runGrainSeconds: 0,
};

/** A software board with stock firmware. */
export const stockBoard = (change: Partial<PeerSetup> = {}): BenchBoard & { readonly peer: FirmataPeer } => {
  const { firmwareName } = STOCK.says;
  const desk = asInAWellShed(onDesk({ firmwareName, bootMillis: BOOT_MILLIS, ...change }));
  return { ...desk, ...listeningAt(desk.peer) };
};

export const messagesOf = (bytes: readonly number[]): readonly HostMessage[] =>
  createParser().push(Uint8Array.from(bytes));

const DRIVING: readonly HostMessage['kind'][] = [
  'set-pin-mode',
  'set-pin-value',
  'digital-port-write',
  'analog-write',
  'extended-analog-write',
];

/** What of these bytes would change a pin. */
export const drivingIn = (bytes: readonly number[]): readonly HostMessage[] =>
  messagesOf(bytes).filter(({ kind }) => DRIVING.includes(kind));

/** How often a pin went to a level. */
export const timesDriven = ({ driven }: BenchBoard, pin: number, level: 0 | 1): number =>
  driven.filter(([at, now]) => at === pin && now === level).length;
