import {
  DEAD_BOARDS,
  NONE,
  SETUP_BYTES,
  SETUP_SCHEMA,
  type BoardSetup,
  type SetupContact,
} from './setup-bytes.ts';

/** Offset from which the block is 0. */
const REST_AT = 39;
/** Ranges: as the firmware holds them, and as the farm file has them. */
const LONGEST_ON = { least: 60, most: 5400 } as const;
const SHORTEST_OFF = { least: 10, most: 600 } as const;
const SIP = { least: 1, most: 60 } as const;
const COUNTS_MAX = 1023;
const PINS = { least: 2, most: 12 } as const;
const CHANNEL_MAX = 7;

/** Reads a block; `wrong` once anything in it cannot be. */
class BlockReader {
  wrong = false;
  readonly #block: Uint8Array;
  readonly #usedPins = new Set<number>();

  constructor(block: Uint8Array) {
    this.#block = block;
  }
  byte(at: number): number {
    return this.#block[at] ?? NONE;
  }
  within(value: number, { least, most }: { readonly least: number; readonly most: number }): number {
    if (value < least || value > most) this.wrong = true;
    return value;
  }
  two(at: number): number {
    return this.byte(at) | (this.byte(at + 1) << 8);
  }
  choice<Name extends string>(at: number, names: readonly [Name, ...Name[]]): Name {
    const name = names[this.byte(at)];
    if (name === undefined) this.wrong = true;
    return name ?? names[0];
  }
  /** A pin that carries nothing else; null where there is none. */
  pin(at: number): number | null {
    const pin = this.byte(at);
    if (pin === NONE) return null;
    if (this.#usedPins.has(pin)) this.wrong = true;
    this.#usedPins.add(pin);
    return this.within(pin, PINS);
  }
  channel(at: number): number | null {
    const channel = this.byte(at);
    return channel === NONE ? null : this.within(channel, { least: 0, most: CHANNEL_MAX });
  }
  counts(at: number): number {
    return this.within(this.two(at), { least: 0, most: COUNTS_MAX });
  }
  contact(at: number): SetupContact | null {
    const pin = this.pin(at);
    return pin === null ? null : { pin, level: this.choice(at + 1, ['low', 'high']) };
  }
  /** What must be there. */
  fitted<Part>(part: Part | null, otherwise: Part): Part {
    if (part === null) this.wrong = true;
    return part ?? otherwise;
  }
}

const NO_CONTACT: SetupContact = { pin: PINS.least, level: 'low' };

const returnIn = (reader: BlockReader): BoardSetup['returnFlow'] => {
  switch (reader.choice(8, ['none', 'switch', 'meter'])) {
    case 'none':
      return null;
    case 'switch':
      return { kind: 'switch', ...reader.fitted(reader.contact(9), NO_CONTACT) };
    case 'meter': {
      const pulsesAreWater = reader.within(reader.byte(11), { least: 1, most: 255 });
      return { kind: 'meter', pin: reader.fitted(reader.pin(9), PINS.least), pulsesAreWater };
    }
  }
};

const currentIn = (reader: BlockReader): BoardSetup['pumpCurrent'] => {
  switch (reader.choice(12, ['none', 'contact', 'analog'])) {
    case 'none':
      return null;
    case 'contact':
      return { kind: 'contact', ...reader.fitted(reader.contact(13), NO_CONTACT) };
    case 'analog':
      return {
        kind: 'analog',
        channel: reader.fitted(reader.channel(13), 0),
        aboveCounts: reader.counts(15),
      };
  }
};

const thermistorIn = (reader: BlockReader): BoardSetup['airThermistor'] => {
  const channel = reader.channel(30);
  if (channel === null) return null;
  const counts = reader.choice(31, ['fall-with-heat', 'rise-with-heat']);
  return { channel, counts, hotFromCounts: reader.counts(32) };
};

const probeIn = (reader: BlockReader): BoardSetup['probe'] => {
  const channel = reader.channel(34);
  const [one, other] = [reader.pin(35), reader.pin(36)];
  if (channel === null || one === null || other === null) {
    if (channel !== null || one !== null || other !== null) reader.wrong = true;
    return null;
  }
  return { channel, drivenBy: [one, other] };
};

/** The setup in a block; null when it is none that a board could keep plants by. */
export const readSetup = (block: Uint8Array): BoardSetup | null => {
  if (block.length !== SETUP_BYTES || block[0] !== SETUP_SCHEMA) return null;
  if (block.subarray(REST_AT).some((byte) => byte !== 0)) return null;
  const reader = new BlockReader(block);
  const setup: BoardSetup = {
    deadBoard: reader.choice(1, DEAD_BOARDS),
    relay: reader.fitted(reader.contact(2), NO_CONTACT),
    longestOnSeconds: reader.within(reader.two(4), LONGEST_ON),
    shortestOffSeconds: reader.within(reader.two(6), SHORTEST_OFF),
    returnFlow: returnIn(reader),
    pumpCurrent: currentIn(reader),
    tankFloat: reader.contact(17),
    relayReadBack: reader.contact(19),
    mainsPresent: reader.contact(21),
    leakSensor: reader.contact(23),
    overflowFloat: reader.contact(25),
    buzzer: reader.pin(27),
    lamp: reader.pin(28),
    button: reader.pin(29),
    airThermistor: thermistorIn(reader),
    probe: probeIn(reader),
    sipSeconds: reader.within(reader.byte(37), SIP),
    watchdog: reader.choice(38, ['on', 'off']),
  };
  return reader.wrong ? null : setup;
};
