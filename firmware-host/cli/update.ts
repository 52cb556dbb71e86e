import { existsSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { bookPath } from '../storage/journal/book-path.ts';
import { stateFolder } from '../storage/state-folder.ts';
import { canSwitch, isSameFolder, linkAt, LINKS, switchTo, targetOf } from '../update/links.ts';
import { lookInto } from '../update/program-folder.ts';
import { backup } from './book-backup.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { acceptedFarm, type AcceptedFarm } from './farm-argument.ts';
import { Refusal } from './refusal.ts';

export interface UpdateOptions {
  /** False where it was asked for without. */
  readonly backup: boolean;
}

/** Where docs/install-host.md puts it. */
const UNIT = '/etc/systemd/system/rillkeeper.service';

const UNCHANGED = 'Nothing was changed.';
const whyOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Whether the folder can become what the link says. @throws Refusal where it cannot */
const mayBecomeCurrent = async (folder: string, asked: string): Promise<void> => {
  const root = dirname(folder);
  const names: readonly string[] = Object.values(LINKS);
  if (names.includes(basename(folder)) || (await linkAt(folder)).kind === 'link') {
    throw new Refusal(
      `update ${asked}: that is a link or the name of one; name the folder itself, such as ${join(root, '0.2.0')}. ${UNCHANGED}`,
      EXIT.usage,
    );
  }
  for (const name of names) {
    if ((await linkAt(join(root, name))).kind !== 'no-link') continue;
    throw new Refusal(
      `${join(root, name)} is a file or folder, where a link to a folder of the program is wanted. Give the folder another name, such as its version, then make the link: ln -s <that name> ${join(root, LINKS.current)}. ${UNCHANGED}`,
    );
  }
  const link = join(root, LINKS.current);
  if (await isSameFolder(link, folder)) {
    throw new Refusal(
      `update ${asked}: that folder is in force already. Name another one beside it. ${UNCHANGED}`,
      EXIT.usage,
    );
  }
  const current = await targetOf(root, LINKS.current);
  if (current.kind === 'elsewhere') {
    throw new Refusal(
      `${link} leads to ${current.path}, which does not lie beside it: there would be no way back to it. Put that folder into ${root}, and make the link anew: ln -sfn ${basename(current.path)} ${link}. ${UNCHANGED}`,
    );
  }
};

/** The book as it is, beside it, before another version has it. @throws Refusal */
const backedUp = async (
  { farm, file, text }: AcceptedFarm,
  version: string,
  console: Console,
): Promise<void> => {
  const folder = stateFolder(farm.farm);
  if (!existsSync(bookPath(folder))) {
    throw new Refusal(
      `There is no book at ${bookPath(folder)} to back up. RILLKEEPER_STATE names the folder where the service keeps it, such as RILLKEEPER_STATE=/var/lib/rillkeeper; where the farm has no book yet, add --no-backup. ${UNCHANGED}`,
    );
  }
  const stamp = new Date().toISOString().replaceAll(':', '-');
  const to = join(folder, `before-${version}-${stamp}.rillkeeper`);
  await backup({ folder, to, farm: farm.farm, farmFile: file, farmText: text }, console);
};

/** @throws Refusal also for what the file system does not show */
const looking = async <Seen>(folder: string, seen: Promise<Seen>): Promise<Seen> => {
  try {
    return await seen;
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal(`${folder} cannot be looked into: ${whyOf(error)}. ${UNCHANGED}`);
  }
};

/** `rillkeeper update NEW_FOLDER FARM`: the service starts another version from its next start on. */
export const update = async (
  asked: string,
  farmFile: string,
  options: UpdateOptions,
  console: Console,
): Promise<ExitCode> => {
  const folder = resolve(asked);
  const root = dirname(folder);
  const accepted = await acceptedFarm(farmFile);
  await looking(folder, mayBecomeCurrent(folder, asked));
  const found = await looking(folder, lookInto(folder, resolve(farmFile)));
  if (found.kind === 'refused') {
    throw new Refusal(`${folder} cannot be changed to: ${found.why}\n${UNCHANGED}`);
  }
  if (!(await canSwitch(root))) {
    throw new Refusal(
      `${root}: no right to change the links in it. Run it as their owner (sudo). ${UNCHANGED}`,
    );
  }
  if (options.backup) await backedUp(accepted, found.version, console);
  let before: string | null;
  try {
    before = await switchTo(folder);
  } catch (error) {
    throw new Refusal(
      `${join(root, LINKS.current)} could not be changed: ${whyOf(error)}. The version before stays in force.`,
    );
  }
  if (before === null && !existsSync(UNIT)) {
    console.talk(
      `${join(root, LINKS.current)} leads to ${found.version} in ${folder} from now on, and led nowhere before. No service was found on this computer (${UNIT}), so nothing starts by that link yet: docs/install-host.md says how to make one.`,
    );
    return EXIT.done;
  }
  console.talk(
    `${found.version} in ${folder} starts from now on; what runs goes on until then. Start it anew: sudo systemctl restart rillkeeper`,
  );
  if (before !== null) {
    console.talk(
      `Where it fails three times within ten minutes the service goes back to ${join(root, before)} by itself; by hand: rillkeeper update ${join(root, before)} ${farmFile}`,
    );
  }
  return EXIT.done;
};
