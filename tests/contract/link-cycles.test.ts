import { queryObjects } from 'node:v8';
import { beforeAll, describe, expect, it } from 'vitest';
import { ClientTransport } from '../../firmware-host/devices/client-transport.ts';
import { seededDice } from '../../sim/dice.ts';
import { cableTrouble, type Trouble } from './cable-trouble.ts';
import { cycledShed, type CycledShed, type Ran } from './cycled-shed.ts';
import { floodsOf, LATE_MILLIS, meantToRun, owedFloods } from './cycle-floods.ts';
import { drivingIn } from './bench-board.ts';

const CYCLES = 1000;
/** Two longest rests and a flood after the last trouble: whatever is owed has come by then. */
const CALM_MILLIS = 3 * 3_600_000;
/** A line that carries nothing is told from a busy one after three silent seconds; then its port is opened anew. */
const STALL_MILLIS = 5000;
/** The pump is looked at four times a second, and the host told of a loss once. */
const LOOK_MILLIS = 1500;

/** What a calm host holds: a client for its board, and one whose end is still under way. */
const CLIENTS_MAX = 2;

interface Held {
  readonly timers: number;
  readonly clients: number;
}

describe(`${CYCLES} times the cable is pulled out and put back, in the whole host`, () => {
  let shed: CycledShed;
  let trouble: Trouble;
  const held = new Map<number, Held>();

  beforeAll(async () => {
    shed = cycledShed(3);
    trouble = cableTrouble(shed, seededDice(4), CYCLES);
    const { timers } = shed.time;
    const marks = [CYCLES / 10, CYCLES];
    /** Timers of a link that has been up for a while, the pump at rest: the fewest of a moment. */
    let fewest = Infinity;
    let looks = 0;
    await shed.runUntil(() => {
      const since = trouble.pluggedSince();
      const quiet = since !== null && timers.now() - since > 20_000 && shed.link.link().kind === 'up';
      if (!quiet || shed.shed.plant.state.pumpOn) [fewest, looks] = [Infinity, 0];
      else [fewest, looks] = [Math.min(fewest, shed.time.waiting() - trouble.waiting()), looks + 1];
      const mark = marks[0];
      if (mark !== undefined && looks > 20 && trouble.unplugs() >= mark) {
        // Ends with a collection of garbage, and counts what is left.
        held.set(mark, { timers: fewest, clients: Number(queryObjects(ClientTransport)) });
        marks.shift();
      }
      const calm = since !== null && timers.now() - since > CALM_MILLIS;
      return trouble.unplugs() >= CYCLES && calm;
    });
  }, 300_000);

  it('has met handshakes, floods, strangers, stalls and resets, each 100 times or more', () => {
    expect(trouble.unplugs()).toBe(CYCLES);
    expect(Object.entries(trouble.counts()).filter(([, times]) => times < 100)).toEqual([]);
  });

  it('writes nothing to a port that was closed or pulled out', () => {
    expect(shed.usb.staleBytes()).toBe(0);
  });

  it('changes no pin of a board of somebody else', () => {
    expect(trouble.strangers.flatMap(drivingIn)).toEqual([]);
  });

  it('keeps one verdict of every flood, and no start only of withheld ones', () => {
    const floods = floodsOf(shed.journal);
    expect(floods.filter(({ verdicts }) => verdicts.length !== 1)).toEqual([]);
    const unstarted = floods.filter(({ startedAt }) => startedAt === null);
    expect(unstarted.filter(({ verdicts }) => verdicts[0]?.verdict.kind !== 'withheld')).toEqual([]);
    expect(floods.length).toBeGreaterThan(100);
  });

  it('keeps the shortest rest between two floods', () => {
    const floods = floodsOf(shed.journal).filter(({ startedAt }) => startedAt !== null);
    const shortest = shed.farm.bounds.restMinutesByDay.shortest * 60_000;
    const close = floods.filter(({ startedAt }, place) => {
      const before = floods[place - 1]?.verdicts[0];
      return before !== undefined && startedAt! - before.at < shortest;
    });
    expect(close).toEqual([]);
  });

  it('owes every flood that the board withheld, and starts it 5 s after it may at the latest', () => {
    const owed = owedFloods(shed.farm, shed.journal, shed.time.timers.now());
    expect(owed.length).toBeGreaterThan(50);
    const late = owed.filter(
      ({ mayStartAt, startedAt }) =>
        startedAt === null || (mayStartAt !== null && startedAt > mayStartAt + LATE_MILLIS),
    );
    expect(late).toEqual([]);
  });

  it('runs the pump only while it is meant to, a stalled board 5 s longer at most', () => {
    const meant = meantToRun(shed.journal);
    const stalls = trouble.stalledAt();
    const unmeant = shed.ran.filter(({ from, until }: Ran) => {
      const stalled = stalls.some((at) => at <= until && until <= at + STALL_MILLIS + LOOK_MILLIS);
      const late = stalled ? STALL_MILLIS : LOOK_MILLIS;
      return !meant.some((run) => run.from <= from && until <= run.until + late);
    });
    expect(unmeant).toEqual([]);
    expect(shed.ran.length).toBeGreaterThan(100);
  });

  it('holds as many timers after the last cycle as after the first tenth, and no client of before', () => {
    const [early, late] = [held.get(CYCLES / 10), held.get(CYCLES)];
    expect(late?.timers).toBe(early?.timers);
    expect(early?.clients).toBeLessThanOrEqual(CLIENTS_MAX);
    expect(late?.clients).toBeLessThanOrEqual(CLIENTS_MAX);
  });
});
