import { BrokenAssertion } from '../../src/units/assertion.ts';
import {
  rehearsedRun,
  skyForSpan,
  type Outcome,
  type RehearsalAsked,
  type Run,
  type WeatherChanges,
  type WeatherSource,
} from '../simulated-shed.ts';

/** A rehearsal as plain data: a sky is none, so each thread makes it anew from where it came. */
export interface RehearsalJob extends Omit<RehearsalAsked, 'sky'> {
  readonly source: WeatherSource;
  readonly changes: WeatherChanges;
}

/**
 * Any run of a rehearsal by its number.
 * @throws BrokenAssertion when the weather does not reach: whoever asks has looked before
 */
export const openRehearsal = ({ source, changes, ...asked }: RehearsalJob): ((run: Run) => Outcome) => {
  const found = skyForSpan(asked.farm, source, asked.span, changes);
  if (!found.ok) throw new BrokenAssertion(`a rehearsal without weather: ${found.reason}`);
  const { sky } = found;
  return (run) => rehearsedRun({ ...asked, sky }, run);
};
