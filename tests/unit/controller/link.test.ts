import { describe, expect, it } from 'vitest';
import { exampleFarm } from '../../support/farm.ts';
import { linkIs, seen, toldFrom, type Told } from './noon.ts';

const DOWN = linkIs({ kind: 'down', why: '/dev/ttyUSB0: unplugged' });
const UP = linkIs({ kind: 'up' });
const NOTHING = (): readonly [] => [];
/** A board with all its sensors, and water while the pump is asked on. */
const wet = (told: Told) => (): readonly Parameters<typeof seen>[1][] => [
  { channel: 'air-temperature', celsius: 33 },
  {
    channel: 'return-flow',
    litresPerMinute: told.state().guard.asked.kind === 'on' ? 40 : 0,
  },
  { channel: 'tank-float', low: false },
];

/** The first flood starts at 0.5 min; at 3 min the cable is pulled, and put back at `back`. */
const unplugged = (back: number): Told => {
  const told = toldFrom(exampleFarm);
  told.tell(0, seen(0));
  told.lookOn(2.75, wet(told));
  told.tell(3, DOWN);
  told.lookOn(back - 0.25, NOTHING);
  told.tell(back, UP);
  return told;
};

describe('a cable that is pulled at 3 min, during a flood', () => {
  it('ends the flood as withheld in the same step, and it is owed', () => {
    const told = unplugged(20);
    const verdicts = told.entries().filter((entry) => entry.kind === 'verdict');
    expect(verdicts).toHaveLength(1);
    expect(verdicts[0]).toMatchObject({
      at: 3 * 60_000,
      flood: 1,
      verdict: { kind: 'withheld', says: 'stopped after 3 of 20 min: the board does not answer' },
    });
    expect(told.state().flood).toBeNull();
    expect(told.state().schedule.owed).toMatch(/the board does not answer/);
  });

  it('lets no command out while it is away, not even off', () => {
    const told = unplugged(20);
    expect(told.commands()).toEqual(['pump-off at 0', 'pump-on at 0.5', 'pump-off at 20']);
  });

  it('writes when the board went, why, and when it came back', () => {
    const links = unplugged(20)
      .entries()
      .filter(({ kind }) => kind.startsWith('link-'));
    expect(links).toMatchObject([
      { kind: 'link-lost', why: '/dev/ttyUSB0: unplugged', at: 180_000 },
      { kind: 'link-found', at: 1_200_000 },
    ]);
  });

  it('put back at 20 min lets the owed flood start 30 s after the word off: the shortest off', () => {
    const told = unplugged(20);
    told.lookOn(21, wet(told));
    expect(told.commands().slice(2)).toEqual(['pump-off at 20', 'pump-on at 20.5']);
    const [, start] = told.entries().filter((entry) => entry.kind === 'flood-started');
    expect(start?.reason).toMatch(/^flood now: .*the board does not answer/);
  });

  it('put back at 5 min leaves the owed flood its shortest rest of 10 min from when the flood ended', () => {
    const told = unplugged(5);
    told.lookOn(14, wet(told));
    expect(told.commands().slice(2)).toEqual(['pump-off at 5', 'pump-on at 13']);
  });

  it('and found again under another word for why is told once', () => {
    const told = toldFrom(exampleFarm);
    told.tell(0, seen(0));
    told.tell(1, DOWN);
    told.tell(2, linkIs({ kind: 'down', why: 'no serial port is there' }));
    expect(told.entries().filter(({ kind }) => kind === 'link-lost')).toHaveLength(1);
    expect(told.state()).toMatchObject({
      link: { why: 'no serial port is there' },
      linkDownSince: 60_000,
    });
  });
});

describe('a person’s hold while the board is away', () => {
  it('still wins when it is back: off at once, no flood before the hold ends at 40 min', () => {
    const told = toldFrom(exampleFarm);
    told.tell(0, seen(0));
    told.lookOn(2.75, wet(told));
    told.tell(3, DOWN);
    told.tell(10, { kind: 'hold', minutes: 30, who: 'Ana' });
    told.tell(20, UP);
    told.lookOn(41, wet(told));
    expect(told.commands().slice(2)).toEqual(['pump-off at 20', 'pump-on at 40']);
  });

  it('is what is said of a flood that may not run, not the silent board', () => {
    const told = toldFrom(exampleFarm);
    told.tell(0, { kind: 'hold', minutes: 30, who: 'Ana' });
    const { lock } = told.tell(1, DOWN);
    expect(lock).toMatchObject({ kind: 'shut', by: 'person', reason: 'held by Ana' });
  });
});

describe('a board that is not there at the start', () => {
  it('gets no word before it is there, then off first, then its flood', () => {
    const told = toldFrom(exampleFarm, 0, { kind: 'down', why: 'the board has not been found yet' });
    told.lookOn(2, NOTHING);
    expect(told.commands()).toEqual([]);
    told.tell(2.25, UP);
    told.lookOn(3, wet(told));
    expect(told.commands()).toEqual(['pump-off at 2.25', 'pump-on at 2.75']);
  });
});

describe('the alarm of a silent board', () => {
  it('is high, comes 30 s after it fell silent and not before, and says why and how long is left', () => {
    const told = unplugged(20);
    expect(told.raised('board-silent')).toEqual([3.5]);
    expect(told.entries().find(({ kind }) => kind === 'alarm-raised')).toMatchObject({
      priority: 'high',
      text: expect.stringMatching(
        /^The board has not answered since 12:03 \(\/dev\/ttyUSB0: unplugged\); no flood can be given.*may begin to wilt from.*Pull the board.s USB plug and put it back.*plain timer/,
      ) as unknown,
    });
  });

  it('does not come for a cable that is back after 29 s', () => {
    const told = toldFrom(exampleFarm);
    told.tell(0, seen(0));
    told.tell(1, DOWN);
    told.tell(1 + 29 / 60, seen(1 + 29 / 60));
    told.tell(1 + 29.5 / 60, UP);
    told.lookOn(5, wet(told));
    expect(told.raised('board-silent')).toEqual([]);
  });

  it('returns when the board has been back for 30 s: a loose cable is one alarm', () => {
    const told = unplugged(20);
    told.lookOn(22, NOTHING);
    const returned = told
      .entries()
      .filter((entry) => entry.kind === 'alarm-returned' && entry.alarm === 'board-silent');
    expect(returned.map(({ at }) => at)).toEqual([1_230_000]);
  });

  it('speaks for the sensors behind it: in 60 min none of them raises its own', () => {
    const told = unplugged(60);
    const others = told
      .entries()
      .flatMap((entry) => (entry.kind === 'alarm-raised' ? [entry.alarm] : []))
      .filter((alarm) => alarm !== 'board-silent' && alarm !== 'drying-out');
    expect(others).toEqual([]);
    expect(told.raised('drying-out')).toHaveLength(1);
  });

  it('gives the sensors 10 min of their own from when the board is back', () => {
    const told = unplugged(60);
    told.lookOn(75, NOTHING);
    expect(told.raised('no-good-temperature')).toEqual([70]);
    expect(told.raised('flow-sensor-silent')).toEqual([70]);
  });
});

describe('a cable that is pulled for 10 min while sensors are silent for half an hour', () => {
  const KINDS = ['no-good-temperature', 'flow-sensor-silent'] as const;
  const pulled = (back: Told): Told => {
    back.tell(30, DOWN);
    back.lookOn(39.75, NOTHING);
    back.tell(40, UP);
    return back;
  };
  const silent = (): Told => {
    const told = toldFrom(exampleFarm);
    told.tell(0, seen(0));
    told.lookOn(0.75, wet(told));
    told.lookOn(29.75, NOTHING);
    return pulled(told);
  };

  it('neither ends what was told of them nor tells it again', () => {
    const told = silent();
    told.lookOn(70, NOTHING);
    expect(KINDS.map((kind) => told.raised(kind).length)).toEqual([1, 1]);
    expect(KINDS.map((kind) => told.returned(kind))).toEqual([[], []]);
  });

  it('ends it when they speak again after it', () => {
    const told = silent();
    told.lookOn(70, wet(told));
    expect(KINDS.map((kind) => told.raised(kind).length)).toEqual([1, 1]);
    expect(KINDS.map((kind) => told.returned(kind).length)).toEqual([1, 1]);
  });
});

describe('a plug that wavers every few seconds', () => {
  /** Gone for 4 s and back for so long, from 3 min on. */
  const wavering = (backSeconds: number, minutes: number): Told => {
    const told = toldFrom(exampleFarm);
    told.tell(0, seen(0));
    told.lookOn(2.75, wet(told));
    for (let now = 3; now < 3 + minutes; now += (4 + backSeconds) / 60) {
      told.tell(now, DOWN);
      told.tell(now + 4 / 60, UP);
    }
    return told;
  };

  it('is a silent board within a minute, told once: nothing of a flood can be seen between', () => {
    const told = wavering(4, 5);
    expect(told.raised('board-silent')).toHaveLength(1);
    expect(told.raised('board-silent')[0]).toBeLessThanOrEqual(4);
    expect(told.returned('board-silent')).toEqual([]);
  });

  it('is none where the board is heard for over a minute between', () => {
    expect(wavering(70, 10).raised('board-silent')).toEqual([]);
  });
});
