import { createChip, type Chip, type ChipSetup } from '../../../../sim/board/avr/chip.ts';
import type { Level } from '../../../../sim/board/firmata/pin-bank.ts';

export const CYCLES_A_MILLI = 16_000;

/** A chip with wires to its pins, and a log of what it drives and sends. */
export interface BenchChip {
  readonly chip: Chip;
  /** What hangs on a digital pin; a pin not listed floats. */
  readonly digital: Map<number, 0 | 1>;
  /** Counts at an analog channel; 0 when not listed. */
  readonly analog: Map<number, number>;
  readonly driven: [pin: number, level: Level][];
  /** What the wire of a pin does now. */
  readonly levelOf: (pin: number) => Level;
  /** Bytes that it has sent since last asked. */
  readonly said: () => readonly number[];
  readonly run: (millis: number) => void;
  readonly hear: (...bytes: readonly number[]) => void;
}

/** Powered at cycle 0 unless told otherwise. */
export const benchChip = (
  flash: Uint8Array,
  change: Partial<ChipSetup> & { readonly power?: 'off' } = {},
): BenchChip => {
  const digital = new Map<number, 0 | 1>();
  const analog = new Map<number, number>();
  const driven: [number, Level][] = [];
  let sent: number[] = [];
  const chip = createChip({
    flash,
    world: {
      readDigital: (pin) => digital.get(pin) ?? 'floating',
      readAnalog: (channel) => analog.get(channel) ?? 0,
      drive: (pin, level) => driven.push([pin, level]),
    },
    onSent: (byte) => sent.push(byte),
    ...change,
  });
  if (change.power !== 'off') chip.powerOn();
  return {
    chip,
    digital,
    analog,
    driven,
    levelOf: (pin) => driven.findLast(([at]) => at === pin)?.[1] ?? 'floating',
    said: () => {
      const bytes = sent;
      sent = [];
      return bytes;
    },
    run: (millis) => {
      chip.refreshInputs();
      chip.advanceTo(chip.cycles() + Math.round(millis * CYCLES_A_MILLI));
    },
    hear: (...bytes) => {
      chip.send(Uint8Array.from(bytes));
    },
  };
};
