import { describe, expect, it } from 'vitest';
import { BrokenAssertion } from '../../../src/units/assertion.ts';
import { SAMPLINGS_PER_STEP_MAX } from '../../../sim/board/firmata/reports.ts';
import { answerTo, BOOT_MILLIS, bytesOf, messagesIn, onDesk, started, type Desk } from './desk.ts';

/** Times after the start, in ms, at which a board stepped each millisecond sent something, and what. */
const heardWithin = (desk: Desk, spanMillis: number, from = 0): readonly (readonly [number, string])[] =>
  Array.from({ length: spanMillis }, (_, step) => from + step + 1).flatMap((millis) => {
    desk.peer.advance(BOOT_MILLIS + millis);
    return messagesIn(desk.peer.take()).map((message) => [millis, message] as const);
  });
const timesWithin = (desk: Desk, spanMillis: number): readonly number[] =>
  heardWithin(desk, spanMillis).map(([millis]) => millis);

const probing = (hex = 'C0 01'): Desk => {
  const desk = started();
  answerTo(desk, hex);
  return desk;
};

describe('analog reports', () => {
  it('come every 19 ms unless told otherwise', () => {
    expect(timesWithin(probing(), 60)).toEqual([19, 38, 57]);
  });

  it.each([
    ['of 100 ms', 'F0 7A 64 00 F7', [100, 200]],
    [
      'below 10 ms, taken as 10',
      'F0 7A 63 00 F7 F0 7A 01 00 F7',
      Array.from({ length: 25 }, (_, n) => 10 * (n + 1)),
    ],
    ['of 0 ms, taken as 10', 'F0 7A 00 00 F7', Array.from({ length: 25 }, (_, n) => 10 * (n + 1))],
  ])('come at an interval %s', (_, hex, times) => {
    expect(timesWithin(probing(`C0 01 ${hex}`), 250)).toEqual(times);
  });

  it('come after 16383 ms at the longest interval', () => {
    const desk = probing('C0 01 F0 7A 7F 7F F7');
    expect(timesWithin(desk, 16_382)).toEqual([]);
    desk.peer.advance(BOOT_MILLIS + 16_383);
    expect(messagesIn(desk.peer.take())).toEqual(['E0 00 00']);
  });

  it.each([
    ['19 ms to begin with', '', 'F0 7A 13 00 F7'],
    ['1000 ms when set', 'F0 7A 68 07 F7', 'F0 7A 68 07 F7'],
    ['10 ms when 3 was asked', 'F0 7A 03 00 F7', 'F0 7A 0A 00 F7'],
    ['1000 ms also after FF', 'F0 7A 68 07 F7 FF', 'F0 7A 68 07 F7'],
  ])('have an interval that can be asked: %s', (_, hex, answer) => {
    expect(answerTo(started(), `${hex} F0 7C F7`)).toEqual([answer]);
  });

  it('come from wanted channels only, lowest first', () => {
    const desk = probing('C3 01 C1 01');
    desk.analog.set(1, 512).set(3, 1023).set(2, 7);
    expect(heardWithin(desk, 19)).toEqual([
      [19, 'E1 00 04'],
      [19, 'E3 7F 07'],
    ]);
  });

  it.each([
    ['nothing was asked', ''],
    ['they were stopped', 'C0 01 C0 00'],
    ['a system reset came', 'C0 01 FF'],
    ['the pin was made an output', 'C0 01 F4 0E 01'],
    ['the pin was an output when they were asked for', 'F4 0E 01 C0 01'],
    ['a channel 6 was asked that is not there', 'C6 01'],
  ])('stay away when %s', (_, hex) => {
    expect(timesWithin(probing(hex), 100)).toEqual([]);
  });

  it('tell the value at once when asked for, and once more for the mode', () => {
    const desk = started();
    desk.analog.set(0, 300);
    expect(answerTo(desk, 'C0 01')).toEqual(['E0 2C 02']);
    expect(answerTo(desk, 'F4 0E 02')).toEqual(['E0 2C 02']);
  });

  it('begin with analog mode alone', () => {
    expect(timesWithin(probing('F4 0F 02'), 40)).toEqual([19, 38]);
  });

  it('stay within the 10 bits of the converter', () => {
    const desk = started();
    desk.analog.set(0, 5000).set(1, -3).set(2, 99.6);
    expect(answerTo(desk, 'C0 01 C1 01 C2 01')).toEqual(['E0 7F 07', 'E1 00 00', 'E2 64 00']);
  });

  it('refuse a world that reads NaN', () => {
    const desk = started();
    desk.analog.set(0, NaN);
    expect(() => answerTo(desk, 'C0 01')).toThrow(BrokenAssertion);
  });

  it('keep the beat that began with the firmware, seen 10 ms late', () => {
    const { peer } = onDesk();
    peer.open(0);
    peer.receive(bytesOf('C0 01'), BOOT_MILLIS + 10);
    expect(peer.nextDue(BOOT_MILLIS + 10)).toBe(BOOT_MILLIS + 19);
  });

  it('are made up for after a step of 100 ms, in the old beat', () => {
    const desk = probing();
    desk.peer.advance(BOOT_MILLIS + 100);
    expect(messagesIn(desk.peer.take())).toHaveLength(5);
    expect(heardWithin(desk, 20, 100).map(([millis]) => millis)).toEqual([114]);
  });

  it('are at most 64 after a step of an hour, the others counted', () => {
    const desk = probing();
    desk.peer.advance(BOOT_MILLIS + 3_600_000);
    expect(messagesIn(desk.peer.take())).toHaveLength(SAMPLINGS_PER_STEP_MAX);
    expect(desk.peer.tally().skippedSamplings).toBe(Math.floor(3_600_000 / 19) - SAMPLINGS_PER_STEP_MAX);
  });

  it('count no skipped sampling when none was wanted', () => {
    const desk = started();
    desk.peer.advance(BOOT_MILLIS + 3_600_000);
    expect(desk.peer.tally().skippedSamplings).toBe(0);
  });
});

describe('digital reports', () => {
  const watching = (hex = 'F4 02 00 F4 03 00 D0 01'): Desk => probing(hex);

  it('come in the millisecond of a change and not again', () => {
    const desk = watching();
    heardWithin(desk, 5);
    desk.digital.set(3, 1);
    expect(heardWithin(desk, 50, 5)).toEqual([[6, '90 08 00']]);
    desk.digital.set(2, 1);
    desk.digital.set(3, 0);
    expect(heardWithin(desk, 50, 55)).toEqual([[56, '90 04 00']]);
  });

  it('tell the port at once when asked for, also unchanged', () => {
    const desk = watching();
    expect(answerTo(desk, 'D0 01')).toEqual(['90 00 00']);
    expect(answerTo(desk, 'D0 01')).toEqual(['90 00 00']);
  });

  it('come before the analog reports of the same moment', () => {
    const desk = watching('F4 02 00 D0 01 C0 01');
    desk.digital.set(2, 1);
    desk.peer.advance(BOOT_MILLIS + 19);
    expect(messagesIn(desk.peer.take())).toEqual(['90 04 00', 'E0 00 00']);
  });

  it('carry A0 as bit 6 of port 1 when it is a digital input', () => {
    const desk = watching('F4 0E 0B D1 01');
    desk.digital.set(14, 0);
    expect(heardWithin(desk, 3)).toEqual([[1, '91 00 00']]);
    desk.digital.delete(14);
    expect(heardWithin(desk, 3, 3)).toEqual([[4, '91 40 00']]);
  });

  it.each([
    ['nothing was asked', 'F4 02 00'],
    ['they were stopped', 'F4 02 00 D0 01 D0 00'],
    ['another port is watched', 'F4 02 00 D1 01'],
    ['a port 3 was asked that is not there', 'F4 02 00 D3 01'],
    ['the pin is an output', 'F4 02 01 D0 01'],
    ['a system reset came', 'F4 02 00 D0 01 FF F4 02 00'],
  ])('stay away when %s', (_, hex) => {
    const desk = probing(hex);
    desk.digital.set(2, 1);
    expect(timesWithin(desk, 100)).toEqual([]);
  });

  it('tell a pin that went high as 0 once it is no input any more', () => {
    const desk = watching();
    desk.digital.set(2, 1);
    heardWithin(desk, 1);
    answerTo(desk, 'F4 02 01', BOOT_MILLIS + 1);
    expect(heardWithin(desk, 2, 1)).toEqual([[2, '90 00 00']]);
  });
});

describe('the next moment', () => {
  it('is none while nothing is wanted', () => {
    expect(started().peer.nextDue(BOOT_MILLIS)).toBeNull();
  });

  it('is the next sampling, and now when that is overdue', () => {
    const { peer } = probing();
    expect(peer.nextDue(BOOT_MILLIS + 3)).toBe(BOOT_MILLIS + 19);
    expect(peer.nextDue(BOOT_MILLIS + 25)).toBe(BOOT_MILLIS + 25);
  });

  it('is now for an input that changed, and none for one that did not', () => {
    const desk = probing('F4 02 00 D0 01');
    expect(desk.peer.nextDue(BOOT_MILLIS)).toBeNull();
    desk.digital.set(2, 1);
    expect(desk.peer.nextDue(BOOT_MILLIS + 4)).toBe(BOOT_MILLIS + 4);
  });

  it('lets a caller jump from report to report and miss none in 1 s', () => {
    const desk = probing();
    const times: number[] = [];
    for (
      let due = desk.peer.nextDue(BOOT_MILLIS);
      due! <= BOOT_MILLIS + 1000;
      due = desk.peer.nextDue(due!)
    ) {
      desk.peer.advance(due!);
      if (desk.peer.take().length > 0) times.push(due! - BOOT_MILLIS);
    }
    expect(times).toEqual(Array.from({ length: 52 }, (_, place) => 19 * (place + 1)));
  });
});
