import { secondsBetween } from '../../src/time/instant.ts';
import type { Timers, TimerId } from '../devices/timers.ts';
import { answered, hungParts, type Answers, type Part } from './health-table.ts';
import type { ServiceManager } from './service-manager.ts';

/** The watchdog is fed this often within its time, so that one lost word is no restart. */
const FEEDS_PER_WATCHDOG = 3;
/** The sentence of the status is told again this often, where there is no watchdog to tell it with. */
const STATUS_SECONDS = 20;
/** A process that was stopped, or slept, finds every part silent; they have this long to answer first. */
const WAKING_SECONDS = 2;

export interface HeartbeatAsked {
  readonly manager: ServiceManager;
  readonly timers: Timers;
  /** Null: nobody would miss the heartbeat. */
  readonly watchdogSeconds: number | null;
  readonly talk: (text: string) => void;
}

/** Tells the service manager that the host lives, as long as all of its parts do. */
export interface Heartbeat {
  /** The part has answered of late. The first answer is also when it begins to be waited for. */
  readonly answered: (part: Part) => void;
  /** The newest sentence of the status. */
  readonly says: (sentence: string) => void;
  /** The first look at the board is done, and the benches are in hand. */
  readonly ready: () => void;
  /** The host lets go; nothing is fed from here on. */
  readonly stopping: () => Promise<void>;
}

export const createHeartbeat = ({ manager, timers, watchdogSeconds, talk }: HeartbeatAsked): Heartbeat => {
  let answers: Answers = {};
  let sentence: string | null = null;
  let told = '';
  const seconds = watchdogSeconds === null ? STATUS_SECONDS : watchdogSeconds / FEEDS_PER_WATCHDOG;
  const statusWords = (): readonly string[] => (sentence === null ? [] : [`STATUS=${sentence}`]);
  let lastAt = timers.now();
  let waking: TimerId | undefined;
  const beat = (): void => {
    const now = timers.now();
    const late = secondsBetween(lastAt, now) > 2 * seconds;
    lastAt = now;
    if (late) waking = timers.setTimeout(judged, WAKING_SECONDS * 1000);
    else judged();
  };
  const judged = (): void => {
    const hung = hungParts(answers, timers.now());
    const says = hung.map(({ part }) => part).join(', ');
    if (says !== '' && says !== told) {
      talk(
        `Hung: ${says}. The watchdog is not fed any more, and the service manager will start this host anew.`,
      );
    }
    told = says;
    if (hung.length > 0) manager.tell(`STATUS=hung: ${says}`);
    else manager.tell(...(watchdogSeconds === null ? [] : ['WATCHDOG=1']), ...statusWords());
  };
  const timer: TimerId = timers.setInterval(beat, seconds * 1000);
  return {
    answered: (part) => {
      answers = answered(answers, part, timers.now());
    },
    says: (newest) => {
      sentence = newest;
    },
    ready: () => {
      manager.tell('READY=1', ...statusWords());
    },
    stopping: async () => {
      timers.clearInterval(timer);
      timers.clearTimeout(waking);
      manager.tell('STOPPING=1');
      await manager.settled();
    },
  };
};
