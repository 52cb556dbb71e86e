import { createBoardLink } from '../../firmware-host/devices/board-link.ts';
import { run as runLoop } from '../../firmware-host/run-loop.ts';
import { virtualTime } from '../../firmware-host/virtual-time.ts';
import { createUsb } from '../../sim/board/firmata/usb.ts';
import { seededDice } from '../../sim/dice.ts';
import type { Failing } from '../../sim/faults/failing.ts';
import { CENTRAL } from '../../sim/plant/judgements.ts';
import { heldShares, type Plant } from '../../sim/plant/plant.ts';
import { openWiredShed, type WiredShed } from '../../sim/run/wired-shed.ts';
import type { Air, Sky } from '../../sim/weather/sky.ts';
import { hostHealth, sameHealth, type Event, type Step } from '../../src/controller.ts';
import type { Farm, Wiring } from '../../src/farm/farm.ts';
import type { Entry } from '../../src/journal/entry.ts';
import type { HostHealth } from '../../src/ports/host-health.ts';
import type { ProbeCalibration } from '../../src/sense/probe.ts';
import { readings, type NamedReading } from '../../src/sense/readings.ts';
import { monotonicMillis, wallMillis, type Now } from '../../src/time/instant.ts';
import { hotSky } from './shed-run.ts';

const MINUTE = 60_000;
const PORT = 'usb';

/** What is true in the shed at one moment. */
export interface Truth {
  readonly plant: Plant;
  readonly air: Air;
  readonly contact: 'closed' | 'open';
}

export interface WiredRun {
  readonly entries: readonly Entry[];
  /** Moments at which the pump began to run, and how long it ran; as the plant had it. */
  readonly floods: readonly { readonly fromMillis: number; readonly minutes: number }[];
  /** The truly lowest held water of any bench from the fault on. */
  readonly lowestTheta: number;
  readonly shed: WiredShed;
}

export interface WiredAsked {
  readonly farm: Farm;
  readonly wiring: Wiring;
  readonly failing: readonly Failing[];
  readonly fromMillis: number;
  readonly untilMillis: number;
  /** From when on what is held is counted. */
  readonly judgedFromMillis: number;
  readonly seed?: number;
  /** Of the probe; the host then tells the controller of the strength. Without one it is never good. */
  readonly calibration?: ProbeCalibration;
  /** Called at every look of the host after `judgedFromMillis`. */
  readonly looked?: (step: Step, now: Now, truth: Truth) => void;
}

/**
 * The whole host in a simulated shed: run loop, Firmata bytes, software board and plant under one virtual
 * clock, as `run` drives them, but with sensors that fail.
 */
export const runWired = async (asked: WiredAsked): Promise<WiredRun> => {
  const { farm, wiring, fromMillis, untilMillis } = asked;
  const sky: Sky = hotSky(farm, fromMillis, 1);
  const time = virtualTime(fromMillis);
  const { timers } = time;
  const dice = seededDice(asked.seed ?? 1);
  const shed = openWiredShed({
    farm,
    sky,
    wiring,
    startMillis: fromMillis,
    judgements: CENTRAL,
    faults: [],
    failing: asked.failing,
    dice,
  });
  const usb = createUsb(timers);
  usb.plug(PORT, shed.peer);
  shed.live(timers, usb.look);
  const board = createBoardLink({
    wiring,
    deadBoard: farm.deadBoard,
    use: 'drive',
    lines: usb,
    port: PORT,
    timers,
  });

  const entries: Entry[] = [];
  const floods: { fromMillis: number; minutes: number }[] = [];
  let lowestTheta = Infinity;
  let ran = false;
  let before = fromMillis;
  let health: HostHealth | null = null;
  let shown: readonly NamedReading[] = [];
  const events = (now: Now): readonly Event[] => {
    const newest = hostHealth(
      {
        stood: null,
        journal: { kind: 'well' },
        channels: [],
        starts: { safeMode: null, starts: 1 },
        pastUnread: null,
        boardClock: null,
        line: null,
        chip: null,
        memory: null,
        battery: null,
        readings: shown,
      },
      now.monotonic,
    );
    if (health !== null && sameHealth(health, newest)) return [];
    health = newest;
    return [{ kind: 'host', health: newest }];
  };
  const watch = (step: Step, now: Now): void => {
    if (asked.calibration !== undefined)
      shown = readings(farm, wiring, step.state.senses, asked.calibration, now.monotonic);
    const at = now.monotonic;
    const { pumpOn } = shed.plant.state;
    if (pumpOn && !ran) floods.push({ fromMillis: at, minutes: 0 });
    if (ran) floods.at(-1)!.minutes += (at - before) / MINUTE;
    ran = pumpOn;
    before = at;
    if (at < asked.judgedFromMillis) return;
    lowestTheta = Math.min(lowestTheta, ...heldShares(shed.plant));
    asked.looked?.(step, now, {
      plant: shed.plant,
      air: sky.at(at),
      contact: pumpOn ? 'closed' : 'open',
    });
  };

  await runLoop({
    farm,
    board,
    clock: {
      now: () => ({ monotonic: timers.now(), wall: wallMillis(timers.now()) }),
      // The device library finishes some of its work outside of its timers.
      until: (moment) =>
        new Promise((wake) => {
          setImmediate(() => {
            time.advance(moment);
            wake();
          });
        }),
    },
    journal: { append: (more) => entries.push(...more) },
    until: monotonicMillis(untilMillis),
    stop: new AbortController().signal,
    ...(asked.calibration === undefined ? {} : { events }),
    told: watch,
  });
  await board.close();
  return { entries, floods, lowestTheta, shed };
};
