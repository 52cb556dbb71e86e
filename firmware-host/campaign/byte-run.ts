import { createUsb } from '../../sim/board/firmata/usb.ts';
import type { RunAsked } from '../../sim/campaign/campaign-run.ts';
import { runOf, type CampaignRun } from '../../sim/campaign/export.ts';
import { failingParts } from '../../sim/campaign/failing-parts.ts';
import { createHits } from '../../sim/campaign/hits.ts';
import { absentUntil, clocksAt } from '../../sim/campaign/host-life.ts';
import { ordersOf } from '../../sim/campaign/orders.ts';
import { createReportTrouble } from '../../sim/campaign/report-trouble.ts';
import { createTruthLog } from '../../sim/campaign/truth.ts';
import { LAST_WRITES_MILLIS, Upkeep } from '../../sim/campaign/upkeep.ts';
import type { OrderGiven } from '../../sim/oracle/record.ts';
import { openWiredShed } from '../../sim/run/wired-shed.ts';
import { shedWiring } from '../simulated-shed.ts';
import { virtualTime } from '../virtual-time.ts';
import { brokenLine } from './broken-line.ts';
import { hostLife } from './byte-host.ts';

/** A bug planted on the line: what it makes of the bytes of each direction. */
export interface LineTampering {
  readonly heard?: (bytes: Uint8Array) => Uint8Array;
  readonly written?: (bytes: Uint8Array) => Uint8Array;
}

/**
 * One run of the campaign with the host's own loop and board link, looking once a second; all between them and the shed goes
 * over the bytes of a line, and what breaks the line breaks it there.
 */
export const byteRun = async (asked: RunAsked, tampering: LineTampering = {}): Promise<CampaignRun> => {
  const { farm, script, dice, besideDice, startMillis, endMillis, clearMillis } = asked;
  const wiring = shedWiring(farm);
  const time = virtualTime(startMillis);
  const at = (): number => time.timers.now();
  const shed = openWiredShed({
    ...asked,
    wiring,
    faults: script.shed,
    failing: failingParts(script),
    doses: true,
    lied: ({ way }) => {
      hits.add(`sensor-${way}`);
    },
  });
  const log = createTruthLog(shed.plant, farm, script);
  const hits = createHits(script, farm, shed.plant, shed.pins.relay);
  let life = 1;
  let bornMillis = startMillis;
  const upkeep = new Upkeep(
    {
      farm,
      script,
      dice: besideDice,
      clocks: (atMillis) => clocksAt(script, bornMillis, atMillis),
      hit: hits.add,
      tampering: {},
      moment: (atMillis) => ({ atMillis, clearMillis, script, link: 'up', life }),
    },
    startMillis,
  );
  const trouble = createReportTrouble(script, dice, hits.add);
  const usb = createUsb(time.timers);
  const line = brokenLine(script, time, usb, shed.peer, wiring.identity);
  shed.live(time.timers, usb.look, log.witness);
  const orders = [...ordersOf(script)];
  const given: OrderGiven[] = [];
  const host = {
    farm,
    wiring,
    script,
    endMillis,
    timers: time.timers,
    advance: line.advance,
    lines: usb,
    heard: (bytes: Uint8Array) => {
      const through = trouble(bytes, at());
      return tampering.heard?.(through) ?? through;
    },
    written: (bytes: Uint8Array) => {
      // Whatever a command does to the relay it does now, not at the last look at the shed.
      shed.pins.advance(at(), log.witness);
      return tampering.written?.(bytes) ?? bytes;
    },
    orders,
    given,
    hits,
    upkeep,
  };

  let state = await hostLife(host, null);
  while (at() < endMillis) {
    hits.add('host-killed');
    upkeep.killed();
    while (at() < endMillis && absentUntil(script, at())?.kind === 'host-killed') line.advance(endMillis);
    if (at() >= endMillis) break;
    life += 1;
    bornMillis = at();
    state = await hostLife(host, upkeep.begunAnew(bornMillis));
  }
  if (absentUntil(script, endMillis) === null) upkeep.stood(state, endMillis + LAST_WRITES_MILLIS);
  return runOf(
    { ...asked, boardKind: 'stock', undated: true, orders: given },
    log.truth(),
    hits.names,
    upkeep,
  );
};
