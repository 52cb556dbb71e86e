import { readStatus, type Status } from '../storage/status-file.ts';
import { stateFolder } from '../storage/state-folder.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { farmToTellOf } from './farm-argument.ts';
import { Refusal } from './refusal.ts';
import { tellHost, whoIsHere } from './tell-host.ts';
import { wrapped } from './wrap.ts';

const isOpen = ({ state }: Status['alarms'][number]): boolean =>
  state === 'active-unacknowledged' || state === 'returned-unacknowledged';

/**
 * `rillkeeper acknowledge FARM`: somebody at the host has seen the alarms that `status` tells. The buzzer and the calls stop;
 * what still stands is told again, as after an "ok" in a text.
 */
export const acknowledge = async (path: string, console: Console): Promise<ExitCode> => {
  const { farm } = await farmToTellOf(path, console);
  const folder = stateFolder(farm.farm);
  const stored = await readStatus(folder);
  if (stored.kind !== 'found') {
    const why = stored.kind === 'none' ? 'no host has written there' : stored.why;
    throw new Refusal(`No alarms are known from ${folder}: ${why}.`, EXIT.notWell);
  }
  const open = stored.status.alarms.filter(isOpen);
  if (open.length === 0) {
    console.out('No alarm waits to be acknowledged.');
    return EXIT.done;
  }
  for (const { priority, text } of open) console.out(wrapped(`(${priority}) ${text}`, console.columns, 2));
  await tellHost(
    folder,
    { kind: 'acknowledge', alarms: open.map(({ kind }) => kind), who: whoIsHere(), atMillis: Date.now() },
    `Nothing is acknowledged: no host of ${farm.farm} runs with ${folder}. A service has a folder of its own: RILLKEEPER_STATE=/var/lib/rillkeeper rillkeeper acknowledge ${path}`,
  );
  console.out('Acknowledged. It mends nothing: what still stands is told again.');
  return EXIT.done;
};
