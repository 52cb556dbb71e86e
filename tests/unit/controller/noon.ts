import { begin, step, type ControllerState, type Event, type Step } from '../../../src/controller.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import type { Entry } from '../../../src/journal/entry.ts';
import type { Link } from '../../../src/ports/board.ts';
import type { Sample } from '../../../src/ports/sample.ts';
import { wallMillis, type Now } from '../../../src/time/instant.ts';
import { minute, utc } from '../../support/moments.ts';

const NOON = utc('2026-07-14T11:00Z');
/** Minutes since noon by the clock of the example farm. */
export const at = (minutes: number): Now => ({
  monotonic: minute(minutes),
  wall: wallMillis(NOON + minutes * 60_000),
});

/** A sample but for its moment. */
export type Said = Sample extends infer One ? (One extends Sample ? Omit<One, 'at'> : never) : never;

export const seen = (minutes: number, ...said: readonly Said[]): Event => ({
  kind: 'samples',
  samples: said.map((one): Sample => ({ ...one, at: at(minutes).monotonic })),
});

export const linkIs = (link: Link): Event => ({ kind: 'link', link });

/** A controller that is told one thing after another and keeps what it said to each. */
export interface Told {
  readonly state: () => ControllerState;
  readonly tell: (minutes: number, event: Event) => Step;
  /** Looks every quarter of a minute, to and with `until`; `said` is what the board saw then. */
  readonly lookOn: (until: number, said: (minutes: number) => readonly Said[]) => void;
  /** `pump-on at 12.25` */
  readonly commands: () => readonly string[];
  readonly entries: () => readonly Entry[];
  /** Minutes at which the alarm was raised. */
  readonly raised: (alarm: string) => readonly number[];
  /** Minutes at which it returned. */
  readonly returned: (alarm: string) => readonly number[];
}

export const toldFrom = (
  farm: Farm,
  minutes = 0,
  link: Link = { kind: 'up' },
  from: ControllerState = begin(farm, at(minutes), link),
): Told => {
  let state = from;
  let latest = minutes;
  const commands: string[] = [];
  const entries: Entry[] = [];
  const tell = (now: number, event: Event): Step => {
    const next = step(farm, state, event, at(now));
    state = next.state;
    latest = now;
    commands.push(...next.commands.map(({ kind }) => `${kind} at ${now}`));
    entries.push(...next.entries);
    return next;
  };
  return {
    state: () => state,
    tell,
    lookOn: (until, said) => {
      for (let now = latest + 0.25; now <= until; now += 0.25) tell(now, seen(now, ...said(now)));
    },
    commands: () => commands,
    entries: () => entries,
    raised: (alarm) =>
      entries.flatMap((entry) =>
        entry.kind === 'alarm-raised' && entry.alarm === alarm ? [entry.at / 60_000] : [],
      ),
    returned: (alarm) =>
      entries.flatMap((entry) =>
        entry.kind === 'alarm-returned' && entry.alarm === alarm ? [entry.at / 60_000] : [],
      ),
  };
};
