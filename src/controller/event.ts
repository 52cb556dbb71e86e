import type { AlarmKind } from '../alarm/card.ts';
import type { Link } from '../ports/board.ts';
import type { HostHealth } from '../ports/host-health.ts';
import type { Sample } from '../ports/sample.ts';
import type { Past } from './past.ts';

/** What may come to the controller. `time` says only that the moment it asked for has come. */
export type Event =
  | { readonly kind: 'time' }
  | { readonly kind: 'samples'; readonly samples: readonly Sample[] }
  /** Comes when the link to the board changes; it is up until the first says otherwise. */
  | { readonly kind: 'link'; readonly link: Link }
  | { readonly kind: 'hold'; readonly minutes: number; readonly who: string }
  | { readonly kind: 'release'; readonly who: string }
  | { readonly kind: 'flood-now'; readonly who: string }
  | { readonly kind: 'acknowledge'; readonly alarm: AlarmKind; readonly who: string }
  /** Somebody who stands at the host has looked at its clock and says that it is right. Nothing else ends the doubt in it. */
  | { readonly kind: 'clock-right'; readonly who: string }
  /** Something has set the clock since the machine was started. */
  | { readonly kind: 'clock-set' }
  /** Puts an alarm off; zero minutes or less end what was put off before. */
  | { readonly kind: 'shelve'; readonly alarm: AlarmKind; readonly minutes: number; readonly who: string }
  /** Comes when the host has something new to tell of itself. */
  | { readonly kind: 'host'; readonly health: HostHealth }
  /** Comes at a start before which something was kept that was not there then, and when it has come. */
  | { readonly kind: 'past'; readonly past: Past };
