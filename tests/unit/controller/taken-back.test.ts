import { describe, expect, it } from 'vitest';
import { keptText, readKept } from '../../../firmware-host/storage/kept-state.ts';
import { keptState } from '../../../src/controller.ts';
import type { Kept } from '../../../src/ports/board.ts';
import { minute } from '../../support/moments.ts';
import { keptRun, running } from '../verify/kept.ts';
import { AWAY, begun, NOTHING, up, verdicts, wet } from './noon-kept.ts';
import { at, linkIs, seen, type Told } from './noon.ts';

/** The first flood runs from 0.5 to 20.5 min; the board is lost at 3 min, and heard again at `back`. */
const lost = (back: number, kept: Partial<Kept>): Told => {
  const told = begun();
  told.tell(0, seen(0));
  told.lookOn(2.75, wet(told));
  told.tell(3, AWAY);
  told.lookOn(back - 0.25, NOTHING);
  told.tell(back, up(kept));
  return told;
};
const next = (told: Told, until: number): number | undefined => {
  const before = told.commands().length;
  told.lookOn(until, wet(told));
  const on = told
    .commands()
    .slice(before)
    .find((command) => command.startsWith('pump-on'));
  return on === undefined ? undefined : Number(on.split(' at ')[1]);
};

describe('a host that starts at a board that keeps the plants', () => {
  it('does not tell it off, and floods 30 s later where the board knows of no flood', () => {
    const told = begun();
    told.tell(0, { kind: 'time' });
    expect(told.commands()).toEqual([]);
    expect(next(told, 1)).toBe(0.5);
  });

  it('goes on with the flood that runs: 8 of 20 min gone, one verdict, and off at its end', () => {
    const told = begun({ running: running(-8, 12) });
    told.tell(0, { kind: 'time' });
    expect(told.commands()).toEqual([]);
    told.lookOn(12.5, wet(told));
    expect(told.commands()).toEqual(['pump-off at 12']);
    expect(told.entries().find(({ kind }) => kind === 'flood-started')).toMatchObject({
      flood: 1,
      part: 'keeper table',
      minutes: 20,
      reason: 'begun by the board 8 min ago, and taken over',
    });
    expect(verdicts(told)).toEqual(['1 confirmed at 12']);
  });

  it('owes no flood where one was confirmed 10 min ago, and rests on for 15 of 25 min', () => {
    const told = begun({ runs: [keptRun(-30)] });
    told.tell(0, seen(0, { channel: 'air-temperature', celsius: 30 }));
    expect(told.state().schedule.owed).toBeNull();
    expect(next(told, 30)).toBeCloseTo(15, 0);
  });

  it('measures the rest since then by the air that it hears within the minute, not by none', () => {
    const told = begun({ runs: [keptRun(-125), keptRun(-80), keptRun(-35)] });
    told.tell(0, { kind: 'time' });
    told.lookOn(0.75, NOTHING);
    expect(next(told, 30)).toBeCloseTo(10, 0);
  });

  it('takes the shortest rest of 10 min where no air is heard for a minute: due at once after 15', () => {
    const told = begun({ runs: [keptRun(-125), keptRun(-80), keptRun(-35)] });
    told.tell(0, { kind: 'time' });
    told.lookOn(3, NOTHING);
    expect(told.commands()).toEqual(['pump-on at 1']);
    expect(told.entries().find(({ kind }) => kind === 'flood-started')).toMatchObject({
      reason: expect.stringMatching(/no good temperature/) as unknown,
    });
  });

  it('owes one after a missed one, with its alarm at once, and gives it when the shortest rest is over', () => {
    const told = begun({ runs: [keptRun(-22, { verdict: 'missed' })] });
    told.tell(0, { kind: 'time' });
    expect(told.raised('missed-flood')).toEqual([0]);
    expect(next(told, 12)).toBe(8);
  });

  it('raises no alarm for a flood missed 5 h ago, after which another host has flooded', () => {
    const theirs = keptRun(-30, { begunBy: 'host', endedBy: 'host', verdict: 'judged-by-host' });
    const told = begun({ runs: [keptRun(-300, { verdict: 'missed' }), theirs] });
    told.tell(0, { kind: 'time' });
    expect(told.raised('missed-flood')).toEqual([]);
    expect(told.entries().filter(({ kind }) => kind === 'kept-run')).toHaveLength(2);
  });

  it.each(['confirmed', 'judged-by-host'] as const)(
    'lets no flood of 5 h ago, %s and told of last, end the alarm of one missed half an hour ago',
    (verdict) => {
      const before = keptRun(-300, { begunBy: 'host', endedBy: 'host', verdict });
      const told = begun({ runs: [keptRun(-30, { verdict: 'missed' }), before] });
      told.tell(0, { kind: 'time' });
      expect(told.raised('missed-flood')).toEqual([0]);
    },
  );

  it('does not count as water what another host has judged, for that may have been missed', () => {
    const theirs = keptRun(-30, { begunBy: 'host', endedBy: 'host', verdict: 'judged-by-host' });
    const heldIn = (told: Told): number => told.state().belief.benches[0]!.thetaLow;
    const bare = begun();
    const judged = begun({ runs: [theirs] });
    const confirmed = begun({ runs: [keptRun(-30)] });
    for (const told of [bare, judged, confirmed]) told.tell(0, { kind: 'time' });
    expect(heldIn(judged)).toBe(heldIn(bare));
    expect(heldIn(confirmed)).toBeGreaterThan(heldIn(bare) + 0.05);
    // But its rest counts: nothing is doubled.
    expect(judged.state().schedule).toMatchObject({ owed: null, lastEnd: minute(-10) });
  });

  it('takes the hold over to its end: no flood before 25 min', () => {
    const told = begun({ holdUntil: minute(25) });
    told.tell(0, { kind: 'time' });
    expect(told.state().orders.hold).toMatchObject({ until: minute(25), who: 'the board' });
    expect(told.entries().find(({ kind }) => kind === 'order')).toMatchObject({
      says: 'hold for 25 min, as it stands there',
    });
    expect(next(told, 26)).toBe(25);
  });

  it('says how much of the log is forgotten', () => {
    const told = begun({ forgotten: 3 });
    told.tell(0, { kind: 'time' });
    expect(told.entries()).toContainEqual(expect.objectContaining({ kind: 'kept-gap', forgotten: 3 }));
  });
});

describe('a flood under way when the board is lost', () => {
  it('stays open for a flap of 5 s and gets one verdict, nothing being said to the pump', () => {
    const told = begun();
    told.tell(0, seen(0));
    told.lookOn(5, wet(told));
    told.tell(5 + 3 / 60, AWAY);
    told.tell(5 + 8 / 60, up({ running: running(0.5, 20.5) }));
    told.tell(5.25, seen(5.25, ...wet(told)()));
    told.lookOn(21, wet(told));
    expect(told.commands()).toEqual(['pump-on at 0.5', 'pump-off at 20.5']);
    expect(verdicts(told)).toEqual(['1 confirmed at 20.5']);
  });

  it('that the board would end 5 min too early gets its 20 min: the end is moved, nothing is started', () => {
    const told = lost(10, { running: running(0.5, 15.5) });
    expect(told.commands()).toEqual(['pump-on at 0.5', 'pump-on at 10']);
    expect(told.entries().find((entry) => entry.kind === 'pump-asked' && entry.at > minute(9))).toMatchObject(
      {
        pump: 'on',
        longestSeconds: 630,
      },
    );
    told.lookOn(21, wet(told));
    expect(told.commands().slice(2)).toEqual(['pump-off at 20.5']);
  });

  it('and finished by the board is not owed, and not doubled: the next one comes 25 min after it', () => {
    const told = lost(30, { runs: [keptRun(0.5, { begunBy: 'host' })] });
    expect(verdicts(told)).toEqual(['1 unproven at 20.5']);
    expect(told.state().schedule.owed).toBeNull();
    expect(next(told, 50)).toBeCloseTo(45.5, 0);
  });

  it('told of before its end gets the board’s verdict, and no other', () => {
    const told = lost(20.25, { runs: [keptRun(0.5, { begunBy: 'host', seconds: 1000 })] });
    expect(verdicts(told)).toEqual(['1 confirmed at 20.25']);
  });

  it('and cut short by the board is owed', () => {
    const told = lost(10, { runs: [keptRun(0.5, { begunBy: 'host', seconds: 180, verdict: 'cut-short' })] });
    expect(verdicts(told)).toEqual(['1 degraded at 10']);
    expect(told.state().schedule.owed).toMatch(/cut short/);
  });

  it.each([
    ['cut short', 'cut-short', 180, null],
    ['missed', 'missed', 1200, 'the last one was missed'],
  ] as const)(
    'and %s is followed by a whole flood that the log no longer tells: owed after it is %s',
    (_, verdict, seconds, owed) => {
      const told = lost(52, {
        runs: [keptRun(0.5, { begunBy: 'host', seconds, verdict })],
        lastFlood: { startedAt: minute(30), seconds: 1200 },
      });
      expect(told.state().schedule).toMatchObject({ owed, lastEnd: minute(50) });
    },
  );

  it('closes as unproven at its end, is owed when the log says missed later, and stays judged once', () => {
    const told = lost(40, { runs: [keptRun(0.5, { begunBy: 'host', verdict: 'missed' })] });
    expect(verdicts(told)).toEqual(['1 unproven at 20.5']);
    expect(told.raised('missed-flood')).toEqual([40]);
    expect(told.entries().findLast(({ kind }) => kind === 'flood-started')).toMatchObject({
      flood: 2,
      at: minute(40),
      reason: 'flood now: the last one was missed',
    });
  });

  it('missed already, its pump running out its time, is not taken for another one', () => {
    const told = begun();
    told.tell(0, seen(0));
    told.lookOn(16, () => [
      { channel: 'air-temperature', celsius: 30 },
      { channel: 'return-flow', litresPerMinute: 0 },
    ]);
    expect(verdicts(told)).toEqual(['1 missed at 15.5']);
    const { asked } = told.state().guard;
    expect(asked).toMatchObject({ kind: 'on', purpose: 'retry', since: minute(12.5), until: minute(32.5) });
    told.tell(16.25, AWAY);
    told.tell(17, up({ running: running(12.5, 32.5) }));
    told.lookOn(33, wet(told));
    expect(told.entries().filter(({ kind }) => kind === 'flood-started')).toHaveLength(1);
    expect(told.commands().at(-1)).toBe('pump-off at 32.5');
  });

  it('of a board that comes back as a stock board is withheld, and the pump told off', () => {
    const told = begun();
    told.tell(0, seen(0));
    told.lookOn(2.75, wet(told));
    told.tell(3, AWAY);
    told.tell(10, linkIs({ kind: 'up' }));
    expect(told.commands()).toEqual(['pump-on at 0.5', 'pump-off at 10']);
    expect(verdicts(told)).toEqual(['1 withheld at 10']);
  });
});

describe('a return sensor after floods that the board has given by itself', () => {
  const air = { channel: 'air-temperature', celsius: 30 } as const;
  /** Channels that drain, e-fold in 6 min, after a stop at `end`. */
  const draining = (told: Told, end: number) => (minutes: number) => {
    const drains = minutes >= end ? 40 * Math.exp(-(minutes - end) / 6) : 0;
    const litresPerMinute = told.state().guard.asked.kind === 'on' ? 40 : drains;
    return [air, { channel: 'return-flow', litresPerMinute } as const];
  };

  it('is not stuck two minutes after such a flood: the rest counts from its end', () => {
    const told = begun();
    told.tell(0, seen(0));
    told.lookOn(30, draining(told, 20.5));
    told.tell(31, AWAY);
    told.lookOn(67.75, NOTHING);
    told.tell(68, up({ runs: [keptRun(46)] }));
    told.lookOn(85, draining(told, 66));
    expect(told.raised('flow-sensor-stuck')).toEqual([]);
  });
});

describe('a flood of the board that is longer than the plan’s', () => {
  it('leaves a state that is kept and read again, though its turn has not begun yet', () => {
    const told = begun({ running: running(-1, 29) });
    told.tell(0, seen(0, { channel: 'air-temperature', celsius: 30 }));
    expect(told.state().schedule.turn).toBeLessThan(0);
    const read = readKept(keptText(keptState(told.state(), at(0)), 'boot'));
    expect(read.kind).toBe('found');
  });
});
