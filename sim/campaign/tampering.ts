import type { Event, KeptState } from '../../src/controller.ts';
import type { Call } from '../../src/delivery/call.ts';
import type { Batch } from '../../src/journal/disk.ts';
import type { Entry } from '../../src/journal/entry.ts';
import type { BoardCommand } from '../../src/ports/board.ts';
import type { HostHealth } from '../../src/ports/host-health.ts';
import type { Now } from '../../src/time/instant.ts';
import type { BoardLimits } from '../board/simulated-board.ts';
import type { MetBoard } from './met-board.ts';
import type { Script } from './script.ts';
import type { Mishap } from './virtual-disk.ts';
import type { Answer } from './ways-out.ts';

/** Where a run stands when something is tampered with. */
export interface Moment {
  readonly atMillis: number;
  readonly clearMillis: number;
  readonly script: Script;
  readonly link: 'up' | 'down';
  readonly life: number;
}

/** A command with the moment at which it comes to the board. */
export interface Sent {
  readonly command: BoardCommand;
  readonly atMillis: number;
}

/**
 * What a planted bug does to a run, at the places where a defect of the host would show: what it hears, what it asks, what
 * it writes, what it takes for the time, and what the board allows. A run without bugs has none of these.
 */
export interface Tampering {
  readonly event?: (event: Event, moment: Moment) => Event;
  readonly sent?: (sent: readonly Sent[], moment: Moment) => readonly Sent[];
  readonly entries?: (entries: readonly Entry[], moment: Moment) => readonly Entry[];
  readonly now?: (now: Now, moment: Moment) => Now;
  /** What a host that begins anew finds of the one before it. */
  readonly kept?: (kept: KeptState) => KeptState;
  /** What the herald is asked to carry. */
  readonly calls?: (calls: readonly Call[], moment: Moment) => readonly Call[];
  /** The herald takes up what it is asked so much later. */
  readonly heraldLateMillis?: number;
  /** What comes of a try or a look at a channel; undefined leaves it to the channel. */
  readonly answer?: (
    asked: { readonly channel: string; readonly what: string; readonly atMillis: number },
    moment: Moment,
  ) => Answer | undefined;
  /** What a disk says of a write that it has not made, or has made in vain. */
  readonly disk?: (batch: Batch, says: Mishap) => Mishap;
  /** What the host sees of its own disk and channels. */
  readonly seen?: (
    seen: Pick<HostHealth, 'journal' | 'channels'>,
    moment: Moment,
  ) => Pick<HostHealth, 'journal' | 'channels'>;
  /** The board itself. */
  readonly board?: (board: MetBoard) => MetBoard;
  readonly limits?: (limits: BoardLimits) => BoardLimits;
  /** Commands that come to the board though the line is gone. */
  readonly throughLostLink?: true;
}
