import { isSilent, readStatus, type Status, type StoredStatus } from '../storage/status-file.ts';
import { EXIT } from './exit-code.ts';
import { Refusal } from './refusal.ts';

/** Why it does not tell what stands; null where it does. */
const unknownWhy = (stored: StoredStatus): string | null => {
  switch (stored.kind) {
    case 'none':
      return 'no host has written there';
    case 'unreadable':
      return stored.why;
    case 'found':
      return isSilent(stored.status, Date.now())
        ? `its host has written nothing since ${stored.status.writtenAt}; rillkeeper status says whether it runs`
        : null;
  }
};

/**
 * What the host of the folder says of itself, for who speaks to it about its alarms.
 * @throws Refusal where nothing can be read, or it is too old to tell what stands
 */
export const knownStatus = async (folder: string): Promise<Status> => {
  const stored = await readStatus(folder);
  const why = unknownWhy(stored);
  if (stored.kind === 'found' && why === null) return stored.status;
  throw new Refusal(`No alarms are known from ${folder}: ${why}.`, EXIT.notWell);
};
