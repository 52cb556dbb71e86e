import { beforeAll, describe, expect, it } from 'vitest';
import { virtualTime } from '../../../../firmware-host/virtual-time.ts';
import {
  createEmulatedBoard,
  type EmulatedBoard,
  type EmulatedBoardSetup,
} from '../../../../sim/board/avr/emulated-board.ts';
import { createUsb } from '../../../../sim/board/firmata/usb.ts';
import { seededDice } from '../../../../sim/dice.ts';
import { CENTRAL } from '../../../../sim/plant/judgements.ts';
import { openWiredShed } from '../../../../sim/run/wired-shed.ts';
import { monotonicMillis } from '../../../../src/time/instant.ts';
import { START } from '../../../support/plant.ts';
import { FITTED_FARM, STILL_SKY, WIRING } from '../../sim-run/pinned-shed.ts';
import { compiled } from './compiled.ts';

let echo: Uint8Array;
let resets: Uint8Array;
let waker: Uint8Array;
beforeAll(() => {
  echo = compiled('line.c', '-DRATE=34');
  resets = compiled('resets.c');
  waker = compiled('waker.c');
});

const BOOT = 1600;
const S = 'S'.charCodeAt(0);
const boardWith = (flash: Uint8Array, change: Partial<EmulatedBoardSetup> = {}): EmulatedBoard =>
  createEmulatedBoard({
    flash,
    world: { readDigital: () => 'floating', readAnalog: () => 0, drive: () => undefined },
    ...change,
  });
/** Opened at 0 and run to a moment. */
const opened = (
  flash: Uint8Array,
  until: number,
  change: Partial<EmulatedBoardSetup> = {},
): EmulatedBoard => {
  const board = boardWith(flash, change);
  board.open(0);
  board.advance(until);
  return board;
};

describe('an emulated board', () => {
  it('has no power until its port is opened: nothing due, and bytes to it are lost', () => {
    const board = boardWith(echo);
    board.receive(Uint8Array.of(1, 2), 500);
    expect([board.chip.state(), board.nextDue(500), board.tally().unheardBytes]).toEqual(['off', null, 2]);
    board.open(600);
    expect(board.chip.state()).toBe('held');
  });

  it('starts its firmware 1600 ms after it was opened, and hears nothing before', () => {
    const board = opened(echo, 1000);
    expect(board.nextDue(1000)).toBe(BOOT);
    board.receive(Uint8Array.of(1), 1000);
    board.advance(BOOT + 5);
    board.receive(Uint8Array.of(2), BOOT + 5);
    board.advance(BOOT + 10);
    expect([...board.take()]).toEqual([2]);
    expect(board.tally().unheardBytes).toBe(1);
  });

  it.each([
    [true, { 'power-on': 1, external: 1 }],
    [false, { 'power-on': 1, external: 0 }],
  ])('opened again, resets: %s', (resetsOnOpen, expected) => {
    const board = opened(resets, BOOT + 10, { resetsOnOpen });
    board.close(BOOT + 20);
    board.open(BOOT + 30);
    expect(board.chip.resets()).toMatchObject(expected);
  });

  it('lives on while its port is closed, and what it says then is lost', () => {
    const board = opened(waker, BOOT + 10);
    board.chip.trace.start();
    board.close(BOOT + 20);
    board.advance(BOOT + 10_000);
    expect(board.chip.trace.entries()).toHaveLength(9);

    const talker = opened(resets, BOOT + 10);
    talker.take();
    talker.close(BOOT + 20);
    talker.receive(
      Uint8Array.from('???', (letter) => letter.charCodeAt(0)),
      BOOT + 20,
    );
    talker.advance(BOOT + 30);
    expect([talker.take().length, talker.tally().lostToHostBytes]).toEqual([0, 3]);
  });

  it('is next due when its firmware wakes, to the millisecond after it, and each millisecond while a byte travels', () => {
    const board = opened(waker, BOOT + 10);
    expect(board.nextDue(BOOT + 10)).toBe(BOOT + 1001);
    board.receive(Uint8Array.of(1), BOOT + 10);
    expect(board.nextDue(BOOT + 10)).toBe(BOOT + 11);
  });

  it('after a watchdog reset goes on at once, and after 1600 ms where the bootloader waits then too', () => {
    const wedged = Uint8Array.of('w'.charCodeAt(0));
    for (const [bootMillisAfterWatchdog, after] of [
      [0, S],
      [BOOT, undefined],
    ] as const) {
      const board = opened(resets, BOOT + 10, { bootMillisAfterWatchdog, bootloaderLeaves: 'cause-in-r2' });
      board.take();
      board.receive(wedged, BOOT + 10);
      board.advance(BOOT + 60);
      expect([board.chip.resets().watchdog, board.take()[0]]).toEqual([1, after]);
      board.advance(2 * BOOT + 70);
      expect(board.take()[0]).toBe(after === undefined ? S : undefined);
    }
  });

  it('speaks through a socket with whoever opens it', () => {
    const time = virtualTime(0);
    const usb = createUsb(time.timers);
    usb.plug('usb', boardWith(echo));
    const heard: number[] = [];
    const port = usb.open('usb', {
      opened: () => undefined,
      heard: (bytes) => heard.push(...bytes),
      lost: () => undefined,
    });
    time.advance(monotonicMillis(BOOT + 10));
    port.write(Uint8Array.of(1, 2, 3));
    time.advance(monotonicMillis(BOOT + 20));
    expect(heard).toEqual([1, 2, 3]);
  });

  it('stands before the pins of a shed, and lives with its clock though nobody opens the port', () => {
    const edges: number[] = [];
    const shed = openWiredShed({
      farm: FITTED_FARM,
      wiring: WIRING,
      sky: STILL_SKY,
      judgements: CENTRAL,
      faults: [],
      failing: [],
      dice: seededDice(5),
      startMillis: START,
      peer: (world) => {
        const board: EmulatedBoard = createEmulatedBoard({
          flash: waker,
          startMillis: START,
          world: {
            ...world,
            drive: (pin, level) => {
              if (level !== 'floating') edges.push(board.chip.nowMillis() - START);
              world.drive(pin, level);
            },
          },
        });
        board.powerOn(START);
        return board;
      },
    });
    const time = virtualTime(START);
    shed.live(time.timers, () => undefined);
    time.advance(monotonicMillis(START + BOOT + 5500));
    expect(edges.map((at) => Math.floor((at - BOOT) / 1000))).toEqual([0, 1, 2, 3, 4, 5]);
  });
});
