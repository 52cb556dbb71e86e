import type { Planted } from './planting.ts';

/** Bugs of a host that begins anew and has lost something of what the one before it had kept. */
export const PLANTED_IN_MEMORY: readonly Planted[] = [
  {
    invariant: 'I5',
    says: 'a host that begins anew counts its floods from one',
    needs: 'host-killed',
    make: () => ({ kept: (kept) => ({ ...kept, floodCount: 0, flood: null }) }),
  },
  {
    invariant: 'I2',
    says: 'a host that begins anew forgets the flood in which the one before it ended',
    needs: 'host-killed',
    make: () => ({ kept: (kept) => ({ ...kept, flood: null }) }),
  },
  {
    invariant: 'I7',
    says: 'a host that begins anew forgets which alarms stood',
    needs: 'host-killed',
    make: () => ({ kept: (kept) => ({ ...kept, alarms: [] }) }),
  },
];
