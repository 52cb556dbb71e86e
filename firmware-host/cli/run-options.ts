import type { HostAsked } from '../host.ts';
import type { RehearseOptions } from './rehearse.ts';

export interface RunOptions extends RehearseOptions {
  readonly board?: string;
  readonly rehearse?: boolean;
  readonly speed?: string;
  readonly for?: string;
  readonly from?: string;
}

/** What one kind of board needs to be run: the rest is the same for all. */
export type Prepared = Pick<
  HostAsked,
  'wiring' | 'board' | 'clock' | 'simulated' | 'until' | 'stop' | 'believes'
>;

export const isSimulated = (port: string): port is 'demo' | 'emulated' =>
  port === 'demo' || port === 'emulated';
