import type { Farm } from '../../src/farm/farm.ts';
import type { Now } from '../../src/time/instant.ts';
import { realTimers } from '../devices/timers.ts';
import { createHeartbeat, type Heartbeat } from '../heartbeat/heartbeat.ts';
import { isStartedAnew, serviceManager, watchdogSeconds } from '../heartbeat/service-manager.ts';
import { createHerald, type RunningHerald } from '../herald/herald.ts';
import { readRenewals, writeRenewal } from '../start/renewals.ts';
import { countStart, startFolders, startNow, type Counted } from '../start/starts.ts';
import { wentBackFrom, withWayBack } from '../start/way-back.ts';
import { openJournal, type JournalClient } from '../storage/journal/journal.ts';
import type { MachineStart } from './clock-left.ts';
import { memoryWatch, residentMegabytes } from './memory.ts';
import { createPast, type Past, type PastAsked } from './past.ts';
import { createRenewal, type Renewal } from './renewal.ts';

export interface UpkeepAsked {
  readonly farm: Farm;
  /** The farm file in force, as it is written. */
  readonly file: string;
  readonly text: string;
  readonly folder: string;
  readonly leftBehind: PastAsked['leftBehind'];
  readonly now: () => Now;
  readonly talk: (text: string) => void;
}

/** The parts that keep a host up, each begun as the host before this one left it. */
export interface Opened {
  readonly counted: Counted;
  readonly folders: readonly string[];
  readonly journal: JournalClient;
  readonly past: Past;
  readonly herald: RunningHerald | null;
  readonly heartbeat: Heartbeat;
  readonly renewal: Renewal;
}

/** Whether the clock is believed while the parts are opened, and from then on. */
export interface ClockBelief {
  readonly believed: (now: Now) => Now;
  /** What the host before this one kept, before anything is entered in its book. */
  readonly found: (kept: string | null) => void;
}

export const opened = async (
  asked: UpkeepAsked,
  { boot, source }: MachineStart,
  { believed, found }: ClockBelief,
): Promise<Opened> => {
  const { farm, folder, leftBehind, now, talk } = asked;
  const startOf = (moment: Now): ReturnType<typeof startNow> => startNow(boot, believed(moment));
  const folders = startFolders(folder, process.env);
  const starts = await countStart(folders, startOf(now()));
  const counted = withWayBack(starts, await wentBackFrom());
  if (counted.uncounted !== null) talk(`Starts of this host cannot be counted: ${counted.uncounted}`);
  if (counted.safeMode !== null) talk(`SAFE MODE: ${counted.safeMode}. Floods and calls go on as ever.`);
  const journal = await openJournal(folder, { now: () => believed(now()), found });
  return {
    counted,
    folders,
    journal: journal.client,
    past: createPast({ farm, journal, boot, source, leftBehind, talk }),
    herald:
      farm.herald === undefined
        ? null
        : createHerald({
            farm: farm.farm,
            timeZone: farm.place.timeZone,
            language: farm.language,
            herald: farm.herald,
            folder,
            source,
            clock: believed(now()).wall === 'unknown' ? 'unknown' : 'known',
            talk,
          }),
    heartbeat: createHeartbeat({
      manager: serviceManager(process.env, talk),
      timers: realTimers,
      watchdogSeconds: watchdogSeconds(process.env, process.pid),
      talk,
    }),
    renewal: createRenewal({
      memory: memoryWatch(residentMegabytes),
      // A person is to look at one in safe mode; ending itself would end that too.
      after: counted.safeMode === null && isStartedAnew(process.env, process.pid) ? 'started-anew' : 'nobody',
      renewals: await readRenewals(folders),
      startOf,
      write: (start) => writeRenewal(folders, start),
      talk,
    }),
  };
};
