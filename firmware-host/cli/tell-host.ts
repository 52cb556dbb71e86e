import { existsSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { setTimeout as sleep } from 'node:timers/promises';
import { hostWordFile, sayToHost, type HostWord } from '../upkeep/host-word.ts';
import { userName } from '../user-name.ts';
import { EXIT } from './exit-code.ts';
import { Refusal } from './refusal.ts';

/** A host looks once a second; one on a slow card needs a few. */
const TAKEN_SECONDS = 10;

/** Who says it, as the journal tells it. */
export const whoIsHere = (): string => `${userName()} at the host`;

/** Why nothing came of what was to be said about alarms: no host has that folder. `command` is what to ask again, after `rillkeeper`. */
export const noHostTook = (nothing: string, farm: string, folder: string, command: string): string =>
  `${nothing}: no host of ${farm} runs with ${folder}. A service has a folder of its own: RILLKEEPER_STATE=/var/lib/rillkeeper rillkeeper ${command}`;

/**
 * Leaves a word for the host that runs with the folder, and waits until it has taken it.
 * @throws Refusal where the folder takes nothing, or no host took it: `notTaken` says why that may be. Then it is gone.
 */
export const tellHost = async (folder: string, word: HostWord, notTaken: string): Promise<void> => {
  const file = hostWordFile(folder);
  try {
    await sayToHost(folder, word);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') throw new Refusal(notTaken, EXIT.notWell);
    const why = error instanceof Error ? error.message : String(error);
    throw new Refusal(`Nothing can be said to the host, as its folder takes nothing: ${why}`, EXIT.notWell);
  }
  const until = performance.now() + TAKEN_SECONDS * 1000;
  while (existsSync(file) && performance.now() < until) await sleep(200);
  if (!existsSync(file)) return;
  await rm(file, { force: true });
  throw new Refusal(notTaken, EXIT.notWell);
};
