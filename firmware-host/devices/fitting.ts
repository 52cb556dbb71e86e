import type { Sample } from '../../src/ports/sample.ts';
import type { Press } from '../../src/ports/board.ts';
import type { DeviceLibrary, FirmataClient, LibraryBoard } from './device-library.ts';
import type { Timers } from './timers.ts';

/** How often parts are read and told. */
export const READ_MILLIS = 1000;

/** What a part is made with: one connected board, and where its words go. */
export interface Fitting {
  readonly library: DeviceLibrary;
  readonly io: FirmataClient;
  readonly board: LibraryBoard;
  readonly timers: Timers;
  readonly take: (sample: Sample) => void;
  readonly pressed: (press: Press) => void;
}
