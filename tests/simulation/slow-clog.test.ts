import { describe, expect, it } from 'vitest';
import { CLOGGING } from '../../sim/faults/fault.ts';
import { HOUR, lowestTheta, runShed, told, type ShedRun } from './shed-run.ts';
import { DAY, FARM } from './sheds.ts';

const DAYS = 20;
/** The flow falls in a straight line to a tenth of it after 21 days. */
const shareOn = (day: number): number => 1 - ((1 - CLOGGING.endShare) * day) / CLOGGING.days;

const run = (faults: boolean): ShedRun =>
  runShed({
    farm: FARM,
    fromMillis: DAY.start,
    untilMillis: DAY.start + DAYS * 24 * HOUR,
    faults: faults ? [{ kind: 'filter-clogging', fromMillis: DAY.start, untilMillis: Infinity }] : [],
  });

describe('a filter that clogs to a seventh of its flow in twenty days, and nobody cleans it', () => {
  const shed = run(true);
  const dayOf = (kind: string): number =>
    ((shed.alarms.find(({ entry }) => entry.alarm === kind)?.entry.at ?? Infinity) - DAY.start) / (24 * HOUR);

  it('is told first as a return lower than it used to be: before day 4, at a flow of 0.83 or more', () => {
    expect(dayOf('return-lower')).toBeLessThan(4);
    expect(shareOn(dayOf('return-lower'))).toBeGreaterThan(0.83);
  });

  it('is told as a weak flood at a flow below 0.75, before day 11', () => {
    expect(dayOf('weak-flow')).toBeLessThan(11);
  });

  it('gets the longest floods of the bounds from then on', () => {
    const floods = told(shed, 'flood-started').filter(
      ({ at }) => (at - DAY.start) / (24 * HOUR) > dayOf('weak-flow') + 1,
    );
    const long = floods.filter(({ minutes }) => minutes === FARM.bounds.floodMinutes.longest);
    expect(long.length).toBeGreaterThan(0.9 * floods.length);
  });

  it('leaves no bench below its stress floor', () => {
    expect(lowestTheta(shed)).toBeGreaterThan(FARM.floors.stress);
  });
});
