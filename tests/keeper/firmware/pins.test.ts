import { describe, expect, it } from 'vitest';
import { IO } from '../../../sim/board/avr/registers.ts';
import { CYCLES_A_SECOND, BARE, BRISK, keptBoard, type Edge, type KeptBoard } from './kept-board.ts';
import { talkWith } from './talk.ts';

/** Firmata: github firmata/protocol, `protocol.md`. */
const PIN_MODE = 0xf4;
const PIN_VALUE = 0xf5;
const RESET = 0xff;
const DIGITAL = 0x90;
const REPORT_DIGITAL = 0xd0;
const MODES = { input: 0, output: 1, analog: 2, pwm: 3, servo: 4, pullUp: 11 } as const;

const FIRST = 11;
const SECOND = 12;
const PROBE_CHANNEL = 2;
const SETUP = {
  ...BARE,
  returnFlow: { kind: 'switch', pin: 2, level: 'low' },
  relayReadBack: { pin: 3, level: 'low' },
  tankFloat: { pin: 4, level: 'low' },
  buzzer: 5,
  lamp: 6,
  button: 8,
  leakSensor: { pin: 9, level: 'low' },
  probe: { channel: PROBE_CHANNEL, drivenBy: [FIRST, SECOND] },
} as const;
const OUTPUTS = [7, 5, 6, FIRST, SECOND];
const CONTACTS = [2, 3, 4, 8, 9];
const OURS = [...OUTPUTS, ...CONTACTS];
const FREE = [10, 13, 14, 15, 17, 18, 19];
const PORTS = [0, 1, 2];

/** With a host that owns the pump and wants neither buzzer nor lamp, so that no pin moves by itself. */
const owned = (pump: 'on' | 'off'): KeptBoard => {
  const board = keptBoard({ setup: SETUP });
  for (const pin of CONTACTS) board.wires.set(pin, 1);
  board.pass(12);
  const talk = talkWith(board);
  const epoch = talk.claim();
  talk.beat(epoch);
  talk.ask({ kind: 'pump', epoch, on: pump === 'on', longestSeconds: 300 });
  board.pass(0.1);
  return board;
};
const modeOf = (board: KeptBoard, pin: number): number | undefined => {
  board.said();
  board.hear([0xf0, 0x6d, pin, 0xf7]);
  board.pass(0.05);
  const said = board.said();
  const at = said.findIndex(
    (byte, place) => byte === 0x6e && said[place - 1] === 0xf0 && said[place + 1] === pin,
  );
  const mode = said[at + 2];
  return at < 0 || mode === 0xf7 ? undefined : mode;
};
const edgesBy = (board: KeptBoard, bytes: readonly number[]): readonly Edge[] => {
  const { length } = board.edges;
  board.hear(bytes);
  board.pass(0.02 + bytes.length * 0.0002);
  return board.edges.slice(length);
};

/** Everything that could set a pin. */
const words = (pin: number): readonly (readonly number[])[] => [
  ...Object.values(MODES).map((mode) => [PIN_MODE, pin, mode]),
  [PIN_VALUE, pin, 1],
  [PIN_VALUE, pin, 0],
  ...PORTS.flatMap((port) => [
    [DIGITAL | port, 0x7f, 1],
    [DIGITAL | port, 0, 0],
  ]),
  [RESET],
];

describe('plain Firmata words for a pin of the setup', () => {
  it.each((['on', 'off'] as const).flatMap((pump) => OURS.map((pin) => [pin, pump] as const)))(
    'change nothing on the wire of any of the ten: pin %i, pump %s',
    (pin, pump) => {
      const board = owned(pump);
      const moved = words(pin).flatMap((bytes) => edgesBy(board, bytes));
      expect(moved.filter((edge) => OURS.includes(edge.pin))).toEqual([]);
      expect(board.levelOf(SETUP.relay.pin)).toBe(pump === 'on' ? 1 : 0);
    },
  );
  it.each(CONTACTS)(
    'leave contact %i an input with its pull-up: it reads high while nothing hangs on it',
    (pin) => {
      const board = owned('off');
      for (const bytes of words(pin)) edgesBy(board, bytes);
      board.wires.delete(pin);
      board.pass(0.1);
      expect(modeOf(board, pin)).toBe(MODES.pullUp);
      board.said();
      const port = pin >> 3;
      board.hear([REPORT_DIGITAL | port, 1]);
      board.pass(0.05);
      const said = board.said();
      const at = said.indexOf(DIGITAL | port);
      const [low = 0, high = 0] = said.slice(at + 1);
      const levels = low | (high << 7);
      expect(at).toBeGreaterThanOrEqual(0);
      expect((levels >> (pin & 7)) & 1).toBe(1);
    },
  );
});

describe('a channel that the keeper measures', () => {
  const [AIR, PROBE, CURRENT] = [14, 16, 17] as const;
  const measuring = {
    ...SETUP,
    airThermistor: { channel: 0, counts: 'rise-with-heat', hotFromCounts: 500 },
    pumpCurrent: { kind: 'analog', channel: 3, aboveCounts: 100 },
  } as const;
  it.each([AIR, PROBE, CURRENT])('is driven by no word of Firmata, nor pulled up: pin %i', (pin) => {
    const board = keptBoard({ setup: measuring });
    board.pass(1);
    expect(
      words(pin)
        .flatMap((bytes) => edgesBy(board, bytes))
        .filter((edge) => edge.pin === pin),
    ).toEqual([]);
    expect(modeOf(board, pin)).toBe(MODES.analog);
    expect((board.chip.register(IO.PORTC) >> (pin - 14)) & 1).toBe(0);
  });
  it('is told with the analog mode alone in the capabilities', () => {
    const board = keptBoard({ setup: measuring });
    board.pass(1);
    board.said();
    board.hear([0xf0, 0x6b, 0xf7]);
    board.pass(0.1);
    const said = board.said();
    const abilities = said
      .slice(said.indexOf(0x6c) + 1, -1)
      .join()
      .split('127');
    expect([AIR, PROBE, CURRENT].map((pin) => abilities[pin])).toEqual([',2,10,', ',2,10,', ',2,10,']);
    // Beside a free one: input, output, pull-up, analog.
    expect(abilities[15]).toBe(',0,1,1,1,11,1,2,10,');
  });
});

describe('a pin that the setup leaves free', () => {
  it.each(FREE)('%i floats at first, and does as a host says', (pin) => {
    const board = owned('off');
    expect(board.levelOf(pin)).toBe('floating');
    edgesBy(board, [PIN_MODE, pin, MODES.output]);
    expect(board.levelOf(pin)).toBe(0);
    edgesBy(board, [PIN_VALUE, pin, 1]);
    expect(board.levelOf(pin)).toBe(1);
    edgesBy(board, [PIN_VALUE, pin, 0]);
    const bit = 1 << (pin & 7);
    edgesBy(board, [DIGITAL | (pin >> 3), bit & 0x7f, bit >> 7]);
    expect(board.levelOf(pin)).toBe(1);
    edgesBy(board, [PIN_MODE, pin, MODES.input]);
    expect(board.levelOf(pin)).toBe('floating');
  });
  it('lets go of its wire at a Firmata reset', () => {
    const board = owned('off');
    for (const pin of FREE) edgesBy(board, [PIN_MODE, pin, MODES.output]);
    expect(new Set(FREE.map(board.levelOf))).toEqual(new Set([0]));
    edgesBy(board, [RESET]);
    expect(new Set(FREE.map(board.levelOf))).toEqual(new Set(['floating']));
  });
});

describe('a bare probe', () => {
  const SAMPLES = 100;
  const RESISTOR_OHMS = 1000;
  const FULL = 1023;
  /** Resistor at the first pin, cell at the second, the channel between the two. */
  const sampled = (cellOhms: number): { readonly board: KeptBoard; readonly counts: readonly number[] } => {
    const board = keptBoard({
      setup: SETUP,
      table: BRISK,
      counts: (channel, levelOf) => {
        const [first, second] = [levelOf(FIRST), levelOf(SECOND)];
        if (channel !== PROBE_CHANNEL || first === 'floating' || second === 'floating') return FULL / 2;
        // Where nothing conducts the node follows the resistor's side.
        const ofSecond = cellOhms === Infinity ? 0 : RESISTOR_OHMS / (RESISTOR_OHMS + cellOhms);
        return FULL * ((first === 1 ? 1 - ofSecond : 0) + (second === 1 ? ofSecond : 0));
      },
    });
    board.pass(0.5);
    board.said();
    board.hear([0xc0 | PROBE_CHANNEL, 1]);
    board.pass((SAMPLES + 0.5) * 0.1);
    const said = board.said();
    const counts = said.flatMap((byte, at) =>
      byte === (0xe0 | PROBE_CHANNEL) ? [(said[at + 1] ?? 0) | ((said[at + 2] ?? 0) << 7)] : [],
    );
    return { board, counts };
  };

  it.each([
    [0, FULL],
    [250, 818],
    [1000, 512],
    [3000, 256],
    [9000, 102],
    [Infinity, 0],
  ])('of %f ohms behind 1000 reports 1023 x R / (R + cell) within 1: %i', (cellOhms, wanted) => {
    const { counts } = sampled(cellOhms);
    expect(counts.length).toBe(SAMPLES);
    expect(Math.max(...counts.map((told) => Math.abs(told - wanted)))).toBeLessThanOrEqual(1);
  });

  /** Cycles of each sample with the first pin high against the second, less those the other way round. */
  const charges = (edges: readonly Edge[]): readonly { readonly net: number; readonly driven: number }[] => {
    const told: { net: number; driven: number }[] = [];
    let first: Edge['level'] = 'floating';
    let second: Edge['level'] = 'floating';
    let [net, driven, since] = [0, 0, 0];
    for (const { at, pin, level } of edges.filter((edge) => edge.pin === FIRST || edge.pin === SECOND)) {
      const cycle = Math.round(at * CYCLES_A_SECOND);
      if (first !== 'floating' && second !== 'floating' && first !== second) {
        net += (first === 1 ? 1 : -1) * (cycle - since);
        driven += cycle - since;
      }
      if (pin === FIRST) first = level;
      else second = level;
      since = cycle;
      if (first !== 'floating' || second !== 'floating') continue;
      told.push({ net, driven });
      [net, driven] = [0, 0];
    }
    return told;
  };

  it('is driven for as long in the one direction as in the other: within 1 us in each of 100 samples', () => {
    const each = charges(sampled(1000).board.edges);
    expect(each.length).toBe(SAMPLES);
    // 8 periods of 1 ms, less the moments between two halves.
    for (const { driven } of each) expect(Math.abs(driven / CYCLES_A_SECOND - 0.008)).toBeLessThan(0.0003);
    expect(Math.max(...each.map(({ net }) => Math.abs(net)))).toBeLessThanOrEqual(CYCLES_A_SECOND / 1e6);
  });
  it('floats at both pins before the first sample, between two and after the last', () => {
    const { board } = sampled(1000);
    const edges = board.edges.filter(({ pin }) => pin === FIRST || pin === SECOND);
    const driving = charges(edges).reduce((sum, { driven }) => sum + driven, 0) / CYCLES_A_SECOND;
    const floats = edges.filter(({ level }) => level === 'floating');
    expect(floats.length).toBe(2 * SAMPLES);
    expect(board.levelOf(FIRST)).toBe('floating');
    expect(board.levelOf(SECOND)).toBe('floating');
    // Eight milliseconds in each tenth of a second.
    expect(driving / (SAMPLES * 0.1)).toBeLessThan(0.085);
  });
  it('is not driven while nobody asks for its channel', () => {
    const board = keptBoard({ setup: SETUP });
    board.pass(60);
    expect(board.edges.filter(({ pin }) => pin === FIRST || pin === SECOND)).toEqual([]);
  });
});
