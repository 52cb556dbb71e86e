import type { Planted } from './planting.ts';

/** Against I4 where the board keeps the plants: at the change of hands. */
export const PLANTED_KEEPER: readonly Planted[] = [
  {
    invariant: 'I4',
    says: 'a board that keeps the plants waits for a host that it does not hear',
    needs: 'link-lost',
    boardKind: 'keeps',
    make: () => ({ board: (board) => ({ ...board, silent: () => undefined }) }),
  },
];
