import { rm } from 'node:fs/promises';
import { existsSync } from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';
import { userInfo } from 'node:os';
import { localDateTimeText } from '../../src/time/local-day.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { stateFolder } from '../storage/state-folder.ts';
import { clockWordFile, sayClockRight } from '../upkeep/clock-word.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { farmToTellOf } from './farm-argument.ts';
import { Refusal } from './refusal.ts';

export interface ClockOptions {
  readonly right?: boolean;
}

/** A host in doubt looks once a second; one on a slow card needs a few. */
const TAKEN_SECONDS = 10;

const user = (): string => {
  try {
    return userInfo().username;
  } catch {
    // A user without an entry in the list of users.
    return 'somebody';
  }
};

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
  const file = clockWordFile(folder);
  try {
    await sayClockRight(folder, { who: `${user()} at the host`, atMillis: Date.now() });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new Refusal(`Nothing can be said to the host, as its folder takes nothing: ${why}`, EXIT.notWell);
  }
  const until = performance.now() + TAKEN_SECONDS * 1000;
  while (existsSync(file) && performance.now() < until) await sleep(200);
  if (existsSync(file)) {
    await rm(file, { force: true });
    throw new Refusal(
      `No host of ${farm.farm} took it: none runs with ${folder}, or none doubts its clock.`,
      EXIT.notWell,
    );
  }
  console.out(`The host of ${farm.farm} believes its clock again: ${here()}.`);
  return EXIT.done;
};
