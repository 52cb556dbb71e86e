import type { ClockDrift } from '../../../src/time/clock-drift.ts';
import type { MonotonicMillis } from '../../../src/time/instant.ts';
import { driftOf } from './board-clock.ts';
import type { Hello } from './board-message.ts';
import type { LinkState } from './link-state.ts';
import type { Refusal } from './pump-wish.ts';
import { isWithoutWatchdog } from './setup-compare.ts';
import type { KeeperStatus } from './status.ts';
import type { TableState } from './table-check.ts';

/** All that is known of a board with a keeper, for whoever shows it to a person. */
export interface KeeperState {
  /** Whether the pump is this host's, as far as it knows. */
  readonly owner: 'this-host' | 'keeper' | 'unknown';
  /** Why this board is not driven; null when it is, or may be. */
  readonly refused: string | null;
  readonly versions: Pick<Hello, 'protocol' | 'firmware'> | null;
  /** Whether the watchdog of the board runs, by what it was flashed with. */
  readonly watchdog: 'on' | 'off' | 'unknown';
  /** With reset causes and counts, fuses and the room that is left in memory. */
  readonly status: KeeperStatus | null;
  readonly heardAt: MonotonicMillis | null;
  /** Null as long as both clocks have not been seen for ten minutes. */
  readonly drift: ClockDrift | null;
  readonly table: TableState;
  /** Why the pump does not do what was asked last. */
  readonly refusal: Refusal | null;
}

const ownerOf = ({ phase, heard }: LinkState): KeeperState['owner'] => {
  if (phase.kind === 'own') return 'this-host';
  return heard?.status.owner === 'keeper' ? 'keeper' : 'unknown';
};

export const keeperStateOf = (state: LinkState): KeeperState => {
  const { phase, hello, heard, clock, table } = state;
  return {
    owner: ownerOf(state),
    refused: phase.kind === 'refused' ? phase.why : null,
    versions: hello === null ? null : { protocol: hello.protocol, firmware: hello.firmware },
    watchdog: hello === null ? 'unknown' : isWithoutWatchdog(hello.setup) ? 'off' : 'on',
    status: heard?.status ?? null,
    heardAt: heard?.at ?? null,
    drift: driftOf(clock),
    table: table.state,
    refusal: phase.kind === 'own' && phase.pump.kind === 'on' ? phase.pump.refusal : null,
  };
};
