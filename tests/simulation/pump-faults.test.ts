import { describe, expect, it } from 'vitest';
import type { FaultKind } from '../../sim/faults/fault.ts';
import { HOUR, runShed, told, trueMinutesLeft, type ShedRun } from './shed-run.ts';
import { broken, clock, DAY, FARM } from './sheds.ts';

const MINUTE = 60_000;
/** Return lag of at most 8 min, and two retries of 30 s off and 3 min on; invariant I2 adds a minute. */
const DEADLINE_MINUTES = 8 + 2 * 3.5 + 1;

/** Where a person must look first: what the fault truly is decides, not what the controller believes. */
const PLACES = {
  'pump-dead': /^Pump ran, no water came back since \d\d:\d\d\. .*Look at the filter first/,
  'pump-unplugged': /^The pump drew no current.*Is the pump plugged in\?/,
  'relay-open': /^The relay did not close.*Look at the board and its relay first/,
} satisfies Partial<Record<FaultKind, RegExp>>;

/** Hours of the hot day at which the pump fails: from the first floods to the long rests of the evening. */
const HOURS = [7, 11, 12.25, 13, 14.5, 16 + 2 / 3, 18];

const missedAlarm = (run: ShedRun): ShedRun['alarms'][number] => {
  const alarm = run.alarms.find(({ entry }) => entry.alarm === 'missed-flood');
  if (alarm === undefined) throw new Error('no missed-flood alarm was raised');
  return alarm;
};

describe.each(Object.entries(PLACES) as readonly (readonly [keyof typeof PLACES, RegExp])[])(
  '%s on a hot day',
  (kind, place) => {
    const runs = new Map<number, ShedRun>();
    const failing = (hour: number): ShedRun => {
      const run =
        runs.get(hour) ??
        runShed({
          farm: FARM,
          fromMillis: DAY.start,
          untilMillis: clock(hour) + 2.5 * HOUR,
          faults: broken(kind, hour),
          seed: Math.round(hour * 60),
        });
      runs.set(hour, run);
      return run;
    };

    it('is told within 60 s of the deadline of the first flood after it, with the right place to look', () => {
      for (const hour of HOURS) {
        const run = failing(hour);
        const first = told(run, 'flood-started').find(({ at }) => at >= clock(hour));
        const { entry } = missedAlarm(run);
        expect(entry.at - first!.at).toBeLessThanOrEqual(DEADLINE_MINUTES * MINUTE);
        const missed = told(run, 'verdict').find(({ verdict }) => verdict.kind === 'missed');
        // A flood under way whose water had not come yet may be missed before it.
        expect(missed!.flood).toBeLessThanOrEqual(first!.flood);
        const clue = missed?.verdict.kind === 'missed' ? missed.verdict.clue : undefined;
        expect(entry.at - clue!.deadline).toBeLessThanOrEqual(60_000);
        expect(entry.text).toMatch(place);
      }
    });

    it('is told with at least half of the true time left still to run, counted from the failure', () => {
      for (const hour of HOURS) {
        const run = failing(hour);
        const leftAtFailure = trueMinutesLeft(run.atFault!, FARM.floors.wilt);
        const leftAtAlarm = trueMinutesLeft(missedAlarm(run).plant, FARM.floors.wilt);
        expect(leftAtAlarm / leftAtFailure).toBeGreaterThanOrEqual(0.5);
      }
    });

    it('never promises more time than there truly is', () => {
      for (const hour of HOURS) {
        const { entry, plant } = missedAlarm(failing(hour));
        const [, from] = /may begin to wilt from (\d\d:\d\d)/.exec(entry.text) ?? [];
        if (from === undefined) continue;
        const [hours, minutes] = from.split(':').map(Number);
        const told = clock(hours! + minutes! / 60);
        const inMinutes = (((told - entry.at) / MINUTE + 24 * 60) % (24 * 60)) - 1;
        expect(inMinutes).toBeLessThanOrEqual(trueMinutesLeft(plant, FARM.floors.wilt));
      }
    });

    it('is over with the first confirmed flood after the pump is mended, within a rest and its retries', () => {
      const run = runShed({
        farm: FARM,
        fromMillis: DAY.start,
        untilMillis: DAY.end,
        faults: broken(kind, 13, 14),
      });
      const confirmed = told(run, 'verdict').find(
        ({ at, verdict }) => at > clock(14) && verdict.kind === 'confirmed',
      );
      const returned = told(run, 'alarm-returned').filter(({ alarm }) => alarm === 'missed-flood');
      expect(returned.map(({ at }) => at)).toEqual([confirmed!.at]);
      const restAndFlood = FARM.bounds.restMinutesByDay.shortest + 20;
      expect(confirmed!.at - clock(14)).toBeLessThanOrEqual((DEADLINE_MINUTES + 2 * restAndFlood) * MINUTE);
    });

    it('is tried again after the shortest rest of 10 min for as long as it lasts', () => {
      const run = failing(13);
      const starts = told(run, 'flood-started').filter(({ at }) => at > missedAlarm(run).entry.at);
      expect(starts.length).toBeGreaterThanOrEqual(3);
      expect(starts.every(({ reason }) => reason === 'flood now: the last one was missed')).toBe(true);
    });
  },
);
