import { cardText } from '../src/alarm/card.ts';
import type { Wiring } from '../src/farm/farm.ts';
import type { ProbeCalibration } from '../src/sense/probe.ts';
import { readings } from '../src/sense/readings.ts';
import { readingData } from './cli/reading-words.ts';
import { stateSentence, type StateAsked } from './state-sentence.ts';
import type { Status } from './storage/status-file.ts';

export interface StatusAsked extends StateAsked {
  readonly wiring: Wiring;
  readonly calibration: ProbeCalibration | null;
  readonly simulated: boolean;
  readonly board: { readonly says: string; readonly warning: string | null };
}

/** What `rillkeeper status` tells, in English. */
export const statusOf = (asked: StatusAsked): Status => {
  const { farm, wiring, calibration, step, now } = asked;
  const { state } = step;
  const left = step.left();
  return {
    farm: farm.farm,
    timeZone: farm.place.timeZone,
    pid: process.pid,
    writtenAt: new Date().toISOString(),
    shedTime: now.wall === 'unknown' ? null : new Date(now.wall).toISOString(),
    simulated: asked.simulated,
    says: stateSentence(asked, 'en'),
    board: { link: state.link.kind, ...asked.board },
    pumpAsked: state.guard.asked.kind,
    timeLeft: { minutes: Math.floor(left.minutes), bench: left.bench },
    benches: farm.benches.map(({ name }, place) => {
      const held = state.belief.benches[place];
      return {
        name,
        heldPercent: Math.round(100 * (held?.theta ?? 0)),
        dryEdgePercent: Math.round(100 * (held?.thetaLow ?? 0)),
      };
    }),
    alarms: state.alarms.map(({ state: alarmState, card }) => ({
      kind: card.kind,
      priority: card.priority,
      state: alarmState,
      text: cardText(card),
    })),
    readings: readings(farm, wiring, state.senses, calibration, now.monotonic).map(readingData),
  };
};
