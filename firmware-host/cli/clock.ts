import { localDateTimeText } from '../../src/time/local-day.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { stateFolder } from '../storage/state-folder.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { farmToTellOf } from './farm-argument.ts';
import { tellHost, whoIsHere } from './tell-host.ts';

export interface ClockOptions {
  readonly right?: boolean;
}

/** `rillkeeper clock FARM`: the clock of this machine, and the word of a person that it is right. */
export const clock = async (path: string, options: ClockOptions, console: Console): Promise<ExitCode> => {
  const { farm } = await farmToTellOf(path, console);
  const { timeZone } = farm.place;
  const here = (): string => `${localDateTimeText(wallMillis(Date.now()), timeZone)} in ${timeZone}`;
  if (options.right !== true) {
    console.out(`This machine has ${here()}.`);
    console.talk(
      `If a watch says the same, and the host of ${farm.farm} doubts its clock: rillkeeper clock ${path} --right`,
    );
    return EXIT.done;
  }
  const folder = stateFolder(farm.farm);
  await tellHost(
    folder,
    { kind: 'clock-right', who: whoIsHere(), atMillis: Date.now() },
    `No host of ${farm.farm} took it: none runs with ${folder}, or none doubts its clock.`,
  );
  console.out(`The host of ${farm.farm} believes its clock again: ${here()}.`);
  return EXIT.done;
};
