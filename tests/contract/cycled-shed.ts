import { setImmediate as nextTurn } from 'node:timers/promises';
import { createBoardLink, type BoardLink } from '../../firmware-host/devices/board-link.ts';
import { keeperOf } from '../../firmware-host/keeper-of.ts';
import { run } from '../../firmware-host/run-loop.ts';
import { virtualTime, type VirtualTime } from '../../firmware-host/virtual-time.ts';
import type { BoardPeer } from '../../sim/board/board-peer.ts';
import { demoWiring } from '../../sim/board/demo-wiring.ts';
import type { PinWorld } from '../../sim/board/firmata/peer.ts';
import { seededDice } from '../../sim/dice.ts';
import { CENTRAL } from '../../sim/plant/judgements.ts';
import { openWiredShed, type WiredShed } from '../../sim/run/wired-shed.ts';
import { madeSky } from '../../sim/weather/made-day.ts';
import type { Farm, Wiring } from '../../src/farm/farm.ts';
import type { Entry } from '../../src/journal/entry.ts';
import { monotonicMillis, wallMillis } from '../../src/time/instant.ts';
import { farmWith } from '../support/farm.ts';
import { START } from '../support/plant.ts';
import { poweredUsb } from './bench.ts';

export const IDENTITY = 'A6008iso';
const DAYS = 30;
/** What waits for a promise gets its turn this often. */
const TURN_MILLIS = 250;

/** The example farm with everything that can tell whether the pump runs, and one rest by day and by night. */
export const cycledFarm = (): Farm =>
  farmWith(
    [['evidence'], { returnFlow: 'meter', pumpCurrent: true, relayReadBack: true, tankFloat: true }],
    [['bounds', 'restMinutesByNight', 'shortest'], 10],
    // The tank is not what is tried here.
    [['tank', 'topUp'], { floatValveAtLitres: 400, litresPerMinute: 8 }],
  );

/** A stretch in which the pump ran, as the shed knows it. */
export interface Ran {
  readonly from: number;
  until: number;
}

/** The whole host on a wired shed, under virtual time, and what is known of both. */
export interface CycledShed {
  readonly farm: Farm;
  readonly time: VirtualTime;
  readonly usb: ReturnType<typeof poweredUsb>;
  readonly shed: WiredShed<BoardPeer>;
  readonly board: BoardPeer;
  readonly link: BoardLink;
  readonly journal: readonly Entry[];
  readonly ran: readonly Ran[];
  /** Runs until `over` says so, looked at four times a second. */
  readonly runUntil: (over: () => boolean) => Promise<void>;
}

export interface CycledAsked {
  readonly farm: Farm;
  readonly wiring: Wiring;
  /** A software board with stock firmware unless given. */
  readonly peer?: (world: PinWorld) => BoardPeer;
}

const stockAsked = (): CycledAsked => {
  const farm = cycledFarm();
  return { farm, wiring: { ...demoWiring(farm), identity: IDENTITY } };
};

export const cycledShed = (seed: number, asked: CycledAsked = stockAsked()): CycledShed => {
  const { farm, wiring, peer } = asked;
  const { minCelsius, maxCelsius, humidityPercent } = farm.hotDay;
  const sky = madeSky({
    place: farm.place,
    start: wallMillis(START),
    days: DAYS,
    minCelsius,
    maxCelsius,
    humidityPercent,
  });
  const time = virtualTime(START);
  const { timers } = time;
  const usb = poweredUsb(timers);
  const shed = openWiredShed<BoardPeer>({
    farm,
    wiring,
    sky,
    startMillis: START,
    judgements: CENTRAL,
    faults: [],
    failing: [],
    dice: seededDice(seed),
    ...(peer === undefined ? {} : { peer }),
  });
  const journal: Entry[] = [];
  const ran: Ran[] = [];
  const link = createBoardLink({
    wiring,
    deadBoard: farm.deadBoard,
    use: 'drive',
    keeper: keeperOf(farm, wiring, () => wallMillis(timers.now())),
    lines: usb,
    port: 'auto',
    timers,
  });
  shed.live(timers, usb.look);

  const watchPump = (): void => {
    const now = timers.now();
    const last = ran.at(-1);
    if (!shed.plant.state.pumpOn) return;
    if (last !== undefined && now - last.until <= TURN_MILLIS) last.until = now;
    else ran.push({ from: now, until: now });
  };
  return {
    farm,
    time,
    usb,
    shed,
    board: shed.peer,
    link,
    journal,
    ran,
    runUntil: async (over) => {
      const stop = new AbortController();
      await run({
        farm,
        board: link,
        journal: { append: (entries) => journal.push(...entries) },
        clock: {
          now: () => ({ monotonic: timers.now(), wall: wallMillis(timers.now()) }),
          until: async (moment) => {
            while (timers.now() < moment && !stop.signal.aborted) {
              time.advance(monotonicMillis(Math.min(moment, timers.now() + TURN_MILLIS)));
              watchPump();
              if (over()) stop.abort();
              await nextTurn();
            }
          },
        },
        until: 'stopped',
        stop: stop.signal,
      });
    },
  };
};
