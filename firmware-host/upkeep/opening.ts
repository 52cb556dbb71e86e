import type { Farm } from '../../src/farm/farm.ts';
import type { ClockTrust } from '../../src/time/clock-trust.ts';
import { believedNow } from '../../src/time/clock-trust.ts';
import type { Now } from '../../src/time/instant.ts';
import { realTimers } from '../devices/timers.ts';
import { createHeartbeat, type Heartbeat } from '../heartbeat/heartbeat.ts';
import { isStartedAnew, serviceManager, watchdogSeconds } from '../heartbeat/service-manager.ts';
import { createHerald, type RunningHerald } from '../herald/herald.ts';
import { readRenewals, writeRenewal } from '../start/renewals.ts';
import { countStart, startFolders, startNow, type Counted } from '../start/starts.ts';
import { wentBackFrom, withWayBack } from '../start/way-back.ts';
import { openJournal, type JournalClient } from '../storage/journal/journal.ts';
import { clockLeft, type MachineStart } from './clock-left.ts';
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

/** `trust` is that in the clock, as it is whenever it is asked for. */
export const opened = async (
  asked: UpkeepAsked,
  machine: MachineStart,
  trust: () => ClockTrust,
): Promise<Opened> => {
  const { farm, folder, leftBehind, now, talk } = asked;
  const { boot, source } = machine;
  const startOf = (moment: Now): ReturnType<typeof startNow> => startNow(boot, believedNow(trust(), moment));
  const believedBy = (kept: string | null): Now => {
    const moment = now();
    return believedNow(clockLeft(kept, machine, moment), moment);
  };
  const folders = startFolders(folder, process.env);
  const starts = await countStart(folders, startOf(now()));
  const counted = withWayBack(starts, await wentBackFrom());
  if (counted.uncounted !== null) talk(`Starts of this host cannot be counted: ${counted.uncounted}`);
  if (counted.safeMode !== null) talk(`SAFE MODE: ${counted.safeMode}. Floods and calls go on as ever.`);
  const journal = await openJournal(folder, { now: () => believedNow(trust(), now()), foundNow: believedBy });
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
            clock: believedBy(journal.found.keptState).wall === 'unknown' ? 'unknown' : 'known',
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
