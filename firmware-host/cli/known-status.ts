import { readStatus, type Status } from '../storage/status-file.ts';
import { EXIT } from './exit-code.ts';
import { Refusal } from './refusal.ts';

/** What the host of the folder last said of itself, for who speaks to it about its alarms. @throws Refusal where nothing can be read */
export const knownStatus = async (folder: string): Promise<Status> => {
  const stored = await readStatus(folder);
  if (stored.kind === 'found') return stored.status;
  const why = stored.kind === 'none' ? 'no host has written there' : stored.why;
  throw new Refusal(`No alarms are known from ${folder}: ${why}.`, EXIT.notWell);
};
