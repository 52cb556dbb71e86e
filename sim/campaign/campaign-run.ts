import { begin, step, type ControllerState, type Event } from '../../src/controller.ts';
import type { Farm } from '../../src/farm/farm.ts';
import type { Entry } from '../../src/journal/entry.ts';
import type { Link } from '../../src/ports/board.ts';
import type { Sample } from '../../src/ports/sample.ts';
import { believedNow } from '../../src/time/clock-trust.ts';
import type { Now } from '../../src/time/instant.ts';
import { localTimeOfDay } from '../../src/time/local-day.ts';
import type { Claimant } from '../board/keeper.ts';
import type { Dice } from '../dice.ts';
import type { OrderGiven } from '../oracle/record.ts';
import type { Judgements } from '../plant/judgements.ts';
import { openWater, withGrower } from '../run/shed.ts';
import type { Sky } from '../weather/sky.ts';
import { runOf, type CampaignRun } from './export.ts';
import { createHits } from './hits.ts';
import { absentUntil, clocksAt, linkIsUp, nextHostChange } from './host-life.ts';
import { meetBoard, type BoardKind } from './met-board.ts';
import { givenAs, ordersOf } from './orders.ts';
import { reborn } from './reborn.ts';
import { standingHost, type Script } from './script.ts';
import { createSpoiler } from './spoil.ts';
import type { Moment, Sent, Tampering } from './tampering.ts';
import { createTruthLog } from './truth.ts';
import { LAST_WRITES_MILLIS, Upkeep } from './upkeep.ts';

/** No host looks more often by its own wish. */
const BUSY_MILLIS = 1000;
const OLD_MILLIS = 60_000;
const NOT_FOUND: Link = { kind: 'down', why: 'the line is gone' };

/** One run of the campaign: a farm under a sky, and what is broken about it. */
export interface RunAsked {
  readonly farm: Farm;
  readonly sky: Sky;
  readonly judgements: Judgements;
  readonly script: Script;
  readonly boardKind: BoardKind;
  readonly dice: Dice;
  /** For disk and channels. */
  readonly besideDice: Dice;
  readonly startMillis: number;
  readonly endMillis: number;
  readonly clearMillis: number;
  readonly tampering?: Tampering;
}

/** The controller in a simulated shed, called when it asks to be, while host, line and shed break as the script says. */
export const campaignRun = (asked: RunAsked): CampaignRun => {
  const { farm, sky, script, dice, startMillis, endMillis, clearMillis, tampering = {} } = asked;
  const plant = openWater(asked);
  const limits = tampering.limits?.(farm.pump) ?? farm.pump;
  const met = meetBoard(plant, { kind: asked.boardKind, farm, sky, script, dice, limits });
  const board = tampering.board?.(met) ?? met;
  const advance = withGrower(
    { farm, sky, faults: script.shed, startMillis, doses: true },
    plant,
    board.advance,
  );
  const log = createTruthLog(plant, farm, script, board.kind);
  const hits = createHits(script, farm, plant, board.relay);
  const spoil = createSpoiler(script, dice, ({ way }) => {
    hits.add(`sensor-${way}`);
  });
  const resets = script.host.filter(({ kind }) => kind === 'board-reset');
  const orders = [...ordersOf(script)];
  const given: OrderGiven[] = [];
  let waiting: readonly Sent[] = [];
  let said: readonly Sample[] = [];
  let life = 1;
  let bornMillis = startMillis;
  let linkUp = true;
  let claimant: Claimant = 'same';
  let wake = startMillis;
  let wasAt = startMillis;
  let isThere = true;

  const at = (): number => plant.state.atMillis;
  const moment = (): Moment => ({ atMillis: at(), clearMillis, script, link: linkUp ? 'up' : 'down', life });
  const clocksOf = (atMillis: number): Now => {
    const clocks = clocksAt(script, bornMillis, atMillis);
    return tampering.now?.(clocks, { ...moment(), atMillis }) ?? clocks;
  };
  const now = (): Now => clocksOf(at());
  const started = (): Entry => ({ kind: 'started', farm: farm.farm, at: now().monotonic, wall: now().wall });

  let state: ControllerState = begin(farm, now(), board.found(claimant, now().monotonic));
  const upkeep = new Upkeep(
    {
      farm,
      script,
      dice: asked.besideDice,
      clocks: clocksOf,
      hit: hits.add,
      tampering,
      moment: (atMillis) => ({ ...moment(), atMillis }),
    },
    startMillis,
  );
  upkeep.write([started()], null, startMillis);

  const deliver = (): void => {
    const due = waiting.filter((sent) => sent.atMillis <= at());
    waiting = waiting.filter((sent) => sent.atMillis > at());
    for (const { command } of due) if (linkUp || tampering.throughLostLink === true) board.command(command);
  };
  const hear = (event: Event): void => {
    upkeep.stood(state, at());
    const next = step(farm, state, tampering.event?.(event, moment()) ?? event, now());
    state = next.state;
    const late = standingHost(script, 'late-ticks', at());
    if (late !== null) hits.add('late-ticks');
    wake = at() + Math.max(BUSY_MILLIS, next.wake - now().monotonic) + 1000 * (late?.amount ?? 0);
    const sent = next.commands.map((command): Sent => ({ command, atMillis: at() }));
    waiting = [...waiting, ...(tampering.sent?.(sent, moment()) ?? sent)];
    upkeep.told(next, at());
    deliver();
  };
  /** A host that is not heard any more has told its board the time of day with its last word. */
  const falls = (): void => {
    const { wall } = believedNow(state.clock, now());
    board.silent(wall === 'unknown' ? wall : localTimeOfDay(wall, farm.place.timeZone).minute);
  };
  const linked = (up: boolean): void => {
    if (!up) falls();
    linkUp = up;
    const link = up ? board.found(claimant, now().monotonic) : board.lost;
    if (up) claimant = 'same';
    hear({ kind: 'link', link });
  };
  const clocksAreHit = (): void => {
    for (const kind of ['clock-ahead', 'clock-back', 'clock-years', 'clock-unset'] as const) {
      if (standingHost(script, kind, at()) !== null) hits.add(kind);
    }
  };

  const heardSamples = (): readonly Sample[] => {
    if (!linkUp) return [];
    board.sense(now().monotonic);
    hits.look();
    let samples = spoil(board.samples(), at());
    if (standingHost(script, 'samples-lost', at()) !== null) {
      const kept = samples.filter(() => dice() < 0.5);
      if (kept.length < samples.length) hits.add('samples-lost');
      samples = kept;
    }
    if (standingHost(script, 'samples-repeated', at()) !== null) {
      const old = said.filter((sample) => now().monotonic - sample.at >= OLD_MILLIS);
      if (old.length > 0) hits.add('samples-repeated');
      samples = [...samples, ...old];
    }
    said = [...said, ...samples].slice(-30);
    return samples;
  };

  const looked = (): void => {
    upkeep.stood(state, at());
    for (const event of upkeep.news(at())) hear(event);
    const up = linkIsUp(script, at());
    if (up && linkUp) {
      if (board.isOurs()) board.beaten();
      // Its answers tell that it has taken the pump.
      else linked(false);
    }
    if (up !== linkUp) {
      for (const kind of ['link-lost', 'link-flapping', 'board-reset'] as const) {
        if (standingHost(script, kind, at()) !== null) hits.add(kind);
      }
      linked(up);
    }
    while (orders[0] !== undefined && orders[0].atMillis <= at()) {
      const order = orders.shift();
      // What was said while nobody could hear it is said to nobody.
      if (order === undefined || order.atMillis < at() - 1000) continue;
      hits.add(order.by);
      given.push(givenAs({ ...order, atMillis: at() }));
      hear(order.event);
    }
    hear({ kind: 'samples', samples: heardSamples() });
  };

  while (at() < endMillis) {
    const gone = absentUntil(script, at());
    if (gone !== null) {
      hits.add(gone.kind);
      if (isThere) {
        upkeep.stood(state, at());
        falls();
      }
      isThere = false;
      while (at() < Math.min(gone.untilMillis, endMillis)) {
        const reset = resets.find(({ fromMillis }) => fromMillis > at())?.fromMillis ?? Infinity;
        advance(Math.min(gone.untilMillis, reset, endMillis), log.witness);
        if (at() === reset) board.reset();
      }
      wake = at();
      if (gone.kind === 'host-frozen') upkeep.thawed(at());
      if (gone.kind === 'host-killed' && absentUntil(script, at())?.kind !== 'host-killed') {
        upkeep.killed();
        life += 1;
        bornMillis = at();
        waiting = [];
        said = [];
        board.samples();
        claimant = 'another';
        // One that keeps the plants is claimed first, and found with the first look.
        linkUp = board.kind === 'stock' && linkIsUp(script, at());
        const link = linkUp ? board.found(claimant, now().monotonic) : NOT_FOUND;
        state = reborn(farm, upkeep.begunAnew(bornMillis), now(), link, tampering.kept);
        upkeep.write([started()], null, bornMillis);
      }
      wasAt = at();
      if (at() >= endMillis) break;
      if (absentUntil(script, at()) !== null) continue;
      isThere = true;
      looked();
      continue;
    }
    const next = Math.min(
      Math.max(wake, at() + 1),
      nextHostChange(script, at()),
      orders[0]?.atMillis ?? Infinity,
      waiting[0]?.atMillis ?? Infinity,
      endMillis,
    );
    advance(upkeep.newsBefore(state, Math.max(next, at() + 1)), log.witness);
    clocksAreHit();
    for (const { fromMillis } of resets) {
      if (wasAt < fromMillis && fromMillis <= at()) board.reset();
    }
    wasAt = at();
    deliver();
    if (absentUntil(script, at()) === null) looked();
  }

  // What the last look has led to still comes to the disk.
  if (isThere) upkeep.stood(state, endMillis + LAST_WRITES_MILLIS);
  return runOf({ ...asked, orders: given }, log.truth(), hits.names, upkeep);
};
