import { seededDice } from '../../sim/dice.ts';
import type { Fault } from '../../sim/faults/fault.ts';
import { CENTRAL, type Judgements } from '../../sim/plant/judgements.ts';
import { heldShares, type Plant } from '../../sim/plant/plant.ts';
import { simulatedNow } from '../../sim/run/drive.ts';
import { openShed } from '../../sim/run/shed.ts';
import { tallyOf, type Tally } from '../../sim/run/tally.ts';
import { madeSky } from '../../sim/weather/made-day.ts';
import type { Sky } from '../../sim/weather/sky.ts';
import { keptText, readKept } from '../../firmware-host/storage/kept-state.ts';
import { begin, keptState, resumed, step, type Event } from '../../src/controller.ts';
import type { Farm } from '../../src/farm/farm.ts';
import type { Entry } from '../../src/journal/entry.ts';
import type { HostHealth } from '../../src/ports/host-health.ts';
import type { Sample } from '../../src/ports/sample.ts';
import { asUnset } from '../../src/time/clock-trust.ts';
import { wallMillis, type Now, type WallMillis } from '../../src/time/instant.ts';

const MINUTE = 60_000;
export const HOUR = 60 * MINUTE;

/** The farm's hot day again and again, from six hours before a run to more than a day after it. */
export const hotSky = (farm: Farm, fromMillis: number, days: number): Sky =>
  madeSky({
    place: farm.place,
    start: wallMillis(fromMillis - 6 * HOUR),
    days: days + 2,
    ...farm.hotDay,
  });

export interface RunAsked {
  readonly farm: Farm;
  /** The farm file, where it says something else than what truly stands there. */
  readonly written?: Farm;
  readonly fromMillis: number;
  readonly untilMillis: number;
  readonly sky?: Sky;
  readonly faults?: readonly Fault[];
  readonly seed?: number;
  readonly judgements?: Judgements;
  /** What the host's wall clock shows at a true moment; the true time when not given. */
  readonly wall?: (atMillis: number) => WallMillis | 'unknown';
  /** Nothing is known to have set that clock since the machine was started. */
  readonly isClockUnset?: true;
  /** Moments at which the host forgets everything and begins anew. */
  readonly restartsAt?: readonly number[];
  /** Whether it goes on from what was kept instead; the pump does meanwhile what it did. */
  readonly resumes?: { readonly awayMinutes: number };
  /** What becomes of the samples on their way. */
  readonly heard?: (samples: readonly Sample[]) => readonly Sample[];
  /** What a calibrated probe reads well of the plant, mS/cm at 25 °C; null where it does not. No probe when not given. */
  readonly probe?: (plant: Plant) => number | null;
  /** What somebody does to the plant at one moment. */
  readonly at?: { readonly millis: number; readonly does: (plant: Plant) => void };
  /** What somebody tells the host at one moment. */
  readonly tells?: { readonly millis: number; readonly event: Event };
  /** What is at work in the plant beside the script; called at the moment it last asked for or sooner, says when next. */
  readonly works?: (plant: Plant) => number;
}

export interface AlarmRaised {
  readonly entry: Extract<Entry, { kind: 'alarm-raised' }>;
  /** The true plant at that moment. */
  readonly plant: Plant;
}

export interface ShedRun {
  readonly entries: readonly Entry[];
  readonly alarms: readonly AlarmRaised[];
  readonly tally: Tally;
  readonly plant: Plant;
  /** The true plant at the moment at which the first fault began. */
  readonly atFault: Plant | null;
}

/** A host to which nothing has happened, and what its probe reads. */
const healthWith = (strengthMillisiemensPerCm: number | null): HostHealth => ({
  journal: { kind: 'well' },
  channels: [],
  safeMode: null,
  restarts: 1,
  strengthMillisiemensPerCm,
});

/** Runs the controller in a simulated shed, looking at nothing but what a real host would see. */
export const runShed = (asked: RunAsked): ShedRun => {
  const { farm, fromMillis, untilMillis, faults = [], wall, restartsAt = [], heard } = asked;
  const { written = farm } = asked;
  const sky = asked.sky ?? hotSky(farm, fromMillis, Math.ceil((untilMillis - fromMillis) / (24 * HOUR)));
  const { plant, board } = openShed({
    farm,
    sky,
    judgements: asked.judgements ?? CENTRAL,
    faults,
    dice: seededDice(asked.seed ?? 1),
    startMillis: fromMillis,
  });
  const tally = tallyOf(plant, fromMillis, untilMillis, farm.floors);
  const entries: Entry[] = [];
  const alarms: AlarmRaised[] = [];
  const faultAt = Math.min(...faults.map((fault) => fault.fromMillis));
  let atFault: Plant | null = null;
  const now = (): Now => {
    const both = simulatedNow(plant.state.atMillis);
    return wall === undefined ? both : { ...both, wall: wall(plant.state.atMillis) };
  };
  let state = begin(written, now(), { kind: 'up' });
  if (asked.isClockUnset) state = { ...state, clock: asUnset(state.clock) };
  let wake = fromMillis;
  /** When a host that was ended begins again. */
  const backAt = (at: number): number => at + (asked.resumes?.awayMinutes ?? 0) * MINUTE;
  const stops = [...restartsAt, faultAt, asked.at?.millis ?? Infinity, asked.tells?.millis ?? Infinity].sort(
    (a, b) => a - b,
  );
  const goOn = (until: number): void => {
    while (plant.state.atMillis < until) {
      const next = asked.works?.(plant) ?? Infinity;
      board.advance(Math.min(until, next), tally.witness);
    }
    asked.works?.(plant);
  };
  while (plant.state.atMillis < untilMillis) {
    const stop = stops.find((moment) => moment > plant.state.atMillis) ?? Infinity;
    goOn(Math.min(wake, stop, untilMillis));
    if (plant.state.atMillis === faultAt) atFault = plant.forked();
    if (plant.state.atMillis === asked.at?.millis) asked.at.does(plant);
    if (restartsAt.includes(plant.state.atMillis)) {
      if (asked.resumes === undefined) state = begin(written, now(), { kind: 'up' });
      else {
        const kept = keptText(keptState(state, now()), null);
        const back = backAt(plant.state.atMillis);
        while (plant.state.atMillis < back) board.advance(back, tally.witness);
        board.samples();
        const read = readKept(kept);
        if (read.kind !== 'found') throw new Error('what was kept cannot be read');
        state = resumed(written, read.stored.state, now(), asked.resumes.awayMinutes, { kind: 'up' });
      }
    }
    board.sense(now().monotonic);
    const samples = board.samples();
    const events: readonly Event[] = [
      ...(asked.probe === undefined
        ? []
        : [{ kind: 'host', health: healthWith(asked.probe(plant)) } as const]),
      ...(asked.tells?.millis === plant.state.atMillis ? [asked.tells.event] : []),
      { kind: 'samples', samples: heard?.(samples) ?? samples },
    ];
    for (const event of events) {
      const next = step(written, state, event, now());
      state = next.state;
      wake = next.wake;
      entries.push(...next.entries);
      for (const entry of next.entries) {
        if (entry.kind === 'alarm-raised') alarms.push({ entry, plant: plant.forked() });
      }
      next.commands.forEach(board.command);
    }
  }
  return { entries, alarms, tally, plant, atFault };
};

/** Minutes until the first bench is truly at its wilt floor if no more water comes; at most a day. */
export const trueMinutesLeft = (from: Plant, wilt: number): number => {
  const plant = from.forked();
  plant.setPump(false);
  const start = plant.state.atMillis;
  for (let minutes = 0; minutes < 24 * 60; minutes += 1) {
    if (Math.min(...heldShares(plant)) <= wilt) return minutes;
    plant.advance(start + (minutes + 1) * MINUTE);
  }
  return 24 * 60;
};

/** The truly lowest held water of any bench, as a share of what it can hold. */
export const lowestTheta = ({ tally }: ShedRun): number =>
  Math.min(...tally.lowestTheta.map(({ value }) => value));

export const timesRaised = ({ alarms }: ShedRun): Readonly<Record<string, number>> => {
  const times: Record<string, number> = {};
  for (const { entry } of alarms) times[entry.alarm] = (times[entry.alarm] ?? 0) + 1;
  return times;
};

/** Stretches without the pump between the runs of it, minutes, with the moment at which each ended. */
export const restsOf = ({
  tally,
}: ShedRun): readonly { readonly minutes: number; readonly endMillis: number }[] =>
  tally.pumpRuns.slice(1).map((run, place) => ({
    minutes: (run.fromMillis - tally.pumpRuns[place]!.untilMillis) / MINUTE,
    endMillis: run.fromMillis,
  }));

export type Told<Kind extends Entry['kind']> = Extract<Entry, { kind: Kind }>;
export const told = <Kind extends Entry['kind']>({ entries }: ShedRun, kind: Kind): readonly Told<Kind>[] =>
  entries.filter((entry): entry is Told<Kind> => entry.kind === kind);
