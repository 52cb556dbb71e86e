/** The setup block of a board, byte by byte: docs/board-protocol.md, "Setup". */

export const SETUP_BYTES = 72;

type Level = 'low' | 'high';

export interface SetupContact {
  readonly pin: number;
  /** While the thing is so. */
  readonly level: Level;
}

/** What a block says. Null: not fitted. */
export interface BoardSetup {
  readonly deadBoard: (typeof DEAD_BOARDS)[number];
  /** The level pulls the relay. */
  readonly relay: SetupContact;
  readonly longestOnSeconds: number;
  readonly shortestOffSeconds: number;
  readonly returnFlow:
    | ({ readonly kind: 'switch' } & SetupContact)
    /** So many pulses in 15 s count as water. */
    | { readonly kind: 'meter'; readonly pin: number; readonly pulsesAreWater: number }
    | null;
  readonly pumpCurrent:
    | ({ readonly kind: 'contact' } & SetupContact)
    | { readonly kind: 'analog'; readonly channel: number; readonly aboveCounts: number }
    | null;
  readonly tankFloat: SetupContact | null;
  readonly relayReadBack: SetupContact | null;
  readonly mainsPresent: SetupContact | null;
  readonly leakSensor: SetupContact | null;
  readonly overflowFloat: SetupContact | null;
  readonly buzzer: number | null;
  readonly lamp: number | null;
  readonly button: number | null;
  readonly airThermistor: {
    readonly channel: number;
    readonly counts: 'rise-with-heat' | 'fall-with-heat';
    /** This count and those beyond it are hot. */
    readonly hotFromCounts: number;
  } | null;
  readonly probe: { readonly channel: number; readonly drivenBy: readonly [number, number] } | null;
  readonly sipSeconds: number;
  readonly watchdog: 'on' | 'off';
}

export const SETUP_SCHEMA = 1;
export const DEAD_BOARDS = ['pump-stops', 'pump-runs', 'plain-timer'] as const;
export const NONE = 0xff;

const u16 = (value: number): readonly [number, number] => [value & 0xff, value >> 8];
const levelByte = (level: Level): number => (level === 'high' ? 1 : 0);
const contactBytes = (contact: SetupContact | null): readonly number[] =>
  contact === null ? [NONE, 0] : [contact.pin, levelByte(contact.level)];

const returnBytes = (part: BoardSetup['returnFlow']): readonly number[] => {
  switch (part?.kind) {
    case undefined:
      return [0, NONE, 0, 0];
    case 'switch':
      return [1, ...contactBytes(part), 0];
    case 'meter':
      return [2, part.pin, 0, part.pulsesAreWater];
  }
};

const currentBytes = (part: BoardSetup['pumpCurrent']): readonly number[] => {
  switch (part?.kind) {
    case undefined:
      return [0, NONE, 0, ...u16(0)];
    case 'contact':
      return [1, ...contactBytes(part), ...u16(0)];
    case 'analog':
      return [2, part.channel, 0, ...u16(part.aboveCounts)];
  }
};

const thermistorBytes = (part: BoardSetup['airThermistor']): readonly number[] =>
  part === null
    ? [NONE, 0, ...u16(0)]
    : [part.channel, part.counts === 'rise-with-heat' ? 1 : 0, ...u16(part.hotFromCounts)];

export const setupBytes = (setup: BoardSetup): Uint8Array => {
  const block = new Uint8Array(SETUP_BYTES);
  block.set([
    SETUP_SCHEMA,
    DEAD_BOARDS.indexOf(setup.deadBoard),
    ...contactBytes(setup.relay),
    ...u16(setup.longestOnSeconds),
    ...u16(setup.shortestOffSeconds),
    ...returnBytes(setup.returnFlow),
    ...currentBytes(setup.pumpCurrent),
    ...contactBytes(setup.tankFloat),
    ...contactBytes(setup.relayReadBack),
    ...contactBytes(setup.mainsPresent),
    ...contactBytes(setup.leakSensor),
    ...contactBytes(setup.overflowFloat),
    setup.buzzer ?? NONE,
    setup.lamp ?? NONE,
    setup.button ?? NONE,
    ...thermistorBytes(setup.airThermistor),
    ...(setup.probe === null ? [NONE, NONE, NONE] : [setup.probe.channel, ...setup.probe.drivenBy]),
    setup.sipSeconds,
    setup.watchdog === 'on' ? 0 : 1,
  ]);
  return block;
};
