import { act } from './controller/act.ts';
import { believe } from './controller/believe.ts';
import { leftOver } from './controller/earlier-host.ts';
import { call } from './controller/call.ts';
import type { Event } from './controller/event.ts';
import { hear } from './controller/hear.ts';
import { judge } from './controller/judge.ts';
import { stateAtStart, type ControllerState } from './controller/state.ts';
import { takenBack } from './controller/taken-back.ts';
import { tell } from './controller/tell.ts';
import { toldOff } from './controller/told-off.ts';
import type { Turn } from './controller/turn.ts';
import { nextWake } from './controller/wake.ts';
import type { Interlock } from './command/interlock.ts';
import type { TimeLeft } from './estimate/time-left.ts';
import type { Farm } from './farm/farm.ts';
import type { Entry } from './journal/entry.ts';
import type { Call } from './alarm/calls.ts';
import { signals } from './alarm/signals.ts';
import type { BoardCommand, Link, Signals } from './ports/board.ts';
import { believedNow, looked } from './time/clock-trust.ts';
import type { MonotonicMillis, Now } from './time/instant.ts';

export type { Call } from './alarm/calls.ts';
export type { Card } from './alarm/card.ts';
export { soundCard } from './alarm/kept-card.ts';
export type { Event } from './controller/event.ts';
export { hostHealth, lastStandstill, sameHealth, type Standstill } from './controller/host-health.ts';
export { isAlarmKind } from './controller/resume-alarms.ts';
export { PAST_UNREAD_MINUTES } from './command/orders.ts';
export { keptState, resumed, type Away, type Boot, type KeptState } from './controller/resume.ts';
export type { ControllerState } from './controller/state.ts';
export { keeperTable } from './plan/keeper-table.ts';

/** What one call of the controller gives back. */
export interface Step {
  readonly state: ControllerState;
  readonly commands: readonly BoardCommand[];
  readonly entries: readonly Entry[];
  /** When it wants to be called next, if nothing comes before. */
  readonly wake: MonotonicMillis;
  /** For whoever shows the state to a person; worked out when asked for. */
  readonly left: () => TimeLeft;
  readonly lock: Interlock;
  /** When the next flood is planned, as things stand; null while one runs or none may. */
  readonly nextFloodAt: MonotonicMillis | null;
  /** Whom to call now, for whoever carries it to people. */
  readonly calls: readonly Call[];
  /** For whoever stands at the board. */
  readonly signals: Signals;
}

/** At the start of a run; `link` is how the board stands then. */
export const begin = (farm: Farm, now: Now, link: Link): ControllerState => stateAtStart(farm, now, link);

/** The first word to a board that is there; none where it has just been lost. */
const greeted = (turn: Turn, event: Event): Turn => {
  const { link } = turn.state;
  if (turn.state.toldOff || link.kind === 'down') return turn;
  if (link.kept !== undefined) return takenBack(turn, link.kept);
  return event.kind === 'link' && event.link.kind === 'down' ? turn : toldOff(turn);
};

/**
 * The whole flow, once: hears what came, believes what the water does, judges the flood under way, acts on
 * plan and interlocks, and tells people. Pure: the same farm, state, event and moment give the same step.
 */
export const step = (farm: Farm, before: ControllerState, event: Event, clocks: Now): Step => {
  const clock = looked(before.clock, clocks);
  const now = believedNow(clock, clocks);
  const begun = leftOver({ farm, now, state: { ...before, clock }, commands: [], entries: [] });
  const turn = greeted(begun, event);
  const heard = hear(turn, event);
  const { turn: believing, seen, outlook } = believe(heard);
  const { turn: judged, need } = judge(believing, seen);
  const acted = act(judged, need, seen, outlook);
  const { turn: heardOf, left } = tell(acted, event, seen, outlook);
  const { turn: told, calls } = call(heardOf, left, outlook);
  return {
    state: told.state,
    commands: told.commands,
    entries: told.entries,
    wake: nextWake(told.state, acted.until, now.monotonic),
    left,
    lock: acted.lock,
    nextFloodAt: acted.nextFloodAt,
    calls,
    signals: signals(told.state.alarms, told.state.orders.hold?.until ?? null, now.monotonic),
  };
};
