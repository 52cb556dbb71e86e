import { describe, expect, it } from 'vitest';
import type { Sample } from '../../src/ports/sample.ts';
import { HOUR, lowestTheta, restsOf, runShed, told, trueMinutesLeft, type ShedRun } from './shed-run.ts';
import { broken, clock, DAY, FARM, shedWith } from './sheds.ts';

const MINUTE = 60_000;
/** The shed with a contact that tells of the mains, and with return meter, current and read-back. */
const WATCHED = shedWith([['evidence', 'mainsPresent'], true]);
/** The contact alone: nothing else could tell. */
const ALONE = shedWith([['evidence'], { returnFlow: 'none', mainsPresent: true }]);

const kinds = (run: ShedRun, from: number): Readonly<Record<string, number>> => {
  const count: Record<string, number> = {};
  for (const { at, verdict } of told(run, 'verdict')) {
    if (at >= from) count[verdict.kind] = (count[verdict.kind] ?? 0) + 1;
  }
  return count;
};
const raised = (run: ShedRun, alarm: string): ShedRun['alarms'] =>
  run.alarms.filter(({ entry }) => entry.alarm === alarm);
const returnedAt = (run: ShedRun, alarm: string): readonly number[] =>
  told(run, 'alarm-returned').flatMap((entry) => (entry.alarm === alarm ? [entry.at] : []));

/** From 13:00 on for so many hours; in the middle of a rest or of a flood, as it falls. */
const lostFor = (hours: number, from = 13, farm = WATCHED): ShedRun =>
  runShed({
    farm,
    fromMillis: DAY.start,
    untilMillis: clock(from + hours) + 2 * HOUR,
    faults: broken('mains-lost', from, from + hours),
  });

describe('mains that are lost on a hot day', () => {
  const HOURS = [11, 12.25, 13, 14.5];
  const runs = HOURS.map((hour) => ({ hour, run: lostFor(1.5, hour) }));

  it('are told within 60 s, high, with the cause and no more time than there truly is', () => {
    for (const { hour, run } of runs) {
      const [first] = raised(run, 'mains-lost');
      expect(first!.entry.at - clock(hour)).toBeLessThanOrEqual(MINUTE);
      expect(first!.entry.priority).toBe('high');
      expect(first!.entry.text).toMatch(/^The mains have been lost since .*the pump has no power\./);
      expect(first!.entry.text).toMatch(/ By bucket: [^.]+ first, \d+(\.5)? L a channel every \d+ min\.$/);
      const [, minutes] = /\(about (\d+) min left\)/.exec(first!.entry.text) ?? [];
      expect(Number(minutes ?? 0)).toBeLessThanOrEqual(trueMinutesLeft(first!.plant, WATCHED.floors.wilt));
    }
  });

  it('withhold no flood: each that begins is missed, for want of power', () => {
    for (const { hour, run } of runs) {
      const begun = told(run, 'flood-started').filter(
        ({ at }) => at >= clock(hour) && at < clock(hour + 1.25),
      );
      const within = told(run, 'verdict').filter(({ flood }) => begun.some((one) => one.flood === flood));
      expect(within.length).toBeGreaterThanOrEqual(2);
      for (const { verdict } of within) {
        expect(verdict.kind).toBe('missed');
        // Nothing is tried again: that would not bring the mains back.
        expect(verdict.kind === 'missed' ? verdict.clue : null).toMatchObject({
          mains: 'not-seen',
          retries: 0,
        });
      }
    }
  });

  it('are back: the alarm returns within 60 s, the pump is on within 60 s, and the next flood is confirmed', () => {
    for (const { hour, run } of runs) {
      const back = clock(hour + 1.5);
      expect(returnedAt(run, 'mains-lost').map((at) => at - back)).toEqual([
        expect.toSatisfy((late: number) => late >= 0 && late <= MINUTE),
      ]);
      const pumping = run.tally.pumpRuns.find(({ untilMillis }) => untilMillis > back + 2 * MINUTE);
      expect(pumping!.fromMillis).toBeLessThanOrEqual(back + MINUTE);
      const [next] = told(run, 'verdict').filter(({ at }) => at > back + 5 * MINUTE);
      expect(next!.verdict.kind).toBe('confirmed');
      expect(returnedAt(run, 'missed-flood')).toEqual([next!.at]);
      // Nobody is sent to the filter for it.
      expect(raised(run, 'weak-flow')).toEqual([]);
    }
  });

  it('for 2 min in a rest owe no flood: the next comes when it would have', () => {
    const calm = runShed({ farm: WATCHED, fromMillis: DAY.start, untilMillis: clock(15) });
    const rest = restsOf(calm).find(({ endMillis }) => endMillis > clock(13))!;
    const from = (rest.endMillis - 10 * MINUTE - DAY.start) / HOUR;
    const run = lostFor(2 / 60, from);
    const next = run.tally.pumpRuns.find(({ fromMillis }) => fromMillis > clock(from))!;
    expect(Math.abs(next.fromMillis - rest.endMillis)).toBeLessThanOrEqual(MINUTE);
    const alarms = raised(run, 'mains-lost');
    expect(alarms).toHaveLength(1);
    expect(alarms[0]!.entry.at - clock(from)).toBeLessThanOrEqual(MINUTE);
  });

  it('are told within 60 s at whatever minute of a rest they go', () => {
    for (let minute = 0; minute < 30; minute += 1) {
      const from = 20 + minute / 60;
      const run = runShed({
        farm: WATCHED,
        fromMillis: clock(18),
        untilMillis: clock(from) + 3 * MINUTE,
        faults: broken('mains-lost', from),
      });
      expect(raised(run, 'mains-lost')[0]!.entry.at - clock(from)).toBeLessThanOrEqual(MINUTE);
    }
  });

  it('are told where nothing else could tell, and floods are not withheld there either', () => {
    const run = lostFor(1.5, 13, ALONE);
    expect(raised(run, 'mains-lost')[0]!.entry.at - clock(13)).toBeLessThanOrEqual(MINUTE);
    const { withheld = 0, missed = 0 } = kinds(run, clock(13) + MINUTE);
    expect([withheld, missed >= 2]).toEqual([0, true]);
  });

  it('stay told, as a thing to look at, where a current sensor says that the pump draws all the same', () => {
    const run = runShed({
      farm: WATCHED,
      fromMillis: DAY.start,
      untilMillis: clock(14),
      faults: broken('mains-lost', 13),
      heard: (samples) =>
        samples.map((sample) => (sample.channel === 'pump-current' ? { ...sample, drawing: true } : sample)),
    });
    const [first] = raised(run, 'mains-lost');
    expect(first!.entry).toMatchObject({ priority: 'high' });
    expect(returnedAt(run, 'mains-lost')).toEqual([]);
    // What truly lacks is water, and that is seen.
    expect(raised(run, 'missed-flood')).toHaveLength(1);
  });
});

describe('a mains contact that lies from 13:00 on', () => {
  const lies = (samples: readonly Sample[]): readonly Sample[] =>
    samples.map((sample) =>
      sample.channel === 'mains' && sample.at >= clock(13) ? { ...sample, there: false } : sample,
    );
  const lying = (farm: typeof WATCHED): ShedRun =>
    runShed({ farm, fromMillis: DAY.start, untilMillis: DAY.end, heard: lies });

  it('costs no flood where water is seen to come back: every one is confirmed, and the alarm returns', () => {
    const run = lying(WATCHED);
    const calm = runShed({ farm: WATCHED, fromMillis: DAY.start, untilMillis: DAY.end });
    expect(Object.keys(kinds(run, clock(13)))).toEqual(['confirmed']);
    expect(kinds(run, clock(13))['confirmed']).toBe(kinds(calm, clock(13))['confirmed']);
    expect(lowestTheta(run)).toBeGreaterThan(WATCHED.floors.stress);
    expect(raised(run, 'mains-lost')).toHaveLength(1);
    expect(returnedAt(run, 'mains-lost')).toHaveLength(1);
    expect(returnedAt(run, 'mains-lost')[0]! - clock(13)).toBeLessThanOrEqual(HOUR);
  });

  it('costs no water where nothing else is fitted: floods go on, the benches stay wet', () => {
    const run = lying(ALONE);
    expect(kinds(run, clock(13))['withheld']).toBeUndefined();
    expect(lowestTheta(run)).toBeGreaterThan(ALONE.floors.stress);
    const rests = restsOf(run).filter(({ endMillis }) => endMillis > clock(13));
    expect(Math.max(...rests.map(({ minutes }) => minutes))).toBeLessThanOrEqual(
      ALONE.bounds.restMinutesByNight.longest,
    );
  });
});

describe('a shed without a mains contact', () => {
  it('tells lost mains by the flood that is missed, and by no alarm of their own', () => {
    const run = lostFor(1.5, 13, FARM);
    expect(raised(run, 'mains-lost')).toEqual([]);
    expect(raised(run, 'missed-flood')[0]!.entry.text).toMatch(/^The pump drew no current/);
  });
});
