import type { Call as Asked } from '../alarm/calls.ts';

/** What the herald carries of a call of the controller: plain words only, which it keeps on the disk as they are. */
export type Call = Pick<
  Asked,
  'kind' | 'alarm' | 'also' | 'seenBy' | 'priority' | 'text' | 'message' | 'rung' | 'minutesLeft'
>;

/** Whether somebody may have to get up for it. */
export const isActive = ({ kind }: Call): boolean =>
  kind === 'raised' || kind === 'again' || kind === 'escalated';

export const carriedCall = ({
  kind,
  alarm,
  also,
  seenBy,
  priority,
  text,
  message,
  rung,
  minutesLeft,
}: Asked): Call => ({
  kind,
  alarm,
  also,
  seenBy,
  priority,
  text,
  message,
  rung,
  minutesLeft,
});
