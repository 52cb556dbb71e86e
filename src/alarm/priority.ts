import type { Farm } from '../farm/farm.ts';
import { minutesBetween } from '../time/instant.ts';
import type { Priority } from './card.ts';
import type { FactsOf, ShedKind } from './facts.ts';
import { isByHand } from './language/by-hand.ts';
import type { Situation } from './situation.ts';

/** Water at stake now is high; a blinded eye or a part that fails is medium; what only costs water is low. */
const PRIORITIES: Readonly<Record<ShedKind, Priority>> = {
  'missed-flood': 'high',
  'mains-lost': 'high',
  'board-silent': 'high',
  'pump-runs-on': 'high',
  'tank-low': 'high',
  'float-suspect': 'high',
  'water-on-floor': 'high',
  'hold-is-long': 'high',
  'drying-out': 'high',
  'weak-flow': 'medium',
  // Behind one inlet of several that is blocked a bench dries while the loop is confirmed.
  'return-lower': 'medium',
  'tank-falls': 'medium',
  'strength-off': 'medium',
  'flow-sensor-silent': 'medium',
  'flow-sensor-stuck': 'medium',
  'relay-chatters': 'medium',
  'clock-stepped': 'medium',
  'no-good-temperature': 'low',
  'tank-full': 'low',
  'float-unmoved': 'low',
};

/** A switch left by hand may be meant; it is called out after a third of the longest that the pump may run. */
const BY_HAND_SHARE = 1 / 3;

const isHandled = ({ runsOn, now }: Situation, { pump }: Farm): boolean =>
  runsOn !== null && minutesBetween(runsOn.since, now.monotonic) < BY_HAND_SHARE * pump.longestOnMinutes;

/** How grave an alarm of the shed is at this moment; two kinds get graver as time goes by. */
export const priorityOf = (facts: FactsOf<ShedKind>, situation: Situation, farm: Farm): Priority => {
  if (facts.kind === 'tank-falls' && situation.tankFall?.isSoonLow === true) return 'high';
  if (facts.kind === 'pump-runs-on' && isByHand(facts.why) && isHandled(situation, farm)) return 'medium';
  return PRIORITIES[facts.kind];
};
