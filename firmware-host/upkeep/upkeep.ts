import { createHash } from 'node:crypto';
import {
  hostHealth,
  isAlarmKind,
  keptState,
  lastStandstill,
  sameHealth,
  type ControllerState,
  type Event,
  type Standstill,
  type Step,
} from '../../src/controller.ts';
import { meantBy } from '../../src/alarm/meant.ts';
import { carriedCall } from '../../src/delivery/call.ts';
import type { Entry, Happening } from '../../src/journal/entry.ts';
import { heardHappening } from '../../src/journal/heard-happening.ts';
import type { Link } from '../../src/ports/board.ts';
import type { HostHealth } from '../../src/ports/host-health.ts';
import type { NamedReading } from '../../src/sense/readings.ts';
import { afterSeconds, monotonicMillis, type MonotonicMillis, type Now } from '../../src/time/instant.ts';
import { believedNow, inDoubt } from '../../src/time/clock-trust.ts';
import type { BoardLink } from '../devices/board-link.ts';
import { LINE_UNWATCHED, lineWatched } from '../devices/line-watch.ts';
import { countCleanStop, lastingStart } from '../start/starts.ts';
import { keptText } from '../storage/kept-state.ts';
import { batteryWatch, powerSupplies } from './battery.ts';
import { boardClockWatch } from './board-clock-watch.ts';
import { chipWatch, thermalZones } from './chip-heat.ts';
import { clockLeft, machineStart, type MachineStart } from './clock-left.ts';
import { clockSetting } from './clock-setting.ts';
import { hostWordWatch } from './host-word.ts';
import { opened, type UpkeepAsked } from './opening.ts';

export type { UpkeepAsked } from './opening.ts';

/** What a step shows of itself to whoever keeps it up. */
export interface Shown {
  /** The state in one sentence, for whoever keeps the machine. */
  readonly says: string;
  /** The same in the language of the farm, for those whom it calls. */
  readonly saysToPeople: string;
  readonly readings: readonly NamedReading[];
}

/**
 * What the host of a real shed does beside the pump: it keeps the book, calls people, tells the service manager that it
 * lives, and begins where the host before it ended. Nothing in it is ever waited for while the pump is in hand.
 */
export interface Upkeep {
  /** Why the host runs with as little as it can; null when it does not. */
  readonly safeMode: string | null;
  /** Aborted once the host is to end, so that its service manager starts it anew. */
  readonly ends: AbortSignal;
  readonly append: (entries: readonly Entry[]) => void;
  readonly begun: (now: Now, link: Link) => ControllerState;
  readonly events: (board: BoardLink, now: Now) => readonly Event[];
  /** `shown` is worked out once a second. */
  readonly told: (step: Step, now: Now, shown: () => Shown) => void;
  /** The host was asked to end, and has let go of the board. */
  readonly ended: (state: ControllerState, now: Now) => Promise<void>;
}

const EVERY_SECONDS = 1;

/** The herald counts on the clock of this process, which stands still while the machine sleeps. */
const hostMoment = (ofHerald: MonotonicMillis, now: MonotonicMillis): MonotonicMillis =>
  monotonicMillis(now - Math.max(0, performance.now() - ofHerald));

const settingsEntry = ({ file, text }: UpkeepAsked): Happening => ({
  kind: 'settings',
  file,
  sha256: createHash('sha256').update(text).digest('hex'),
  text,
});

export const openUpkeep = async (
  asked: UpkeepAsked,
  startOfMachine: () => Promise<MachineStart> = machineStart,
): Promise<Upkeep> => {
  const machine = await startOfMachine();
  // No date of a clock that cannot be right stands in the book.
  let trust = clockLeft(null, machine, asked.now());
  let isBegun = false;
  const parts = await opened(asked, machine, {
    believed: (now) => believedNow(trust, now),
    found: (kept) => {
      // Of a book that opens late the controller hears.
      if (!isBegun) trust = clockLeft(kept, machine, asked.now());
    },
  });
  const { counted, folders, journal, past, herald, heartbeat, renewal } = parts;
  const lasts = lastingStart(folders, asked.now().monotonic);
  let alarms: ControllerState['alarms'] = [];
  let voices: ControllerState['calls']['voices'] = [];
  let readings: readonly NamedReading[] = [];
  let health: HostHealth | null = null;
  let lookedAt: MonotonicMillis | null = null;
  let stood: Standstill | null = null;
  const boardClock = boardClockWatch();
  let line = LINE_UNWATCHED;
  const chipHeat = chipWatch(thermalZones());
  const battery = batteryWatch(powerSupplies());
  const setting = clockSetting();
  const hostWord = hostWordWatch(asked.folder, Date.now);
  let nextAt: MonotonicMillis | null = null;
  let isReady = false;

  const say = (happenings: readonly Happening[], now: Now): void => {
    const { monotonic: at, wall } = believedNow(trust, now);
    if (happenings.length > 0)
      journal.append(happenings.map((happening): Entry => ({ ...happening, at, wall })));
  };

  const keep = (state: ControllerState, now: Now): void => {
    if (past.mayKeep()) journal.keep(keptText(keptState(state, now), machine.boot));
  };

  const lineBad = (board: BoardLink, now: MonotonicMillis): HostHealth['line'] => {
    const counts = { connections: board.counts().connections, messages: board.messages() };
    line = lineWatched(line, board.link().kind === 'up' ? counts : null, now);
    return line.bad;
  };

  const deadChannels = (now: MonotonicMillis): HostHealth['channels'] =>
    (herald?.dead() ?? []).map((channel) => ({ ...channel, since: hostMoment(channel.since, now) }));

  const healthEvents = (board: BoardLink, now: MonotonicMillis): readonly Event[] => {
    stood = lastStandstill(stood, lookedAt, now);
    lookedAt = now;
    const newest = hostHealth(
      {
        stood,
        journal: journal.health(),
        channels: deadChannels(now),
        starts: counted,
        pastUnread: past.unread(now),
        boardClock: boardClock(board, now),
        line: lineBad(board, now),
        chip: chipHeat(now),
        memory: renewal.health(now),
        battery: battery(now),
        readings,
      },
      now,
    );
    if (health !== null && sameHealth(health, newest)) return [];
    health = newest;
    return [{ kind: 'host', health: newest }];
  };

  const heardEvents = (now: Now): readonly Event[] =>
    (herald?.heard() ?? []).flatMap((heard): readonly Event[] => {
      say([heardHappening(heard)], now);
      if (heard.kind !== 'acknowledge') return [];
      // Those that are over too: who was called for one may answer when it has gone, and else it would stay unseen for good.
      const { who } = heard;
      const known = heard.known.map((one) => ({ ...one, madeAt: hostMoment(one.madeAt, now.monotonic) }));
      return meantBy(alarms, voices, known).map((alarm) => ({ kind: 'acknowledge', alarm, who }) as const);
    });

  const hostWordEvents = (): readonly Event[] => {
    const word = hostWord.said();
    if (word === null) return [];
    const { who } = word;
    switch (word.kind) {
      case 'clock-right':
        return [{ kind: 'clock-right', who }];
      case 'acknowledge':
        return word.alarms.filter(isAlarmKind).map((alarm) => ({ kind: 'acknowledge', alarm, who }) as const);
      case 'shelve': {
        const { alarm, minutes } = word;
        return isAlarmKind(alarm) ? [{ kind: 'shelve', alarm, minutes, who }] : [];
      }
    }
  };

  const everySecond = (now: Now, { says, saysToPeople, readings: newest }: Shown): void => {
    readings = newest;
    hostWord.look(inDoubt(trust) ? 'clock' : 'nothing');
    herald?.says(saysToPeople);
    heartbeat.says(says);
    say(
      newest.map(({ name, reading, value, unit }) => ({
        kind: 'reading',
        channel: name,
        quality: reading.quality,
        value,
        unit,
      })),
      now,
    );
    if (journal.answers()) heartbeat.answered('journal');
    if (herald?.turned() === true) heartbeat.answered('herald');
  };

  return {
    safeMode: counted.safeMode,
    ends: renewal.ends,
    append: journal.append,
    begun: (now, link) => {
      const state = past.begun(now, link);
      trust = state.clock;
      isBegun = true;
      say([settingsEntry(asked)], now);
      return state;
    },
    events: (board, now) => [
      ...past.events(now),
      ...setting.events(trust, now.monotonic),
      ...heardEvents(now),
      ...hostWordEvents(),
      ...healthEvents(board, now.monotonic),
    ],
    told: (step, now, shown) => {
      trust = step.state.clock;
      alarms = step.state.alarms;
      voices = step.state.calls.voices;
      // Who is called hangs on the hour.
      herald?.clock(believedNow(trust, now).wall === 'unknown' ? 'unknown' : 'known');
      for (const call of step.calls) herald?.tell(carriedCall(call));
      heartbeat.answered('scheduler');
      heartbeat.answered('link');
      renewal.told(step, now);
      lasts(now.monotonic);
      if (!isReady) heartbeat.ready();
      isReady = true;
      const isDue = nextAt === null || now.monotonic >= nextAt;
      // What is entered is on the disk at once, and the state that it led to must be with it: else a power cut within 10 s of
      // a hold would start the pump on hands that are in the water.
      if (isDue || step.entries.length > 0) keep(step.state, now);
      if (!isDue) return;
      nextAt = afterSeconds(now.monotonic, EVERY_SECONDS);
      everySecond(now, shown());
    },
    ended: async (state, now) => {
      trust = state.clock;
      keep(state, now);
      await Promise.all([heartbeat.stopping(), herald?.close()]);
      // What became of the last messages; the stop is the last word in the book.
      say([...(herald?.heard() ?? []).map(heardHappening), { kind: 'stopped' }], now);
      await Promise.all([journal.close(), countCleanStop(folders)]);
    },
  };
};
