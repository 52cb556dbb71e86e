import { paceNow } from '../plan/pace.ts';
import { almanacNow } from './almanac.ts';
import { believedAir } from './air.ts';
import type { Turn } from './turn.ts';

/** Minutes of a flood that the day plan would give now. */
export const planFloodMinutes = (turn: Turn): number =>
  paceNow(turn.farm, almanacNow(turn).view, turn.now.wall, believedAir(turn)).floodMinutes;
