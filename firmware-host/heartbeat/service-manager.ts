import { saidBriefly } from '../brief-program.ts';

/** What is told to whoever started the host: `READY=1`, `WATCHDOG=1`, `STOPPING=1`, `STATUS=…` (sd_notify(3)). */
export interface ServiceManager {
  /** Never throws and never waits; words that come while others are on their way go together after them. */
  readonly tell: (...words: readonly string[]) => void;
  /** Once everything has been told, or could not be. */
  readonly settled: () => Promise<void>;
}

/** A notifier that hangs must not pile up behind it what comes later. */
const TELL_MILLIS_MAX = 5000;

export const NO_MANAGER: ServiceManager = { tell: () => undefined, settled: () => Promise.resolve() };

/** Of each kind of word only the newest is worth telling. */
const merged = (waiting: readonly string[], words: readonly string[]): readonly string[] => {
  const newest = new Map<string, string>();
  for (const word of [...waiting, ...words]) {
    const line = word.replaceAll(/[\r\n]+/g, ' ');
    newest.set(line.slice(0, line.indexOf('=')), line);
  }
  return [...newest.values()];
};

/**
 * Tells by the service manager's own program: its socket takes datagrams, and Node.js has none of the kind (node:dgram is UDP
 * only). The unit must allow a child to speak: `NotifyAccess=all`. Without `NOTIFY_SOCKET` in the environment nobody listens.
 */
export const serviceManager = (
  env: NodeJS.ProcessEnv,
  failed: (why: string) => void,
  program = 'systemd-notify',
): ServiceManager => {
  const socket = env['NOTIFY_SOCKET'];
  if (socket === undefined || socket === '') return NO_MANAGER;
  let waiting: readonly string[] = [];
  let telling: Promise<void> | null = null;
  let isTold = false;
  const next = async (): Promise<void> => {
    while (waiting.length > 0) {
      const words = waiting;
      waiting = [];
      const said = await saidBriefly(program, ['--', ...words], TELL_MILLIS_MAX);
      if (said !== null || isTold) continue;
      isTold = true;
      failed(`${program} does not work: the service manager hears nothing, and may end this host.`);
    }
    telling = null;
  };
  return {
    tell: (...words) => {
      waiting = merged(waiting, words);
      telling ??= next();
    },
    settled: async () => {
      await telling;
    },
  };
};

/** How often the watchdog must be fed, seconds; null where there is none, or it watches another process. */
export const watchdogSeconds = (env: NodeJS.ProcessEnv, pid: number): number | null => {
  const micros = Number(env['WATCHDOG_USEC']);
  const whose = env['WATCHDOG_PID'];
  if (!(micros > 0) || (whose !== undefined && Number(whose) !== pid)) return null;
  return micros / 1_000_000;
};

/**
 * Whether a service manager has started this very process, and so begins another when it ends. A program that a person starts
 * in a terminal may inherit the socket of another service, but never its number: SYSTEMD_EXEC_PID since systemd 248,
 * WATCHDOG_PID of a watched service before (systemd.exec(5), sd_watchdog_enabled(3)).
 */
export const isStartedAnew = (env: NodeJS.ProcessEnv, pid: number): boolean => {
  const whose = env['SYSTEMD_EXEC_PID'] ?? env['WATCHDOG_PID'];
  return (env['NOTIFY_SOCKET'] ?? '') !== '' && whose !== undefined && Number(whose) === pid;
};
