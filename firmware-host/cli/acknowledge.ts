import type { Status } from '../storage/status-file.ts';
import { stateFolder } from '../storage/state-folder.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { farmToTellOf } from './farm-argument.ts';
import { knownStatus } from './known-status.ts';
import { noHostTook, tellHost, whoIsHere } from './tell-host.ts';
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
  const open = (await knownStatus(folder)).alarms.filter(isOpen);
  if (open.length === 0) {
    console.out('No alarm waits to be acknowledged.');
    return EXIT.done;
  }
  for (const { priority, text } of open) console.out(wrapped(`(${priority}) ${text}`, console.columns, 2));
  await tellHost(
    folder,
    { kind: 'acknowledge', alarms: open.map(({ kind }) => kind), who: whoIsHere(), atMillis: Date.now() },
    noHostTook('Nothing is acknowledged', farm.farm, folder, `acknowledge ${path}`),
  );
  console.out('Acknowledged. It mends nothing: what still stands is told again.');
  return EXIT.done;
};
