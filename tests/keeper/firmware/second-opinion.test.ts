import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { bytesOf } from '../../../firmware-host/devices/keeper/host-message.ts';
import { writtenRanges } from '../../../firmware-host/firmware-image/flash-image.ts';
import { intelHexOf } from '../../../firmware-host/firmware-image/intel-hex.ts';
import type { TraceEntry } from '../../../sim/board/avr/trace.ts';
import { BARE, BRISK, CYCLES_A_SECOND, imageWith, keptBoard } from './kept-board.ts';
import { messagesIn } from './talk.ts';

const SOURCE = 'tests/keeper/second-opinion/trace.c';
const SECONDS = 40;
const ASKED_AT = 5 * CYCLES_A_SECOND;
const QUESTION = bytesOf(1, { kind: 'status' });

/** A tick of the clock: simavr begins to count it when the timer is started, silicon from the reset on. */
const TICK_CYCLES = 1024;
/** simavr knows neither the halts of the EEPROM nor how long a chip takes to wake. */
const HALTS_CYCLES = 200;
/** simavr sends eleven bits a byte where there are ten, and tells a byte at its start bit. */
const BYTE_CYCLES = 2800;
const SIMAVR_BYTE_CYCLES = 3080;

interface Pin {
  readonly cycle: number;
  readonly pin: number;
  readonly level: 0 | 1;
}
interface Sent {
  readonly cycle: number;
  readonly byte: number;
}
interface Seen {
  readonly pins: readonly Pin[];
  readonly sent: readonly Sent[];
}

/** @throws Error that names the packages when the program cannot be built */
const build = (program: string): void => {
  try {
    execFileSync('gcc', ['-O2', '-Wall', '-Werror', SOURCE, '-o', program, '-lsimavr', '-lelf'], {
      stdio: 'pipe',
    });
  } catch (cause) {
    const packages = 'gcc, libsimavr-dev and libelf-dev (Debian packages)';
    throw new Error(`this test runs the firmware on simavr too: install ${packages}`, { cause });
  }
};

const FIRST_PIN = { B: 8, D: 0 } as const;
/** The lines of the program: levels of a whole port each time one of its pins moves. */
const ofSimavr = (lines: readonly string[]): Seen => {
  const pins: Pin[] = [];
  const sent: Sent[] = [];
  const levels = { B: 0, D: 0 };
  for (const line of lines) {
    const [cycle = '', what = '', value = ''] = line.split(' ');
    if (what === 'uart') sent.push({ cycle: Number(cycle), byte: Number(value) });
    if (what !== 'B' && what !== 'D') continue;
    const changed = levels[what] ^ Number(value);
    levels[what] = Number(value);
    for (let bit = 0; bit < 8; bit += 1) {
      if (((changed >> bit) & 1) === 0) continue;
      const level = ((Number(value) >> bit) & 1) === 1 ? 1 : 0;
      pins.push({ cycle: Number(cycle), pin: FIRST_PIN[what] + bit, level });
    }
  }
  return { pins, sent };
};
/** simavr tells no pin that is driven low for the first time, since it has been low before. */
const ofOurs = (entries: readonly TraceEntry[]): Seen => {
  const levels = new Map<number, 0 | 1>();
  const pins: Pin[] = [];
  const sent: Sent[] = [];
  for (const entry of entries) {
    if (entry.kind === 'sent') sent.push(entry);
    if (entry.kind !== 'pin' || entry.level === 'floating') continue;
    if ((levels.get(entry.pin) ?? 0) !== entry.level)
      pins.push({ cycle: entry.cycle, pin: entry.pin, level: entry.level });
    levels.set(entry.pin, entry.level);
  }
  return { pins, sent };
};
/** Bytes that follow one another without a pause. */
const burstsOf = (sent: readonly Sent[]): readonly (readonly Sent[])[] => {
  const bursts: Sent[][] = [];
  for (const [place, byte] of sent.entries()) {
    const before = sent[place - 1];
    if (before === undefined || byte.cycle - before.cycle > 10 * SIMAVR_BYTE_CYCLES) bursts.push([]);
    bursts.at(-1)!.push(byte);
  }
  return bursts;
};

describe('the same firmware for 40 s on simavr and on the emulator of these tests, which share no code', () => {
  let theirs: Seen;
  let ours: Seen;
  beforeAll(() => {
    const setup = {
      ...BARE,
      relay: { pin: 7, level: 'high' },
      shortestOffSeconds: 30,
      buzzer: 9,
      lamp: 5,
    } as const;
    const flash = imageWith(setup, BRISK);
    const folder = mkdtempSync(join(tmpdir(), 'rillkeeper-simavr-'));
    try {
      const [hex, program] = [join(folder, 'board.hex'), join(folder, 'trace')];
      build(program);
      writeFileSync(hex, intelHexOf(flash, writtenRanges(flash)));
      const cycles = SECONDS * CYCLES_A_SECOND;
      const heard = [ASKED_AT, ...QUESTION].join(',');
      const lines = execFileSync(program, [hex, String(cycles), heard], { encoding: 'utf8' }).split('\n');
      expect(lines.at(-2)).toMatch(/ end /);
      theirs = ofSimavr(lines);
    } finally {
      rmSync(folder, { recursive: true });
    }
    // simavr has no fuses to read: it gives the first bytes of the flash in their place.
    const [low = 0, lock = 0, extended = 0, high = 0] = flash;
    const board = keptBoard({ flash, setup, sramFill: 0, fuses: { low, lock, extended, high } });
    board.chip.trace.start();
    board.pass(ASKED_AT / CYCLES_A_SECOND);
    board.hear(QUESTION);
    board.pass(SECONDS - board.now());
    ours = ofOurs(board.chip.trace.entries());
  }, 120_000);

  it('sends the same 147 bytes in the same order: version, name, and a status that was asked for after 5 s', () => {
    const bytes = (seen: Seen): readonly number[] => seen.sent.map(({ byte }) => byte);
    expect(bytes(ours).length).toBe(147);
    expect(bytes(ours)).toEqual(bytes(theirs));
    expect(messagesIn(bytes(theirs)).map(({ told }) => told.kind)).toEqual(['status']);
  });
  it('moves the same pins of ports B and D in the same order', () => {
    const moves = (seen: Seen): readonly (readonly number[])[] =>
      seen.pins.map(({ pin, level }) => [pin, level]);
    expect(moves(ours)).toContainEqual([7, 1]);
    expect(moves(ours)).toEqual(moves(theirs));
  });
  it('moves each pin within 1224 cycles (77 us) of the other: a tick of the clock, and halts that simavr leaves out', () => {
    const apart = ours.pins.map(({ cycle }, place) => Math.abs(cycle - (theirs.pins[place]?.cycle ?? NaN)));
    expect(Math.max(...apart)).toBeLessThan(TICK_CYCLES + HALTS_CYCLES);
  });
  it('begins each answer within two byte times (0.35 ms) of the other', () => {
    const begins = (seen: Seen): readonly number[] => burstsOf(seen.sent).map(([first]) => first!.cycle);
    const apart = begins(ours).map((cycle, place) =>
      Math.abs(cycle - BYTE_CYCLES - (begins(theirs)[place] ?? NaN)),
    );
    expect(begins(ours).length).toBe(2);
    expect(Math.max(...apart)).toBeLessThan(2 * BYTE_CYCLES);
  });
  it("sends the bytes of an answer in ten elevenths of simavr's time, each within 200 cycles (13 us)", () => {
    for (const [place, burst] of burstsOf(ours.sent).entries()) {
      const other = burstsOf(theirs.sent)[place]!;
      const since = burst.map(({ cycle }) => cycle - burst[0]!.cycle);
      const sinceThere = other.map(
        ({ cycle }) => ((cycle - other[0]!.cycle) * BYTE_CYCLES) / SIMAVR_BYTE_CYCLES,
      );
      const apart = since.map((cycles, byte) => Math.abs(cycles - sinceThere[byte]!));
      expect(Math.max(...apart)).toBeLessThan(HALTS_CYCLES);
    }
  });
});
