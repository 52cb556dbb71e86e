import { describe, expect, it } from 'vitest';
import { createFirmataGate } from '../../../firmware-host/devices/firmata-gate.ts';
import { LINE_UNWATCHED, lineWatched, type LineWatch } from '../../../firmware-host/devices/line-watch.ts';
import { second } from '../../support/moments.ts';
import { sysexFrame } from './keeper/board-side.ts';

const HANDSHAKE = [0xf9, 2, 8, 0xf0, 0x79, 1, 2, 0x48, 0, 0x69, 0, 0xf7];
/** Answers of a keeper, two a second. */
const FRAME = sysexFrame(0x40, 7, [3, 0, 1, 2]);
const A_SECOND = 2;

/** One bit of the checksum is not what was sent. */
const spoilt = (frame: readonly number[]): readonly number[] =>
  frame.map((byte, at) => (at === frame.length - 3 ? byte ^ 1 : byte));

interface Minutes {
  /** Of each hundred frames, how many come spoilt, minute by minute. */
  readonly percents: readonly number[];
  /** Seconds at which the line is opened anew. */
  readonly reopened?: readonly number[];
  /** Seconds in which the link is down. */
  readonly down?: (second: number) => boolean;
  readonly framesASecond?: number;
}

/** The line through the gate that the host hears it by, looked at once a second. */
const watched = ({ percents, reopened = [], down, framesASecond = A_SECOND }: Minutes): LineWatch => {
  let watch = LINE_UNWATCHED;
  let gate = createFirmataGate();
  gate.passed(Uint8Array.from(HANDSHAKE));
  let connections = 1;
  let debt = 0;
  for (let now = 0; now <= percents.length * 60; now += 1) {
    if (reopened.includes(now)) {
      gate = createFirmataGate();
      gate.passed(Uint8Array.from(HANDSHAKE));
      connections += 1;
    }
    const messages = { whole: gate.passedMessages(), spoilt: gate.spoiltMessages() };
    watch = lineWatched(watch, down?.(now) === true ? null : { connections, messages }, second(now));
    for (let frame = 0; frame < framesASecond; frame += 1) {
      debt += percents[Math.floor(now / 60)] ?? 0;
      const isSpoilt = debt >= 100;
      if (isSpoilt) debt -= 100;
      gate.passed(Uint8Array.from(isSpoilt ? spoilt(FRAME) : FRAME));
    }
  }
  return watch;
};

const quiet: LineWatch = {
  from: { at: second(0), counts: { connections: 1, messages: { whole: 0, spoilt: 0 } } },
  bad: null,
};

describe('a line to the board', () => {
  it('is bad when more than 5 % of the messages of a minute come spoilt, and says how many', () => {
    expect(watched({ percents: [0] }).bad).toBeNull();
    expect(watched({ percents: [5] }).bad).toBeNull();
    const { bad } = watched({ percents: [10] });
    expect(bad?.percentSpoilt).toBeCloseTo(10, 6);
    expect(bad?.since).toBe(second(0));
  });

  it('stays bad at 4 % in the next minutes, since the first of them, and is well again at 2 %', () => {
    expect(watched({ percents: [10, 4, 4] }).bad).toMatchObject({ since: second(0) });
    expect(watched({ percents: [10, 4, 2] }).bad).toBeNull();
    expect(watched({ percents: [4, 4, 4] }).bad).toBeNull();
  });

  it('is not judged by the 60 s in which it was lost or opened anew, and a bad one stays bad meanwhile', () => {
    expect(watched({ percents: [100], reopened: [30] }).bad).toBeNull();
    expect(watched({ percents: [100], down: (now) => now === 30 }).bad).toBeNull();
    expect(watched({ percents: [10, 0], down: (now) => now > 90 }).bad).not.toBeNull();
    expect(watched({ percents: [10, 0, 0], down: (now) => now > 90 && now < 125 }).bad).not.toBeNull();
    expect(watched({ percents: [10, 0, 0], down: (now) => now > 60 && now < 70 }).bad).toBeNull();
  });

  it('is not judged by fewer than 60 messages: a single spoilt one is no share', () => {
    expect(watched({ percents: [100, 100], framesASecond: 0 }).bad).toBeNull();
    expect(
      lineWatched(quiet, { connections: 1, messages: { whole: 58, spoilt: 1 } }, second(600)).bad,
    ).toBeNull();
    expect(
      lineWatched(quiet, { connections: 1, messages: { whole: 55, spoilt: 5 } }, second(600)).bad,
    ).not.toBeNull();
    // Collected for longer than 10 min, it begins anew.
    const late = lineWatched(quiet, { connections: 1, messages: { whole: 40, spoilt: 5 } }, second(601));
    expect(late.from?.at).toBe(second(601));
  });
});
