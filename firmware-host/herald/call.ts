import type { Call as Asked } from '../../src/controller.ts';

/** What the herald carries of a call of the controller. */
export type Call = Pick<Asked, 'kind' | 'alarm' | 'priority' | 'text' | 'rung' | 'minutesLeft'> & {
  /** The same for a telephone, in at most 160 letters of 3GPP TS 23.038; the text itself where it is short enough. */
  readonly message?: string;
};
