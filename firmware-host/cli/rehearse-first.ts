import type { Console } from './console.ts';
import type { AcceptedFarm } from './farm-argument.ts';
import { rehearseFarm } from './rehearse.ts';
import { rehearsalJson } from './rehearsal-json.ts';
import { rehearsalText } from './rehearsal-report.ts';

/** A first look: whoever wants to know better asks `rehearse`. */
const DRAWS = 4;

/** Tomorrow as a hot day, before the run. */
export const rehearseFirst = async (
  accepted: AcceptedFarm,
  as: 'json' | 'text',
  console: Console,
): Promise<void> => {
  const draws = { draws: String(DRAWS) };
  const rehearsal = await rehearseFarm(accepted, { kind: 'hot-day' }, draws, Date.now(), console);
  console.out(
    as === 'json'
      ? JSON.stringify({ kind: 'rehearsal', ...rehearsalJson(rehearsal) })
      : `${rehearsalText(rehearsal, console.columns)}\n`,
  );
};
