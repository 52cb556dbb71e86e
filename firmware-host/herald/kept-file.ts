import { join } from 'node:path';
import { readWhole, writeWhole } from '../storage/atomic-file.ts';
import type { KeptDelivery } from '../../src/delivery/delivery-restart.ts';
import type { MonotonicMillis } from '../../src/time/instant.ts';

/** Delivery as it lies on the disk. */
export interface StoredDelivery extends KeptDelivery {
  /**
   * The moment `at` on the counter of the machine, by the kernel's name for this start of it: the wall clock may step between
   * two processes. Null where there is no such name, and of a version that did not write it.
   */
  readonly machine: { readonly boot: string; readonly monotonic: MonotonicMillis } | null;
}

export const deliveryFile = (folder: string): string => join(folder, 'delivery.json');

/** What was on its way when the last process ended; null where nothing is kept that can be believed. */
export const readDelivery = async (folder: string): Promise<StoredDelivery | null> => {
  try {
    const text = await readWhole(deliveryFile(folder));
    if (text === null) return null;
    // Only when needed: the library takes 4 MB of this thread.
    const { keptDelivery } = await import('./kept-schema.ts');
    const read = keptDelivery.safeParse(JSON.parse(text));
    // An alarm of another version may be none here; its kind is only ever compared and handed back.
    return read.success ? (read.data as StoredDelivery) : null;
  } catch {
    // Of what is unreadable the controller tells again what still stands and is of high priority.
    return null;
  }
};

/** @throws Error of the file system */
export const writeDelivery = (folder: string, delivery: StoredDelivery): Promise<void> =>
  writeWhole(deliveryFile(folder), JSON.stringify(delivery));
