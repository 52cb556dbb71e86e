import { join } from 'node:path';
import { readWhole, writeWhole } from '../storage/atomic-file.ts';
import type { KeptDelivery } from '../../src/delivery/delivery-restart.ts';

export const deliveryFile = (folder: string): string => join(folder, 'delivery.json');

/** What was on its way when the last process ended; null where nothing is kept that can be believed. */
export const readDelivery = async (folder: string): Promise<KeptDelivery | null> => {
  try {
    const text = await readWhole(deliveryFile(folder));
    if (text === null) return null;
    // Only when needed: the library takes 4 MB of this thread.
    const { keptDelivery } = await import('./kept-schema.ts');
    const read = keptDelivery.safeParse(JSON.parse(text));
    // An alarm of another version may be none here; its kind is only ever compared and handed back.
    return read.success ? (read.data as KeptDelivery) : null;
  } catch {
    // Of what is unreadable the controller tells again what still stands and is of high priority.
    return null;
  }
};

/** @throws Error of the file system */
export const writeDelivery = (folder: string, delivery: KeptDelivery): Promise<void> =>
  writeWhole(deliveryFile(folder), JSON.stringify(delivery));
