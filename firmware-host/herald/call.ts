import type { Call as Asked } from '../../src/controller.ts';

/** What the herald carries of a call of the controller. */
export type Call = Pick<Asked, 'kind' | 'alarm' | 'priority' | 'text' | 'message' | 'rung' | 'minutesLeft'>;
